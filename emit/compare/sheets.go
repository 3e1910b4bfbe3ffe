package compare

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/emit/edition"
)

// joins compares the seams between sections: by where they lie, then by number.
func (s *sizing) joins() {
	found := make([]int, len(s.new.Joins)) // index into the old, from 1
	taken := make([]bool, len(s.old.Joins))
	for pass := range 2 {
		for i := range s.new.Joins {
			for k := range s.old.Joins {
				if found[i] != 0 || taken[k] {
					continue
				}
				if pass == 1 && i == k || sameLine(&s.old.Joins[k], &s.new.Joins[i]) {
					found[i], taken[k] = k+1, true
				}
			}
		}
	}
	for i := range s.new.Joins {
		j := &s.new.Joins[i]
		c := Change{Kind: Joining, Subject: "join " + strconv.Itoa(i+1), At: j.At}
		if found[i] == 0 {
			c.Aspect, c.New = "join", ends(j)
			s.tell(c)
			continue
		}
		old := &s.old.Joins[found[i]-1]
		c.Aspect = "order"
		s.text(c, strconv.Itoa(found[i]), strconv.Itoa(i+1))
		if !sameLine(old, j) {
			c.Aspect = "line"
			s.text(c, ends(old), ends(j))
		}
		c.Aspect = "sewn"
		s.text(c, goes(old), goes(j))
		c.Aspect = "pressed toward"
		s.text(c, s.edges([]string{old.Press}), j.Press)
	}
	for k := range s.old.Joins {
		if !taken[k] {
			s.tell(Change{Kind: Joining, Subject: "join " + strconv.Itoa(k+1), Aspect: "join", Old: ends(&s.old.Joins[k])})
		}
	}
}

// In how many goes a join is sewn, before the number of the other.
const (
	inOneGo  = "in one go"
	begins   = "begun, and finished by join "
	finishes = "finishes join "
)

// goes tells in how many goes a join is sewn: a partial seam is two joins.
func goes(j *edition.Join) string {
	switch {
	case j.Begins > 0:
		return begins + strconv.Itoa(j.Begins)
	case j.Begun > 0:
		return finishes + strconv.Itoa(j.Begun)
	}
	return inOneGo
}

func sameLine(a, b *edition.Join) bool {
	near := func(p, q point) bool { return math.Hypot(p[0]-q[0], p[1]-q[1]) <= 2*same }
	return near(a.From, b.From) && near(a.To, b.To) || near(a.From, b.To) && near(a.To, b.From)
}

// ends tells where a join runs, from the block's lower left corner.
func ends(j *edition.Join) string {
	at := func(p point) string { return "(" + measure(p[0]) + ", " + measure(p[1]) + ")" }
	return at(j.From) + " to " + at(j.To)
}

// A lies is where a section, or a part of it, is printed.
type lies struct {
	sheet int
	place edition.Place
}

// printed lists for each section where it is printed: once, or each of its parts.
func printed(s *edition.Size) map[string][]lies {
	out := map[string][]lies{}
	for i := range s.Sheets {
		for _, p := range s.Sheets[i].Sections {
			out[p.Section] = append(out[p.Section], lies{i, p})
		}
	}
	return out
}

// layout compares where sections lie on the sheets and how often those are
// printed. Turn and place within a sheet are told only where the section is as it
// was: a section that changed is laid anew anyway.
func (s *sizing) layout() {
	s.text(Change{Kind: Sheets, Subject: "sheets", Aspect: "number of sheets"}, strconv.Itoa(len(s.old.Sheets)), strconv.Itoa(len(s.new.Sheets)))
	was, is := printed(s.old), printed(s.new)
	for i := range s.new.Sections {
		sec := &s.new.Sections[i]
		old := s.oldSection(sec.Name)
		if old == nil {
			continue
		}
		a, b := was[old.Name], is[sec.Name]
		c := Change{Kind: Sheets, Section: sec.Name, Subject: "section " + sec.Name, At: sec.At}
		if len(a) != len(b) && len(a) > 0 && len(b) > 0 {
			c.Aspect = "parts to be glued"
			s.text(c, strconv.Itoa(len(a)), strconv.Itoa(len(b)))
			continue
		}
		for k := range min(len(a), len(b)) {
			s.place(c, a[k], b[k], sameOutline(old, sec))
		}
	}
	for i := range min(len(s.old.Sheets), len(s.new.Sheets)) {
		s.text(Change{Kind: Sheets, Subject: "sheet " + strconv.Itoa(i+1), Aspect: "print"},
			times(s.old.Sheets[i].Print), times(s.new.Sheets[i].Print))
	}
}

