package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// lineWidth is how wide the report is, in characters: it stands in a terminal
// and prints on any paper.
const lineWidth = 78

// Text writes the report as plain text. Made is as for [JSON].
func Text(p *pattern.Pattern, made [][]Made) []byte {
	w := &writer{p: p}
	w.head()
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			w.block(&p.Blocks[b], &p.Blocks[b].Sizes[s], &made[b][s])
		}
	}
	w.accepted()
	w.limits()
	return w.b
}

type writer struct {
	b []byte
	p *pattern.Pattern
}

func (w *writer) line(parts ...string) {
	for _, s := range parts {
		w.b = append(w.b, s...)
	}
	w.b = append(w.b, '\n')
}

// item writes a name and its words, which are broken at blanks.
func (w *writer) item(name, words string) {
	const indent = 28
	w.b = append(w.b, "  "...)
	w.b = append(w.b, name...)
	at := 2 + len(name)
	for first, rest := true, words; rest != ""; first = false {
		pad := indent - at
		if first && pad < 1 {
			pad = 1
		}
		w.b = append(w.b, strings.Repeat(" ", max(pad, 1))...)
		var next string
		next, rest = breakLine(rest, lineWidth-indent)
		w.line(next)
		at = 0
	}
}

// breakLine returns as much of a text as fits, and the rest.
func breakLine(s string, width int) (line, rest string) {
	if len(s) <= width {
		return s, ""
	}
	at := strings.LastIndexByte(s[:width+1], ' ')
	if at <= 0 {
		if at = strings.IndexByte(s, ' '); at < 0 {
			return s, ""
		}
	}
	return s[:at], strings.TrimLeft(s[at:], " ")
}

func (w *writer) head() {
	a := &w.p.About
	title := drawing.Clean(w.p.Title)
	if title == "" {
		title = drawing.Clean(w.p.File)
	}
	if a.Edition > 0 {
		title += ", edition " + strconv.Itoa(a.Edition)
	}
	w.line(title)
	for _, s := range []string{a.Author, a.Year, a.Rights, a.Contact, a.Corrections} {
		if s != "" {
			w.line(drawing.Clean(s))
		}
	}
	for _, n := range a.Notes {
		w.line("", drawing.Clean(n))
	}
}

func (w *writer) block(b *pattern.Block, s *pattern.Sized, m *Made) {
	metric := w.p.Settings.Metric
	title := drawing.Clean(b.Title) + ", finishes " + s.Finished.Words(metric)
	w.line()
	w.line(title)
	w.line(strings.Repeat("-", len([]rune(title))))
	w.item("Measures until joined", unfinished(w.p, s).Words(metric))
	w.counts(s)
	w.narrowest(s)
	w.line()
	w.line("Checked")
	w.checks(s)
	w.sheets(s, m)
	w.joins(s)
}

func (w *writer) counts(s *pattern.Sized) {
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
	w.item("Sections", sections)
	w.item("Pieces", strconv.Itoa(f.Pieces))
	w.item("Seams", fmt.Sprintf("%d, %d of them joins of sections", f.Seams, len(s.Joins)))
	w.item("Points to match", strconv.Itoa(f.Points))
	if f.MostSeams > 0 {
		w.item("Most seams at a point", strconv.Itoa(f.MostSeams))
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
func (w *writer) narrowest(s *pattern.Sized) {
	f := &s.Figures
	if f.Narrowest <= 0 {
		return
	}
	words := f.NarrowestPiece + ", " + f.Narrowest.In(16) + " (" + mm(f.Narrowest) + ")"
	least := pattern.RoundUp(s.Finished.W*leastWidth/f.Narrowest, 0.25)
	words += "; it would be " + leastWidth.In(8) + " wide in a block of " + least.In(4)
	w.item("Narrowest piece", words)
}

func mm(l pattern.Length) string {
	return strconv.FormatFloat(math.Round(l.MM()*10)/10, 'f', -1, 64) + " mm"
}

// checks tells what holds, with the figures that show it.
func (w *writer) checks(s *pattern.Sized) {
	f := &s.Figures
	w.item("Pieces fill the block", "no gap and no overlap: the areas agree to "+tiny(f.AreaError)+" along every edge")
	if f.NearestPoints > 0 {
		w.item("Points are apart", "the nearest two are "+f.NearestPoints.In(64)+" ("+mm(f.NearestPoints)+") apart")
	}
	if margin, at := leastMargin(s); at != "" {
		w.item("Patches cover", fmt.Sprintf("every patch, folded over its seam, covers its space and %s of allowance; the least margin beyond is %s (%s), at %s",
			w.p.Settings.Allowance.In(8), margin.In(16), mm(margin), at))
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
			if !patch.Plain && (at < 0 || patch.Margin < least) {
				least, at, piece = patch.Margin, d, i
			}
		}
	}
	if at < 0 {
		return 0, ""
	}
	return least, s.Drawings[at].Label(piece)
}

// sheets tells how often each sheet is printed, and what is on it.
func (w *writer) sheets(s *pattern.Sized, m *Made) {
	if len(m.Sheets) == 0 {
		return
	}
	w.line()
	w.line("To make one block print")
	for i := range m.Sheets {
		sheet := &m.Sheets[i]
		var names []string
		for _, at := range sheet.Sections {
			if name := nameOf(s, at.Drawing); len(names) == 0 || names[len(names)-1] != name {
				names = append(names, name)
			}
		}
		on := "sections " + list(names)
		if len(names) == 1 {
			on = "section " + names[0]
		}
		w.item("sheet "+strconv.Itoa(sheet.Number)+" "+times(sheet.Copies), on+"  ("+sheet.File+")")
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

func (w *writer) accepted() {
	if len(w.p.Accepted) == 0 {
		return
	}
	w.line()
	w.line("Warnings that the author accepted")
	for _, a := range w.p.Accepted {
		w.item(a.Code+", line "+strconv.Itoa(a.Source.Line), drawing.Clean(a.Message)+". Reason: "+drawing.Clean(a.Reason))
	}
}

// limits tells every threshold of the rules that the pattern was checked by.
func (w *writer) limits() {
	if len(w.p.Limits) == 0 {
		return
	}
	w.line()
	w.line("Limits of the rules")
	words := ""
	for i := range w.p.Limits {
		l := &w.p.Limits[i]
		words += l.Name + " " + l.Words()
		if l.Set {
			words += " (set in the pattern)"
		}
		if i+1 < len(w.p.Limits) && w.p.Limits[i+1].Code == l.Code {
			words += ", "
			continue
		}
		w.item(l.Code, words)
		words = ""
	}
}

func unfinished(p *pattern.Pattern, s *pattern.Sized) pattern.Size {
	a := 2 * p.Settings.Allowance
	return pattern.Size{W: s.Finished.W + a, H: s.Finished.H + a}
}
