package letter

import (
	"cmp"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/edition"
)

type length = pattern.Length

// A Letter is what a maker tells. What is not told is zero.
type Letter struct {
	Edition  int
	Mark     string
	Block    string    // a block's name, where the pattern has several
	Size     length    // the finished width that the maker sews
	Rule     length    // what the printed 6-inch rule measures
	RuleCm   length    // what the printed 15-cm rule measures
	Measures [2]length // the block as it is, in one direction or in both
	Space    string    // a space that its patch did not cover, such as B3
	Cut      [2]length // that patch, as it was cut
}

// A Cause is one thing that explains a part of the letter.
type Cause struct {
	What    string // a few words, for the designer
	Figures string // by what it was found
	Say     string // to the maker: what it is, and what to do
}

// An Answer is what is made of a letter.
type Answer struct {
	Causes []Cause
	Reply  string
}

// To what a measure is believed.
const (
	// ruler is how well a line on paper is read: half a mark of a ruler in
	// sixteenths (common practice, no source).
	ruler = length(1.0 / 32)
	// soft is how well cloth is measured, which gives (common practice, no source).
	soft = length(1.0 / 8)
)

// Write answers a letter. Records are of all editions that are known, the newest
// last; p is the pattern that the newest was made from, or nil. The error tells
// of a letter that names what the pattern does not have.
func Write(l Letter, records []*edition.Record, p *pattern.Pattern) (*Answer, error) {
	a := &answer{letter: l, records: records, newest: records[len(records)-1], pattern: p}
	a.words = words.ToMakers(cmp.Or(edition.Find(a.newest.Settings, "language"), words.Default))
	if err := a.held(); err != nil {
		return nil, err
	}
	if err := a.choose(); err != nil {
		return nil, err
	}
	a.editions()
	a.print()
	a.measured()
	a.space()
	return &Answer{a.causes, a.reply()}, nil
}

type answer struct {
	letter  Letter
	records []*edition.Record
	newest  *edition.Record
	pattern *pattern.Pattern // of the newest
	words   *words.Catalogue // in the pattern's language, which is the maker's

	record *edition.Record // of the edition that the maker holds
	paper  string          // that it was printed for, if the mark told
	block  *edition.Block
	size   *edition.Size // nil where it is not known
	scale  float64       // of the print, where a rule was measured and is the same both ways; else 0
	causes []Cause
}

func (a *answer) say(key string, fill ...string) string { return a.words.Say(key, fill...) }

// share writes a part of the whole as the maker's language does: "96.9 %".
func (a *answer) share(f float64) string {
	return strings.ReplaceAll(percent(f), ".", a.say("decimal_mark"))
}

func (a *answer) cause(what, figures, say string) {
	a.causes = append(a.causes, Cause{what, figures, say})
}

func percent(f float64) string { return strconv.FormatFloat(math.Round(f*1000)/10, 'f', -1, 64) + " %" }

func in(l length) string { return l.In(32) }

func near(a, b, within length) bool { return math.Abs(float64(a-b)) <= float64(within)+1e-9 }
