package quilting

import (
	"math"

	"seamwright/compiler/pattern"
)

// onPoint lays blocks that stand on a corner. As they are written, rows of n blocks
// and of n-1 take turns; they are sewn in diagonal rows. Triangles fill the sides
// and the corners. Their short sides are as long as a block's whether there is
// sashing or not: it runs out to the quilt's edge, and is cut off there at half a
// right angle, or where it goes round all blocks the cornerstones at the edge are
// cut in half.
func (w *work) onPoint() string {
	if why := w.canStand(); why != "" {
		return why
	}
	rows, q := w.q.Rows, w.q
	n, m := len(rows[0]), (len(rows)+1)/2
	b, s := w.side.W, q.Sashing.Width
	f := &diagonal{work: w, b: b, s: s, pitch: b + s, cells: map[[2]int][2]int{}, ends: map[int][2]int{}}
	if q.Around {
		f.lead = s
	} else {
		f.inset = s / math.Sqrt2
	}
	w.size = pattern.Size{W: pattern.Length(n)*f.pitch*math.Sqrt2 - 2*f.inset, H: pattern.Length(m)*f.pitch*math.Sqrt2 - 2*f.inset}
	low, high := f.sort(m)
	f.corner(high, 1)
	for r := high; r >= low; r-- {
		if s > 0 && (q.Around || r < high) {
			f.sashes(r, r+1)
		}
		f.row(r)
	}
	if s > 0 && q.Around {
		f.sashes(low-1, low)
	}
	f.corner(low, -1)
	w.triangles(n, m)
	return ""
}

// canStand says why blocks cannot stand on point.
func (w *work) canStand() string {
	rows := w.q.Rows
	switch {
	case abs(w.side.W-w.side.H) > same:
		return "its blocks stand on point and are not square"
	case w.q.Triangles == pattern.NoFabric:
		return "on_point names no fabric for the setting triangles: on_point sky"
	case len(rows)%2 == 0:
		return "its last row on point must be as long as the first"
	case w.q.Sashing.Width >= w.side.W:
		return "its sashing is as wide as its blocks, which on point leaves no triangles"
	}
	for i, row := range rows {
		if len(row) != len(rows[0])-i%2 {
			return "on point, the rows must have by turns as many blocks as the first and one less"
		}
	}
	return ""
}

// A diagonal is the plane of a quilt on point turned upright: u runs along its rows,
// up and to the right, v across them, up and to the left. The middle of the block
// of column c and row r lies at (c, r) times the pitch.
type diagonal struct {
	*work
	b, s  pattern.Length
	pitch pattern.Length
	lead  pattern.Length    // of sashing before the first block and behind the last
	inset pattern.Length    // of the quilt's edge from the outer corners of whole pitches
	cells map[[2]int][2]int // row and place as written, by column and row
	ends  map[int][2]int    // first and last column, by row
}

// sort finds the columns and diagonal rows of the blocks, m to a column as they are
// written, and returns the lowest row and the highest.
func (f *diagonal) sort(m int) (low, high int) {
	low, high = math.MaxInt, math.MinInt
	for i, cells := range f.q.Rows {
		for k := range cells {
			x, y := 2*k+1+i%2, 2*m-i-1 // of its middle, in halves of the diagonal; both odd or both even
			c, r := (x+y)/2, (y-x)/2
			f.cells[[2]int{c, r}] = [2]int{i, k}
			if e, ok := f.ends[r]; ok {
				f.ends[r] = [2]int{min(e[0], c), max(e[1], c)}
			} else {
				f.ends[r] = [2]int{c, c}
			}
			low, high = min(low, r), max(high, r)
		}
	}
	return low, high
}

// at takes a point of the diagonal plane to the quilt.
func (f *diagonal) at(u, v pattern.Length) pattern.Pos {
	return pattern.Pos{X: (u-v)/math.Sqrt2 - f.inset, Y: (u+v)/math.Sqrt2 - f.inset}
}

