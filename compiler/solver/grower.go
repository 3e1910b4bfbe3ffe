package solver

import (
	"math"
	"math/bits"

	"seamwright/compiler/plane"
)

// A grower makes sets of faces convex. A set is convex if it is so at every
// point: its angles there add up to a straight angle at most, or it holds
// everything around the point.
type grower struct {
	*work
	in    []int32 // of a face: stamp
	fans  []fan   // of a point
	met   []tees  // of a seam
	set   part
	stamp int32

	always []bool // of an edge: known to be a join in every plan; nil if nothing is known

	home    []int32 // of a face: its section: see rivalNear
	visits  []int32
	visit   int32
	reached []int32
	pairs   []uint64 // what share found last, by a sum of the two faces
}

// A fan is what a set holds around a point.
type fan struct {
	stamp, faces int32
	angle        float64
}

// tees says from which sides other seams end on a seam, inside a set.
type tees struct {
	stamp int32
	sides meets
}

// growLimit bounds the sets that are tried: larger ones pass for sections.
const growLimit = 64

// angleTol is far above the rounding of a few sums of angles, and far below the
// bend of a corner that is one: [plane.Tol] in the longest edge there may be.
const angleTol = 1e-12

func newGrower(w *work) *grower {
	return &grower{work: w, in: make([]int32, w.faces()), fans: make([]fan, len(w.at)), met: make([]tees, len(w.seams))}
}

// together reports whether two faces may share a section. If so, it leaves in set
// what every such section holds: the two, everything between them, and what makes
// that convex. The block must be convex.
func (g *grower) together(a, b int32) bool {
	g.stamp++
	g.set = g.set[:0]
	g.take(a)
	g.take(b)
	grown := 0
	for f, steps := a, 0; f != b; steps++ {
		// The straight line from centre to centre lies in every convex set
		// that holds both.
		h, ok := g.exit(f, g.centre[a], g.centre[b])
		if !ok || steps > growLimit {
			return true // rounding hides the way, or it is long
		}
		if g.always != nil && g.always[h>>1] {
			return false
		}
		f = g.other(h)
		g.take(f)
		for ; grown < len(g.set); grown++ {
			if len(g.set) > growLimit {
				return true
			}
			if !g.bulge(g.set[grown]) {
				return false
			}
		}
	}
	return len(g.set) == 2 || g.peel(g.set, -1)
}

// share is together for those who don't need the set. It remembers answers.
func (g *grower) share(a, b int32) bool {
	if a > b {
		a, b = b, a
	}
	if g.pairs == nil {
		g.pairs = make([]uint64, 1<<bits.Len(uint(4*g.faces())))
	}
	pair := uint64(a)<<33 | uint64(b)<<1 // never 0, as b is not
	at := &g.pairs[mix(pair)&uint64(len(g.pairs)-1)]
	if *at&^1 != pair {
		if *at = pair; g.together(a, b) {
			*at |= 1
		}
	}
	return *at&1 != 0
}

// exit returns the half through which the way from one point to another leaves a
// face.
func (g *grower) exit(f int32, from, to plane.Point) (out half, ok bool) {
	first := math.Inf(1)
	for _, h := range g.halves(f) {
		l := g.seams[g.seam[h>>1]]
		d, e := l.side(from), l.side(to)
		if h&1 == 1 {
			d, e = -d, -e
		}
		if e >= 0 {
			continue
		}
		if t := d / (d - e); t < first || t == first && g.crosses(h, from, to) {
			out, ok, first = h, true, t
		}
	}
	return out, ok
}

// crosses tells the edges of one side apart: the way out has the beginning of the
// edge that it crosses on its right and the end on its left.
func (g *grower) crosses(h half, from, to plane.Point) bool {
	way := to.Sub(from)
	return way.Cross(g.at[g.begin(h)].Sub(from)) <= 0 && way.Cross(g.at[g.begin(h^1)].Sub(from)) > 0
}

// bulge makes the set convex where a face of it has corners.
func (g *grower) bulge(f int32) bool {
	for _, h := range g.halves(f) {
		if v := g.begin(h); !g.border[v] && !g.hold(v, g.corner[h]) {
			return false
		}
	}
	return true
}

// hold adds a face's corner at a point.
func (g *grower) hold(v int32, angle float64) bool {
	f := &g.fans[v]
	if f.stamp != g.stamp {
		*f = fan{stamp: g.stamp}
	}
	f.faces++
	f.angle += angle
	if f.angle <= math.Pi+angleTol {
		return true
	}
	tee := g.tees[v]
	if tee.seam < 0 {
		return false // a point that is matched is inside no section
	}
	t := &g.met[tee.seam]
	if t.stamp != g.stamp {
		*t = tees{stamp: g.stamp}
	}
	if t.sides |= tee.side; t.sides == fromLeft|fromRight {
		return false // whichever side of the seam is sewn on has several faces
	}
	for _, r := range g.refsAt(v) {
		if r.pos < g.last(r.seam) {
			g.take(g.left[g.edge(r.seam, r.pos)])
		}
		if r.pos > 0 {
			g.take(g.right[g.edge(r.seam, r.pos-1)])
		}
	}
	return true
}

func (g *grower) take(f int32) {
	if g.in[f] != g.stamp {
		g.in[f] = g.stamp
		g.set = append(g.set, f)
	}
}
