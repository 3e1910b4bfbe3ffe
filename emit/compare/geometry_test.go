package compare

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"
)

// ringed draws a convex polygon: points on an ellipse, anticlockwise.
func ringed(t *rapid.T, name string) []point {
	n := rapid.IntRange(3, 8).Draw(t, name)
	x, y := rapid.Float64Range(0, 4).Draw(t, name+" x"), rapid.Float64Range(0, 4).Draw(t, name+" y")
	w, h := rapid.Float64Range(0.5, 3).Draw(t, name+" w"), rapid.Float64Range(0.5, 3).Draw(t, name+" h")
	var ps []point
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ps = append(ps, point{x + w*cos, y + h*sin})
	}
	return ps
}

func judged(t *rapid.T, ps []point) geom.Geometry {
	var b strings.Builder
	b.WriteString("POLYGON((")
	for _, p := range append(ps[:len(ps):len(ps)], ps[0]) {
		if b.Len() > 10 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "%.17g %.17g", p[0], p[1])
	}
	g, err := geom.UnmarshalWKT(b.String() + "))")
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The area in common and the middle are those of an independent geometry library.
func TestSharedAreaAgainstAnotherLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := ringed(t, "a"), ringed(t, "b")
		both, err := geom.Intersection(judged(t, a), judged(t, b))
		if err != nil {
			t.Skip(err)
		}
		if got, want := shared(a, b), both.Area(); math.Abs(got-want) > 1e-6 {
			t.Fatalf("shared %v, want %v", got, want)
		}
		c, _ := judged(t, a).Centroid().XY()
		if got := centroid(a); math.Hypot(got[0]-c.X, got[1]-c.Y) > 1e-6 {
			t.Fatalf("centroid %v, want %v", got, c)
		}
	})
}

// A polygon moved by a step is that far apart from where it was, at the most.
func TestApart(t *testing.T) {
	square := []point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
	for _, c := range []struct {
		other []point
		want  float64
	}{
		{square, 0},
		{[]point{{0.5, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}, 0}, // begun elsewhere, with a corner more
		{[]point{{0, 0}, {1.25, 0}, {1.25, 1}, {0, 1}}, 0.25},
		{[]point{{0, 0}, {1, 0}, {1, 0.5}, {0, 1}}, 0.5},
	} {
		if got := apart(square, c.other); math.Abs(got-c.want) > 0.06 { // a slant is nearer than its ends
			t.Errorf("apart from %v: %v, want %v", c.other, got, c.want)
		}
	}
}
