package plane

import (
	"cmp"
	"math"
	"slices"
)

// Width returns the least distance of two parallel lines that hold the polygon
// between them. One of them lies along a side of the convex hull.
func (p Polygon) Width() float64 {
	if !p.Convex() {
		p = p.Hull()
	}
	n := len(p)
	if n < 3 {
		return 0
	}
	least := math.Inf(1)
	for i, far := 0, 1; i < n; i++ {
		l := p.Side(i)
		if l.A.Same(l.B) {
			continue
		}
		s := l.Ray()
		// The farthest corner only ever moves on, round the polygon.
		off := s.Offset(p[far])
		for range n {
			next := (far + 1) % n
			further := s.Offset(p[next])
			if further < off {
				break
			}
			far, off = next, further
		}
		least = min(least, off)
	}
	return least
}

// Hull returns the convex hull, without straight corners (Andrew's chains).
func (p Polygon) Hull() Polygon {
	q := append(Polygon(nil), p...)
	slices.SortFunc(q, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	chain := func(pts Polygon) Polygon {
		var c Polygon
		for _, x := range pts {
			for len(c) >= 2 && Orient(c[len(c)-2], c[len(c)-1], x) <= 0 {
				c = c[:len(c)-1]
			}
			c = append(c, x)
		}
		return c
	}
	lower := chain(q)
	for i, j := 0, len(q)-1; i < j; i, j = i+1, j-1 {
		q[i], q[j] = q[j], q[i]
	}
	upper := chain(q)
	if len(lower) < 2 || len(upper) < 2 {
		return lower
	}
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}
