package eval

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"

	"github.com/google/go-cmp/cmp"
)

// brick is a small unit in a file of its own.
const brick = sky + `fabric sea "sea" dark #25525e
unit brick(long: number = 2, cloth: fabric = sky) long x 1 {
  section A {
    1 cloth at (0.5, 0.5)
    2 sea along (long - 0.5, 0) -- (long - 0.5, 1) at (long - 0.1, 0.5)
  }
}
`

// body returns the body of the first block.
func body(t *testing.T, text string) *Body {
	t.Helper()
	r := good(t, text)
	if len(r.Blocks) == 0 || r.Blocks[0].Failed {
		t.Fatalf("no block of\n%s", text)
	}
	return r.Blocks[0].Body
}

func TestBody(t *testing.T) {
	b := body(t, brick+`
block b 4 x 2 finished 8in {
  join w -- e, (2, 0) -- (2, 1) from 12in
  place brick at sw
  place brick at (2, 0)
  section Z { 1 sky at (1, 1.5) }
}`)
	if b.Name != "b" || !b.Box || !cmp.Equal(b.Outline, plane.Polygon{{}, {X: 4}, {X: 4, Y: 2}, {Y: 2}}) {
		t.Errorf("body %s, box %v, outline %v", b.Name, b.Box, b.Outline)
	}
	if len(b.Joins) != 2 || b.Joins[0].Line != (plane.Line{A: plane.Point{Y: 1}, B: plane.Point{X: 4, Y: 1}}) || b.Joins[0].From != 12 || b.Joins[1].From != 12 {
		t.Errorf("joins %+v", b.Joins)
	}
	if len(b.Places) != 2 || b.Places[0].Body != b.Places[1].Body {
		t.Fatal("two equal units must share one body")
	}
	if len(b.Sections) != 1 || b.Sections[0].Name != "Z" || len(b.Sections[0].Pieces) != 1 {
		t.Fatalf("sections %+v", b.Sections)
	}
	u := b.Places[0].Body
	if u.Name != "brick" || len(u.Sections) != 1 || len(u.Sections[0].Pieces) != 2 {
		t.Fatalf("brick %+v", u)
	}
	second := u.Sections[0].Pieces[1]
	if second.Fabric != 1 || second.Line != (plane.Line{A: plane.Point{X: 1.5}, B: plane.Point{X: 1.5, Y: 1}}) || len(second.Points) != 1 {
		t.Errorf("piece 2: %+v", second)
	}
	words := func(p Piece) string { return p.At.Source.Text[p.At.Span.Start:p.At.Span.End] }
	if got := words(second); got != "2 sea along (long - 0.5, 0) -- (long - 0.5, 1) at (long - 0.1, 0.5)" {
		t.Errorf("piece 2 stands at %q", got)
	}
	if got := second.LineAt.Source.Text[second.LineAt.Span.Start:second.LineAt.Span.End]; got != "(long - 0.5, 0) -- (long - 0.5, 1)" {
		t.Errorf("its line stands at %q", got)
	}
}

func TestEqualArgumentsShareABody(t *testing.T) {
	b := body(t, brick+`
block b 4 x 4 finished 8in {
  place brick(2) at (0, 0)
  place brick(1 + 1, cloth: sky) at (2, 0)
  place brick(2, sea) at (0, 1)
  place brick(3) at (0, 2)
  place brick(6/2, sky) at (0, 3)
  place brick(4/2) at (2, 1)
}`)
	same := [][2]int{{0, 1}, {3, 4}, {0, 5}}
	for _, s := range same {
		if b.Places[s[0]].Body != b.Places[s[1]].Body {
			t.Errorf("places %v do not share their body", s)
		}
	}
	if b.Places[0].Body == b.Places[2].Body || b.Places[0].Body == b.Places[3].Body {
		t.Error("different arguments share a body")
	}
}

