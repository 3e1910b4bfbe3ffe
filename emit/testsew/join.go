package testsew

import (
	"cmp"
	"math"
	"slices"
)

// A table is where finished sections are joined.
type table struct {
	in     *intent
	placed []placed
	group  []int // of each copy, the part it belongs to
	faults []string

	meets   []meeting
	points  int                // to match
	pinned  int                // pairs of marks
	pinMiss measure            // negative: the greatest distance between two marks of a pair
	joined  map[[2]int]float64 // of an edge of a copy, how much of it is joined
	order   map[[2]int]int     // and by which join first
	flat    map[[2]int]bool    // its allowance is pressed away from its section
}

// near is how far apart two points of a join may be that are meant to match:
// points nearer than 1/64 in are one in a block.
const near = 1.0 / 64

// pinned marks may be this far apart: 0.1 mm, ten times what is drawn.
const pinSlack = 0.004

// join sews all joins in order.
func (t *table) join() {
	t.group = make([]int, len(t.placed))
	for i := range t.group {
		t.group[i] = i
	}
	t.joined, t.order, t.flat = map[[2]int]float64{}, map[[2]int]int{}, map[[2]int]bool{}
	for i := range t.in.joins {
		t.one(&t.in.joins[i])
	}
	for i := range t.group {
		if t.group[i] != t.group[0] {
			t.fault("after the last join the block is still in parts: " + t.placed[i].name + " is not joined")
			break
		}
	}
	t.leftOver()
}

func (t *table) fault(text string) {
	if !slices.Contains(t.faults, text) {
		t.faults = append(t.faults, text)
	}
}

// A stretch is a part of a join that one copy's edge fills.
type stretch struct {
	copy, edge int
	from, to   float64
}