// begin begins the row whose lower side lies at v.
func (f *diagonal) begin(v pattern.Length, sashing bool) row {
	return row{low: f.at(0, v), dir: pattern.Pos{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}, sashing: sashing}
}

// middle returns where the middle of a column, or row, lies.
func (f *diagonal) middle(i int) pattern.Length { return pattern.Length(i) * f.pitch }

// piece lays what of a rectangle of the diagonal plane lies within the quilt, and
// returns it and its area.
func (f *diagonal) piece(what string, fabric int, u, v, width, height pattern.Length) (pattern.Part, pattern.Length) {
	polygon := clip([]pattern.Pos{f.at(u, v), f.at(u+width, v), f.at(u+width, v+height), f.at(u, v+height)}, f.size)
	return f.area(what, fabric, polygon), area(polygon)
}

// row lays one row of blocks with its sashes, a triangle at either end.
func (f *diagonal) row(r int) {
	first, last := f.ends[r][0], f.ends[r][1]
	low := f.middle(r) - f.b/2
	row := f.begin(low, false)
	sash := func(u pattern.Length) {
		part, _ := f.piece("sash", f.q.Sashing.Fabric, u, low, f.s, f.b)
		row.parts = append(row.parts, part)
		f.cut("sashes", f.q.Sashing.Fabric, f.exact(pattern.Size{W: f.b, H: f.s}), 1)
	}
	start, end := f.middle(first)-f.b/2-f.lead, f.middle(last)+f.b/2+f.lead
	row.parts = f.end(row.parts, start-f.b, low, [2]pattern.Pos{f.at(start, low), f.at(start, low+f.b)})
	if f.lead > 0 {
		sash(start)
	}
	for c := first; c <= last; c++ {
		cell := f.cells[[2]int{c, r}]
		row.parts = append(row.parts, f.place(cell[0], cell[1], f.at(f.middle(c)-f.b/2, low), 45))
		if f.s > 0 && (c < last || f.lead > 0) {
			sash(f.middle(c) + f.b/2)
		}
	}
	row.parts = f.end(row.parts, end, low, [2]pattern.Pos{f.at(end, low), f.at(end, low+f.b)})
	f.rows = append(f.rows, row)
}

// end lays the triangle at an end of a row. At a corner of the quilt it is sewn on
// last, and belongs to no row.
func (f *diagonal) end(parts []pattern.Part, u, v pattern.Length, side [2]pattern.Pos) []pattern.Part {
	part, size := f.piece("setting triangle", f.q.Triangles, u, v, f.b, f.b)
	if size > 0.4*f.b*f.b { // half of a square, not a quarter
		return append(parts, part)
	}
	f.atCorner(part, side)
	return parts
}

// corner lays the triangle beside the outermost row, above or below it.
func (f *diagonal) corner(r, above int) {
	first := f.ends[r][0]
	u, v := f.middle(first)-f.b/2, f.middle(r)+pattern.Length(above)*(f.b/2+f.lead)
	side := [2]pattern.Pos{f.at(u, v), f.at(u+f.b, v)}
	if above < 0 {
		v -= f.b
	}
	part, _ := f.piece(pattern.CornerTriangle, f.q.Triangles, u, v, f.b, f.b)
	f.atCorner(part, side)
}

// atCorner notes a triangle at a corner of the quilt, with its long side.
func (f *diagonal) atCorner(part pattern.Part, side [2]pattern.Pos) {
	i, _ := part.Area()
	f.out.Areas[i].For = pattern.CornerTriangle
	f.corners = append(f.corners, corner{part, side})
}

// sashes lays the sashing between two rows, the lower and the upper, or beside the
// outer ones.
func (f *diagonal) sashes(lower, upper int) {
	first, last := math.MaxInt, math.MinInt
	for _, r := range [2]int{lower, upper} {
		if e, ok := f.ends[r]; ok {
			first, last = min(first, e[0]), max(last, e[1])
		}
	}
	low := f.middle(upper) - f.b/2 - f.s
	row := f.begin(low, true)
	if f.q.Cornerstones == pattern.NoFabric {
		f.longSash(&row, first, last, low)
	} else {
		if f.lead > 0 {
			f.stone(&row, f.middle(first)-f.b/2-f.s, low)
		}
		for c := first; c <= last; c++ {
			f.sash(&row, f.middle(c)-f.b/2, low)
			if c < last || f.lead > 0 {
				f.stone(&row, f.middle(c)+f.b/2, low)
			}
		}
	}
	f.rows = append(f.rows, row)
}

