package piecing

import (
	"math/rand/v2"
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

func sectionAt(name string, fabric int, x, y float64, more ...eval.Piece) eval.Section {
	first := eval.Piece{Fabric: fabric, Points: []plane.Point{{X: x, Y: y}}}
	return eval.Section{Name: name, Pieces: append([]eval.Piece{first}, more...)}
}

func along(fabric int, ax, ay, bx, by float64) eval.Piece {
	return eval.Piece{Fabric: fabric, Line: line(ax, ay, bx, by)}
}

// wedge is a unit without any symmetry.
func wedge() *eval.Body {
	return &eval.Body{Name: "wedge", Outline: box(2, 2), Box: true, Sections: []eval.Section{
		sectionAt("A", 0, 1.5, 0.5, along(1, 0, 0.5, 1.5, 2), along(2, 0, 0.25, 2, 0.25)),
	}}
}

// cell turns a square unit of side 2, reversed or not, in a cell.
func cell2(x, y float64, quarter int, reversed bool) plane.Motion {
	back := plane.Motion{Shift: plane.Point{X: -1, Y: -1}}
	turn := plane.Motion{Reversed: reversed, Turn: 90 * float64(quarter), Shift: plane.Point{X: x + 1, Y: y + 1}}
	return turn.After(back)
}

// Units turned and reversed at random tile; their pieces add up, every mark has
// its partner, and found joins sew the block.
func TestPlacedUnits(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		w, h := 1+rng.IntN(4), 1+rng.IntN(4)
		b := &eval.Body{Name: "field", Outline: box(2*float64(w), 2*float64(h)), Box: true}
		unit := wedge()
		reversed := 0
		for i := range w * h {
			back := rng.IntN(3) == 0
			if back {
				reversed++
			}
			b.Places = append(b.Places, eval.Place{Body: unit,
				Motion: cell2(2*float64(i%w), 2*float64(i/w), rng.IntN(4), back)})
		}
		s := size(t, b, pattern.Length(2*w))
		holds(t, s)
		if f := s.Figures; f.Sections != w*h || f.Pieces != 3*w*h || len(s.Joins) != f.Sections-1 && w*h > 1 {
			t.Errorf("%d x %d: %+v", w, h, f)
		}
		names := 0
		for i := range s.Drawings {
			if strings.HasSuffix(s.Drawings[i].Name, "r") {
				names += s.Drawings[i].Make
			}
		}
		if reversed > 0 && reversed < w*h && names == 0 {
			t.Errorf("%d of %d are reversed, but no drawing is named so", reversed, w*h)
		}
	}
}

// Random tilings by straight cuts are joined, whatever the cuts; what cannot be
// cut is refused.
func TestFoundJoinsSewRandomTilings(t *testing.T) {
	for seed := range uint64(200) {
		g := generate(seed, 1+int(seed%12))
		whole := Piece0(t, g.body)
		if whole == nil {
			continue
		}
		b := &eval.Body{Name: "tiled", Outline: g.body.Outline}
		for i := range whole.cells {
			unit := &eval.Body{Name: "tile", Outline: whole.cells[i].face.Corners}
			in := whole.cells[i].face.Corners.Interior()
			unit.Sections = []eval.Section{sectionAt("", int(seed+uint64(i))%3, in.X, in.Y)}
			b.Places = append(b.Places, eval.Place{Body: unit})
		}
		r := result(b, wide)
		ps := Piece(r)
		if len(r.Pattern.Blocks[0].Sizes) != 1 {
			t.Fatalf("seed %d: %v", seed, ps)
		}
		holds(t, &r.Pattern.Blocks[0].Sizes[0])
		if len(b.Places) > 1 && (len(ps) != 1 || ps[0].Code != FoundJoins || ps[0].Severity != problem.Note) {
			t.Errorf("seed %d: joins were found, but the note says %v", seed, ps)
		}
	}
}

// Piece0 cuts a body alone; nil where its points are too near.
func Piece0(t *testing.T, b *eval.Body) *shape {
	w := newWork(&eval.Result{})
	s := w.shape(b, 0)
	if s.failed {
		t.Fatal(w.problems)
	}
	r := result(b, wide)
	if Piece(r); len(r.Pattern.Blocks[0].Sizes) == 0 {
		return nil
	}
	return s
}

