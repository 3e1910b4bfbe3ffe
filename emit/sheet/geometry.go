package sheet

import (
	"math"

	"seamwright/compiler/pattern"
)

// On a page x runs to the right and y down. Polygons have a positive area by
// the usual formula, so their inside is on the left of each side as numbers go.

type pos = pattern.Pos

// length is an inch as a plain number, for products and quotients.
type length = pattern.Length

// near is the distance within which two points or a point and a line are the
// same for drawing: a millionth of an inch, far above the noise of doubles in a
// block (1e-13 in) and far below a printer's dot (1/1200 in).
const near = 1e-6

func add(a, b pos) pos             { return pos{X: a.X + b.X, Y: a.Y + b.Y} }
func sub(a, b pos) pos             { return pos{X: a.X - b.X, Y: a.Y - b.Y} }
func mul(a pos, k length) pos      { return pos{X: a.X * k, Y: a.Y * k} }
func dot(a, b pos) length          { return a.X*b.X + a.Y*b.Y }
func cross(a, b pos) length        { return a.X*b.Y - a.Y*b.X }
func norm(a pos) length            { return length(math.Sqrt(float64(a.X*a.X + a.Y*a.Y))) }
func dist(a, b pos) length         { return norm(sub(a, b)) }
func mid(a, b pos) pos             { return pos{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2} }
func along(a, d pos, t length) pos { return pos{X: a.X + d.X*t, Y: a.Y + d.Y*t} }

// unit returns the direction from a to b; the zero vector where they are one.
func unit(a, b pos) pos {
	d := sub(b, a)
	if n := norm(d); n > 0 {
		return mul(d, 1/n)
	}
	return pos{}
}

// right is a direction turned so that it points out of a polygon whose side
// runs that way.
func right(d pos) pos { return pos{X: d.Y, Y: -d.X} }

// A ray is a line with a direction of length 1.
type ray struct{ at, dir pos }

// meet returns where two lines cross; false where they are parallel.
func meet(a, b ray) (pos, bool) {
	k := cross(a.dir, b.dir)
	if math.Abs(float64(k)) < 1e-9 { // a crossing 1000 miles away
		return pos{}, false
	}
	return along(a.at, a.dir, cross(sub(b.at, a.at), b.dir)/k), true
}

// mirror returns a vector reflected in a direction of length 1.
func mirror(v, dir pos) pos { return sub(mul(dir, 2*dot(v, dir)), v) }

// segmentDist returns the distance of a point from a segment.
func segmentDist(p, a, b pos) length {
	d := sub(b, a)
	t := dot(sub(p, a), d)
	n := dot(d, d)
	if n <= 0 || t <= 0 {
		return dist(p, a)
	}
	if t >= n {
		return dist(p, b)
	}
	return length(math.Abs(float64(cross(d, sub(p, a))))) / length(math.Sqrt(float64(n)))
}

func area(p []pos) length {
	var sum length
	for i, a := range p {
		sum += cross(a, p[(i+1)%len(p)])
	}
	return sum / 2
}

// centroid returns the middle of a polygon's area, or of its points where it
// has none.
func centroid(p []pos) pos {
	var sum, points pos
	var total length
	for i, a := range p {
		b := p[(i+1)%len(p)]
		k := cross(sub(a, p[0]), sub(b, p[0]))
		sum = along(sum, add(add(a, b), p[0]), k)
		total += 3 * k
		points = add(points, a)
	}
	if total > near*near {
		return mul(sum, 1/total)
	}
	return mul(points, 1/length(len(p)))
}

// A box is an upright rectangle.
type box struct{ x0, y0, x1, y1 length }

func (b box) w() length { return b.x1 - b.x0 }
func (b box) h() length { return b.y1 - b.y0 }

func (b box) grown(by length) box { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }

func (b box) holds(p pos) bool { return b.x0 <= p.X && p.X <= b.x1 && b.y0 <= p.Y && p.Y <= b.y1 }

func (b box) at(p pos) box { return box{b.x0 + p.X, b.y0 + p.Y, b.x1 + p.X, b.y1 + p.Y} }

func (b box) meets(c box) bool { return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1 }

func (b box) corners() [4]pos {
	return [4]pos{{X: b.x0, Y: b.y0}, {X: b.x1, Y: b.y0}, {X: b.x1, Y: b.y1}, {X: b.x0, Y: b.y1}}
}

// crosses reports whether a segment touches the box (Liang and Barsky, 1984).
func (b box) crosses(p, q pos) bool {
	if max(p.X, q.X) < b.x0 || min(p.X, q.X) > b.x1 || max(p.Y, q.Y) < b.y0 || min(p.Y, q.Y) > b.y1 {
		return false
	}
	lo, hi := length(0), length(1)
	d := sub(q, p)
	for _, c := range [4][2]length{{-d.X, p.X - b.x0}, {d.X, b.x1 - p.X}, {-d.Y, p.Y - b.y0}, {d.Y, b.y1 - p.Y}} {
		switch t := c[1] / c[0]; {
		case c[0] == 0 && c[1] < 0:
			return false
		case c[0] < 0:
			lo = max(lo, t)
		case c[0] > 0:
			hi = min(hi, t)
		}
	}
	return lo <= hi
}

// boxOf returns the least box that holds the points.
func boxOf(ps []pos) box {
	b := box{x0: length(math.Inf(1)), y0: length(math.Inf(1)), x1: length(math.Inf(-1)), y1: length(math.Inf(-1))}
	for _, p := range ps {
		b.x0, b.x1 = min(b.x0, p.X), max(b.x1, p.X)
		b.y0, b.y1 = min(b.y0, p.Y), max(b.y1, p.Y)
	}
	return b
}

// clip appends to out the part of a convex polygon that lies at least as far as
// least along a direction: where dot(p, dir) >= least.
func clip(out, p []pos, dir pos, least length) []pos {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := dot(a, dir)-least, dot(b, dir)-least
		if da >= 0 {
			out = append(out, a)
		}
		if da >= 0 != (db >= 0) {
			out = append(out, along(a, sub(b, a), da/(da-db)))
		}
	}
	return out
}

// inside reports whether a point lies in a simple polygon of any shape.
func inside(p pos, poly []pos) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
