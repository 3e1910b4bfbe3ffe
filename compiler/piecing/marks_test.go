package piecing

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// spell writes the marks of a drawing's only joined edge: where along it, kind,
// match, letter.
func spell(d *pattern.Drawing) string {
	var b strings.Builder
	edge := slices.IndexFunc(d.Edges, func(e pattern.Edge) bool { return e.Kind == pattern.Joined })
	for i, m := range d.Edges[edge].Marks {
		if i > 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(&b, "%.4g%s", dist(m.At, d.Outline[edge]), [...]string{"|", "+", "."}[m.Kind])
		if m.Match {
			b.WriteByte('!')
		}
		b.WriteString(m.Letter)
	}
	return b.String()
}

// Marks stand where seams of either side end, at both ends of the join, and on
// plain stretches every four inches at the most.
func TestMarks(t *testing.T) {
	b := &eval.Body{Name: "two", Outline: box(16, 8), Box: true,
		Joins: []eval.Join{{Line: line(0, 4, 16, 4)}},
		Sections: []eval.Section{
			sectionAt("A", 0, 1, 6, along(1, 3, 0, 3, 8)),
			sectionAt("B", 0, 1, 2, along(1, 3, 0, 3, 8), along(2, 5, 0, 5, 8)),
		}}
	s := size(t, b, 16)
	holds(t, s)
	top, bottom := &s.Drawings[0], &s.Drawings[1]
	// The edge of the upper section runs to the right, that of the lower one to
	// the left. From 5 to 16 are 11 inches: three parts.
	if got, want := spell(top), "0|k 3+!m 5+n 8.667. 12.33. 16|p"; got != want {
		t.Errorf("top: %s, want %s", got, want)
	}
	if got, want := spell(bottom), "0|p 3.667. 7.333. 11+n 13+!m 16|k"; got != want {
		t.Errorf("bottom: %s, want %s", got, want)
	}
	if len(s.Joins) != 1 || len(s.Joins[0].Points) != 1 || dist(s.Joins[0].Points[0], pattern.Pos{X: 3, Y: 4}) > 1e-9 {
		t.Errorf("%+v", s.Joins)
	}
	// At half the size the same letters, and fewer marks between.
	if got, want := spell(&size(t, b, 8).Drawings[0]), "0|k 1.5+!m 2.5+n 5.25. 8|p"; got != want {
		t.Errorf("at half the size: %s, want %s", got, want)
	}
}

// An edge with two marks has no letters, for there is nothing to tell apart; nor
// have the inner marks of a strip along equal units, for they could not be true.
func TestMarksWithoutLetters(t *testing.T) {
	if s := size(t, strips(2), 0.2); spell(&s.Drawings[0]) != "0| 3.333. 6.667. 10|" {
		t.Error(spell(&s.Drawings[0]))
	}
	b := &eval.Body{Name: "row", Outline: box(8, 3), Box: true, Joins: []eval.Join{{Line: line(0, 1, 8, 1)}},
		Sections: []eval.Section{sectionAt("S", 0, 4, 0.5)}}
	for i := range 4 {
		b.Places = append(b.Places, eval.Place{Body: wedge(), Motion: plane.Motion{Shift: plane.Point{X: 2 * float64(i), Y: 1}}})
		if i > 0 {
			b.Joins = append([]eval.Join{{Line: line(2*float64(i), 1, 2*float64(i), 3)}}, b.Joins...)
		}
	}
	s := size(t, b, 8)
	holds(t, s)
	for i := range s.Drawings {
		if d := &s.Drawings[i]; d.Name == "S" {
			// Both copies in the middle meet the strip's mark at 4, each with
			// another of its ends.
			if got := spell(d); got != "0|k 2+ 4+ 6+ 8|m" {
				t.Errorf("the strip's marks are %s", got)
			}
		}
	}
}

