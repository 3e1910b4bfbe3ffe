package report

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// A Part is what the report says under one heading.
type Part struct {
	Title string // "" where it stands below the heading of the whole
	Items []Item
	Print bool // it lists the sheets
}

// An Item is one statement: what it is about, and in words what holds. The
// author's text in it is one line, and not escaped for any format.
type Item struct{ Name, Words string }

// Size tells what was counted and checked of a block at one size, what is printed
// and how it is joined, in the words of the report's catalogue.
func Size(p *pattern.Pattern, s *pattern.Sized, m *Made, said *words.Catalogue) []Part {
	t := &telling{p: p, said: said, parts: make([]Part, 1)}
	t.item(t.say("raw"), t.local(unfinished(p, s).Words(p.Settings.Metric)))
	t.counts(s)
	t.narrowest(s)
	t.heading("checked")
	t.checks(s)
	t.sheets(s, m)
	t.glued(s, m)
	t.pads(m)
	t.joins(s)
	return t.parts
}

// Whole tells what holds for all blocks: the warnings that the author accepted,
// as they were given, in English, and the limits of the rules.
func Whole(p *pattern.Pattern, said *words.Catalogue) []Part {
	t := &telling{p: p, said: said}
	t.accepted()
	t.limits()
	return t.parts
}

// A telling is a report under way.
type telling struct {
	p     *pattern.Pattern
	said  *words.Catalogue
	parts []Part
}

func (t *telling) say(key string, fill ...string) string { return t.said.Say(key, fill...) }

// heading begins a part; its title is said by a key.
func (t *telling) heading(title string) { t.parts = append(t.parts, Part{Title: t.say(title)}) }

func (t *telling) item(name, words string) {
	last := &t.parts[len(t.parts)-1]
	last.Items = append(last.Items, Item{name, words})
}

// local writes a measure's decimals as the language does.
func (t *telling) local(measure string) string {
	return strings.ReplaceAll(measure, ".", t.say("decimal_mark"))
}

// long tells a length in both systems, as long as it is.
func (t *telling) long(l pattern.Length) string { return t.local(l.Words(t.p.Settings.Metric, 16)) }

// short tells one of a few millimeters in both systems; inches are to the nearest 1/to.
func (t *telling) short(l pattern.Length, to int) string {
	in, mm := l.In(to), t.local(mm(l))
	if t.p.Settings.Metric {
		return mm + " (" + in + ")"
	}
	return in + " (" + mm + ")"
}

func (t *telling) counts(s *pattern.Sized) {
	f := &s.Figures
	sections := strconv.Itoa(f.Sections)
	switch {
	case f.Drawings == f.Sections:
	case f.Drawings == 1:
		sections = t.say("sections_alike", "all", sections)
	default:
		sections = t.say("sections_different", "all", sections, "n", strconv.Itoa(f.Drawings))
	}
	if f.PlainDrawings > 0 {
		sections = t.said.Count("sections_plain", f.PlainDrawings, "sections", sections)
	}
	t.item(t.say("sections"), sections)
	t.item(t.say("pieces"), strconv.Itoa(f.Pieces))
	partial := 0
	for i := range s.Joins {
		if s.Joins[i].Begins > 0 {
			partial++
		}
	}
	seams := t.say("seams_joins", "all", strconv.Itoa(f.Seams), "n", strconv.Itoa(len(s.Joins)-partial))
	if partial > 0 {
		seams = t.say("seams_partial", "seams", seams, "n", strconv.Itoa(partial))
	}
	t.item(t.say("seams"), seams)
	t.item(t.say("points"), strconv.Itoa(f.Points))
	if f.MostSeams > 0 {
		t.item(t.say("crowd"), strconv.Itoa(f.MostSeams))
	}
	if f.MostLayers > 0 {
		t.item(t.say("layers"), t.say("layers_how", "n", strconv.Itoa(f.MostLayers)))
	}
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
	step, block := pattern.Length(0.25), pattern.Length.Exact
	if t.p.Settings.Metric {
		step, block = 0.5*pattern.Centimetre, pattern.Length.Cm
	}
	least := pattern.RoundUp(s.Finished.W*leastWidth/f.Narrowest, step)
	t.item(t.say("narrowest"), t.say("narrowest_piece", "piece", f.NarrowestPiece, "width", t.short(f.Narrowest, 16),
		"least", t.own(leastWidth), "block", t.local(block(least))))
}

