package solver

import (
	"flag"
	"fmt"
	"math"
	"math/bits"
	"math/rand"
	"slices"
	"testing"

	"seamwright/compiler/plane"
)

var long = flag.Int("long", 1, "how many times as many random blocks to compare with the exhaustive search")

// TestAgainstOracle holds everything that is claimed of small random blocks to a
// search that tries everything.
func TestAgainstOracle(t *testing.T) {
	for k, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewSource(int64(k)))
			var unsewable, gaps, widest, ill, cured int
			sections, sizes := map[int]int{}, map[int]int{}
			for i := range 250 * *long {
				most := 3 + r.Intn(7)
				if i%10 == 0 {
					most = 11
				}
				b := f.random(r, most)
				c := checker{t: t, name: fmt.Sprintf("block %d", i), block: b}
				c.check()
				sizes[len(b.faces)]++
				sections[c.want]++
				if c.want == 0 {
					unsewable++
				} else if n := c.plan.Bound - len(c.plan.Certificate); n > 0 && c.p.mesh.convex {
					gaps, widest = gaps+1, max(widest, n)
				}
				ill, cured = ill+c.ill, cured+c.cured
			}
			t.Logf("sizes %v, sections %v, unsewable %d (%d witnesses, %d cured), certificates smaller than the minimum %d (by %d)",
				sizes, sections, unsewable, ill, cured, gaps, widest)
		})
	}
}

// A checker compares one block's solution with the oracle's.
type checker struct {
	t     *testing.T
	name  string
	block block
	p     *Partition
	o     *oracle
	want  int
	plan  Plan
	ill   int // witnesses
	cured int
}

func (c *checker) failf(format string, args ...any) {
	c.t.Helper()
	c.t.Fatalf("%s: %s\noutline %v\nfaces %v", c.name, fmt.Sprintf(format, args...), c.block.outline, c.block.faces)
}

func (c *checker) check() {
	c.t.Helper()
	c.p = Tile(c.block.outline, c.block.faces, 0)
	if len(c.p.Faults) > 0 {
		c.failf("faults %+v", c.p.Faults)
	}
	c.o = newOracle(c.block.faces)
	c.want = c.o.solve()
	w := c.p.Unsewable()
	if c.want == 0 != (len(w) > 0) {
		c.failf("oracle %d, witnesses %v", c.want, w)
	}
	c.plan = c.p.Plan(Wishes{})
	if c.want == 0 {
		for _, x := range w {
			c.witness(x)
			c.cure(x)
		}
		c.ill = len(w)
		if len(c.plan.Sections) > 0 {
			c.failf("a plan for what can't be sewn")
		}
		return
	}
	if c.plan.Least != c.want || !c.plan.Proved || c.plan.Bound != c.want || len(c.plan.Sections) != c.want {
		c.failf("oracle %d, plan %+v", c.want, c.plan)
	}
	c.sewn(c.plan)
	c.certificate()
}

// sewn follows a plan step by step.
func (c *checker) sewn(plan Plan) {
	c.t.Helper()
	seen := uint(0)
	done := map[uint]bool{} // finished parts
	sets := make([]uint, len(plan.Sections))
	for i, s := range plan.Sections {
		set := uint(0)
		for k, f := range s.Patches {
			if seen&(1<<f) != 0 {
				c.failf("patch %d is in two sections", f)
			}
			seen |= 1 << f
			if k > 0 {
				if !c.o.adds(set, f) {
					c.failf("section %d: patch %d can't be added", i, f)
				}
				c.seam(s.Seams[k], set, f)
			}
			set |= 1 << f
		}
		sets[i], done[set] = set, true
		if a := s.Outline.Area() - c.area(set); math.Abs(a) > 1e-6 {
			c.failf("section %d: outline is off by %g", i, a)
		}
		firsts := setOf(c.p.Firsts(s.Patches))
		if firsts != c.o.firsts[set] {
			c.failf("section %d: firsts %b, oracle %b", i, firsts, c.o.firsts[set])
		}
		for _, f := range c.p.Firsts(s.Patches) {
			again := c.p.Begin(plan.Sections, map[int]int{i: f})
			if got := again[i].Patches; got[0] != f || setOf(got) != set {
				c.failf("section %d from %d: %+v", i, f, again[i])
			}
		}
	}
	if seen != 1<<len(c.block.faces)-1 {
		c.failf("patches left out: %b", seen)
	}
	depth := 0
	for i, j := range plan.Joins {
		var side [2]uint
		for k, list := range [2][]int{j.Left, j.Right} {
			for _, s := range list {
				side[k] |= sets[s]
			}
			if !done[side[k]] {
				c.failf("join %d: a side isn't finished", i)
			}
			delete(done, side[k])
		}
		l, ok := c.o.join(side[0], side[1])
		if !ok {
			c.failf("join %d can't be sewn straight", i)
		}
		if l.A.Dist(j.A)+l.B.Dist(j.B) > 1e-5 && l.A.Dist(j.B)+l.B.Dist(j.A) > 1e-5 {
			c.failf("join %d: line %v, oracle %v", i, plane.Line{A: j.A, B: j.B}, l)
		}
		if f := c.block.faces[plan.Sections[j.Left[0]].Patches[0]]; c.p.mesh.convex && j.B.Sub(j.A).Cross(middle(f).Sub(j.A)) < 0 {
			c.failf("join %d: left and right are exchanged", i)
		}
		done[side[0]|side[1]] = true
		depth = max(depth, j.Level)
	}
	if least := c.depth(sets); len(done) != 1 || depth != plan.Depth || depth != least {
		c.failf("%d parts are left, depth %d of %d, least %d", len(done), depth, plan.Depth, least)
	}
}

