package solver

import (
	"math"
	"slices"
	"testing"
	"time"

	"seamwright/compiler/plane"
)

// convex reports whether polygons that don't overlap make one convex area: their
// hull has no more area than they have.
func convex(list []plane.Polygon) bool {
	var points []plane.Point
	area := 0.0
	for _, q := range list {
		points = append(points, q...)
		area += q.Area()
	}
	return math.Abs(hull(points).Area()-area) < 1e-6*(1+area)
}

// beside reports whether polygons lie on one side of a line (1 left, -1 right),
// and how far along it they touch it.
func beside(list []plane.Polygon, a, b plane.Point, side float64) (ok bool, low, high float64) {
	d := b.Sub(a).Mul(1 / b.Dist(a))
	low, high = math.Inf(1), math.Inf(-1)
	for _, q := range list {
		for _, p := range q {
			off := side * d.Cross(p.Sub(a))
			if off < -1e-6 {
				return false, 0, 0
			}
			if off < 1e-6 {
				low, high = min(low, d.Dot(p.Sub(a))), max(high, d.Dot(p.Sub(a)))
			}
		}
	}
	return true, low, high
}

// checkLarge follows a plan of a convex block with nothing but areas and hulls:
// every part that is sewn is convex, and every seam runs right along it, with
// what it joins on either side.
func checkLarge(t *testing.T, p *Partition, plan Plan) {
	t.Helper()
	seen := make([]bool, len(p.Patches))
	sections := make([][]plane.Polygon, len(plan.Sections))
	for i, s := range plan.Sections {
		var done []plane.Polygon
		for k, f := range s.Patches {
			if seen[f] {
				t.Fatalf("patch %d is sewn twice", f)
			}
			seen[f] = true
			q := p.Polygon(f)
			if k > 0 {
				seam(t, done, []plane.Polygon{q}, s.Seams[k].B, s.Seams[k].A)
			}
			if done = append(done, q); len(s.Patches) < 100 && !convex(done) {
				t.Fatalf("section %d is not convex after %d patches", i, k+1)
			}
		}
		if !convex(done) {
			t.Fatalf("section %d is not convex", i)
		}
		sections[i] = done
	}
	if i := slices.Index(seen, false); i >= 0 {
		t.Fatalf("patch %d is left out", i)
	}
	if len(plan.Joins) != len(sections)-1 {
		t.Fatalf("%d joins for %d sections", len(plan.Joins), len(sections))
	}
	whole := make([]int, len(sections)) // of a section: the last join it went through
	for i, j := range plan.Joins {
		var sides [2][]plane.Polygon
		for k, list := range [2][]int{j.Left, j.Right} {
			for _, s := range list {
				if whole[s] != whole[list[0]] {
					t.Fatalf("join %d: a side isn't finished", i)
				}
				sides[k] = append(sides[k], sections[s]...)
			}
			if !convex(sides[k]) {
				t.Fatalf("join %d: a side is not convex", i)
			}
			for _, s := range list {
				whole[s] = i + 1
			}
		}
		seam(t, sides[1], sides[0], j.B, j.A)
	}
}

// seam checks that b is sewn to a along the whole line from p to q, which has a on
// its left.
func seam(t *testing.T, a, b []plane.Polygon, p, q plane.Point) {
	t.Helper()
	ok, low, high := beside(a, p, q, 1)
	ok2, low2, high2 := beside(b, p, q, -1)
	if n := p.Dist(q); !ok || !ok2 || math.Abs(low)+math.Abs(low2)+math.Abs(high-n)+math.Abs(high2-n) > 1e-5 {
		t.Fatalf("the seam %v %v is no seam: %v %v, %g to %g and %g to %g of %g", p, q, ok, ok2, low, high, low2, high2, n)
	}
}

