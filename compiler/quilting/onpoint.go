package quilting

import (
	"math"

	"seamwright/compiler/pattern"
)

// onPoint lays blocks that stand on a corner. Rows of n blocks and of n-1 take
// turns; triangles fill the sides and the corners.
func (w *work) onPoint() string {
	rows, q := w.q.Rows, w.q
	n := len(rows[0])
	switch {
	case abs(w.side.W-w.side.H) > same:
		return "its blocks stand on point and are not square"
	case q.Sashing.Width > 0 || q.Cornerstones != pattern.NoFabric:
		return "sashing between blocks on point is not laid out by this version"
	case q.Triangles == pattern.NoFabric:
		return "on_point names no fabric for the setting triangles: on_point sky"
	case len(rows)%2 == 0:
		return "its last row on point must be as long as the first"
	}
	for i, row := range rows {
		if len(row) != n-i%2 {
			return "on point, the rows must have by turns as many blocks as the first and one less"
		}
	}
	d := w.side.W * math.Sqrt2
	m := (len(rows) + 1) / 2
	w.size = pattern.Size{W: pattern.Length(n) * d, H: pattern.Length(m) * d}
	for i, row := range rows {
		for k := range row {
			lowest := pattern.Pos{X: (pattern.Length(k) + 0.5 + 0.5*pattern.Length(i%2)) * d, Y: w.size.H - pattern.Length(i)*d/2 - d}
			w.place(&row[k], lowest, 45)
		}
	}
	w.triangles(n, m, d)
	return ""
}

// triangles fills the sides with triangles whose long side lies on the edge, cut
// from squares cut twice, and the corners with halves of squares: so the straight
// grain is on the quilt's edge (Avoid a bias disaster, quilterchic.com).
func (w *work) triangles(n, m int, d pattern.Length) {
	f, half := w.q.Triangles, d/2
	for i := 1; i < n; i++ {
		x := pattern.Length(i) * d
		w.area(f, []pattern.Pos{{X: x - half}, {X: x + half}, {X: x, Y: half}})
		w.area(f, []pattern.Pos{{X: x + half, Y: w.size.H}, {X: x - half, Y: w.size.H}, {X: x, Y: w.size.H - half}})
	}
	for i := 1; i < m; i++ {
		y := pattern.Length(i) * d
		w.area(f, []pattern.Pos{{Y: y + half}, {Y: y - half}, {X: half, Y: y}})
		w.area(f, []pattern.Pos{{X: w.size.W, Y: y - half}, {X: w.size.W, Y: y + half}, {X: w.size.W - half, Y: y}})
	}
	for _, c := range [4]pattern.Pos{{}, {X: w.size.W}, {X: w.size.W, Y: w.size.H}, {Y: w.size.H}} {
		in := pattern.Pos{X: half, Y: half}
		if c.X > 0 {
			in.X = -half
		}
		if c.Y > 0 {
			in.Y = -half
		}
		corner := []pattern.Pos{c, {X: c.X + in.X, Y: c.Y}, {X: c.X, Y: c.Y + in.Y}}
		if in.X*in.Y < 0 {
			corner[1], corner[2] = corner[2], corner[1]
		}
		w.area(f, corner)
	}
	// A triangle with an allowance s all round: finished + (2 + 2 sqrt 2) s on the
	// long side, finished + (2 + sqrt 2) s on a short one.
	square := func(finished, add pattern.Length) pattern.Size {
		cut := pattern.RoundUp(finished+pattern.RoundUp(add*w.a, w.step), w.step)
		return pattern.Size{W: cut, H: cut}
	}
	w.shaped(pattern.Cut{For: "setting triangles", Fabric: f, Shape: pattern.QuarterSquare, Size: square(d, 2+2*math.Sqrt2), Count: 2*(n-1) + 2*(m-1)})
	w.shaped(pattern.Cut{For: "corner triangles", Fabric: f, Shape: pattern.HalfSquare, Size: square(half, 2+math.Sqrt2), Count: 4})
}