// Where a unit's point lands, by the words of the language: reversed first, then
// turned anticlockwise, both about the point after `by`, which lands on `at`.
func TestMotion(t *testing.T) {
	for _, c := range []struct {
		place    string
		from, to plane.Point
	}{
		{"at (3, 4)", plane.Point{X: 1, Y: 2}, plane.Point{X: 4, Y: 6}},
		{"at (3, 4) turn 90deg", plane.Point{X: 1}, plane.Point{X: 3, Y: 5}},
		{"at (3, 4) reversed", plane.Point{X: 1, Y: 2}, plane.Point{X: 2, Y: 6}},
		{"at (3, 4) turn 90deg reversed", plane.Point{X: 1}, plane.Point{X: 3, Y: 3}},
		{"by c at (3, 4) turn 180deg", plane.Point{}, plane.Point{X: 4, Y: 4.5}},
		{"by c at (3, 4) turn -90deg", plane.Point{}, plane.Point{X: 2.5, Y: 5}},
		{"by ne at (3, 4)", plane.Point{X: 2, Y: 1}, plane.Point{X: 3, Y: 4}},
		{"by c at (3, 4) reversed", plane.Point{X: 2}, plane.Point{X: 2, Y: 3.5}},
		{"by (0.5, 0.5) at (3, 4) turn 450deg", plane.Point{X: 1.5, Y: 0.5}, plane.Point{X: 3, Y: 5}},
		{"by c + (far, 0) at c turn 360deg", plane.Point{X: 2, Y: 0.5}, plane.Point{X: 4, Y: 4}},
		{"at c turn 30deg", plane.Point{X: 2}, plane.Point{X: 4 + math.Sqrt(3), Y: 5}},
	} {
		b := body(t, brick+"block b 8 x 8 finished 8in {\n  let far = 1\n  check far > 0 \"used\"\n  place brick "+c.place+"\n}")
		p := b.Places[0]
		if got := p.Motion.Apply(c.from); got.Dist(c.to) > 1e-12 {
			t.Errorf("%s: %v lands on %v, want %v", c.place, c.from, got, c.to)
		}
		if p.HasBy != strings.Contains(c.place, "by ") {
			t.Errorf("%s: by %v", c.place, p.HasBy)
		}
		if p.Motion.Turn < 0 || p.Motion.Turn >= 360 {
			t.Errorf("%s: turn %v", c.place, p.Motion.Turn)
		}
	}
}

func TestOutlines(t *testing.T) {
	const ccw = "(0, 0), (4, 0), (0, 4)"
	const cw = "(0, 0), (0, 4), (4, 0)"
	var got []plane.Polygon
	for _, corners := range []string{ccw, cw} {
		b := body(t, sky+"block b outline "+corners+" finished 4in {\n  section A { 1 sky at (1, 1) }\n}")
		if b.Box {
			t.Error("an outline is no box")
		}
		got = append(got, b.Outline)
	}
	if !cmp.Equal(got[0], got[1]) {
		t.Errorf("the sense of walking shows: %v, %v", got[0], got[1])
	}
	for corners, words := range map[string]string{
		"(0, 0), (4, 0)":                         "three corners",
		"(0, 0), (4, 0), (2, 0)":                 "in one line",
		"(0, 0), (4, 4), (4, 0), (0, 4), (9, 9)": "meets itself",
		"(0, 0), (4, 4), (4, 0), (0, 4)":         "meets itself",
		"(0, 0), (4, 0), (4, 0), (0, 4)":         "meets itself",
	} {
		want(t, sky+"block b outline "+corners+" finished 4in {\n  section A { 1 sky at (1, 1) }\n}", nil, "L258 2 "+words)
	}
	var many strings.Builder
	for i := range maxCorners + 1 {
		fmt.Fprintf(&many, "polar(4, %d/2*1deg), ", i)
	}
	want(t, sky+"block b outline "+strings.TrimSuffix(many.String(), ", ")+" finished 4in {\n  section A { 1 sky at (1, 1) }\n}", nil, "L258 2 200 corners")
}

// inset goes by the middle of an outline's area: here (2, 2).
func TestInsetOfAnOutline(t *testing.T) {
	good(t, sky+`unit tri outline (0, 0), (6, 0), (0, 6) {
  check inset((1.9, 0) -- (1.9, 6), 1) == ((2.9, 0) -- (2.9, 6)) "to the right"
  check inset((2.1, 0) -- (2.1, 6), 1) == ((1.1, 0) -- (1.1, 6)) "to the left"
  section { 1 sky at (1, 1) }
}
block b 6 x 6 finished 6in { place tri at sw }`)
}