// stretches finds the edges of copies that face a line from one side: on the
// left of it, for edges run with their section on the left.
func (t *table) stretches(copies []int, l line) (out []stretch) {
	for _, c := range copies {
		p := &t.placed[c]
		for i := range p.outline {
			a, b := p.outline.side(i)
			if math.Abs(l.side(a)) < 2*fits && math.Abs(l.side(b)) < 2*fits && l.along(b) > l.along(a) {
				out = append(out, stretch{c, i, l.along(a), l.along(b)})
			}
		}
	}
	slices.SortFunc(out, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	return out
}

// one sews one join: two finished parts, edge to edge.
func (t *table) one(j *joint) {
	name := "join " + count(j.number)
	l := through(j.a, j.b)
	if len(j.left) == 0 || len(j.right) == 0 {
		t.fault(name + " has nothing on one side")
		return
	}
	left := t.part(j, j.left, l, j.press == "right")
	right := t.part(j, j.right, line{j.b, l.dir.mul(-1)}, j.press == "left")
	if left == right && j.begun == 0 {
		t.fault(name + " sews a part to itself")
	}
	switch {
	case j.begins > 0:
		t.begin(name, j)
	default:
		t.finish(name, j)
		t.pins(name, j)
		t.partners(name, j)
	}
	for i := range t.group {
		if t.group[i] == right {
			t.group[i] = left
		}
	}
}

// part checks that the sections on one side of a join are one finished part
// whose edge is as long as the join; flat tells that its allowance is pressed
// toward the other one. It returns the part.
func (t *table) part(j *joint, side []int, l line, flat bool) int {
	name, n := "join "+count(j.number), j.a.to(j.b)
	group := t.group[side[0]]
	var members []int
	for c := range t.placed {
		if t.group[c] == group {
			members = append(members, c)
		}
	}
	for _, c := range side {
		if t.group[c] != group {
			t.fault(name + ": " + t.placed[c].name + " and " + t.placed[side[0]].name + " are not joined to each other yet")
		}
	}
	reached := 0.0
	for _, s := range t.stretches(side, l) {
		if s.to < fits || s.from > n-fits {
			continue
		}
		from, to := s.from, s.to
		if j.begins > 0 { // it goes on beyond the stop
			from, to = max(from, 0), min(to, n)
		}
		if math.Abs(from-reached) > 2*fits {
			break
		}
		reached = to
		edge := [2]int{s.copy, s.edge}
		if j.begins == 0 { // else it is counted when it is finished
			t.joined[edge] += s.to - s.from
		}
		if _, sewn := t.order[edge]; !sewn {
			t.order[edge], t.flat[edge] = j.number, flat
		}
	}
	if math.Abs(reached-n) > 2*fits {
		t.fault(name + ": the edges of " + t.names(side) + " fill " + figure(reached) + " in of its " + figure(n) + " in")
	}
	for _, s := range t.stretches(members, l) {
		if j.begins > 0 {
			break // see begin
		}
		if s.from < -2*fits && s.to > -2*fits || s.to > n+2*fits && s.from < n+2*fits {
			t.fault(name + ": " + t.placed[s.copy].name + " reaches beyond the end of the seam, so the edges are not equally long")
		}
	}
	return group
}

func (t *table) names(copies []int) string {
	var out []string
	for _, c := range copies {
		if !slices.Contains(out, t.placed[c].name) {
			out = append(out, t.placed[c].name)
		}
	}
	return and(out)
}

// pins puts pins through the marks of both edges, and checks that every point
// where seams of both sides meet has a pin.
func (t *table) pins(name string, j *joint) {
	l, n := through(j.a, j.b), j.a.to(j.b)
	sides := [2][]stretch{t.stretches(j.left, l), t.opposite(j, l)}
	var marks, ends [2][]float64
	paper := [2]bool{true, true}
	for side := range sides {
		for _, s := range sides[side] {
			p := &t.placed[s.copy]
			marks[side] = append(marks[side], p.marksOn(l, s)...)
			for _, q := range p.seams {
				if at := l.along(q); math.Abs(l.side(q)) < 2*fits && at > s.from-2*fits && at < s.to+2*fits {
					ends[side] = append(ends[side], at)
				}
			}
			paper[side] = paper[side] && p.paper
		}
	}
	if paper[0] && paper[1] {
		for side := range sides {
			for _, s := range sides[side] {
				t.pinned += side * len(t.placed[s.copy].marksOn(l, s))
				t.pin(name, l, s, marks[1-side])
			}
		}
	}
	var points []float64
	for _, e := range ends[0] {
		if e < near || e > n-near || nearest(e, points) < near || nearest(e, ends[1]) > near {
			continue
		}
		points = append(points, e)
		t.points++
		t.meets = append(t.meets, t.meeting(j, l, n, e))
		for side := range marks {
			if paper[side] && nearest(e, marks[side]) > pinSlack {
				t.fault(name + ": seams of both sides meet " + figure(e) + " in from its start, and " + t.names([2][]int{j.left, j.right}[side]) + " has no match mark there")
			}
		}
		if d := nearest(e, ends[1]); d > pinSlack {
			t.fault(name + ": the seams that meet " + figure(e) + " in from its start are " + figure(d) + " in apart")
		}
	}
	told := len(j.points)
	if j.begun > 0 {
		told += len(t.in.joins[j.begun-1].points)
	}
	if len(points) != told {
		t.fault(name + ": " + count(len(points)) + " points match, pattern.json says " + count(told))
	}
}

// opposite returns the stretches on the right of a join, measured from its start.
func (t *table) opposite(j *joint, l line) []stretch {
	n := j.a.to(j.b)
	out := t.stretches(j.right, line{j.b, l.dir.mul(-1)})
	for i := range out {
		out[i].from, out[i].to = n-out[i].to, n-out[i].from
	}
	return out
}

// marksOn returns where the marks of a stretch lie along a join.
func (p *placed) marksOn(l line, s stretch) (out []float64) {
	for _, m := range p.marks {
		at := l.along(m.at)
		if math.Abs(l.side(m.at)) < 2*fits && math.Abs(m.out.dot(l.dir)) < square && at > s.from-2*fits && at < s.to+2*fits {
			out = append(out, at)
		}
	}
	return out
}

// square is the cosine above which a mark does not stand square to its edge.
const square = 0.1

// pin compares the marks of one stretch with those opposite: each has its
// counterpart, and they fall on each other.
func (t *table) pin(name string, l line, s stretch, opposite []float64) {
	p := &t.placed[s.copy]
	own := p.marksOn(l, s)
	apart := func(m float64, others []float64, told string) {
		switch d := nearest(m, others); {
		case d > near:
			t.fault(name + ": " + told + " " + figure(m) + " in from the join's start")
		default:
			t.pinMiss.add(-d, name)
			if d > pinSlack {
				t.fault(name + ": the match marks " + figure(m) + " in from its start are " + figure(d) + " in apart")
			}
		}
	}
	for _, m := range own {
		apart(m, opposite, "no match mark lies opposite that of "+p.name)
	}
	for _, m := range opposite {
		if m > s.from-2*fits && m < s.to+2*fits {
			apart(m, own, "section "+p.name+" has no match mark")
		}
	}
}

func nearest(x float64, in []float64) float64 {
	best := math.Inf(1)
	for _, y := range in {
		best = min(best, math.Abs(x-y))
	}
	return best
}

// leftOver finds edges that no join has sewn and that are not on the border.
func (t *table) leftOver() {
	for c := range t.placed {
		p := &t.placed[c]
		for i := range p.outline {
			a, b := p.outline.side(i)
			m := a.mid(b)
			border := false
			for k := range t.in.outline {
				q, r := t.in.outline.side(k)
				border = border || fromSegment(m, q, r) < 2*fits
			}
			if !border && math.Abs(t.joined[[2]int{c, i}]-a.to(b)) > 4*fits {
				t.fault("an edge of section " + p.name + ", " + figure(a.to(b)) + " in long, is never joined")
			}
		}
	}
}
