package testsew

import "math"

// Lengths here are plain inches: nothing is printed from them but figures.

type pt struct{ x, y float64 }

func (a pt) add(b pt) pt        { return pt{a.x + b.x, a.y + b.y} }
func (a pt) sub(b pt) pt        { return pt{a.x - b.x, a.y - b.y} }
func (a pt) mul(k float64) pt   { return pt{a.x * k, a.y * k} }
func (a pt) dot(b pt) float64   { return a.x*b.x + a.y*b.y }
func (a pt) cross(b pt) float64 { return a.x*b.y - a.y*b.x }
func (a pt) len() float64       { return math.Hypot(a.x, a.y) }
func (a pt) to(b pt) float64    { return math.Hypot(b.x-a.x, b.y-a.y) }
func (a pt) left() pt           { return pt{-a.y, a.x} }
func (a pt) mid(b pt) pt        { return pt{(a.x + b.x) / 2, (a.y + b.y) / 2} }
func (a pt) unit() pt {
	if n := a.len(); n > 0 {
		return a.mul(1 / n)
	}
	return pt{}
}

// A line has a unit direction; its left is where side is positive.
type line struct{ at, dir pt }

func through(a, b pt) line              { return line{a, b.sub(a).unit()} }
func (l line) side(p pt) float64        { return l.dir.cross(p.sub(l.at)) }
func (l line) along(p pt) float64       { return l.dir.dot(p.sub(l.at)) }
func (l line) point(t, side float64) pt { return l.at.add(l.dir.mul(t)).add(l.dir.left().mul(side)) }
func (l line) flipped() line            { return line{l.at, l.dir.mul(-1)} }
func (l line) moved(left float64) line  { return line{l.at.add(l.dir.left().mul(left)), l.dir} }
func (l line) mirror(p pt) pt           { return p.sub(l.dir.left().mul(2 * l.side(p))) }

// fromSegment is the distance of a point from a segment.
func fromSegment(p, a, b pt) float64 {
	l, n := through(a, b), a.to(b)
	switch t := l.along(p); {
	case t <= 0:
		return p.to(a)
	case t >= n:
		return p.to(b)
	}
	return math.Abs(l.side(p))
}

// A poly is a simple polygon, anticlockwise.
type poly []pt

func (p poly) side(i int) (a, b pt) { return p[i], p[(i+1)%len(p)] }

func (p poly) area() (sum float64) {
	for i := 2; i < len(p); i++ {
		sum += p[i-1].sub(p[0]).cross(p[i].sub(p[0]))
	}
	return sum / 2
}

// middle is the centre of a polygon's area.
func (p poly) middle() pt {
	var sum pt
	var total float64
	for i := 2; i < len(p); i++ {
		k := p[i-1].sub(p[0]).cross(p[i].sub(p[0]))
		sum = sum.add(p[0].add(p[i-1]).add(p[i]).mul(k / 3))
		total += k
	}
	if total == 0 {
		return p[0]
	}
	return sum.mul(1 / total)
}

// width is about how broad a polygon is: a sliver between two drawings of one
// line is long, but not broad.
func (p poly) width() float64 {
	longest := 0.0
	for i := range p {
		a, b := p.side(i)
		longest = max(longest, a.to(b))
	}
	if longest == 0 {
		return 0
	}
	return p.area() / longest
}

func (p poly) ccw() poly {
	if p.area() >= 0 {
		return p
	}
	return p.backwards()
}

func (p poly) backwards() poly {
	out := make(poly, len(p))
	for i := range p {
		out[len(p)-1-i] = p[i]
	}
	return out
}

func (p poly) mapped(f func(pt) pt) poly {
	out := make(poly, len(p))
	for i := range p {
		out[i] = f(p[i])
	}
	return out
}

type box struct{ x0, y0, x1, y1 float64 }

func (p poly) box() box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, q := range p {
		b.x0, b.x1 = min(b.x0, q.x), max(b.x1, q.x)
		b.y0, b.y1 = min(b.y0, q.y), max(b.y1, q.y)
	}
	return b
}

func (a box) meets(b box) bool { return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 }

// holds reports whether a point lies in a polygon of any shape.
func (p poly) holds(q pt) bool {
	in := false
	for i := range p {
		a, b := p.side(i)
		if (a.y > q.y) != (b.y > q.y) && q.x < a.x+(q.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}

// clip returns what of a convex polygon lies left of a line.
func (p poly) clip(l line) poly {
	if len(p) == 0 {
		return nil
	}
	out := make(poly, 0, len(p)+1)
	add := func(q pt) {
		if n := len(out); n == 0 || q.to(out[n-1]) > noLength && q.to(out[0]) > noLength {
			out = append(out, q)
		}
	}
	a, sa := p[len(p)-1], l.side(p[len(p)-1])
	for _, b := range p {
		sb := l.side(b)
		if sa < 0 != (sb < 0) {
			add(a.add(b.sub(a).mul(sa / (sa - sb))))
		}
		if sb >= 0 {
			add(b)
		}
		a, sa = b, sb
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// common returns what two convex polygons have in common.
func (p poly) common(q poly) poly {
	out := p
	for i := range q {
		a, b := q.side(i)
		if a.to(b) > noLength {
			out = out.clip(through(a, b))
		}
	}
	if len(out) == 0 || out.area() < noArea {
		return nil
	}
	return out
}

// minus returns a convex polygon without another one, in convex parts.
func (p poly) minus(q poly) (parts []poly) {
	if p.common(q) == nil {
		return []poly{p}
	}
	rest := p
	for i := range q {
		a, b := q.side(i)
		if a.to(b) <= noLength {
			continue
		}
		l := through(a, b)
		if out := rest.clip(l.flipped()); len(out) > 0 && out.area() >= noArea {
			parts = append(parts, out)
		}
		if rest = rest.clip(l); rest == nil {
			break
		}
	}
	return parts
}

// convex parts a simple polygon: itself, or triangles.
func (p poly) convex() []poly {
	straight := true
	for i := range p {
		a, b := p.side(i)
		c := p[(i+2)%len(p)]
		straight = straight && b.sub(a).cross(c.sub(b)) >= -noArea
	}
	if straight {
		return []poly{p}
	}
	rest := append(poly(nil), p...)
	var parts []poly
	for len(rest) > 3 {
		ear := rest.ear()
		if ear < 0 {
			break
		}
		n := len(rest)
		parts = append(parts, poly{rest[(ear+n-1)%n], rest[ear], rest[(ear+1)%n]})
		rest = append(rest[:ear:ear], rest[ear+1:]...)
	}
	return append(parts, rest)
}

// ear finds a corner that can be cut off a polygon.
func (p poly) ear() int {
	n := len(p)
	for i := range p {
		a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
		if b.sub(a).cross(c.sub(b)) <= 0 {
			continue
		}
		t, free := poly{a, b, c}, true
		for _, q := range p {
			free = free && (q == a || q == b || q == c || !t.holds(q))
		}
		if free {
			return i
		}
	}
	return -1
}

// corners leaves out the points in the middle of a side.
func (p poly) corners() (out poly) {
	n := len(p)
	for i, b := range p {
		a, c := p[(i+n-1)%n], p[(i+1)%n]
		if a.to(b) > same && math.Abs(through(a, c).side(b)) > same {
			out = append(out, b)
		}
	}
	return out
}

const (
	noLength = 1e-9  // an inch has no shorter parts that are not noise
	noArea   = 1e-10 // the noise of cutting polygons of some inches
)
