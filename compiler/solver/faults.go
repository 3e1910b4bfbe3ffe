package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// floating reports lines inside the outline that are not connected with it, one
// fault for each group.
func (b *builder) floating(n *net) {
	reached := make([]bool, len(b.at))
	var todo []int
	spread := func(v int) {
		for reached[v], todo = true, append(todo, v); len(todo) > 0; {
			v, todo = todo[len(todo)-1], todo[:len(todo)-1]
			for _, h := range n.out[n.start[v]:n.start[v+1]] {
				if w := n.head(h); !reached[w] {
					reached[w] = true
					todo = append(todo, w)
				}
			}
		}
	}
	for e := range n.edges {
		if v := n.edges[e].From; n.edges[e].Seam == outlineEdge && !reached[v] {
			spread(v)
		}
	}
	for e := range n.edges {
		v := n.edges[e].From
		if reached[v] {
			continue
		}
		if b.outline.Locate(b.at[v]) > 0 {
			near := b.outline.Nearest(b.at[v])
			b.fault(Fault{Kind: Floating, At: b.at[v], Line: n.edges[e].Line, Other: -1,
				Nearest: near, Distance: near.Dist(b.at[v])})
		}
		spread(v)
	}
}

// looseEnds reports every point inside where a single edge ends.
func (b *builder) looseEnds(n *net, border []bool) {
	for v := range n.at {
		if n.start[v+1]-n.start[v] != 1 || border[v] {
			continue
		}
		h := n.out[n.start[v]]
		f := Fault{Kind: LooseEnd, At: n.at[v], Line: n.edges[h>>1].Line, Other: -1, Distance: math.Inf(1)}
		ahead := math.Inf(1)
		dir := n.vector(h ^ 1)
		for k := n.next(h ^ 1); ; k = n.next(k) {
			if n.loop[k] != n.loop[k^1] { // not itself loose
				l := plane.Line{A: n.at[n.tail(k)], B: n.at[n.head(k)]}
				if q := l.Nearest(f.At); q.Dist(f.At) < f.Distance {
					f.Nearest, f.Distance = q, q.Dist(f.At)
				}
				if t, ok := reach(f.At, dir, l); ok && t < ahead {
					ahead, f.Ahead = t, f.At.Add(dir.Mul(t))
				}
			}
			if k == h^1 {
				break
			}
		}
		for n.start[n.head(h)+1]-n.start[n.head(h)] == 2 && !border[n.head(h)] {
			h = n.next(h)
		}
		f.Back = n.at[n.head(h)]
		b.fault(f)
	}
}

// reach returns how many times dir takes one from p to the segment l.
func reach(p, dir plane.Point, l plane.Line) (t float64, ok bool) {
	side := plane.Line{A: p, B: p.Add(dir)}
	a, b := side.Offset(l.A), side.Offset(l.B)
	if a > plane.Tol && b > plane.Tol || a < -plane.Tol && b < -plane.Tol || math.Abs(a-b) <= plane.Tol {
		return 0, false
	}
	k := min(max(a/(a-b), 0), 1)
	q := l.A.Add(l.B.Sub(l.A).Mul(k))
	t = q.Sub(p).Dot(dir) / dir.Dot(dir)
	return t, t*dir.Len() > plane.Tol
}

// bends reports the patches that turn inwards where the outline does not.
func (b *builder) bends(d *draft) {
	last := -1
	for _, h := range d.bent {
		v := d.head(h)
		e := &d.p.Edges[d.edge[h>>1]]
		patch := e.Right
		if h&1 == 1 == d.flipped[h>>1] {
			patch = e.Left
		}
		if d.border[v] || patch == last {
			continue
		}
		last = patch
		b.fault(Fault{Kind: NotConvex, At: d.at[v], Line: d.edges[h>>1].Line, Other: -1,
			Polygon: d.p.Polygon(patch), Area: d.p.Patches[patch].Area})
	}
}

// measure holds the sum of the patches against the outline. They may differ by
// what moving every edge by the tolerance could do.
func (b *builder) measure(p *Partition) {
	sum, length := 0.0, 0.0
	for i := range p.Patches {
		sum += p.Patches[i].Area
	}
	for _, e := range p.Edges {
		length += p.Points[e.From].Dist(p.Points[e.To].Point)
	}
	b.gap.Area = math.Abs(sum - b.outline.Area())
	if b.gap.Area > plane.Tol*length {
		b.fault(Fault{Kind: Unresolved, Line: -1, Other: -1, Area: b.gap.Area})
	}
}

// Polygon returns a patch's corners, anticlockwise, with those in the middle of
// a side.
func (p *Partition) Polygon(patch int) plane.Polygon {
	points := p.Patches[patch].Points
	out := make(plane.Polygon, len(points))
	for i, v := range points {
		out[i] = p.Points[v].Point
	}
	return out
}