// Four equal units about a point: the edges that meet have letters, each the
// partner of the other, and the join lists its copies.
func TestEdgeLetters(t *testing.T) {
	b := &eval.Body{Name: "wheel", Outline: box(4, 4), Box: true,
		Joins: []eval.Join{{Line: line(0, 2, 2, 2)}, {Line: line(2, 2, 4, 2)}, {Line: line(2, 0, 2, 4)}}}
	unit := wedge()
	for k := range 4 {
		b.Places = append(b.Places, eval.Place{Body: unit,
			Motion: cell2([]float64{0, 2, 2, 0}[k], []float64{0, 0, 2, 2}[k], k, false)})
	}
	s := size(t, b, 8)
	holds(t, s)
	if len(s.Drawings) != 1 || s.Drawings[0].Make != 4 {
		t.Fatalf("%d drawings", len(s.Drawings))
	}
	letters := map[string]string{}
	for _, e := range s.Drawings[0].Edges {
		if e.Kind == pattern.Joined {
			letters[e.Letter] = e.Partners[0].Letter
		} else if e.Letter != "" {
			t.Errorf("a border edge is called %s", e.Letter)
		}
	}
	if len(letters) != 2 || letters["a"] != "b" || letters["b"] != "a" {
		t.Errorf("%v", letters)
	}
	// Whatever the order of sewing, the tips are points to match.
	for i, e := range s.Drawings[0].Edges {
		for _, m := range e.Marks {
			if tip := dist(m.At, pattern.Pos{X: 4, Y: 4}) < 1e-9; tip != (m.Match && m.Kind == pattern.JoinEnd) {
				t.Errorf("edge %d: %+v", i, m)
			}
		}
	}
	if j := s.Joins[2]; fmt.Sprint(j.Left, j.Right) != "[0 3] [1 2]" || len(j.Points) == 0 {
		t.Errorf("%+v", j)
	}
	for i, want := range []string{"wedge 1", "wedge 2", "wedge 3", "wedge 4"} {
		if s.Copies[i].Of != want {
			t.Errorf("copy %d stands in %q", i, s.Copies[i].Of)
		}
	}
}

// Units within units: the way down to a section, and inner joins sewn first.
func TestUnitsInUnits(t *testing.T) {
	unit := wedge()
	pair := &eval.Body{Name: "pair", Outline: box(4, 2), Box: true, Joins: []eval.Join{{Line: line(2, 0, 2, 2)}},
		Places: []eval.Place{{Body: unit}, {Body: unit, Motion: plane.Motion{Reversed: true, Shift: plane.Point{X: 4}}}}}
	b := &eval.Body{Name: "stack", Outline: box(4, 6), Box: true,
		Joins: []eval.Join{{Line: line(0, 2, 4, 2)}, {Line: line(0, 4, 4, 4)}},
		Places: []eval.Place{
			{Body: pair},
			{Body: pair, As: "T", Motion: plane.Motion{Reversed: true, Shift: plane.Point{X: 4, Y: 2}}},
			{Body: pair, Motion: plane.Motion{Turn: 180, Shift: plane.Point{X: 4, Y: 6}}},
		}}
	s := size(t, b, 4)
	holds(t, s)
	if got := s.Copies[3].Of; got != "pair 2, wedge 2" {
		t.Errorf("copy 3 stands in %q", got)
	}
	for i, j := range s.Joins {
		if inner := len(j.Left) == 1; inner != (i < 3) {
			t.Errorf("join %d brings %v and %v together", i+1, j.Left, j.Right)
		}
	}
	if f := s.Figures; f.Sections != 6 || f.Pieces != 18 || f.Seams != 12+5 {
		t.Errorf("%+v", f)
	}
}

// How many seams meet at the busiest point, inside and on the border.
func TestMostSeams(t *testing.T) {
	for _, c := range []struct {
		name string
		body *eval.Body
		want int
	}{
		{"four geese", placed(2, true), 6}, // two joins cross, and two seams end there
		{"a seam to the border", halves("one", "A", "B"), 3},
		{"one piece", strips(1), 0},
		{"two strips", strips(2), 1},
	} {
		if got := size(t, c.body, 8).Figures.MostSeams; got != c.want {
			t.Errorf("%s: %d seams meet, want %d", c.name, got, c.want)
		}
	}
}

// Found joins pair neighbors first, then pairs: the middle is sewn last.
func TestFoundJoinsAreBalanced(t *testing.T) {
	b := placed(8, false)
	b.Outline, b.Places = box(16, 1), b.Places[:8]
	s := size(t, b, 16)
	if got, want := fmt.Sprint(lefts(s)), "[0 2 1 4 6 5 3]"; got != want {
		t.Errorf("joins are to the right of %s, want %s", got, want)
	}
}

// lefts lists the copy to the left of each join.
func lefts(s *pattern.Sized) []int {
	var list []int
	for _, j := range s.Joins {
		list = append(list, min(j.Left[0], j.Right[0]))
	}
	return list
}

// The proof of cover is not for show: pieces that do not add up are refused.
func TestCoverIsProved(t *testing.T) {
	r := result(halves("one", "A", "B"), 8)
	w := newWork(r)
	s := w.shape(r.Blocks[0].Body, 0)
	s.cells[0].measure.area += 1e-4
	if a := w.assemble(r.Blocks[0], 0, 2); a != nil || len(w.problems) != 1 || w.problems[0].Code != NotCovered {
		t.Errorf("%v", w.problems)
	}
}
