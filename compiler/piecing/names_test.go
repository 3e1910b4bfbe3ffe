package piecing

import (
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// together wraps several bodies as the blocks of one file.
func together(bodies ...*eval.Body) *eval.Result {
	r := &eval.Result{}
	for _, b := range bodies {
		one := result(b, 8)
		r.Blocks = append(r.Blocks, one.Blocks...)
		r.Pattern.Blocks = append(r.Pattern.Blocks, one.Pattern.Blocks...)
	}
	return r
}

func names(s *pattern.Sized) string {
	var list []string
	for i := range s.Drawings {
		list = append(list, s.Drawings[i].Name)
	}
	return strings.Join(list, " ")
}

// halves is a block of two different sections with the names given.
func halves(name, left, right string) *eval.Body {
	return &eval.Body{Name: name, Outline: box(4, 4), Box: true,
		Joins: []eval.Join{{Line: line(2, 0, 2, 4)}},
		Sections: []eval.Section{sectionAt(left, 0, 1, 1, along(1, 0, 2, 2, 2)),
			sectionAt(right, 0, 3, 1, along(1, 2, 3, 4, 3.5))}}
}

func TestLettersRunOnce(t *testing.T) {
	r := together(halves("one", "A", "C"), halves("two", "A", ""), halves("three", "", "B"))
	ps := Piece(r)
	if len(ps) != 1 || ps[0].Code != Renamed || ps[0].Severity != problem.Note ||
		!strings.Contains(ps[0].Message, "A is taken") || !strings.Contains(ps[0].Message, "printed as D") {
		t.Errorf("%v", ps)
	}
	for i, want := range []string{"A C", "D E", "B F"} {
		if got := names(&r.Pattern.Blocks[i].Sizes[0]); got != want {
			t.Errorf("block %d has %s, want %s", i+1, got, want)
		}
	}
}

func TestLettersGoOnAfterZ(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(i); got != want {
			t.Errorf("letter %d is %s, want %s", i, got, want)
		}
	}
	b := strips(30)
	for i := range b.Sections { // all different
		b.Sections[i].Pieces = append(b.Sections[i].Pieces, along(1, float64(i), float64(60+i), float64(i+1), float64(60+i)))
	}
	if got := names(size(t, b, 30)); !strings.HasPrefix(got, "A B C") || !strings.HasSuffix(got, "Y Z AA AB AC AD") {
		t.Error(got)
	}
}

// Written letters count in a block; in a placed unit only with `as`.
func TestLettersOfPlacedUnits(t *testing.T) {
	field := func(as string) *eval.Body {
		return &eval.Body{Name: "field", Outline: box(4, 2), Box: true,
			Joins:    []eval.Join{{Line: line(2, 0, 2, 2)}},
			Sections: []eval.Section{sectionAt("A", 0, 3, 1)},
			Places:   []eval.Place{{Body: wedge(), As: as}}}
	}
	if got := names(size(t, field(""), 8)); got != "A B" {
		t.Error(got)
	}
	if got := names(size(t, field("T"), 8)); got != "A TA" {
		t.Error(got)
	}
}

// A reversed copy has a drawing of its own, called after the one as written,
// even if it is placed first.
func TestReversedDrawing(t *testing.T) {
	b := &eval.Body{Name: "pair", Outline: box(4, 2), Box: true,
		Joins: []eval.Join{{Line: line(2, 0, 2, 2)}},
		Places: []eval.Place{
			{Body: wedge(), Motion: plane.Motion{Reversed: true, Shift: plane.Point{X: 2}}},
			{Body: wedge(), Motion: plane.Motion{Shift: plane.Point{X: 2}}},
		}}
	s := size(t, b, 4)
	holds(t, s)
	if names(s) != "A Ar" || s.Drawings[0].Reversed != -1 || s.Drawings[1].Reversed != 0 || s.Copies[0].Drawing != 1 {
		t.Errorf("%s: %+v", names(s), s.Copies)
	}
	// The reversed drawing's pieces are the other's, reversed.
	for k := range s.Drawings[0].Pieces {
		var want []pattern.Pos
		for _, p := range s.Drawings[0].Pieces[k].Polygon {
			want = append(want, pattern.Pos{X: 4 - p.X, Y: p.Y})
		}
		got, mirror := polygon(s.Drawings[1].Pieces[k].Polygon), polygon(want)
		if mirror.Area() > 0 {
			t.Error("not reversed")
		}
		for _, p := range mirror {
			if got.Locate(p) != 0 || got.Area()+mirror.Area() > 1e-9 {
				t.Errorf("piece %d is %v, want %v", k+1, got, mirror)
			}
		}
	}
}

