package plane

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
)

// The tests of this file compare with an independent library,
// peterstace/simplefeatures, on seeded random polygons, convex or not.

// cases is how many are compared.
func cases() uint64 {
	if testing.Short() {
		return 300
	}
	return 3000
}

func randomPolygon(rng *rand.Rand) Polygon {
	n, convex := 3+rng.IntN(12), rng.IntN(3) == 0
	p := make(Polygon, n)
	for i := range p {
		r := 4.0
		if !convex {
			r = 0.5 + 4.5*rng.Float64()
		}
		a := (float64(i) + 0.7*rng.Float64()) * 2 * math.Pi / float64(n)
		p[i] = Point{r * math.Cos(a), r * math.Sin(a)}
	}
	if rng.IntN(2) == 0 { // on a grid, where many things fall together
		for i := range p {
			p[i] = Point{math.Round(p[i].X), math.Round(p[i].Y)}
		}
		if p = p.Corners(); len(p) < 3 || !p.Simple() || p.Area() < 0.5 {
			return randomPolygon(rng)
		}
	}
	return p
}

func toGeom(t testing.TB, p Polygon) geom.Geometry {
	t.Helper()
	var flat []float64
	for _, q := range append(p[:len(p):len(p)], p[0]) {
		flat = append(flat, q.X, q.Y)
	}
	poly := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(flat, geom.DimXY))})
	if err := poly.Validate(); err != nil {
		t.Fatalf("%v: %v", err, p)
	}
	return poly.AsGeometry()
}

func half(l Line) Polygon {
	d := l.Dir().Mul(1000)
	n := Point{-d.Y, d.X}
	m := l.A.Mid(l.B)
	return Polygon{m.Sub(d), m.Add(d), m.Add(d).Add(n), m.Sub(d).Add(n)}
}

func sameArea(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-7 {
		t.Errorf("%s: %v, the library says %v", what, got, want)
	}
}

func TestPolygonsAgreeWithLibrary(t *testing.T) {
	for seed := range cases() {
		rng := rand.New(rand.NewPCG(seed, 1))
		p, q := randomPolygon(rng), randomPolygon(rng)
		g, h := toGeom(t, p), toGeom(t, q)
		sameArea(t, "area", p.Area(), g.Area())
		sameArea(t, "length", p.Length(), g.Boundary().Length())
		if both, err := geom.Intersection(g, h); err == nil {
			sameArea(t, "overlap", Overlap(p, q), both.Area())
		} else {
			t.Error(err)
		}
		sum := 0.0
		for _, tri := range p.Triangles() {
			sum += tri.Area()
		}
		sameArea(t, "triangles", sum, g.Area())
		sameArea(t, "hull", p.Hull().Area(), g.ConvexHull().Area())
		for range 8 {
			x := Point{10*rng.Float64() - 5, 10*rng.Float64() - 5}
			if rng.IntN(3) == 0 {
				x = Point{math.Round(x.X), math.Round(x.Y)}
			}
			if want := located(t, g, p, x); p.Locate(x) != want {
				t.Errorf("%v is at %d of %v, the library says %d", x, p.Locate(x), p, want)
			}
		}
		if in := p.Interior(); located(t, g, p, in) != 1 {
			t.Errorf("%v is not inside %v", in, p)
		}
	}
}

// located asks the library whether a point lies inside.
func located(t testing.TB, g geom.Geometry, p Polygon, x Point) int {
	pt := geom.XY{X: x.X, Y: x.Y}.AsPoint().AsGeometry()
	if d, ok := geom.Distance(pt, g.Boundary()); ok && d <= Tol {
		return 0
	}
	in, err := geom.Contains(g, pt)
	if err != nil {
		t.Fatal(err)
	}
	if in {
		return 1
	}
	return -1
}

