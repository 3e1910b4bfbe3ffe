package quilting

import "seamwright/compiler/pattern"

// clip returns what of a convex polygon lies within a rectangle from the origin.
func clip(polygon []pattern.Pos, size pattern.Size) []pattern.Pos {
	for _, inside := range [4]func(pattern.Pos) pattern.Length{
		func(p pattern.Pos) pattern.Length { return p.X },
		func(p pattern.Pos) pattern.Length { return size.W - p.X },
		func(p pattern.Pos) pattern.Length { return p.Y },
		func(p pattern.Pos) pattern.Length { return size.H - p.Y },
	} {
		polygon = keep(polygon, inside)
	}
	return polygon
}

// noise is what places on point are off by, far below a thread: the root of two
// is in all of them.
const noise pattern.Length = 1e-9

// keep returns the part of a convex polygon where a measure is not negative.
func keep(polygon []pattern.Pos, inside func(pattern.Pos) pattern.Length) (out []pattern.Pos) {
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		a, b := inside(p), inside(q)
		if a >= -noise {
			out = append(out, p)
		}
		if a > noise && b < -noise || a < -noise && b > noise {
			t := a / (a - b)
			out = append(out, pattern.Pos{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)})
		}
	}
	return out
}

// area returns the area of a polygon, in square inches.
func area(polygon []pattern.Pos) (sum pattern.Length) {
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		sum += (p.X*q.Y - p.Y*q.X) / 2
	}
	return sum
}