func TestFinishedSizes(t *testing.T) {
	r := good(t, sky+"block b(wide: length = 10cm) 4 x 10 finished 6in, 4in x 10in, wide, 2 * 4in, 7in x 17 1/2in {\n  section A { 1 sky at c }\n}")
	want := []pattern.Size{{W: 6, H: 15}, {W: 4, H: 10}, {W: pattern.Length(10 / 2.54), H: pattern.Length(25 / 2.54)}, {W: 8, H: 20}, {W: 7, H: 17.5}}
	near := cmp.Comparer(func(a, b pattern.Length) bool { return math.Abs(float64(a-b)) < 1e-12 })
	if d := cmp.Diff(want, r.Blocks[0].Finished, near); d != "" {
		t.Error(d)
	}
	if len(r.Blocks[0].At) != len(want) {
		t.Error("each size has its place")
	}
	if g := r.Pattern.Blocks[0].Grid; g != [2]float64{4, 10} {
		t.Errorf("grid %v", g)
	}
}

func TestFinishedFaults(t *testing.T) {
	for sizes, code := range map[string]string{
		"0in": "L260 2 between", "-4in": "L260 2 between", "1000in": "L260 2", "4in x 5in": "L261 2", "4in, 4.0in": "L262 2",
		"4": "L225 2 has no unit", "(4)": "L225 2", "4 + 1": "L221 2 takes a length", "90deg": "L221 2", "4in x 4": "L225 2", "c": "L209 2",
	} {
		want(t, sky+"block b 4 x 4 finished "+sizes+" {\n  section A { 1 sky at c }\n}", nil, code)
	}
}

func TestGridFaults(t *testing.T) {
	for grid, code := range map[string]string{
		"(a - 2) x (4)": "L259 2 larger than 0", "(a - 1) x (4)": "L259 2 larger than 0", "(4) x (20000 * a)": "L259 2 10000",
		"(a * 4in) x (4)": "L221 2 takes a number", "(w.x) x (a)": "L209 2 before the unit has its size",
	} {
		want(t, sky+"unit u(a: number = 1) "+grid+" {\n  section A { 1 sky at (a, 1) }\n}\nblock b 4 x 4 finished 4in { place u at sw }", nil, code)
	}
}

func TestTitles(t *testing.T) {
	for doc, want := range map[string]string{
		"": "harbour light",
		"/// Harbour Light. Seen from the sea.\n":                               "Harbour Light",
		"/// Harbour Light\n":                                                   "Harbour Light",
		"/// A light that stands on the mole and is seen from far out at sea\n": "harbour light",
	} {
		r := good(t, sky+doc+"block harbour_light 4 x 4 finished 4in { section A { 1 sky at c } }")
		if got := r.Pattern.Blocks[0].Title; got != want {
			t.Errorf("%q gives the title %q, want %q", doc, got, want)
		}
	}
}

func TestDrawnUnit(t *testing.T) {
	b := body(t, sky+`fabric lamp light #ffeeaa
block lantern 8 x 8 finished 8in {
  line n -- w -- s -- e -- n, w -- e
  piece sky at nw + (1, -1), ne - (1, 1)
  piece lamp (0, 0), (1, 0), (0, 1)
}`)
	if len(b.Lines) != 5 || b.Lines[3].Line != (plane.Line{A: plane.Point{X: 8, Y: 4}, B: plane.Point{X: 4, Y: 8}}) {
		t.Errorf("lines %+v", b.Lines)
	}
	if len(b.Drawn) != 2 || len(b.Drawn[0].Points) != 2 || len(b.Drawn[0].PointAt) != 2 || len(b.Drawn[1].Corners) != 3 || b.Drawn[1].Fabric != 1 {
		t.Errorf("drawn %+v", b.Drawn)
	}
	for stmt, code := range map[string]string{
		"piece sky":                          "L253 3",
		"piece sky along n -- s":             "L254 3 section",
		"2 sky at c":                         "L254 3 only",
		"line n -- n -- s\n  piece sky at c": "L243 3 runs nowhere",
	} {
		want(t, sky+"block b 8 x 8 finished 8in {\n  "+stmt+"\n}", nil, code)
	}
}
