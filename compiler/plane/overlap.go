package plane

// Overlap returns the area that p and q have in common.
func Overlap(p, q Polygon) float64 {
	pl, ph := p.Box()
	ql, qh := q.Box()
	if ph.X <= ql.X || qh.X <= pl.X || ph.Y <= ql.Y || qh.Y <= pl.Y {
		return 0
	}
	ps, qs := p.convexParts(), q.convexParts()
	sum := 0.0
	for _, a := range ps {
		for _, b := range qs {
			sum += Common(a, b).Area()
		}
	}
	return sum
}

// convexParts returns the polygon itself where it is convex, else triangles.
func (p Polygon) convexParts() []Polygon {
	if p.Convex() {
		return []Polygon{p}
	}
	return p.Triangles()
}

// Common returns what two convex polygons have in common; nil where nothing.
// Corners of the result may be straight or fall together.
func Common(p, q Polygon) Polygon {
	for i := range q {
		if p = p.leftOf(q.Side(i)); len(p) < 3 {
			return nil
		}
	}
	return p
}

// leftOf returns the part of a convex polygon on the left of a line. Nothing is
// rounded to the line, so that areas stay exact.
func (p Polygon) leftOf(l Line) Polygon {
	dir, kept := l.Dir(), make(Polygon, 0, len(p)+1)
	for i := range p {
		s := p.Side(i)
		a, b := dir.Cross(s.A.Sub(l.A)), dir.Cross(s.B.Sub(l.A))
		if a >= 0 {
			kept = append(kept, s.A)
		}
		if a > 0 && b < 0 || a < 0 && b > 0 {
			kept = append(kept, lerp(s.A, s.B, a/(a-b)))
		}
	}
	return kept
}

// Triangles divides a simple polygon into triangles by cutting off ears.
func (p Polygon) Triangles() []Polygon {
	rest := append(Polygon(nil), p...)
	var out []Polygon
	for len(rest) > 3 {
		i := rest.ear()
		n := len(rest)
		if t := (Polygon{rest[(i+n-1)%n], rest[i], rest[(i+1)%n]}); Orient(t[0], t[1], t[2]) > 0 {
			out = append(out, t)
		}
		rest = append(rest[:i], rest[i+1:]...)
	}
	if len(rest) == 3 {
		out = append(out, rest)
	}
	return out
}

// ear returns a corner that can be cut off: convex, or straight, with no other
// corner in its triangle. A simple polygon always has one.
func (p Polygon) ear() int {
	n := len(p)
	for i := range p {
		a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
		if Orient(a, b, c) < 0 {
			continue
		}
		free := true
		for _, q := range p {
			if q != a && q != b && q != c &&
				Orient(a, b, q) >= 0 && Orient(b, c, q) >= 0 && Orient(c, a, q) >= 0 {
				free = false
				break
			}
		}
		if free {
			return i
		}
	}
	return 0
}