// Equal sections are one drawing, wherever they were written: four quarters
// written out are one, make 4, and each copy lies where its section was written.
func TestEqualSectionsAreOneDrawing(t *testing.T) {
	b := &eval.Body{Name: "quarters", Outline: box(4, 4), Box: true,
		Joins: []eval.Join{{Line: line(0, 2, 2, 2)}, {Line: line(2, 2, 4, 2)}, {Line: line(2, 0, 2, 4)}}}
	src := &problem.Source{Name: "t.seam", Text: "12345678"} // a letter for each piece
	for k := range 4 {
		m := cell2([]float64{0, 2, 2, 0}[k], []float64{0, 0, 2, 2}[k], k, false)
		p := func(x, y float64) plane.Point { return m.Apply(plane.Point{X: x, Y: y}) }
		at := func(i int) problem.Place {
			return problem.Place{Source: src, Span: problem.Span{Start: int32(2*k + i)}}
		}
		b.Sections = append(b.Sections, eval.Section{Pieces: []eval.Piece{
			{Fabric: 0, Points: []plane.Point{p(0.5, 0.5)}, At: at(0)},
			{Fabric: 1, Line: plane.Line{A: p(2, 0.5), B: p(0.5, 2)}, At: at(1)},
		}})
	}
	s := size(t, b, 8)
	holds(t, s)
	if names(s) != "A" || s.Drawings[0].Make != 4 {
		t.Fatalf("%s, make %d", names(s), s.Drawings[0].Make)
	}
	for k, c := range s.Copies {
		if c.Turn != 90*float64(k) {
			t.Errorf("copy %d is turned by %v", k, c.Turn)
		}
		if k > 0 && (len(c.Pieces) != 2 || c.Pieces[1].Column != 2*k+2) {
			t.Errorf("the pieces of copy %d are written at %v", k, c.Pieces)
		}
	}
	for i, e := range s.Drawings[0].Edges {
		if (e.Kind == pattern.Joined) != (e.Letter != "") {
			t.Errorf("edge %d, which meets another copy, has the letter %q", i, e.Letter)
		}
	}
	// Another fabric in one of them makes all four differ: it by itself, its two
	// neighbors by the edge on which they have it, the last by having none.
	b.Sections[2].Pieces[1].Fabric = 2
	if got := size(t, b, 8); len(got.Drawings) != 4 {
		t.Errorf("%d drawings", len(got.Drawings))
	}
	// A seam that ends elsewhere on its edge counts for the neighbor too.
	b.Sections[2].Pieces[1].Fabric = 1
	b.Sections[2].Pieces[1].Line.B = b.Sections[2].Pieces[1].Line.B.Add(plane.Point{X: 0.3})
	if got := size(t, b, 8); len(got.Drawings) != 4 {
		t.Errorf("%d drawings", len(got.Drawings))
	}
	// Edges on the border are of another kind: two end strips, three between.
	if got := size(t, strips(5), 5); names(got) != "A B" || got.Drawings[0].Make != 2 || got.Drawings[1].Make != 3 {
		t.Errorf("%s, make %d", names(got), got.Drawings[0].Make)
	}
}