// own tells a short length in the pattern's own system.
func (t *telling) own(l pattern.Length) string {
	if t.p.Settings.Metric {
		return t.local(mm(l))
	}
	return l.In(16)
}

func mm(l pattern.Length) string {
	return strconv.FormatFloat(math.Round(l.MM()*10+noise)/10, 'f', -1, 64) + " mm"
}

// checks tells what holds, with the figures that show it.
func (t *telling) checks(s *pattern.Sized) {
	f, set := &s.Figures, &t.p.Settings
	t.item(t.say("fill"), t.say("fill_how", "length", t.local(tiny(f.AreaError, set.Metric))))
	if f.NearestPoints > 0 {
		t.item(t.say("apart"), t.say("apart_how", "length", t.short(f.NearestPoints, 64)))
	}
	if margin, at := leastMargin(s); at != "" {
		t.item(t.say("cover"), t.say("cover_how", "allowance", t.local(set.Allowance.OnRuler(set.Metric)), "margin", t.short(margin, 16), "space", at))
	}
}

// tiny tells a length of no size as the next power of ten, "0.000001 in". In
// millimeters it is the next but one, which an inch is less than: so that the two are
// rounded alike, and the last digits of a sum decide nothing twice.
func tiny(l pattern.Length, metric bool) string {
	digits := 9
	for ; digits > 2 && math.Abs(float64(l)) > math.Pow10(-digits); digits-- {
	}
	most := max(math.Abs(float64(l)), math.Pow10(-digits))
	if metric {
		return strconv.FormatFloat(100*most, 'f', digits-2, 64) + " mm"
	}
	return strconv.FormatFloat(most, 'f', digits, 64) + " in"
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
	t.heading("to_print")
	t.parts[len(t.parts)-1].Print = true
	for i := range m.Sheets {
		sheet := &m.Sheets[i]
		var names []string
		for _, at := range sheet.Sections {
			name := nameOf(s, at.Drawing)
			if p := at.Part; p != nil {
				name = t.say("part_of", "name", name, "n", strconv.Itoa(p.Number), "m", strconv.Itoa(p.Of))
			}
			if len(names) == 0 || names[len(names)-1] != name {
				names = append(names, name)
			}
		}
		on := t.said.Count("on", len(names), "names", t.list(names))
		t.item(t.say("sheet", "n", strconv.Itoa(sheet.Number), "times", t.times(sheet.Copies)), on+"  ("+sheet.File+")")
	}
}

// glued tells which sections are glued together from parts, for that is work.
func (t *telling) glued(s *pattern.Sized, m *Made) {
	for i := range m.Sheets {
		for _, at := range m.Sheets[i].Sections {
			if p := at.Part; p != nil && p.Number == 1 {
				t.item(t.say("glued", "name", nameOf(s, at.Drawing)),
					t.say("glued_how", "n", strconv.Itoa(p.Of), "times", t.times(s.Drawings[at.Drawing].Make)))
			}
		}
	}
}

func (t *telling) times(n int) string { return t.said.Count("times", n) }

func (t *telling) accepted() {
	if len(t.p.Accepted) == 0 {
		return
	}
	t.heading("accepted")
	for _, a := range t.p.Accepted {
		t.item(t.say("accepted_at", "code", a.Code, "n", strconv.Itoa(a.Source.Line)),
			t.say("accepted_why", "message", drawing.Clean(a.Message), "reason", drawing.Clean(a.Reason)))
	}
}

// limits tells every threshold of the rules that the pattern was checked by.
func (t *telling) limits() {
	if len(t.p.Limits) == 0 {
		return
	}
	t.heading("limits")
	words := ""
	for i := range t.p.Limits {
		l := &t.p.Limits[i]
		value := t.local(l.Words())
		if l.Unit == pattern.InDegrees {
			value = t.say("degrees", "n", t.local(strconv.FormatFloat(l.Value, 'g', 6, 64)))
		}
		limit := l.Name + " " + value
		if l.Set {
			limit = t.say("limit_set", "limit", limit)
		}
		words += limit
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
