package plane

import (
	"cmp"
	"math"
	"slices"
)

// Width returns the least distance of two parallel lines that hold the polygon
// between them. One of them lies along a side of the convex hull.
func (p Polygon) Width() float64 {
	var room [16]Ray
	sides := p.rays(room[:0])
	if !p.convexAlong(sides) {
		p = p.Hull()
		sides = p.rays(sides[:0])
	}
	n := len(p)
	if n < 3 {
		return 0
	}
	least := math.Inf(1)
	for i, far := 0, 1; i < n; i++ {
		s := &sides[i]
		if s.Len <= Tol {
			continue
		}
		// The farthest corner only ever moves on, round the polygon.
		off := s.Offset(p[far])
		for range n {
			next := far + 1
			if next == n {
				next = 0
			}
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

// rays appends the sides, their directions worked out.
func (p Polygon) rays(rays []Ray) []Ray {
	for i := range p {
		rays = append(rays, p.Side(i).Ray())
	}
	return rays
}

// convexAlong reports what Convex does, given the sides.
func (p Polygon) convexAlong(sides []Ray) bool {
	n := len(p)
	for i := range sides {
		if sides[i].Offset(p[(i+2)%n]) < -Tol {
			return false
		}
	}
	return n >= 3
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
