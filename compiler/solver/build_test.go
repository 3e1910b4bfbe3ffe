package solver

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/plane"
)

func pt(x, y float64) plane.Point { return plane.Point{X: x, Y: y} }

func box(w, h float64) plane.Polygon { return plane.Polygon{pt(0, 0), pt(w, 0), pt(w, h), pt(0, h)} }

func seg(a, b, c, d float64) plane.Line { return plane.Line{A: pt(a, b), B: pt(c, d)} }

// rhombi are three diamonds that make a hexagon: no seam runs through its middle.
func rhombi() []plane.Line {
	c, s := 0.5, math.Sqrt(3)/2
	return []plane.Line{seg(0, 0, 1, 0), seg(0, 0, -c, s), seg(0, 0, -c, -s)}
}

func hexagon() plane.Polygon {
	c, s := 0.5, math.Sqrt(3)/2
	return plane.Polygon{pt(1, 0), pt(c, s), pt(-c, s), pt(-1, 0), pt(-c, -s), pt(c, -s)}
}

// pinwheel is four rectangles around a square.
func pinwheel() []plane.Line {
	return []plane.Line{seg(1, 0, 1, 2), seg(0, 2, 2, 2), seg(2, 3, 2, 1), seg(3, 1, 1, 1)}
}

func TestPatches(t *testing.T) {
	for _, c := range []struct {
		name                   string
		outline                plane.Polygon
		lines                  []plane.Line
		patches, seams, points int
		idle                   []int
	}{
		{"nothing drawn", box(4, 4), nil, 1, 0, 4, nil},
		{"one line", box(4, 4), []plane.Line{seg(2, 0, 2, 4)}, 2, 1, 6, nil},
		{"a line over the outline", box(4, 4), []plane.Line{seg(2, -3, 2, 9)}, 2, 1, 6, nil},
		{"a cross", box(4, 4), []plane.Line{seg(2, 0, 2, 4), seg(0, 2, 4, 2)}, 4, 2, 9, nil},
		{"a cross of four lines that meet", box(4, 4), []plane.Line{seg(2, 0, 2, 2), seg(2, 2, 2, 4), seg(0, 2, 2, 2), seg(2, 2, 4, 2)}, 4, 2, 9, nil},
		{"overlapping lines", box(4, 4), []plane.Line{seg(2, 0, 2, 3), seg(2, 4, 2, 1)}, 2, 1, 8, nil},
		{"a line drawn twice, one outside, one on the outline", box(4, 4),
			[]plane.Line{seg(2, 0, 2, 4), seg(2, 4, 2, 0), seg(5, 0, 5, 4), seg(0, 0, 4, 0)}, 2, 1, 6, []int{1, 2, 3}},
		{"four lines through one point", box(4, 4),
			[]plane.Line{seg(0, 0, 4, 4), seg(0, 4, 4, 0), seg(2, 0, 2, 4), seg(0, 2, 4, 2)}, 8, 4, 9, nil},
		{"an outline that is not convex breaks a seam",
			plane.Polygon{pt(0, 0), pt(4, 0), pt(4, 4), pt(3, 2), pt(1, 2), pt(0, 4)}, []plane.Line{seg(0, 2, 4, 2)}, 3, 2, 8, nil},
	} {
		slices.Reverse(c.outline) // either sense is taken
		p := Build(c.outline, c.lines, 0)
		if len(p.Faults) > 0 || len(p.Patches) != c.patches || len(p.Seams) != c.seams || len(p.Points) != c.points || !slices.Equal(p.Idle, c.idle) {
			t.Errorf("%s: %d patches, %d seams, %d points, idle %v, faults %+v", c.name,
				len(p.Patches), len(p.Seams), len(p.Points), p.Idle, p.Faults)
		}
		consistent(t, p)
	}
}