func TestLargePlans(t *testing.T) {
	for _, e := range benchmarks() {
		if e.size > 1100 {
			continue
		}
		t.Run(e.name, func(t *testing.T) {
			b := e.make()
			p := Build(b.outline, b.lines(), 0)
			if len(p.Faults) > 0 || len(p.Patches) != len(b.faces) {
				t.Fatalf("%d patches of %d, faults %+v", len(p.Patches), len(b.faces), p.Faults)
			}
			plan := p.Plan(Wishes{})
			checkLarge(t, p, plan)
			if plan.Bound > plan.Least || len(plan.Certificate) > plan.Bound {
				t.Fatalf("%d sections, bound %d, certificate %d", plan.Least, plan.Bound, len(plan.Certificate))
			}
			if e.proved && !plan.Proved {
				t.Fatalf("%d sections, bound %d", plan.Least, plan.Bound)
			}
			if e.size <= 100 {
				checkCertificate(t, p, plan.Certificate)
			}
			t.Logf("%d patches, %d sections, bound %d, certificate %d, depth %d",
				len(p.Patches), plan.Least, plan.Bound, len(plan.Certificate), plan.Depth)
		})
	}
}

// checkCertificate cuts, for every two patches of a certificate, the block down to
// the smallest part that cutting leaves around both, and tries to build that part
// patch by patch.
func checkCertificate(t *testing.T, p *Partition, certificate []int) {
	t.Helper()
	for i, f := range certificate {
		for _, g := range certificate[:i] {
			in := map[int]bool{}
			for k := range p.Patches {
				in[k] = true
			}
			for cutAway(p, in, f, g) {
			}
			for peelOne(p, in) {
			}
			if len(in) == 1 {
				t.Fatalf("patches %d and %d of the certificate can share a section", f, g)
			}
		}
	}
}

// cutAway cuts a part along some seam that doesn't separate f and g, and drops the
// side without them.
func cutAway(p *Partition, in map[int]bool, f, g int) bool {
	open := map[int]bool{}
	inner := func(e int) bool { return in[p.Edges[e].Left] && in[p.Edges[e].Right] }
	for e := range p.Edges {
		if !inner(e) && (in[p.Edges[e].Left] || in[p.Edges[e].Right]) {
			open[p.Edges[e].From], open[p.Edges[e].To] = true, true
		}
	}
	for _, s := range p.Seams {
		cut := map[int]bool{}
		for i, v := range s.Points {
			if open[v] {
				if side := flood(p, in, cut, f); len(cut) > 0 && len(side) < len(in) && side[g] {
					for k := range in {
						if !side[k] {
							delete(in, k)
						}
					}
					return true
				}
				clear(cut)
			}
			if e := s.First + i; i+1 < len(s.Points) && inner(e) {
				cut[e] = true
			}
		}
	}
	return false
}

func flood(p *Partition, in, cut map[int]bool, f int) map[int]bool {
	side, todo := map[int]bool{f: true}, []int{f}
	for len(todo) > 0 {
		f, todo = todo[0], todo[1:]
		for _, e := range p.Patches[f].Edges {
			if g := p.across(e, f); g >= 0 && in[g] && !cut[e] && !side[g] {
				side[g] = true
				todo = append(todo, g)
			}
		}
	}
	return side
}

// peelOne takes a patch off a convex part that has neighbours along one seam only.
func peelOne(p *Partition, in map[int]bool) bool {
	for f := range p.Patches {
		seams := map[int]bool{}
		for _, e := range p.Patches[f].Edges {
			if g := p.across(e, f); g >= 0 && in[g] {
				seams[p.Edges[e].Seam] = true
			}
		}
		if in[f] && len(seams) == 1 {
			delete(in, f)
			return true
		}
	}
	return false
}

// Thousands of crossing seams with wishes: a limit that is tried in vain must end
// the search and not repeat it, and no piece of thousands of patches be looked at
// for every cut.
func TestWishesOfLargeBlocks(t *testing.T) {
	for _, b := range []block{largeRandom(4000, 0, 50), latticeRandom(4000, 50), diagonals(44)} {
		p := Tile(b.outline, b.faces, 0)
		w := sheetWishes(len(p.Patches))
		begin := time.Now()
		plan := p.Plan(w)
		if took := time.Since(begin); took > 30*time.Second { // less than one on a quiet machine
			t.Errorf("it took %v", took)
		}
		checkLarge(t, p, plan)
		for i, s := range plan.Sections {
			if over := len(s.Patches) > w.MaxPieces || !w.Fits(s.Outline); over != slices.Contains(plan.Over, i) {
				t.Errorf("section %d of %d patches: over is %v", i, len(s.Patches), !over)
			}
		}
		if n := len(p.Patches); len(plan.Sections) > max(plan.Least*11/10, n/15) {
			t.Errorf("%d patches: %d sections, %d would do but for the wishes", n, len(plan.Sections), plan.Least)
		}
	}
}
