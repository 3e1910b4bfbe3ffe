package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// assemble makes points, edges, seams and patches of what lies inside the
// outline, or lists why it can't.
func (b *builder) assemble(p *Partition, polygons []plane.Polygon) {
	n := newNet(b.at, b.edges)
	inside := n.inside()
	b.floating(n)
	alive := make([]bool, len(b.at))
	kept := make([]Edge, 0, len(b.edges))
	for e := range b.edges {
		if l, r := n.loop[2*e], n.loop[2*e+1]; inside[l] || inside[r] {
			kept = append(kept, b.edges[e])
			alive[b.edges[e].From], alive[b.edges[e].To] = true, true
		}
	}
	if len(kept) < len(b.edges) {
		n = newNet(b.at, kept)
		inside = n.inside()
	}
	b.questions(p, alive)
	border := make([]bool, len(b.at))
	for e := range n.edges {
		if n.edges[e].Seam == outlineEdge {
			v := n.edges[e].From
			if border[v] { // two sides start here
				b.fault(Fault{Kind: BadOutline, At: b.at[v], Line: -1, Other: -1})
			}
			border[v] = true
		}
	}
	b.looseEnds(n, border)
	if len(b.faults) > 0 {
		return
	}
	d := &draft{net: n, p: p, border: border, opposite: b.straighten(n)}
	p.Near = b.nearly
	d.number(alive)
	d.seams()
	d.patches(inside)
	if b.measure(p); polygons != nil {
		b.claim(d, polygons)
	} else {
		b.idle(p)
	}
	if len(b.faults) == 0 {
		p.mesh = newMesh(p)
		p.mesh.roles(p.Points)
	}
	b.bends(d)
}

// questions keeps the near pairs of which both points are inside.
func (b *builder) questions(p *Partition, alive []bool) {
	near := b.nearly
	b.nearly = nil
	for _, q := range b.pairs {
		if alive[q[0]] && alive[q[1]] {
			b.suspect(b.at[q[0]], b.at[q[1]], b.at[q[0]].Dist(b.at[q[1]]))
		}
	}
	for _, q := range near {
		b.suspect(q.A, q.B, q.Distance)
	}
	p.Near = b.nearly
}

// straighten pairs the half-edges that run straight on from each other: entry h
// is the one that goes on from h's tail in the opposite direction, or -1. What
// is a little bent is reported.
func (b *builder) straighten(n *net) []int32 {
	opposite := make([]int32, len(n.out))
	for h := range opposite {
		opposite[h] = -1
	}
	for v := range n.at {
		out := n.out[n.start[v]:n.start[v+1]]
		for i, h := range out {
			// The only candidates are the first half-edge that turns by a
			// straight angle or more from h, and the one before it.
			k := b.across(n, out, i)
			for _, j := range [2]int{(k + len(out) - 1) % len(out), k % len(out)} {
				if g := out[j]; j != i && opposite[h] < 0 && opposite[g] < 0 && b.straight(n, h, g) {
					opposite[h], opposite[g] = g, h
				}
			}
		}
	}
	return opposite
}

// across finds the first half-edge from out[i] on, anticlockwise, that is turned
// by at least a straight angle; it may have come round to out[i] again.
func (b *builder) across(n *net, out []int32, i int) int {
	d := n.vector(out[i])
	low, high := i+1, i+len(out)
	for low < high {
		m := (low + high) / 2
		if d.Cross(n.vector(out[m%len(out)])) > 0 {
			low = m + 1
		} else if d.Dot(n.vector(out[m%len(out)])) > 0 && d.Cross(n.vector(out[m%len(out)])) == 0 {
			low = m + 1
		} else {
			high = m
		}
	}
	return low
}

// straight reports whether two half-edges out of one point lie on one line: the
// point is within the tolerance of the line between their ends.
func (b *builder) straight(n *net, h, g int32) bool {
	d, e := n.vector(h), n.vector(g)
	if d.Dot(e) >= 0 {
		return false
	}
	off := math.Abs(d.Cross(e)) / d.Sub(e).Len()
	if off <= straightTol {
		b.gap.zero(off)
		return true
	}
	b.gap.apart(off)
	if off <= b.near && min(d.Len(), e.Len()) > 2*b.near {
		v := n.at[n.tail(h)]
		l := plane.Line{A: n.at[n.head(h)], B: n.at[n.head(g)]}
		b.suspect(v, l.Foot(v), off)
	}
	return false
}