// depth returns the least depth of joins that sections can be sewn with.
func (c *checker) depth(sections []uint) int {
	n := len(sections)
	union, least := make([]uint, 1<<n), make([]int, 1<<n)
	for s := 1; s < 1<<n; s++ {
		low := bits.TrailingZeros(uint(s))
		if union[s] = union[s&(s-1)] | sections[low]; s&(s-1) == 0 {
			continue
		}
		least[s] = n
		for a := (s - 1) & s; a != 0; a = (a - 1) & s {
			if d := 1 + max(least[a], least[s&^a]); d < least[s] {
				if _, ok := c.o.join(union[a], union[s&^a]); ok {
					least[s] = d
				}
			}
		}
	}
	return least[1<<n-1]
}

// seam checks a piece's seam: the stretch that it shares with the section so far,
// with the piece on its left.
func (c *checker) seam(s plane.Line, set uint, f int) {
	l, _ := c.o.join(set, 1<<f)
	if l.A.Dist(s.A)+l.B.Dist(s.B) > 1e-5 && l.A.Dist(s.B)+l.B.Dist(s.A) > 1e-5 {
		c.failf("seam of %d: %v, oracle %v", f, s, l)
	}
	if s.B.Sub(s.A).Cross(middle(c.block.faces[f]).Sub(s.A)) <= 0 {
		c.failf("patch %d is not left of its seam", f)
	}
}

func (c *checker) area(set uint) float64 {
	a := 0.0
	for i, f := range c.block.faces {
		if set&(1<<i) != 0 {
			a += f.Area()
		}
	}
	return a
}

// certificate tries every section that the oracle knows for two patches of the
// certificate.
func (c *checker) certificate() {
	c.t.Helper()
	cert := setOf(c.plan.Certificate)
	for set, ok := range c.o.section {
		if both := uint(set) & cert; ok && c.o.linked[set] && both&(both-1) != 0 && c.o.reachable(uint(set)) {
			c.failf("patches %b of the certificate share section %b", both, set)
		}
	}
}

// witness checks that nothing of the part can be cut, and that the reason holds.
func (c *checker) witness(w Witness) {
	c.t.Helper()
	part := setOf(w.Patches)
	if c.o.divisible(part) {
		c.failf("the part of the witness %v can be cut", w)
	}
	if w.Point >= 0 {
		at := c.p.Points[w.Point].Point
		for _, d := range c.directions(at) {
			for _, e := range c.directions(at) {
				if math.Abs(d.Cross(e)) < 1e-6 && d.Dot(e) < 0 {
					c.failf("a seam runs straight through the witness %v", at)
				}
			}
		}
		return
	}
	if len(w.Cycle) < 3 {
		c.failf("cycle %v", w.Cycle)
	}
	for i, r := range w.Cycle {
		next := w.Cycle[(i+1)%len(w.Cycle)]
		at := c.p.Points[r.To].Point
		l := plane.Line{A: c.p.Points[next.From].Point, B: c.p.Points[next.To].Point}
		if t := l.Along(at); math.Abs(l.Offset(at)) > 1e-6 || t < testMin/2 || t > l.Len()-testMin/2 {
			c.failf("run %d of %v does not stop inside the next", i, w.Cycle)
		}
	}
}

// cure draws a witness's extensions into the whole block: then nothing of its part
// is left in trouble.
func (c *checker) cure(w Witness) {
	c.t.Helper()
	var lines []plane.Line
	for _, f := range c.block.faces {
		for k := range f {
			lines = append(lines, f.Side(k))
		}
	}
	before := Build(c.block.outline, lines, 0)
	again := before.Unsewable()
	for _, v := range again {
		part := newTracer(before).polygon(v.Patches)
		if len(v.Cure) == 0 || part.Locate(middle(c.block.faces[w.Patches[0]])) < 0 {
			continue
		}
		c.cured++
		longer := slices.Clone(lines)
		for _, x := range v.Cure {
			if len(v.Cure) == 1 && lines[x.Line].Nearest(x.From).Dist(x.From) > 1e-6 {
				c.failf("line %d does not reach to the cure %v", x.Line, x)
			}
			longer = append(longer, plane.Line{A: x.From, B: x.To})
		}
		after := Build(c.block.outline, longer, 0)
		for _, left := range after.Unsewable() {
			for _, f := range left.Patches {
				if part.Locate(middle(after.Polygon(f))) > 0 {
					c.failf("cure %v leaves %v", v.Cure, left)
				}
			}
		}
	}
}

// directions lists the unit vectors along the faces' sides at a point.
func (c *checker) directions(at plane.Point) []plane.Point {
	var list []plane.Point
	for _, f := range c.block.faces {
		for k := range f {
			s := f.Side(k)
			if s.Nearest(at).Dist(at) > testTol {
				continue
			}
			for _, q := range [2]plane.Point{s.A, s.B} {
				if d := q.Sub(at); d.Len() > testTol {
					list = append(list, d.Mul(1/d.Len()))
				}
			}
		}
	}
	return list
}
