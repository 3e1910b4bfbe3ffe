package solver

// percolation cuts a part along every chord, in whatever order they are found:
// that is safe (THEORY.md 2). No parts are kept, only which points are open. On
// one seam the open points always enclose a stretch that is cut already, so two
// numbers a seam say everything, and every edge is cut once.
type percolation struct {
	*work
	whole  []int32 // faces that no cut may separate
	low    []int32 // of a seam: least open position
	high   []int32
	active []int32 // of a seam: stamp
	cuts   int     // edges cut
}

func newPercolation(w *work) *percolation {
	n := len(w.seams)
	all := make([]int32, 3*n)
	return &percolation{work: w, low: all[:n], high: all[n : 2*n], active: all[2*n:]}
}

// run cuts a part until no chord is left, except along seams that would separate the faces
// of whole. The part
// stays entered: cut edges and open points are marked.
func (c *percolation) run(p part) {
	c.enter(p)
	c.queue, c.cuts = c.queue[:0], 0
	for _, f := range p {
		for _, h := range c.halves(f) {
			for _, v := range [2]int32{c.tail[h>>1], c.head[h>>1]} {
				if c.isOpen(v) {
					c.openSeam(c.seam[h>>1], v, int32(h>>1))
				}
			}
		}
	}
	for len(c.queue) > 0 {
		v := c.queue[len(c.queue)-1]
		c.queue = c.queue[:len(c.queue)-1]
		for _, r := range c.refsAt(v) {
			c.widen(r.seam, r.pos)
		}
	}
}

// openSeam tells a seam that v, an end of its edge e, is open.
func (c *percolation) openSeam(s, v, e int32) {
	if !c.isInner(e) {
		return
	}
	i := e - c.first[s]
	if v == c.head[e] {
		i++
	}
	c.widen(s, i)
}

// widen cuts a seam from its open stretch to the open position i.
func (c *percolation) widen(s, i int32) {
	if c.separates(s) {
		return
	}
	if c.active[s] != c.stamp {
		c.active[s], c.low[s], c.high[s] = c.stamp, i, i
		return
	}
	for c.low[s] > i {
		c.low[s]--
		c.cutTo(c.edge(s, c.low[s]), c.tail[c.edge(s, c.low[s])])
	}
	for c.high[s] < i {
		e := c.edge(s, c.high[s])
		c.high[s]++
		c.cutTo(e, c.head[e])
	}
}

// cutTo cuts an edge and opens the point it leads to.
func (c *percolation) cutTo(e, v int32) {
	c.cut[e] = c.stamp
	c.cuts++
	if !c.isOpen(v) {
		c.open[v] = c.stamp
		c.queue = append(c.queue, v)
	}
}

// separates reports whether a seam has faces of whole on both sides. The part
// that holds them is convex and its chords are straight, so a face's centre
// tells its side.
func (c *percolation) separates(s int32) bool {
	if len(c.whole) == 0 {
		return false
	}
	l := c.seams[s]
	first := l.side(c.centre[c.whole[0]]) > 0
	for _, f := range c.whole[1:] {
		if l.side(c.centre[f]) > 0 != first {
			return true
		}
	}
	return false
}

// closure returns the smallest part inside p that holds all the faces given. The
// block must be convex.
func (c *percolation) closure(p part, faces ...int32) part {
	c.whole = faces
	c.run(p)
	c.whole = nil
	return c.flood(nil, faces[0])
}
