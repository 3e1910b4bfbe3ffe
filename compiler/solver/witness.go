package solver

import "slices"

// Unsewable lists the parts that can't be taken apart by straight joins, each
// with a reason that can be drawn. An empty list is the proof that the block can
// be sewn. The cost is about linear.
func (p *Partition) Unsewable() []Witness { return p.unsewable(!p.tiled) }

func (p *Partition) unsewable(cure bool) []Witness {
	m := p.mesh
	if m == nil {
		return nil
	}
	c := percolate(m)
	if c.uncut == 0 {
		return nil
	}
	var found []Witness
	for e := range m.tail {
		f := m.left[e]
		if c.cut[e] == c.stamp || c.seen[f] == c.stamp {
			continue
		}
		leaf := c.flood(nil, f)
		slices.Sort(leaf)
		w := c.explain(leaf)
		w.Patches = ints(leaf)
		found = append(found, w)
	}
	if cure {
		for i := range found {
			if i < maxCures {
				p.cure(&found[i])
			}
		}
	}
	return found
}

// maxCures bounds the witnesses for which a cure is looked for.
const maxCures = 20

func ints(p part) []int {
	out := make([]int, len(p))
	for i, f := range p {
		out[i] = int(f)
	}
	return out
}

// explain finds why a leaf of the percolation has no chord: a point through which
// no seam runs, or a round of seams that stop inside each other.
func (c *percolation) explain(leaf part) Witness {
	var runs []run
	number := map[run]int{} // for look-up only
	point := int32(-1)
	for _, f := range leaf {
		for _, h := range c.halves(f) {
			e := int32(h >> 1)
			if h&1 != 0 || c.cut[e] == c.stamp {
				continue
			}
			r := c.runOf(c.seam[e], e-c.first[c.seam[e]])
			if _, known := number[r]; !known {
				number[r] = len(runs)
				runs = append(runs, r)
			}
		}
	}
	for _, r := range runs {
		for _, v := range c.stops(r) {
			if len(c.onwards(nil, v)) == 0 && (point < 0 || v < point) {
				point = v
			}
		}
	}
	if point >= 0 {
		return Witness{Point: int(point)}
	}
	return Witness{Point: -1, Cycle: c.shortestCycle(runs, number)}
}

// A run is an uncut stretch of a seam.
type run struct{ seam, from, to int32 }

// runOf returns the uncut stretch around the edge at a position.
func (c *percolation) runOf(s, i int32) run {
	switch {
	case c.high[s] < 0:
		return run{s, 0, c.last(s)}
	case i < c.low[s]:
		return run{s, 0, c.low[s]}
	}
	return run{s, c.high[s], c.last(s)}
}

// stops lists the ends of a run that lie inside the leaf.
func (c *percolation) stops(r run) []int32 {
	var ends []int32
	for _, v := range [2]int32{c.point(r.seam, r.from), c.point(r.seam, r.to)} {
		if !c.isOpen(v) {
			ends = append(ends, v)
		}
	}
	return ends
}

// onwards adds the runs that pass straight through a point.
func (c *percolation) onwards(list []run, v int32) []run {
	for _, r := range c.refsAt(v) {
		if *c.meets(r.seam, r.pos)&through != 0 {
			list = append(list, c.runOf(r.seam, r.pos))
		}
	}
	return list
}

// shortestCycle searches breadth first from every run in turn, no deeper than
// the best cycle so far. Every run stops inside some other, so there is one.
func (c *percolation) shortestCycle(runs []run, number map[run]int) []Run {
	next := make([][]stop, len(runs))
	for i, r := range runs {
		for _, v := range c.stops(r) {
			for _, t := range c.onwards(nil, v) {
				next[i] = append(next[i], stop{number[t], v})
			}
		}
	}
	var best []stop
	came, depth := make([]stop, len(runs)), make([]int, len(runs))
	for start := range runs {
		if len(best) == 3 {
			break // two lines can't stop inside each other
		}
		for i := range depth {
			depth[i] = -1
		}
		depth[start] = 0
		for queue := []int{start}; len(queue) > 0; queue = queue[1:] {
			at := queue[0]
			if best != nil && depth[at]+1 >= len(best) {
				break
			}
			for _, s := range next[at] {
				if s.run == start {
					best = trace(came, start, at, s.at)
					break
				}
				if depth[s.run] < 0 {
					depth[s.run], came[s.run] = depth[at]+1, stop{at, s.at}
					queue = append(queue, s.run)
				}
			}
		}
	}
	cycle := make([]Run, len(best))
	for i, s := range best {
		r := runs[s.run]
		a, b := c.point(r.seam, r.from), c.point(r.seam, r.to)
		if b != s.at {
			a, b = b, a
		}
		cycle[i] = Run{Seam: int(r.seam), From: int(a), To: int(b)}
	}
	return cycle
}

// A stop is a run, and the point at which it was left or reached.
type stop struct {
	run int
	at  int32
}

// trace lists the runs from start to last, each with the point where it stops;
// last stops at v.
func trace(came []stop, start, last int, v int32) []stop {
	list := []stop{{last, v}}
	for i := last; i != start; i = came[i].run {
		list = append(list, stop{came[i].run, came[i].at})
	}
	slices.Reverse(list)
	return list
}
