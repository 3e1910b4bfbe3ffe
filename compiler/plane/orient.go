package plane

import (
	"math"
	"math/big"
)

// orientError bounds the rounding error of the determinant below, relative to
// the sum of the sizes of its two products: (3 + 16u)u with u = 2^-53
// (J. R. Shewchuk, "Adaptive precision floating-point arithmetic and fast robust
// geometric predicates", Discrete & Computational Geometry 18, 1997).
const orientError = 3.3306690738754716e-16

// Orient returns 1 where c lies to the left of the walk from a to b, -1 to its
// right and 0 exactly on it, without any rounding: most cases are sure in
// floating point, the rest are worked out in fractions.
func Orient(a, b, c Point) int {
	l := (a.X - c.X) * (b.Y - c.Y)
	r := (a.Y - c.Y) * (b.X - c.X)
	det := l - r
	bound := orientError * (math.Abs(l) + math.Abs(r))
	switch {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	case bound == 0 && l == 0 && r == 0 && !tiny(a, b, c):
		return 0
	}
	return orientExact(a, b, c)
}

// tiny reports whether a product of differences may have vanished by underflow.
func tiny(a, b, c Point) bool {
	return (a.X != c.X && b.Y != c.Y) || (a.Y != c.Y && b.X != c.X)
}

func orientExact(a, b, c Point) int {
	for _, v := range [...]float64{a.X, a.Y, b.X, b.Y, c.X, c.Y} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0
		}
	}
	sub := func(p, q float64) *big.Rat {
		x, y := new(big.Rat), new(big.Rat)
		x.SetFloat64(p)
		y.SetFloat64(q)
		return x.Sub(x, y)
	}
	l := sub(a.X, c.X)
	l.Mul(l, sub(b.Y, c.Y))
	r := sub(a.Y, c.Y)
	r.Mul(r, sub(b.X, c.X))
	return l.Cmp(r)
}