// consistent checks what the types promise.
func consistent(t interface {
	Helper()
	Fatalf(string, ...any)
}, p *Partition) {
	t.Helper()
	sides := make([]int, len(p.Edges))
	for f, a := range p.Patches {
		if len(a.Points) != len(a.Edges) || math.Abs(p.Polygon(f).Area()-a.Area) > 1e-9*(1+a.Area) || a.Area <= 0 {
			t.Fatalf("patch %d: %+v", f, a)
		}
		for i, e := range a.Edges {
			u, v := a.Points[i], a.Points[(i+1)%len(a.Points)]
			x := p.Edges[e]
			if !(x.Left == f && x.From == u && x.To == v) && !(x.Right == f && x.From == v && x.To == u) {
				t.Fatalf("patch %d, side %d: edge %+v", f, i, x)
			}
			sides[e]++
		}
	}
	for e, x := range p.Edges {
		if x.Seam >= 0 && sides[e] != 2 || x.Seam < 0 && sides[e] != 1 {
			t.Fatalf("edge %d %+v has %d patches", e, x, sides[e])
		}
	}
	next := 0
	for s, x := range p.Seams {
		if x.First != next {
			t.Fatalf("seam %d: first edge %d, not %d", s, x.First, next)
		}
		for i := range x.Points[1:] {
			if e := p.Edges[x.First+i]; e.Seam != s || e.From != x.Points[i] || e.To != x.Points[i+1] {
				t.Fatalf("seam %d, edge %d: %+v", s, i, e)
			}
		}
		next += len(x.Points) - 1
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name    string
		outline plane.Polygon
		lines   []plane.Line
		want    []Fault // kind, place, line; for loose ends where to go
	}{
		{"a loose end", box(4, 4), []plane.Line{seg(2, 0, 2, 3)},
			[]Fault{{Kind: LooseEnd, At: pt(2, 3), Line: 0, Nearest: pt(2, 4), Ahead: pt(2, 4), Back: pt(2, 0), Distance: 1}}},
		{"two loose ends", box(4, 4), []plane.Line{seg(2, 0, 2, 3), seg(0, 1, 4, 1), seg(4, 3, 3, 2.5)},
			[]Fault{
				{Kind: LooseEnd, At: pt(2, 3), Line: 0, Nearest: pt(2, 4), Ahead: pt(2, 4), Back: pt(2, 1), Distance: 1},
				{Kind: LooseEnd, At: pt(3, 2.5), Line: 2, Nearest: pt(4, 2.5), Ahead: pt(0, 1), Back: pt(4, 3), Distance: 1},
			}},
		{"a line that touches nothing", box(4, 4), []plane.Line{seg(1, 1, 2, 2)},
			[]Fault{{Kind: Floating, At: pt(1, 1), Line: 0, Nearest: pt(1, 0), Distance: 1}}},
		{"a square that touches nothing", box(4, 4), []plane.Line{seg(1, 1, 2, 1), seg(2, 1, 2, 2), seg(2, 2, 1, 2), seg(1, 2, 1, 1)},
			[]Fault{{Kind: Floating, At: pt(1, 1), Line: 0, Nearest: pt(1, 0), Distance: 1}}},
		{"a line with a bend", box(4, 4), []plane.Line{seg(2, 0, 2, 2), seg(2, 2, 4, 3)},
			[]Fault{{Kind: NotConvex, At: pt(2, 2), Line: 0}}},
		{"a line of no length", box(4, 4), []plane.Line{seg(2, 0, 2, 4), seg(1, 1, 1, 1)},
			[]Fault{{Kind: NoLength, At: pt(1, 1), Line: 1}}},
		{"no outline", nil, nil, []Fault{{Kind: BadOutline, Line: -1}}},
		{"a flat outline", plane.Polygon{pt(0, 0), pt(1, 0), pt(2, 0)}, nil, []Fault{{Kind: BadOutline, Line: -1}}},
		{"an outline that crosses itself", plane.Polygon{pt(0, 0), pt(4, 4), pt(4, 0), pt(0, 5)}, nil, []Fault{{Kind: BadOutline, At: pt(20.0/9, 20.0/9), Line: -1}}},
		{"an outline that touches itself", plane.Polygon{pt(0, 0), pt(4, 0), pt(2, 2), pt(4, 4), pt(0, 4), pt(2, 2)}, nil, []Fault{{Kind: BadOutline, At: pt(2, 2), Line: -1}}},
		{"numbers out of range", box(4, 4), []plane.Line{seg(0, 2, math.Inf(1), 2), seg(math.NaN(), 0, 1, 1), seg(1, 0, 1, 4e7)},
			[]Fault{{Kind: Unresolved, Line: 0}, {Kind: Unresolved, Line: 1}, {Kind: Unresolved, Line: 2}}},
	} {
		p := Build(c.outline, c.lines, 0.02)
		if len(p.Faults) != len(c.want) {
			t.Errorf("%s: %+v", c.name, p.Faults)
			continue
		}
		for i, f := range p.Faults {
			w := c.want[i]
			if f.Kind != w.Kind || f.Line != w.Line || f.At.Dist(w.At) > 1e-9 || f.Nearest.Dist(w.Nearest) > 1e-9 ||
				f.Ahead.Dist(w.Ahead) > 1e-9 || f.Back.Dist(w.Back) > 1e-9 || math.Abs(f.Distance-w.Distance) > 1e-9 {
				t.Errorf("%s: %+v, not %+v", c.name, f, w)
			}
		}
		if plan := p.Plan(Wishes{}); len(plan.Sections) > 0 {
			t.Errorf("%s: a plan in spite of faults", c.name)
		}
	}
}

