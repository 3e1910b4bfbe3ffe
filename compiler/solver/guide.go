package solver

// A guide makes a plan of the whole block from what is known of its pieces. The
// pieces were solved each for itself, and their sections might not be sewable to
// each other; so it cuts the block itself, chord by chord, and takes those chords
// that cost no piece anything. Only where there is none it pays: it takes the one
// that costs least.
type guide struct {
	*search
	outer   []bool // of a point: on a border, as everything is cut now
	done    []bool // of an edge: cut
	piece   []int32
	parts   []part // what is left of the pieces; nil where it was divided again
	answers []answer
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

// carry cuts the block until nothing but sections is left, and returns them.
func (s *search) carry(pieces []part) []part {
	g := &guide{search: s, outer: make([]bool, len(s.at)), done: make([]bool, len(s.tail)),
		piece: make([]int32, s.faces())}
	for _, p := range pieces {
		g.put(p)
	}
	for v, on := range s.border {
		if on {
			g.open(int32(v))
		}
	}
	for g.spread() || g.pay() {
	}
	var list []part
	for _, p := range g.parts {
		if p != nil {
			list = append(list, p)
		}
	}
	return list
}

// effort is how often every face of a piece may be looked at to solve it: enough
// to be exact for pieces of twenty faces or so.
const effort = 50

func (g *guide) tryBest(p part) answer {
	g.spent = g.visited + effort*len(p)
	return g.best(p)
}

func (g *guide) put(p part) {
	for _, q := range g.pieces(p) {
		for _, f := range q {
			g.piece[f] = int32(len(g.parts))
		}
		g.parts, g.answers = append(g.parts, q), append(g.answers, g.tryBest(q))
	}
}

func (g *guide) open(v int32) {
	if !g.outer[v] {
		g.outer[v] = true
		g.opened = append(g.opened, v)
	}
}

// spread tries the chords at every point that was opened.
func (g *guide) spread() bool {
	some := len(g.opened) > 0
	for len(g.opened) > 0 {
		v := g.opened[len(g.opened)-1]
		g.opened = g.opened[:len(g.opened)-1]
		for _, r := range g.refsAt(v) {
			for _, c := range [2]chord{g.run(r.seam, r.pos, -1), g.run(r.seam, r.pos, 1)} {
				if c.to == 0 {
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

// run follows a seam from an open position to the next one; the chord is zero if
// there is none, or if that stretch is cut.
func (g *guide) run(seam, i, by int32) chord {
	for j := i + by; j >= 0 && j <= g.last(seam); j += by {
		if g.done[g.edge(seam, min(j, j-by))] {
			break
		}
		if g.outer[g.point(seam, j)] {
			return chord{seam, min(i, j), max(i, j)}
		}
	}
	return chord{}
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
	return g.tryBest(a).cost + g.tryBest(b).cost - was.cost
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
	for i := o.from; i < o.to; i++ {
		g.done[g.edge(o.seam, i)] = true
		g.open(g.point(o.seam, i))
	}
	for _, x := range o.cuts {
		g.parts[x.piece] = nil
		g.put(x.sides[0])
		g.put(x.sides[1])
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
		if g.done[g.edge(c.seam, i)] || i > c.from && g.outer[g.point(c.seam, i)] {
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
	for e, done := range g.done {
		if !done && g.piece[g.left[e]] != g.piece[g.right[e]] {
			return false
		}
	}
	for k, p := range g.parts {
		if p != nil && !g.section(int32(k)) {
			return false
		}
	}
	return true
}
