package cutting

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/compiler/pattern"
)

// withoutWaste cuts strips of 40 in up without any waste: their heights together are
// the optimum, by construction.
func withoutWaste(r *rand.Rand) (needs []Need, optimum pattern.Length) {
	eighths := func(from, to int) pattern.Length { return pattern.Length(from+r.IntN(to-from)) / 8 }
	for range 2 + r.IntN(5) {
		height, left, times := eighths(12, 80), pattern.Length(40), 1+r.IntN(6)
		optimum += height * pattern.Length(times)
		for left > 0 {
			w := eighths(12, 96)
			if left-w < 1.5 {
				w = left
			}
			needs = append(needs, Need{pattern.Size{W: w, H: height}, times})
			left -= w
		}
	}
	return needs, optimum
}

// columns solves the program of an order and plans by it.
func columns(needs []Need, width, step pattern.Length) (bound pattern.Length, all []Strip) {
	p := newProgram(needs, width, step)
	bound = p.solve()
	return bound, p.plan(bound)
}

// covers reports whether strips hold every patch, each strip within the width.
func covers(t *testing.T, all []Strip, needs []Need, width pattern.Length) {
	have := map[pattern.Size]int{}
	for _, s := range all {
		var area pattern.Length
		for _, c := range s.Cuts {
			if c.Size.H > s.Height+noise {
				t.Fatalf("%v is higher than its strip of %v", c.Size, s.Height)
			}
			per := pattern.Length(c.Count)
			if s.Times > 1 {
				per = pattern.Length((c.Count + s.Times - 1) / s.Times)
			}
			area += per * c.Size.W
			have[pattern.Size{W: max(c.Size.W, c.Size.H), H: min(c.Size.W, c.Size.H)}] += c.Count
		}
		if area > width+noise {
			t.Fatalf("a strip takes %v of %v: %+v", area, width, s)
		}
	}
	want := map[pattern.Size]int{}
	for _, n := range needs {
		want[pattern.Size{W: max(n.Size.W, n.Size.H), H: min(n.Size.W, n.Size.H)}] += n.Count
	}
	for size, n := range want {
		if have[size] != n {
			t.Fatalf("%d of %v, want %d", have[size], size, n)
		}
	}
}

// The bound is no more than the optimum, the plan no less, and on average within
// 2 % of it.
func TestPlansWithoutWaste(t *testing.T) {
	const cases = 40
	r, over := rand.New(rand.NewPCG(7, 7)), 0.0
	for range cases {
		needs, optimum := withoutWaste(r)
		bound, all := columns(needs, 40, 0.125)
		covers(t, all, needs, 40)
		if bound > optimum+1e-6 || total(all) < optimum-1e-6 || math.Abs(float64(bound-optimum)) > 1e-4*float64(optimum) {
			t.Errorf("bound %v, optimum %v, plan %v", bound, optimum, total(all))
		}
		over += float64(total(all)/optimum-1) / cases
	}
	t.Logf("%.2f %% over the optimum on average of %d", 100*over, cases)
	if over > 0.02 {
		t.Errorf("plans take %.2f %% more than the optimum on average", 100*over)
	}
}

// A plan saves a step where mixing does, tells what is wasted, and is the same every
// time.
func TestPlan(t *testing.T) {
	set := reckoned(40, 0)
	for range 3 {
		r := rand.New(rand.NewPCG(3, 3))
		needs, optimum := withoutWaste(r)
		c := Plan(needs, nil, set)
		if c.Buy > Buy(needs, nil, set).Buy || c.Least > optimum+1e-6 || c.Least < optimum-1e-3 || c.Waste < 0 || c.Waste > 0.5 {
			t.Errorf("%+v, optimum %v", c, optimum)
		}
		if d := cmp.Diff(c, Plan(needs, nil, set)); d != "" {
			t.Error(d)
		}
	}
}