// sash lays one sash between two rows. At the quilt's edge its end is slanted: it
// is cut so much longer.
func (f *diagonal) sash(row *row, u, v pattern.Length) {
	fabric := f.q.Sashing.Fabric
	part, size := f.piece("sash", fabric, u, v, f.b, f.s)
	row.parts = append(row.parts, part)
	cut := f.exact(pattern.Size{W: f.b, H: f.s})
	what := "sashes"
	if ends := math.Round(float64((f.b*f.s - size) / (f.s * f.s / 2))); ends > 0 {
		what = "sashes that end at the edge"
		cut.W = pattern.RoundUp(f.b+(2+math.Sqrt2*pattern.Length(ends))*f.a, f.step)
	}
	f.cut(what, fabric, cut, 1)
}

// stone lays one cornerstone, or half of one at the edge, cut from a square cut
// twice, so that its long side is on the straight grain.
func (f *diagonal) stone(row *row, u, v pattern.Length) {
	fabric := f.q.Cornerstones
	part, size := f.piece("cornerstone", fabric, u, v, f.s, f.s)
	row.parts = append(row.parts, part)
	if size > 0.75*f.s*f.s {
		f.cut("cornerstones", fabric, f.exact(pattern.Size{W: f.s, H: f.s}), 1)
		return
	}
	f.shaped(pattern.Cut{For: "half cornerstones", Fabric: fabric, Shape: pattern.QuarterSquare, Size: f.square(f.s*math.Sqrt2, 2+2*math.Sqrt2), Count: 1})
}

// longSash lays one sash from edge to edge.
func (f *diagonal) longSash(row *row, first, last int, low pattern.Length) {
	beyond := f.b/2 + f.pitch
	from, to := f.middle(first)-beyond, f.middle(last)+beyond
	part, _ := f.piece("long sash", f.q.Sashing.Fabric, from, low, to-from, f.s)
	row.parts = append(row.parts, part)
	least, most := pattern.Length(math.Inf(1)), pattern.Length(math.Inf(-1))
	i, _ := part.Area()
	for _, p := range f.out.Areas[i].Polygon {
		u := (p.X + p.Y + 2*f.inset) / math.Sqrt2
		least, most = min(least, u), max(most, u)
	}
	// Its ends are slanted by half a right angle: the allowance of one reaches
	// (1 + sqrt 2) a beyond its tip.
	f.run("long sashes", f.q.Sashing.Fabric, f.s, most-least+2*math.Sqrt2*f.a)
}

// triangles notes how the sides are cut, from squares cut twice, and the corners,
// halves of squares: so the straight grain is on the quilt's edge (Avoid a bias
// disaster, quilterchic.com).
func (w *work) triangles(n, m int) {
	d := w.side.W * math.Sqrt2
	w.shaped(pattern.Cut{For: "setting triangles", Fabric: w.q.Triangles, Shape: pattern.QuarterSquare, Size: w.square(d, 2+2*math.Sqrt2), Count: 2*(n-1) + 2*(m-1)})
	w.shaped(pattern.Cut{For: "corner triangles", Fabric: w.q.Triangles, Shape: pattern.HalfSquare, Size: w.square(d/2, 2+math.Sqrt2), Count: 4})
}

// square returns the square that triangles are cut from: finished by so many
// allowances more. With an allowance all round a triangle is 2 + 2 sqrt 2 of them
// longer on its long side, 2 + sqrt 2 on a short one.
func (w *work) square(finished, add pattern.Length) pattern.Size {
	cut := pattern.RoundUp(finished+pattern.RoundUp(add*w.a, w.step), w.step)
	return pattern.Size{W: cut, H: cut}
}
