package plane

import "math"

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the vector from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p stretched by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot and Cross return the two products of vectors; Cross is positive where q
// lies to the left of p.
func (p Point) Dot(q Point) float64   { return p.X*q.X + p.Y*q.Y }
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Len returns the length of the vector p.
func (p Point) Len() float64 { return math.Sqrt(p.X*p.X + p.Y*p.Y) }

// Dist returns the distance of p and q.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Len() }

// Same reports whether p and q are one point, within [Tol].
func (p Point) Same(q Point) bool {
	d := p.Sub(q)
	return d.Dot(d) <= Tol*Tol
}

// Mid returns the point halfway between p and q.
func (p Point) Mid(q Point) Point { return Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2} }
