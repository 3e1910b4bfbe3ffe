package solver

import (
	"math"
	"math/rand"
	"testing"

	"seamwright/compiler/plane"
)

// turns are angles whose sines are not all rational, the last one no part of a
// circle at all.
var turns = []float64{math.Pi / 8, math.Pi / 6, math.Pi / 4, 1}

// TestTurned: turning a block changes no number.
func TestTurned(t *testing.T) {
	for k, f := range families {
		r := rand.New(rand.NewSource(int64(k)))
		for i := range 20 * *long {
			b := f.random(r, 4+r.Intn(40))
			want := numbers(t, b)
			for _, a := range turns {
				if got := numbers(t, b.turned(a)); got != want {
					t.Fatalf("%s, block %d turned by %g: %+v, not %+v\n%v", f.name, i, a, got, want, b)
				}
			}
		}
	}
}

// TestRounded: so does writing coordinates with nine digits.
func TestRounded(t *testing.T) {
	for k, f := range families {
		r := rand.New(rand.NewSource(int64(k)))
		for i := range 20 * *long {
			b := f.random(r, 4+r.Intn(40)).turned(1)
			want := numbers(t, b)
			for _, q := range append(b.faces, b.outline) {
				for j := range q {
					q[j] = plane.Point{X: math.Round(q[j].X*1e7) / 1e7, Y: math.Round(q[j].Y*1e7) / 1e7}
				}
			}
			if got := numbers(t, b); got != want {
				t.Fatalf("%s, block %d: %+v, not %+v\n%v", f.name, i, got, want, b)
			}
		}
	}
}

type counts struct {
	patches, seams, matches int
	unsewable, cycle, cure  int
	sections, bound, clique int
	proved                  bool
	pieces                  int // of the largest section
	levels                  int
}

func numbers(t *testing.T, b block) counts {
	t.Helper()
	p := Tile(b.outline, b.faces, 0)
	if len(p.Faults) > 0 {
		t.Fatalf("%+v\n%v", p.Faults, b)
	}
	// A wide gap between what is the same and what is not; the latter may be
	// small, where a seam bends a little between short sides.
	if p.Gap.NonZero < 10*plane.Tol || p.Gap.Zero > plane.Tol/2 || p.Gap.Area > 10*plane.Tol {
		t.Fatalf("gap %+v\n%v", p.Gap, b)
	}
	c := counts{patches: len(p.Patches), seams: len(p.Seams)}
	for _, q := range p.Points {
		if q.Role == Match {
			c.matches++
		}
	}
	w := p.Unsewable()
	if c.unsewable = len(w); len(w) > 0 {
		c.cycle, c.cure = len(w[0].Cycle), len(w[0].Cure)
	}
	plan := p.Plan(Wishes{})
	c.sections, c.bound, c.clique, c.proved, c.levels = plan.Least, plan.Bound, len(plan.Certificate), plan.Proved, plan.Depth
	return c
}