// An outline that is not convex: an L of three squares, joined in any way that
// works, and a notch that the joins leave alone.
func TestOutlineWithInwardCorner(t *testing.T) {
	l := plane.Polygon{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 2}, {X: 2, Y: 2}, {X: 2, Y: 4}, {X: 0, Y: 4}}
	for _, joins := range [][]eval.Join{
		{{Line: line(2, 0, 2, 2)}, {Line: line(0, 2, 2, 2)}},
		{{Line: line(0, 2, 2, 2)}, {Line: line(2, 0, 2, 2)}},
		{{Line: line(2, 2, 2, 0)}, {Line: line(-1, 2, 5, 2)}},
	} {
		b := &eval.Body{Name: "ell", Outline: l, Joins: joins, Sections: []eval.Section{
			sectionAt("A", 0, 1, 1, along(1, 0, 1.5, 2, 1)), sectionAt("B", 0, 3, 1), sectionAt("C", 0, 1, 3, along(2, 0, 3, 2, 3.5)),
		}}
		s := size(t, b, 8)
		holds(t, s)
		if f := s.Figures; f.Sections != 3 || f.Pieces != 5 || len(s.Joins) != 2 {
			t.Errorf("%+v", f)
		}
	}
	// One section on the whole L: a seam through the inward corner's arm only.
	b := &eval.Body{Name: "ell", Outline: l, Sections: []eval.Section{
		sectionAt("A", 0, 1, 1, along(1, 3, 0, 3, 2), along(2, 0, 3, 2, 3)),
	}}
	s := size(t, b, 8)
	if f := s.Figures; f.Sections != 1 || f.Pieces != 3 || math3(area(s.Drawings[0].Pieces[0].Polygon)) != 32 {
		t.Errorf("%+v, piece 1 has %v", f, area(s.Drawings[0].Pieces[0].Polygon))
	}
}

func math3(x float64) float64 { return float64(int(x*1000+0.5)) / 1000 }

// A join from a size on divides a section from there up; both halves keep its
// seams, in order, numbered anew, and the half with the point keeps the letter.
func TestJoinFromASize(t *testing.T) {
	b := &eval.Body{Name: "long", Outline: box(8, 4), Box: true,
		Joins: []eval.Join{{Line: line(4, 0, 4, 4), From: 12}},
		Sections: []eval.Section{sectionAt("H", 0, 1, 1,
			along(1, 0, 2, 8, 2),   // in both halves
			along(2, 2, 0, 2, 4),   // in the half with the point, whose piece 2 it cuts
			along(1, 7, 0, 8, 1))}, // in the other half only
	}
	// The line x = 2 has the point on its left, so piece 3 lies right of it: all
	// of the other half.
	r := result(b, 6, 12, 16)
	if ps := Piece(r); problem.Failed(ps) {
		t.Fatal(ps)
	}
	sizes := r.Pattern.Blocks[0].Sizes
	for i, want := range []struct {
		drawings, pieces int
		names            string
	}{{1, 4, "H"}, {2, 5, "A H"}, {2, 5, "A H"}} {
		s := &sizes[i]
		holds(t, s)
		var names []string
		for k := range s.Drawings {
			names = append(names, s.Drawings[k].Name)
		}
		if f := s.Figures; f.Drawings != want.drawings || f.Pieces != want.pieces || strings.Join(names, " ") != want.names {
			t.Errorf("at %v: %v, %+v", s.Finished.W, names, f)
		}
	}
	for _, d := range sizes[1].Drawings {
		want := map[string][]int{"H": {0, 1, 2}, "A": {2, 1}}[d.Name]
		if len(d.Pieces) != len(want) {
			t.Errorf("%s has %d pieces, want %v", d.Name, len(d.Pieces), want)
			continue
		}
		for k, f := range want {
			if d.Pieces[k].Fabric != f {
				t.Errorf("%s is of fabric %d, want %d", d.Label(k), d.Pieces[k].Fabric, f)
			}
		}
	}
}

// Points too near to tell are reported with their distance at the smallest size.
func TestNearPoints(t *testing.T) {
	b := &eval.Body{Name: "near", Outline: box(4, 4), Box: true,
		Sections: []eval.Section{sectionAt("A", 0, 3, 1, along(1, 0, 2, 4, 2), along(2, 0, 2.004, 2, 4))}}
	r := result(b, 8, 4)
	ps := Piece(r)
	if len(ps) != 1 || ps[0].Code != NearPoints || !strings.Contains(ps[0].Message, "0.004 in") {
		t.Errorf("%v", ps)
	}
	if len(ps) == 1 && len(ps[0].Drawn.Points) != 2 {
		t.Errorf("not drawn: %+v", ps[0].Drawn)
	}
	// Within the tolerance they are one.
	b.Sections[0].Pieces[2].Line.A.Y = 2 + plane.Tol/2
	if s := size(t, b, 4); s.Figures.SamePoints <= 0 || s.Figures.SamePoints > plane.Tol {
		t.Errorf("taken for one at %v", s.Figures.SamePoints)
	}
}
