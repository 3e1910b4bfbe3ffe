package report

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Part is what the report says under one heading.
type Part struct {
	Title string // "" where it stands below the heading of the whole
	Items []Item
}

// An Item is one statement: what it is about, and in words what holds. The
// author's text in it is one line, and not escaped for any format.
type Item struct{ Name, Words string }

// ToPrint is the title of the part that lists the sheets.
const ToPrint = "To make one block print"

// Size tells what was counted and checked of a block at one size, what is printed
// and how it is joined.
func Size(p *pattern.Pattern, s *pattern.Sized, m *Made) []Part {
	t := &telling{p: p, parts: make([]Part, 1)}
	t.item("Measures until joined", unfinished(p, s).Words(p.Settings.Metric))
	t.counts(s)
	t.narrowest(s)
	t.part("Checked")
	t.checks(s)
	t.sheets(s, m)
	t.glued(s, m)
	t.pads(m)
	t.joins(s)
	return t.parts
}

// Whole tells what holds for all blocks: the warnings that the author accepted,
// and the limits of the rules.
func Whole(p *pattern.Pattern) []Part {
	t := &telling{p: p}
	t.accepted()
	t.limits()
	return t.parts
}

// A telling is a report under way.
type telling struct {
	p     *pattern.Pattern
	parts []Part
}

func (t *telling) part(title string) { t.parts = append(t.parts, Part{Title: title}) }

func (t *telling) item(name, words string) {
	last := &t.parts[len(t.parts)-1]
	last.Items = append(last.Items, Item{name, words})
}

func (t *telling) counts(s *pattern.Sized) {
	f := &s.Figures
	sections := fmt.Sprintf("%d, of which %s different", f.Sections, are(f.Drawings))
	switch f.Drawings {
	case f.Sections:
		sections = strconv.Itoa(f.Sections)
	case 1:
		sections = strconv.Itoa(f.Sections) + ", all alike"
	}
	if f.PlainDrawings > 0 {
		sections += fmt.Sprintf("; %s of one piece, cut exact, without paper", are(f.PlainDrawings))
	}
	t.item("Sections", sections)
	t.item("Pieces", strconv.Itoa(f.Pieces))
	partial := 0
	for i := range s.Joins {
		if s.Joins[i].Begins > 0 {
			partial++
		}
	}
	seams := fmt.Sprintf("%d, %d of them joins of sections", f.Seams, len(s.Joins)-partial)
	if partial > 0 {
		seams += fmt.Sprintf(", %d of those sewn in two goes", partial)
	}
	t.item("Seams", seams)
	t.item("Points to match", strconv.Itoa(f.Points))
	if f.MostSeams > 0 {
		t.item("Most seams at a point", strconv.Itoa(f.MostSeams))
	}
}

func are(n int) string {
	if n == 1 {
		return "1 is"
	}
	return strconv.Itoa(n) + " are"
}

// leastWidth is how narrow a finished piece may be before it is only filled by
// its own seam allowances: sewn easily from 1/4 in up (common practice, no
// source).
const leastWidth = pattern.Length(0.25)

// narrowest tells the narrowest piece and, as a quick rule, the width of block at
// which it would be a quarter inch.
func (t *telling) narrowest(s *pattern.Sized) {
	f := &s.Figures
	if f.Narrowest <= 0 {
		return
	}
	words := f.NarrowestPiece + ", " + f.Narrowest.In(16) + " (" + mm(f.Narrowest) + ")"
	least := pattern.RoundUp(s.Finished.W*leastWidth/f.Narrowest, 0.25)
	words += "; it would be " + leastWidth.In(8) + " wide in a block of " + least.In(4)
	t.item("Narrowest piece", words)
}

func mm(l pattern.Length) string {
	return strconv.FormatFloat(math.Round(l.MM()*10+noise)/10, 'f', -1, 64) + " mm"
}

// checks tells what holds, with the figures that show it.
func (t *telling) checks(s *pattern.Sized) {
	f := &s.Figures
	t.item("Pieces fill the block", "no gap and no overlap: the areas agree to "+tiny(f.AreaError)+" along every edge")
	if f.NearestPoints > 0 {
		t.item("Points are apart", "the nearest two are "+f.NearestPoints.In(64)+" ("+mm(f.NearestPoints)+") apart")
	}
	if margin, at := leastMargin(s); at != "" {
		t.item("Patches cover", fmt.Sprintf("every patch, folded over its seam, covers its space and %s of allowance; the least margin beyond is %s (%s), at %s",
			t.p.Settings.Allowance.In(8), margin.In(16), mm(margin), at))
	}
}