// straightTol allows for three points that each were moved by the tolerance.
const straightTol = 2 * plane.Tol

// A draft turns the net into the partition's slices.
type draft struct {
	*net
	p        *Partition
	border   []bool
	opposite []int32
	point    []int   // new number of a point
	edge     []int   // new number of an edge
	flipped  []bool  // by old number: runs against its seam
	walk     []int32 // a half-edge of each patch
	bent     []int32 // half-edges after whose head their patch's border turns inwards
}

// number keeps the points that are used, in their order.
func (d *draft) number(alive []bool) {
	d.point = make([]int, len(d.at))
	d.p.Points = make([]Point, 0, len(d.at))
	for v, ok := range alive {
		if ok {
			d.point[v] = len(d.p.Points)
			d.p.Points = append(d.p.Points, Point{Point: d.at[v]})
		}
	}
}

// seams numbers the edges: seam by seam from end to end, then the outline.
func (d *draft) seams() {
	p := d.p
	p.Edges = make([]Edge, 0, len(d.edges))
	d.edge, d.flipped = make([]int, len(d.edges)), make([]bool, len(d.edges))
	done := make([]bool, len(d.edges))
	points := make([]int, 0, 2*len(d.edges))
	for e := range d.edges {
		if done[e] || d.edges[e].Seam == outlineEdge {
			continue
		}
		h := d.seamStart(int32(2 * e))
		s := Seam{First: len(p.Edges)}
		from := len(points)
		points = append(points, d.point[d.tail(h)])
		for {
			done[h>>1] = true
			d.add(h, len(p.Seams))
			points = append(points, d.point[d.head(h)])
			on := d.opposite[h^1]
			if d.border[d.head(h)] || on < 0 || done[on>>1] {
				break
			}
			h = on
		}
		s.Points = points[from:len(points):len(points)]
		p.Seams = append(p.Seams, s)
	}
	for e := range d.edges {
		if d.edges[e].Seam == outlineEdge {
			d.add(int32(2*e), -1)
		}
	}
}

// seamStart walks back from a half-edge to where its seam begins.
func (d *draft) seamStart(h int32) (start int32) {
	start = h
	for g := h; !d.border[d.tail(g)] && d.opposite[g] >= 0; {
		g = d.opposite[g] ^ 1
		if g == h {
			break // a ring of edges hardly longer than the tolerance
		}
		start = g
	}
	return start
}

func (d *draft) add(h int32, seam int) {
	e := d.edges[h>>1]
	d.edge[h>>1], d.flipped[h>>1] = len(d.p.Edges), h&1 == 1
	d.p.Edges = append(d.p.Edges, Edge{
		From: d.point[d.tail(h)], To: d.point[d.head(h)],
		Left: -1, Right: -1, Seam: seam, Line: e.Line,
	})
}

// patches numbers the areas inside and lists their corners.
func (d *draft) patches(inside []bool) {
	p := d.p
	total := 0
	for h := range d.loop {
		if inside[d.loop[h]] {
			total++
		}
	}
	points, edges := make([]int, 0, total), make([]int, 0, total)
	for l, start := range d.loops {
		if !inside[l] {
			continue
		}
		from, id, a := len(points), len(p.Patches), Patch{Convex: true, Polygon: -1}
		origin := d.at[d.tail(start)]
		for h := start; ; {
			points, edges = append(points, d.point[d.tail(h)]), append(edges, d.edge[h>>1])
			e := &p.Edges[d.edge[h>>1]]
			if h&1 == 1 == d.flipped[h>>1] {
				e.Left = id
			} else {
				e.Right = id
			}
			a.Area += d.at[d.tail(h)].Sub(origin).Cross(d.at[d.head(h)].Sub(origin)) / 2
			next := d.next(h)
			if d.opposite[h^1] != next && d.vector(h).Cross(d.vector(next)) <= 0 {
				a.Convex = false
				d.bent = append(d.bent, h)
			}
			if h = next; h == start {
				break
			}
		}
		a.Points, a.Edges = points[from:len(points):len(points)], edges[from:len(edges):len(edges)]
		p.Patches, d.walk = append(p.Patches, a), append(d.walk, start)
	}
}

// idle lists the lines that own no edge.
func (b *builder) idle(p *Partition) {
	used := make([]bool, b.lines)
	for _, e := range p.Edges {
		if e.Line >= 0 {
			used[e.Line] = true
		}
	}
	for i, ok := range used {
		if !ok {
			p.Idle = append(p.Idle, i)
		}
	}
}
