package problem

import "sort"

// A Code names one kind of problem for ever: once printed, its meaning is
// fixed, and a code that is no longer raised is never used for anything else.
// "L" codes come from the language (text, names, kinds), "G" from the geometry,
// "R" from the rules of the trade, "S" from the sheets, "F" from files.
type Code string

// Severity says what a problem does to a build.
type Severity int8

const (
	Error   Severity = iota // nothing is written
	Warning                 // written; --strict makes it an error; `accept` silences it
	Note                    // worth knowing, nothing to do
)

func (s Severity) String() string { return [...]string{"error", "warning", "note"}[s] }

// A Problem is one thing that is wrong, told once.
type Problem struct {
	Code     Code
	Severity Severity
	At       Place  // the exact words at fault; Source is nil only where no text is
	Message  string // what was found and what was expected, one sentence, no full stop
	Labels   []Label
	Help     string // how it is mended, for a person; may be empty
	Edits    []Edit // the mending itself, where one is certain
	Drawn    *Drawn // where on the block, where that is known
}

// A Label is a second place that the message needs: "the other copy is here".
type Label struct {
	At   Place
	Text string
}

// An Edit replaces a span of the problem's own source. The edits of one
// problem do not overlap and belong together.
type Edit struct {
	At  Span
	New string
}

// Drawn says where on a unit a problem lies, in that unit's grid squares,
// x to the right, y up, seen from the front.
type Drawn struct {
	Unit   string
	Points [][2]float64    // marks
	Lines  [][2][2]float64 // strokes
	Cure   [][2][2]float64 // lines that would mend it
	Ground *Ground         // of a drawn unit: what they lie on; nil elsewhere, and where that is much
}

// A Ground is a drawn unit as it is written, sewable or not.
type Ground struct {
	Outline [][2]float64
	Lines   [][2][2]float64
}

// An Info explains a code. Example is a whole small file that raises exactly
// this code; Cured is the same file mended, which raises nothing. Tests compile
// both.
type Info struct {
	Code    Code
	Title   string // a few words
	Rule    string // what must hold, and why it matters
	Source  string // where the rule comes from; "practice" or "language" is an answer
	Example string
	Cured   string
	Limits  []string // settings of a pattern that move its thresholds, with the usual values
}

// Sort puts problems into the order in which they are told: by text, place,
// severity, code. The order of equals is kept.
func Sort(ps []Problem) {
	sort.SliceStable(ps, func(i, j int) bool {
		a, b := &ps[i], &ps[j]
		an, bn := "", ""
		if a.At.Source != nil {
			an = a.At.Source.Name
		}
		if b.At.Source != nil {
			bn = b.At.Source.Name
		}
		if an != bn {
			return an < bn
		}
		if a.At.Span != b.At.Span {
			if a.At.Span.Start != b.At.Span.Start {
				return a.At.Span.Start < b.At.Span.Start
			}
			return a.At.Span.End < b.At.Span.End
		}
		if a.Severity != b.Severity {
			return a.Severity < b.Severity
		}
		return a.Code < b.Code
	})
}

// Failed reports whether any of the problems is an error.
func Failed(ps []Problem) bool {
	for i := range ps {
		if ps[i].Severity == Error {
			return true
		}
	}
	return false
}