// place compares where a section, or a part of one, is printed.
func (s *sizing) place(c Change, a, b lies, same bool) {
	c.Subject, c.Aspect = "section "+b.place.Name(), "sheet"
	s.text(c, strconv.Itoa(a.sheet+1), strconv.Itoa(b.sheet+1))
	if a.sheet == b.sheet && !samePlace(a.place, b.place) && same {
		c.Aspect = placeOn + strconv.Itoa(b.sheet+1)
		c.noted("lies elsewhere, or turned otherwise", "note_lies")
		s.tell(c)
	}
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return strconv.Itoa(n) + " times"
}

func samePlace(a, b edition.Place) bool {
	return a.Turn == b.Turn && math.Abs(a.Shift[0]-b.Shift[0]) <= 2*same && math.Abs(a.Shift[1]-b.Shift[1]) <= 2*same
}

// sameOutline reports whether a section is what it was, where it was.
func sameOutline(a, b *edition.Section) bool { return apart(a.Outline, b.Outline) <= same }

// sums tells what is printed otherwise although the pattern is the same: strokes
// and sentences of the program, by the part of the page or the booklet that they
// stand in.
func (s *sizing) sums() {
	for i := range min(len(s.old.Sheets), len(s.new.Sheets)) {
		for _, p := range pairs(s.old.Sheets[i].Parts, s.new.Sheets[i].Parts, func(p *edition.Part) string { return p.Name }) {
			s.part(i+1, p)
		}
	}
	for _, t := range pairs(s.old.Texts, s.new.Texts, func(w *edition.Word) string { return w.Name }) {
		switch {
		case t.old == nil:
			s.tell(Change{Kind: Program, Subject: t.new.Name, Aspect: "text", Note: "was not there"})
		case t.new == nil:
			s.tell(Change{Kind: Program, Subject: t.old.Name, Aspect: "text", Note: "is no longer there"})
		case t.old.Text != t.new.Text:
			s.tell(Change{Kind: Program, Subject: t.new.Name, Aspect: "text", Note: "says something else"})
		}
	}
	if s.report.Old.Edition != s.report.New.Edition {
		return // the mark answers to the edition too
	}
	for _, m := range pairs(s.old.Marks, s.new.Marks, func(w *edition.Word) string { return w.Name }) {
		if m.old != nil && m.new != nil && m.old.Text != m.new.Text && !s.toldOf(Program) {
			s.tell(Change{Kind: Program, Subject: "sheets on " + m.new.Name, Aspect: "print", Old: "mark " + m.old.Text, New: "mark " + m.new.Text})
		}
	}
}

// toldOf reports whether a change of a kind was told at this size.
func (s *sizing) toldOf(k Kind) bool {
	for i := range s.all {
		if c := &s.all[i]; c.Kind == k && c.Block == s.block.Name && len(c.Sizes) > 0 && c.Sizes[0] == s.new.Words() {
			return true
		}
	}
	return false
}

func (s *sizing) part(sheet int, p couple[edition.Part]) {
	c := Change{Kind: Program, Aspect: "print"}
	var what []string
	switch {
	case p.old == nil:
		c.Subject, what = p.new.Name, []string{"it was not there"}
	case p.new == nil:
		c.Subject, what = p.old.Name, []string{"it is no longer there"}
	default:
		c.Subject = p.new.Name
		if p.old.Lines != p.new.Lines {
			what = append(what, "lines are drawn otherwise")
		}
		if p.old.Words != p.new.Words {
			what = append(what, "words are otherwise")
		}
	}
	if len(what) == 0 {
		return
	}
	c.Subject = fmt.Sprintf("sheet %d, %s", sheet, c.Subject)
	c.Note = strings.Join(what, ", ")
	if name, ok := strings.CutPrefix(c.Subject, fmt.Sprintf("sheet %d, section ", sheet)); ok {
		c.Section = name
	} else if name, ok := strings.CutPrefix(c.Subject, fmt.Sprintf("sheet %d, part ", sheet)); ok {
		c.Section, _, _ = strings.Cut(name, " ")
	}
	s.tell(c)
}