// Cutting along all chords of a line leaves the two sides of that line.
func TestCutsAgreeWithLibrary(t *testing.T) {
	chords, several := 0, 0
	for seed := range cases() {
		rng := rand.New(rand.NewPCG(seed, 2))
		p := randomPolygon(rng)
		l := Line{Point{8*rng.Float64() - 4, 8*rng.Float64() - 4}, Point{8*rng.Float64() - 4, 8*rng.Float64() - 4}}
		switch rng.IntN(4) {
		case 0: // along a side
			l = p.Side(rng.IntN(len(p)))
		case 1: // through corners
			l = Line{p[rng.IntN(len(p))], p[rng.IntN(len(p))]}
		}
		if l.Len() < 0.5 {
			continue
		}
		f := Face{p, make([]int32, len(p)), p.Convex()}
		cs := f.Chords(l, nil)
		chords += len(cs)
		if len(cs) > 1 {
			several++
		}
		left, right, length := 0.0, 0.0, 0.0
		for _, part := range cutAll(f, l) {
			if !part.Corners.Simple() {
				t.Errorf("seed %d: a part crosses itself: %v", seed, part.Corners)
			}
			if part.Beyond(l) > 0 {
				left += part.Corners.Area()
			} else {
				right += part.Corners.Area()
			}
		}
		for i, c := range cs {
			length += c.From.At.Dist(c.To.At)
			if l.Along(c.To.At) <= l.Along(c.From.At) || i > 0 && l.Along(c.From.At) < l.Along(cs[i-1].To.At)-Tol {
				t.Errorf("seed %d: chords out of order", seed)
			}
		}
		g := toGeom(t, p)
		one, err := geom.Intersection(g, toGeom(t, half(l)))
		if err != nil {
			t.Fatal(err)
		}
		sameArea(t, "left of the line", left, one.Area())
		sameArea(t, "right of the line", right, g.Area()-one.Area())
	}
	if chords < 1000*int(cases())/3000 || several < 100*int(cases())/3000 {
		t.Errorf("only %d chords, %d times more than one: the cases are too easy", chords, several)
	}
}

func cutAll(f Face, l Line) []Face {
	cs := f.Chords(l, nil)
	if len(cs) == 0 {
		return []Face{f}
	}
	a, b := f.Split(cs[0], 1, 2)
	return append(cutAll(a, l), cutAll(b, l)...)
}

// The width against trying every direction there is.
func TestWidthIsLeast(t *testing.T) {
	for seed := range cases() / 10 {
		rng := rand.New(rand.NewPCG(seed, 3))
		p := randomPolygon(rng)
		least := math.Inf(1)
		for i := range 3600 {
			s, c := math.Sincos(float64(i) * math.Pi / 3600)
			low, high := math.Inf(1), math.Inf(-1)
			for _, q := range p {
				d := q.Dot(Point{c, s})
				low, high = min(low, d), max(high, d)
			}
			least = min(least, high-low)
		}
		if w := p.Width(); w > least+1e-9 || w < least*0.99 {
			t.Errorf("width %v, trying directions finds %v: %v", w, least, p)
		}
	}
}

// The cloud against comparing every pair.
func TestCloudFindsNearest(t *testing.T) {
	for seed := range cases() / 10 {
		rng := rand.New(rand.NewPCG(seed, 5))
		var pts []Point
		for range 60 {
			p := Point{4 * rng.Float64(), 4 * rng.Float64()}
			pts = append(pts, p)
			if rng.IntN(3) == 0 { // the same again, as rounding leaves it
				pts = append(pts, p.Add(Point{1e-13 * rng.NormFloat64(), 1e-13 * rng.NormFloat64()}))
			}
		}
		const near = 0.05
		cell := []float64{0.01, 0.3, 2}[rng.IntN(3)]
		c := NewCloud(cell, near, 4)
		nearest, pairs, different := math.Inf(1), 0, 0
		for i, p := range pts {
			if id := c.Add(p); !c.Points[id].Same(p) {
				t.Fatalf("%v became %v", p, c.Points[id])
			}
			if !slices.ContainsFunc(pts[:i], p.Same) {
				different++
			}
		}
		if len(c.Points) != different {
			t.Errorf("%d different points, not %d", len(c.Points), different)
		}
		for i, p := range c.Points {
			for _, q := range c.Points[:i] {
				d := p.Dist(q)
				nearest = min(nearest, d)
				if d < near {
					pairs++
				}
			}
		}
		if len(c.Near) != pairs || nearest < max(cell, near) && c.Nearest() != nearest || c.Same() > 1e-11 {
			t.Errorf("%d pairs of %d, nearest %v of %v, same %v", len(c.Near), pairs, c.Nearest(), nearest, c.Same())
		}
	}
}

// Polygons of random corners mostly cross themselves.
func TestSimpleAgreesWithLibrary(t *testing.T) {
	simple := 0
	for seed := range cases() {
		rng := rand.New(rand.NewPCG(seed, 6))
		p := make(Polygon, 3+rng.IntN(4))
		for i := range p {
			p[i] = Point{float64(rng.IntN(6)), float64(rng.IntN(6))}
		}
		flat := make([]float64, 0, 2*len(p)+2)
		for _, q := range append(p[:len(p):len(p)], p[0]) {
			flat = append(flat, q.X, q.Y)
		}
		poly := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(flat, geom.DimXY))})
		valid := poly.Validate() == nil
		for i := range p { // a corner given twice is the library's to allow, not ours
			valid = valid && p[i] != p[(i+1)%len(p)]
		}
		if p.Simple() != valid {
			t.Errorf("simple %v, the library says %v: %v", p.Simple(), valid, p)
		}
		if valid {
			simple++
		}
	}
	if simple < int(cases())/20 {
		t.Errorf("only %d simple ones", simple)
	}
}
