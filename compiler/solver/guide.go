package solver

// A guide makes a plan of the whole block from what is known of its pieces. The
// pieces were solved each for itself, and their sections might not be sewable to
// each other; so it cuts the block itself, chord by chord, and takes those chords
// that cost no piece anything. Only where there is none it pays: it takes the one
// that costs least.
type guide struct {
	*search
	block   *work   // the whole block, with the cuts made
	probe   *work   // to try sections
	label   []int32 // of a face: its section
	piece   []int32
	parts   []part // what is left of the pieces; nil where it was divided again
	answers []answer
	start   int // the first of the part that is being cut
	opened  []int32
	waiting []offer
}

// An offer is a chord of the block, what it would do to the pieces, and how many
// sections more that would make.
type offer struct {
	chord
	price int
	cuts  []pieceCut
}

type pieceCut struct {
	piece int32
	sides [2]part
}

// newGuide returns a guide for a block with some cuts made.
func newGuide(s *search, block *work) *guide {
	g := &guide{search: s, block: block, probe: newWork(s.mesh),
		label: make([]int32, s.faces()), piece: make([]int32, s.faces())}
	for k := range g.piece {
		g.piece[k] = -1
	}
	return g
}

// sewable reports whether the sections of a part can be sewn to each other.
func (g *guide) sewable(p part, sections []part) bool {
	for i, s := range sections {
		for _, f := range s {
			g.label[f] = int32(i)
		}
	}
	w := g.probe
	w.enter(p)
	uncut := 0
	var opened []int32
	for _, f := range p {
		for _, h := range w.halves(f) {
			if h&1 == 0 && w.isInner(int32(h>>1)) && g.label[f] != g.label[w.other(h)] {
				uncut++
			}
			if v := w.begin(h); w.isOpen(v) {
				opened = append(opened, v)
			}
		}
	}
	for len(opened) > 0 {
		v := opened[len(opened)-1]
		opened = opened[:len(opened)-1]
		for _, r := range w.refsAt(v) {
			for _, c := range [2]chord{w.run(r, -1, g.label), w.run(r, 1, g.label)} {
				for i := c.from; i < c.to; i++ {
					w.cut[w.edge(c.seam, i)] = w.stamp
					uncut--
					if u := w.point(c.seam, i); i > c.from {
						w.open[u] = w.stamp
						opened = append(opened, u)
					}
				}
			}
		}
	}
	return uncut == 0
}

// carry cuts a part of the block, given as its pieces, until nothing but sections
// is left, and returns them.
func (g *guide) carry(pieces []part) []part {
	g.start = len(g.parts)
	for _, p := range pieces {
		g.put(p, false)
	}
	for _, p := range pieces {
		for _, f := range p {
			for _, h := range g.halves(f) {
				if v := g.begin(h); g.block.isOpen(v) {
					g.opened = append(g.opened, v)
				}
			}
		}
	}
	for g.spread() || g.pay() {
	}
	g.waiting = g.waiting[:0]
	var list []part
	for _, p := range g.parts[g.start:] {
		if p != nil {
			list = append(list, p)
		}
	}
	return list
}

// effort is how often every face of a piece may be looked at to solve it: enough
// to be exact for pieces of twenty faces or so.
const effort = 50

// put takes in what is left of a piece. If it had to be cut otherwise than was
// best, it is worth another search.
func (g *guide) put(p part, again bool) {
	for _, q := range g.pieces(p) {
		for _, f := range q {
			g.piece[f] = int32(len(g.parts))
		}
		a := g.solve(q, anything)
		if g.spent = g.visited + effort*len(q); again {
			a = g.best(q)
		}
		g.parts, g.answers = append(g.parts, q), append(g.answers, a)
	}
}

// spread tries the chords at every point that was opened.
func (g *guide) spread() bool {
	some := len(g.opened) > 0
	for len(g.opened) > 0 {
		v := g.opened[len(g.opened)-1]
		g.opened = g.opened[:len(g.opened)-1]
		for _, r := range g.refsAt(v) {
			for _, c := range [2]chord{g.block.run(r, -1, nil), g.block.run(r, 1, nil)} {
				if c.to == 0 || !g.here(c) {
					continue
				}
				if o := g.offer(c); o.price <= 0 {
					g.take(o)
				} else {
					g.waiting = append(g.waiting, o)
				}
			}
		}
	}
	return some
}

// here reports whether a chord runs through the part that is being cut.
func (g *guide) here(c chord) bool {
	e := g.edge(c.seam, c.from)
	return int(g.piece[g.left[e]]) >= g.start && int(g.piece[g.right[e]]) >= g.start
}

// offer works out what a chord costs.
func (g *guide) offer(c chord) offer {
	o := offer{chord: c}
	for i := c.from; i < c.to; i++ {
		e := g.edge(c.seam, i)
		k := g.piece[g.left[e]]
		if k != g.piece[g.right[e]] || o.divides(k) {
			continue
		}
		a, b := g.divide(g.parts[k], c)
		if len(b) == 0 {
			continue
		}
		if g.rules != nil && !g.rules.allows(a, b) {
			return offer{chord: c, price: never}
		}
		o.price = min(o.price+g.price(k, c, a, b), never)
		o.cuts = append(o.cuts, pieceCut{k, [2]part{a, b}})
	}
	return o
}

