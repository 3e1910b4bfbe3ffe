package solver

// percolation cuts the whole block along every chord, in whatever order they are
// found: that is safe (THEORY.md 2). No parts are kept, only which points are
// open. On one seam the open points always enclose a stretch that is cut already,
// so two numbers a seam say everything, and every edge is cut once.
type percolation struct {
	*work
	low    []int32 // of a seam: least open position
	high   []int32 // greatest; -1 while no point of the seam is open
	uncut  int     // edges left
	opened []int32 // points whose seams have not been told
}

// percolate returns the block with every possible cut made. All faces are entered:
// cut edges and open points are marked.
func percolate(m *mesh) *percolation {
	n := len(m.seams)
	both := make([]int32, 2*n)
	c := &percolation{work: newWork(m), low: both[:n], high: both[n:], uncut: len(m.tail)}
	for s := range c.high {
		c.high[s] = -1
	}
	c.enter(m.all())
	for v, outer := range m.border {
		if outer {
			c.opened = append(c.opened, int32(v))
		}
	}
	for len(c.opened) > 0 {
		v := c.opened[len(c.opened)-1]
		c.opened = c.opened[:len(c.opened)-1]
		for _, r := range c.refsAt(v) {
			c.widen(r.seam, r.pos)
		}
	}
	return c
}

// widen cuts a seam from its open stretch to the open position i.
func (c *percolation) widen(s, i int32) {
	if c.high[s] < 0 {
		c.low[s], c.high[s] = i, i
		return
	}
	for c.low[s] > i {
		c.low[s]--
		e := c.edge(s, c.low[s])
		c.cutTo(e, c.tail[e])
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
	c.uncut--
	if !c.isOpen(v) {
		c.open[v] = c.stamp
		c.opened = append(c.opened, v)
	}
}