// TestTooMany: a drawing whose lines cross millions of times is refused.
func TestTooMany(t *testing.T) {
	var lines []plane.Line
	for i := range 2500 {
		x := 4 * (float64(i) + 0.5) / 2500
		lines = append(lines, seg(x, 0, x, 4), seg(0, x, 4, x))
	}
	if p := Build(box(4, 4), lines, 0); len(p.Faults) != 1 || p.Faults[0].Kind != TooMany || len(p.Plan(Wishes{}).Sections) > 0 {
		t.Errorf("%+v", p.Faults)
	}
}

func TestTileFaults(t *testing.T) {
	square := func(x, y, w, h float64) plane.Polygon {
		return plane.Polygon{pt(x, y), pt(x+w, y), pt(x+w, y+h), pt(x, y+h)}
	}
	for _, c := range []struct {
		name     string
		polygons []plane.Polygon
		kind     FaultKind
		a, b     int
		area     float64
	}{
		{"a gap", []plane.Polygon{square(0, 0, 2, 4), square(3, 0, 1, 4)}, Uncovered, -1, -1, 4},
		{"an overlap", []plane.Polygon{square(0, 0, 3, 4), square(2, 0, 2, 4)}, Overlap, 0, 1, 4},
		{"the same twice", []plane.Polygon{square(0, 0, 4, 4), square(0, 0, 4, 4)}, Overlap, 0, 1, 16},
		{"one beyond the outline", []plane.Polygon{square(0, 0, 2, 4), square(2, 0, 3, 4)}, Outside, 1, -1, 4},
		{"one far away", []plane.Polygon{square(0, 0, 4, 4), square(9, 9, 1, 1)}, Outside, 1, -1, 1},
	} {
		p := Tile(box(4, 4), c.polygons, 0)
		if len(p.Faults) == 0 {
			t.Errorf("%s: no fault", c.name)
			continue
		}
		if f := p.Faults[0]; f.Kind != c.kind || f.Line != c.a || f.Other != c.b || math.Abs(f.Area-c.area) > 1e-9 {
			t.Errorf("%s: %+v", c.name, f)
		}
	}
}

func TestNear(t *testing.T) {
	// Two ends that were meant to meet, 1/200 apart; a line that ends a little
	// beside another; a seam that is a little bent.
	for _, c := range []struct {
		name     string
		lines    []plane.Line
		distance float64
	}{
		{"ends", []plane.Line{seg(0, 0, 2, 2), seg(2, 2.005, 2, 4)}, 0.005},
		{"an end beside a line", []plane.Line{seg(0, 2, 4, 2), seg(1, 0, 1, 1.996)}, 0.004},
		{"an end beyond a line", []plane.Line{seg(0, 2, 4, 2), seg(1, 0, 1, 2.004)}, 0.004},
		{"a bend", []plane.Line{seg(0, 2, 2, 2.003), seg(2, 2.003, 4, 2)}, 0.003},
	} {
		p := Build(box(4, 4), c.lines, 1.0/64)
		if len(p.Near) != 1 || math.Abs(p.Near[0].Distance-c.distance) > 1e-6 {
			t.Errorf("%s: %+v", c.name, p.Near)
		}
		if math.Abs(p.Gap.NonZero-c.distance) > 1e-6 {
			t.Errorf("%s: gap %+v", c.name, p.Gap)
		}
	}
	p := Build(box(4, 4), []plane.Line{seg(0, 2, 2, 2+4e-7), seg(2, 2, 4, 2)}, 1.0/64)
	if len(p.Near) > 0 || len(p.Faults) > 0 || math.Abs(p.Gap.Zero-4e-7) > 1e-9 || p.Gap.NonZero < 0.5 {
		t.Errorf("points within the tolerance: %+v", p)
	}
}

func TestWitnesses(t *testing.T) {
	p := Build(hexagon(), rhombi(), 0)
	w := p.Unsewable()
	if len(w) != 1 || w[0].Point < 0 || p.Points[w[0].Point].Dist(pt(0, 0)) > 1e-9 || len(w[0].Patches) != 3 ||
		len(w[0].Cure) != 1 || w[0].Cure[0].Cuts != 1 {
		t.Errorf("three diamonds: %+v", w)
	}
	p = Build(box(3, 3), pinwheel(), 0)
	w = p.Unsewable()
	if len(w) != 1 || w[0].Point >= 0 || len(w[0].Cycle) != 4 || len(w[0].Patches) != 5 || len(w[0].Cure) != 1 ||
		w[0].Cure[0].From.Dist(w[0].Cure[0].To) > 1+1e-9 {
		t.Errorf("pinwheel: %+v", w)
	}
	// A seam right through breaks the cycle: its lines stop inside each other
	// all the same, but they can be cut.
	cut := Build(box(3, 3), append(pinwheel(), seg(1.5, 0, 1.5, 3)), 0)
	if w := cut.Unsewable(); len(w) > 0 {
		t.Errorf("pinwheel cut in two: %+v", w)
	}
	// A bent line is reported as a patch that is not convex, with its cure.
	p = Build(box(4, 4), []plane.Line{seg(2, 0, 2, 2), seg(2, 2, 4, 3)}, 0)
	w = p.Unsewable()
	if len(w) != 1 || w[0].Point < 0 || len(w[0].Cure) != 1 {
		t.Fatalf("bent line: %+v", w)
	}
	if q := Build(box(4, 4), []plane.Line{seg(2, 0, 2, 2), seg(2, 2, 4, 3), {A: w[0].Cure[0].From, B: w[0].Cure[0].To}}, 0); len(q.Faults) > 0 || len(q.Unsewable()) > 0 {
		t.Errorf("bent line, cured by %+v: %+v", w[0].Cure, q.Faults)
	}
}