func (o offer) divides(k int32) bool {
	for _, c := range o.cuts {
		if c.piece == k {
			return true
		}
	}
	return false
}

// divide cuts a piece along a chord of the block.
func (g *guide) divide(p part, c chord) (a, b part) {
	g.enter(p)
	g.mark(c)
	for i := c.from; i < c.to; i++ {
		if f := g.left[g.edge(c.seam, i)]; g.in[f] == g.stamp && g.seen[f] != g.stamp {
			a = g.flood(a, f)
		}
	}
	return a, g.without(p, a)
}

// guessFaces is up to how many faces a piece is solved to know what a cut costs.
// Where a larger one is cut otherwise than planned, one section more is assumed.
const guessFaces = 40

// price returns how many sections more it makes to cut a piece in two.
func (g *guide) price(k int32, c chord, a, b part) int {
	was := g.answers[k]
	if was.step == cutting && was.cut.seam == c.seam && g.planned(k, c, was.cut) {
		return 0
	}
	if was.step == cutting && len(a)+len(b) > guessFaces {
		return 1
	}
	g.spent = g.visited + effort*(len(a)+len(b))
	x := g.solve(a, was.cost-max(1, g.marks(b)))
	y := g.solve(b, was.cost-x.cost)
	if x.cost+y.cost < never {
		return x.cost + y.cost - was.cost
	}
	return max(1, x.least+y.least-was.cost)
}

// planned reports whether a chord of the block cuts the same edges of a piece as
// the cut that the piece's own plan begins with.
func (g *guide) planned(k int32, c, cut chord) bool {
	for i := c.from; i < c.to; i++ {
		e := g.edge(c.seam, i)
		if inside := i >= cut.from && i < cut.to; !inside && g.piece[g.left[e]] == k && g.piece[g.right[e]] == k {
			return false
		}
	}
	return cut.from >= c.from && cut.to <= c.to
}

// take cuts the block along a chord.
func (g *guide) take(o offer) {
	g.block.mark(o.chord)
	for i := o.from + 1; i < o.to; i++ {
		v := g.point(o.seam, i)
		g.block.open[v] = g.block.stamp
		g.opened = append(g.opened, v)
	}
	for _, x := range o.cuts {
		g.parts[x.piece] = nil
		g.put(x.sides[0], o.price > 0)
		g.put(x.sides[1], o.price > 0)
	}
}

// pay goes through the chords that were too dear. It takes those that have become
// free; if there are none and the block is not yet done, the one that costs least
// and, of those, has most edges that are wanted. It reports whether it took any.
func (g *guide) pay() bool {
	waiting, took := g.waiting[:0], false
	best, most := offer{price: never}, 0
	for _, o := range g.waiting {
		if !g.entire(o.chord) {
			continue
		}
		if g.stale(o) {
			o = g.offer(o.chord)
		}
		if o.price <= 0 {
			g.take(o)
			took = true
			continue
		}
		waiting = append(waiting, o)
		if n := g.wanted(o.chord); !took && n > 0 && (o.price < best.price || o.price == best.price && n > most) {
			best, most = o, n
		}
	}
	g.waiting = waiting
	if took || best.price == never || g.finished() {
		return took
	}
	g.take(best)
	return true
}

// stale reports whether a piece that an offer divides has changed.
func (g *guide) stale(o offer) bool {
	for _, x := range o.cuts {
		if g.parts[x.piece] == nil {
			return true
		}
	}
	return false
}

// entire reports whether a chord has neither been cut nor divided.
func (g *guide) entire(c chord) bool {
	for i := c.from; i < c.to; i++ {
		if !g.block.isInner(g.edge(c.seam, i)) || i > c.from && g.block.isOpen(g.point(c.seam, i)) {
			return false
		}
	}
	return true
}

// wanted counts the edges of a chord that must be cut some time or may have to be.
func (g *guide) wanted(c chord) int {
	n := 0
	for i := c.from; i < c.to; i++ {
		e := g.edge(c.seam, i)
		if k := g.piece[g.left[e]]; k != g.piece[g.right[e]] || !g.section(k) {
			n++
		}
	}
	return n
}

// section reports whether a piece is to be one section.
func (g *guide) section(k int32) bool {
	return g.answers[k].step == whole && g.answers[k].cost < never
}

// finished reports whether all pieces are sections with nothing uncut between.
func (g *guide) finished() bool {
	for k, p := range g.parts[g.start:] {
		if p != nil && !g.section(int32(g.start+k)) {
			return false
		}
		for _, f := range p {
			for _, h := range g.halves(f) {
				if g.block.isInner(int32(h>>1)) && g.piece[f] != g.piece[g.other(h)] {
					return false
				}
			}
		}
	}
	return true
}