// tiny tells a length of no size as the next power of ten, "0.000001 in".
func tiny(l pattern.Length) string {
	digits := 9
	for ; digits > 2 && math.Abs(float64(l)) > math.Pow10(-digits); digits-- {
	}
	return strconv.FormatFloat(max(math.Abs(float64(l)), math.Pow10(-digits)), 'f', digits, 64) + " in"
}

// leastMargin returns the least margin of any oversize patch, and its space;
// "" where no section has paper.
func leastMargin(s *pattern.Sized) (pattern.Length, string) {
	least, at, piece := pattern.Length(0), -1, 0
	for d := range s.Drawings {
		for i := range s.Drawings[d].Pieces {
			patch := &s.Drawings[d].Pieces[i].Patch
			if !patch.Plain && (at < 0 || patch.Margin < least-noise) {
				least, at, piece = patch.Margin, d, i
			}
		}
	}
	if at < 0 {
		return 0, ""
	}
	return least, s.Drawings[at].Label(piece)
}

// noise is less than any difference between two margins: of equal ones the first
// is named, whatever a processor makes of their last digit.
const noise = 1e-9

// sheets tells how often each sheet is printed, and what is on it.
func (t *telling) sheets(s *pattern.Sized, m *Made) {
	if len(m.Sheets) == 0 {
		return
	}
	t.part(ToPrint)
	for i := range m.Sheets {
		sheet := &m.Sheets[i]
		var names []string
		for _, at := range sheet.Sections {
			name := nameOf(s, at.Drawing)
			if p := at.Part; p != nil {
				name += fmt.Sprintf(" (part %d of %d)", p.Number, p.Of)
			}
			if len(names) == 0 || names[len(names)-1] != name {
				names = append(names, name)
			}
		}
		on := "sections " + list(names)
		if len(names) == 1 {
			on = "section " + names[0]
		}
		t.item("sheet "+strconv.Itoa(sheet.Number)+" "+times(sheet.Copies), on+"  ("+sheet.File+")")
	}
}

// glued tells which sections are glued together from parts, for that is work.
func (t *telling) glued(s *pattern.Sized, m *Made) {
	for i := range m.Sheets {
		for _, at := range m.Sheets[i].Sections {
			if p := at.Part; p != nil && p.Number == 1 {
				t.item("section "+nameOf(s, at.Drawing), fmt.Sprintf("glued from %d parts before it is sewn, %s", p.Of, times(s.Drawings[at.Drawing].Make)))
			}
		}
	}
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	case 3, 4, 5, 6, 7, 8, 9, 10:
		return [...]string{"three", "four", "five", "six", "seven", "eight", "nine", "ten"}[n-3] + " times"
	}
	return strconv.Itoa(n) + " times"
}

func (t *telling) accepted() {
	if len(t.p.Accepted) == 0 {
		return
	}
	t.part("Warnings that the author accepted")
	for _, a := range t.p.Accepted {
		t.item(a.Code+", line "+strconv.Itoa(a.Source.Line), drawing.Clean(a.Message)+". Reason: "+drawing.Clean(a.Reason))
	}
}

// limits tells every threshold of the rules that the pattern was checked by.
func (t *telling) limits() {
	if len(t.p.Limits) == 0 {
		return
	}
	t.part("Limits of the rules")
	words := ""
	for i := range t.p.Limits {
		l := &t.p.Limits[i]
		words += l.Name + " " + l.Words()
		if l.Set {
			words += " (set in the pattern)"
		}
		if i+1 < len(t.p.Limits) && t.p.Limits[i+1].Code == l.Code {
			words += ", "
			continue
		}
		t.item(l.Code, words)
		words = ""
	}
}

func unfinished(p *pattern.Pattern, s *pattern.Sized) pattern.Size {
	a := 2 * p.Settings.Allowance
	return pattern.Size{W: s.Finished.W + a, H: s.Finished.H + a}
}