// TestLinesAndPolygons: the same block, given as the lines that were drawn, or as
// its patches, has the same patches.
func TestLinesAndPolygons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := families[rapid.IntRange(0, len(families)-1).Draw(t, "family")]
		r := rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed")))
		b := f.random(r, rapid.IntRange(2, 30).Draw(t, "patches"))
		tiled := Tile(b.outline, b.faces, 0)
		if len(tiled.Faults) > 0 {
			t.Fatalf("%+v", tiled.Faults)
		}
		consistent(t, tiled)
		var lines []plane.Line
		for _, s := range tiled.Seams {
			lines = append(lines, plane.Line{A: tiled.Points[s.Points[0]].Point, B: tiled.Points[s.Points[len(s.Points)-1]].Point})
		}
		p := Build(b.outline, lines, 0)
		if len(p.Faults) > 0 || len(p.Patches) != len(b.faces) || len(p.Seams) != len(tiled.Seams) || len(p.Idle) > 0 {
			t.Fatalf("%d patches of %d, %d seams of %d, idle %v, %+v", len(p.Patches), len(b.faces), len(p.Seams), len(tiled.Seams), p.Idle, p.Faults)
		}
		consistent(t, p)
		var inside []plane.Point
		for _, q := range b.faces {
			inside = append(inside, middle(q))
		}
		seen := make([]bool, len(p.Patches))
		for i, s := range p.Locate(inside) {
			if s.Patch < 0 || seen[s.Patch] || math.Abs(p.Patches[s.Patch].Area-b.faces[i].Area()) > 1e-6 {
				t.Fatalf("patch %d: %+v", i, s)
			}
			seen[s.Patch] = true
			if d := b.faces[i].Nearest(inside[i]).Dist(inside[i]); math.Abs(d-s.Distance) > 1e-9 {
				t.Fatalf("patch %d: distance %g, not %g", i, s.Distance, d)
			}
		}
	})
}

func TestLocateOutside(t *testing.T) {
	p := Build(box(4, 4), []plane.Line{seg(2, 0, 2, 4)}, 0)
	for i, s := range p.Locate([]plane.Point{pt(-1, 2), pt(2, 5), pt(math.NaN(), 1), pt(2, 1), pt(1, 1)}) {
		switch {
		case i < 3 && (s.Patch != -1 || s.Edge != -1):
			t.Errorf("point %d: %+v", i, s)
		case i == 3 && (s.Distance > 1e-9 || p.Edges[s.Edge].Seam != 0):
			t.Errorf("on the seam: %+v", s)
		case i == 4 && (s.Patch < 0 || s.Distance != 1):
			t.Errorf("inside: %+v", s)
		}
	}
}

// TestNoPanic draws anything at all.
func TestNoPanic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.OneOf(rapid.Float64Range(-1, 5), rapid.Map(rapid.IntRange(-1, 5), func(i int) float64 { return float64(i) }),
			rapid.Float64Range(2, 2.00001))
		point := rapid.Custom(func(t *rapid.T) plane.Point { return pt(number.Draw(t, "x"), number.Draw(t, "y")) })
		outline := plane.Polygon(rapid.OneOf(rapid.Just([]plane.Point(box(4, 4))), rapid.SliceOfN(point, 0, 7)).Draw(t, "outline"))
		var lines []plane.Line
		for _, q := range rapid.SliceOfN(rapid.SliceOfN(point, 2, 2), 0, 12).Draw(t, "lines") {
			lines = append(lines, plane.Line{A: q[0], B: q[1]})
		}
		p := Build(outline, lines, 0.01)
		p.Unsewable()
		plan := p.Plan(Wishes{MaxPieces: 3})
		if len(p.Faults) == 0 && len(p.Unsewable()) == 0 {
			if len(plan.Sections) == 0 || len(plan.Joins) != len(plan.Sections)-1 {
				t.Fatalf("%+v", plan)
			}
			consistent(t, p)
		}
		p.Locate([]plane.Point{point.Draw(t, "place")})
	})
}
