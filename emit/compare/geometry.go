package compare

import "math"

type point = [2]float64

// same is how far a corner may be from where it was and still be there: about
// the breadth of a hair, and of what a sheet is printed to.
const same = 0.0005

// motion turns anticlockwise about the origin by degrees, then shifts.
func motion(turn float64, shift point) func(point) point {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	return func(p point) point {
		return point{cos*p[0] - sin*p[1] + shift[0], sin*p[0] + cos*p[1] + shift[1]}
	}
}

func moved(ps []point, move func(point) point) []point {
	out := make([]point, len(ps))
	for i, p := range ps {
		out[i] = move(p)
	}
	return out
}

type box struct{ x0, y0, x1, y1 float64 }

func boxOf(ps []point) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range ps {
		b = box{min(b.x0, p[0]), min(b.y0, p[1]), max(b.x1, p[0]), max(b.y1, p[1])}
	}
	return b
}

func (b box) meets(c box) bool { return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1 }

// area is positive for polygons that run anticlockwise.
func area(ps []point) float64 {
	sum := 0.0
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		sum += p[0]*q[1] - p[1]*q[0]
	}
	return sum / 2
}

// middle is the mean of the corners.
func middle(ps []point) (m point) {
	for _, p := range ps {
		m[0] += p[0] / float64(len(ps))
		m[1] += p[1] / float64(len(ps))
	}
	return m
}

// shared is the area that two polygons have in common, the second convex
// (Sutherland and Hodgman, "Reentrant polygon clipping", CACM 17(1), 1974; from
// memory).
func shared(a, convex []point) float64 {
	cut := a
	for i, p := range convex {
		q := convex[(i+1)%len(convex)]
		inside := func(r point) float64 { return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0]) }
		var next []point
		for k, r := range cut {
			s := cut[(k+1)%len(cut)]
			dr, ds := inside(r), inside(s)
			if dr >= 0 {
				next = append(next, r)
			}
			if (dr >= 0) != (ds >= 0) {
				t := dr / (dr - ds)
				next = append(next, point{r[0] + t*(s[0]-r[0]), r[1] + t*(s[1]-r[1])})
			}
		}
		if cut = next; len(cut) == 0 {
			return 0
		}
	}
	return area(cut)
}

// apart is how far the corners of each polygon are from the edges of the other,
// at the most: 0 where they are the same.
func apart(a, b []point) float64 { return max(reach(a, b), reach(b, a)) }

func reach(a, b []point) float64 {
	most := 0.0
	for _, p := range a {
		least := math.Inf(1)
		for i, q := range b {
			least = min(least, fromSegment(p, q, b[(i+1)%len(b)]))
		}
		most = max(most, least)
	}
	return most
}

func fromSegment(p, a, b point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if n := dx*dx + dy*dy; n > 0 {
		t = min(1, max(0, ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/n))
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}
