package plane

import "math"

// Tol is the one tolerance of the geometry: what lies nearer than this is taken
// for the same place, in the caller's unit (grid squares or inches; a square is
// seldom smaller than 1/8 in or larger than 4 in).
//
// Its size rests on a measured gap. In blocks of up to 10,000 pieces, turned by
// angles whose sines are irrational, points that ought to fall together were
// computed within 2e-13 of each other, and points that ought not to were never
// nearer than 1e-2. 1e-6 is far from both. The gap is measured again for every
// block that is compiled (the figures of the report), and points in between, up
// to 1/64 in, are reported instead of being taken for one or for two.
const Tol = 1e-6

// Len returns the distance from A to B.
func (l Line) Len() float64 { return l.B.Sub(l.A).Len() }

// Dir returns the unit vector from A to B, zero where A and B are equal.
func (l Line) Dir() Point {
	d := l.B.Sub(l.A)
	n := d.Len()
	if n == 0 {
		return Point{}
	}
	return Point{d.X / n, d.Y / n}
}

// Offset returns the distance of p from the whole line, positive on its left.
func (l Line) Offset(p Point) float64 { return l.Dir().Cross(p.Sub(l.A)) }

// Side returns 1 where p lies left of the whole line, -1 right, 0 on it.
func (l Line) Side(p Point) int {
	switch d := l.Offset(p); {
	case d > Tol:
		return 1
	case d < -Tol:
		return -1
	}
	return 0
}

// Along returns how far along the line from A the foot of p lies.
func (l Line) Along(p Point) float64 { return l.Dir().Dot(p.Sub(l.A)) }

// At returns the point of the whole line at a distance from A.
func (l Line) At(t float64) Point { return l.A.Add(l.Dir().Mul(t)) }

// Foot returns the point of the whole line that is nearest to p.
func (l Line) Foot(p Point) Point { return l.At(l.Along(p)) }

// Nearest returns the point of the segment that is nearest to p.
func (l Line) Nearest(p Point) Point {
	t, n := l.Along(p), l.Len()
	switch {
	case t <= 0:
		return l.A
	case t >= n:
		return l.B
	}
	return l.At(t)
}

// A Ray is a line whose direction and length are worked out, for asking about
// many points.
type Ray struct {
	From, Dir Point
	Len       float64
}

// Ray returns the line as a ray; its direction is zero where A and B are equal.
func (l Line) Ray() Ray {
	d := l.B.Sub(l.A)
	n := d.Len()
	if n == 0 {
		return Ray{From: l.A}
	}
	return Ray{l.A, Point{d.X / n, d.Y / n}, n}
}

// Offset returns what [Line.Offset] does.
func (r *Ray) Offset(p Point) float64 { return r.Dir.Cross(p.Sub(r.From)) }

// Along returns what [Line.Along] does.
func (r *Ray) Along(p Point) float64 { return r.Dir.Dot(p.Sub(r.From)) }

// Meet returns where the whole lines l and m cross. It reports false where they
// are parallel: where they part by no more than [Tol] in one unit of length.
func (l Line) Meet(m Line) (Point, bool) {
	if math.Abs(l.Dir().Cross(m.Dir())) <= Tol {
		return Point{}, false
	}
	a, b := l.Offset(m.A), l.Offset(m.B)
	return lerp(m.A, m.B, a/(a-b)), true
}

// lerp returns the point at the fraction t of the way from a to b.
func lerp(a, b Point, t float64) Point {
	return Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)}
}
