package plane

import "math"

// Area returns the area enclosed, negative where the corners run clockwise.
func (p Polygon) Area() float64 {
	if len(p) < 3 {
		return 0
	}
	// Measured from the first corner, so that small polygons far from the
	// origin lose no digits.
	o, sum := p[0], 0.0
	for i := 2; i < len(p); i++ {
		sum += p[i-1].Sub(o).Cross(p[i].Sub(o))
	}
	return sum / 2
}

// Length returns the length of all sides together.
func (p Polygon) Length() float64 {
	sum := 0.0
	for i := range p {
		sum += p.Side(i).Len()
	}
	return sum
}

// Side returns the side from corner i to the next.
func (p Polygon) Side(i int) Line {
	if i+1 == len(p) {
		return Line{p[i], p[0]}
	}
	return Line{p[i], p[i+1]}
}

// Box returns the least and the greatest coordinates.
func (p Polygon) Box() (low, high Point) {
	if len(p) == 0 {
		return
	}
	low, high = p[0], p[0]
	for _, q := range p[1:] {
		low.X, high.X = min(low.X, q.X), max(high.X, q.X)
		low.Y, high.Y = min(low.Y, q.Y), max(high.Y, q.Y)
	}
	return
}

// straight reports whether corner i lies on the line of its neighbours, between
// them.
func (p Polygon) straight(i int) bool {
	n := len(p)
	a, b, c := p[(i+n-1)%n], p[i], p[(i+1)%n]
	return Line{a, c}.Side(b) == 0 && b.Sub(a).Dot(c.Sub(b)) > 0
}

// Corners returns the polygon without corners that are straight or repeat the
// one before.
func (p Polygon) Corners() Polygon {
	once := make(Polygon, 0, len(p))
	for i, q := range p {
		if !q.Same(p[(i+len(p)-1)%len(p)]) {
			once = append(once, q)
		}
	}
	bent := make(Polygon, 0, len(once))
	for i, q := range once {
		if !once.straight(i) {
			bent = append(bent, q)
		}
	}
	return bent
}

// Convex reports whether no corner bends to the right by more than [Tol].
func (p Polygon) Convex() bool {
	n := len(p)
	for i := range p {
		if p.Side(i).Side(p[(i+2)%n]) < 0 {
			return false
		}
	}
	return n >= 3
}

// Simple reports whether no two sides touch but neighbours at their corner.
// It compares every pair.
func (p Polygon) Simple() bool {
	n := len(p)
	for i := range p {
		s := p.Side(i)
		if s.A.Same(s.B) {
			return false
		}
		if next := p[(i+2)%n]; s.Side(next) == 0 && s.Dir().Dot(next.Sub(s.B)) < 0 {
			return false // folds back on itself
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if touch(s, p.Side(j)) {
				return false
			}
		}
	}
	return n >= 3
}

// touch reports whether two segments cross or come within [Tol].
func touch(s, t Line) bool {
	if Orient(s.A, s.B, t.A)*Orient(s.A, s.B, t.B) < 0 && Orient(t.A, t.B, s.A)*Orient(t.A, t.B, s.B) < 0 {
		return true
	}
	return s.Nearest(t.A).Same(t.A) || s.Nearest(t.B).Same(t.B) ||
		t.Nearest(s.A).Same(s.A) || t.Nearest(s.B).Same(s.B)
}

// Locate returns 1 where q lies inside, 0 within [Tol] of a side, -1 outside.
func (p Polygon) Locate(q Point) int {
	inside := false
	for i := range p {
		s := p.Side(i)
		if low, high := min(s.A.X, s.B.X)-Tol, max(s.A.X, s.B.X)+Tol; q.X >= low && q.X <= high &&
			s.Nearest(q).Same(q) {
			return 0
		}
		// A ray to the right crosses the sides that start at or below q and
		// end above it, or the other way about, with q on their inner hand.
		if s.A.Y <= q.Y && s.B.Y > q.Y {
			inside = inside != (Orient(s.A, s.B, q) > 0)
		} else if s.B.Y <= q.Y && s.A.Y > q.Y {
			inside = inside != (Orient(s.A, s.B, q) < 0)
		}
	}
	if inside {
		return 1
	}
	return -1
}

// Nearest returns the point of the border that is nearest to q.
func (p Polygon) Nearest(q Point) Point {
	best, least := Point{}, math.Inf(1)
	for i := range p {
		if n := p.Side(i).Nearest(q); n.Dist(q) < least {
			best, least = n, n.Dist(q)
		}
	}
	return best
}

// Interior returns a point well inside.
func (p Polygon) Interior() Point {
	if p.Convex() {
		sum := Point{}
		for _, q := range p {
			sum = sum.Add(q)
		}
		return sum.Mul(1 / float64(len(p)))
	}
	// The middle of the largest triangle of a triangulation.
	best, most := Point{}, 0.0
	for _, t := range p.Triangles() {
		if a := t.Area(); a > most {
			best, most = t[0].Add(t[1]).Add(t[2]).Mul(1.0/3), a
		}
	}
	return best
}
