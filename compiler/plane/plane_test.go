package plane

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func point(t *rapid.T, name string) Point {
	g := rapid.Float64Range(-10, 10)
	return Point{g.Draw(t, name+".x"), g.Draw(t, name+".y")}
}

func motion(t *rapid.T, name string) Motion {
	turn := rapid.OneOf(rapid.Float64Range(-720, 720), rapid.SampledFrom([]float64{0, 90, -90, 180, 270, 450, 45, 22.5}))
	return Motion{rapid.Bool().Draw(t, name+".reversed"), turn.Draw(t, name+".turn"), point(t, name)}
}

func TestQuarterTurnsAreExact(t *testing.T) {
	p := Point{0.1, 1.0 / 3}
	for k := -8; k <= 8; k++ {
		q := Motion{Turn: 90 * float64(k)}.Apply(p)
		want := [4]Point{p, {-p.Y, p.X}, {-p.X, -p.Y}, {p.Y, -p.X}}[(k+8)%4]
		if q != want {
			t.Errorf("%d quarter turns take %v to %v, want %v", k, p, q, want)
		}
	}
}

func TestMotionsCompose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, p := motion(t, "m"), motion(t, "n"), point(t, "p")
		if a, b := m.After(n).Apply(p), m.Apply(n.Apply(p)); a.Dist(b) > 1e-12 {
			t.Fatalf("together %v, one by one %v", a, b)
		}
		if q := m.Inverse().Apply(m.Apply(p)); q.Dist(p) > 1e-12 {
			t.Fatalf("there and back %v, want %v", q, p)
		}
	})
}

// A reversed polygon is anticlockwise again and keeps its area.
func TestMoveKeepsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, m := star(t), motion(t, "m")
		if a, b := p.Area(), p.Move(m).Area(); math.Abs(a-b) > 1e-9 {
			t.Fatalf("area %v became %v", a, b)
		}
	})
}

// star draws a simple polygon, convex or not, about the origin.
func star(t *rapid.T) Polygon {
	n := rapid.IntRange(3, 12).Draw(t, "n")
	convex := rapid.Bool().Draw(t, "convex")
	p := make(Polygon, n)
	for i := range p {
		r := 3.0
		if !convex {
			r = rapid.Float64Range(1, 5).Draw(t, "r")
		}
		a := (float64(i) + rapid.Float64Range(0, 0.6).Draw(t, "a")) * 2 * math.Pi / float64(n)
		p[i] = Point{r * math.Cos(a), r * math.Sin(a)}
	}
	return p
}

// The oracle is the determinant in fractions.
func TestOrientIsExact(t *testing.T) {
	exact := func(a, b, c Point) int { return orientExact(a, b, c) }
	rapid.Check(t, func(t *rapid.T) {
		a, b := point(t, "a"), point(t, "b")
		k := rapid.Float64Range(-2, 2).Draw(t, "k")
		c := lerp(a, b, k) // as good as collinear: where rounding decides
		c.X = math.Nextafter(c.X, float64(rapid.IntRange(-1, 1).Draw(t, "nudge"))*math.Inf(1))
		if got, want := Orient(a, b, c), exact(a, b, c); got != want {
			t.Fatalf("Orient = %d, exactly %d", got, want)
		}
	})
	// A case whose sign naive floating point gets wrong, found by hand.
	a, b, c := Point{0.5, 0.5}, Point{12, 12}, Point{24, 24}
	a.X = math.Nextafter(a.X, 1)
	want := new(big.Float).Sub(big.NewFloat(a.X), big.NewFloat(a.Y)).Sign()
	if got := Orient(a, b, c); got != exact(a, b, c) || want == 0 {
		t.Errorf("Orient = %d, exactly %d", got, exact(a, b, c))
	}
}

func TestSideHasOneTolerance(t *testing.T) {
	l := Line{Point{0, 0}, Point{3, 4}}
	n := Point{-0.8, 0.6}
	for _, c := range []struct {
		off  float64
		want int
	}{{2 * Tol, 1}, {Tol / 2, 0}, {-Tol / 2, 0}, {-2 * Tol, -1}} {
		if got := l.Side(l.At(7).Add(n.Mul(c.off))); got != c.want {
			t.Errorf("a point %v off the line is on side %d, want %d", c.off, got, c.want)
		}
	}
}
