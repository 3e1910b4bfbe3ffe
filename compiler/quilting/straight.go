package quilting

import "seamwright/compiler/pattern"

// straight lays rows of blocks with their sashing. All rows are as long as the
// first.
func (w *work) straight() string {
	rows, q := w.q.Rows, w.q
	n, m := len(rows[0]), len(rows)
	for _, row := range rows {
		if len(row) != n {
			return "its rows are not of the same number of blocks"
		}
		for _, c := range row {
			if c.Turn%2 != 0 && abs(w.side.W-w.side.H) > same {
				return "a block that is not square is turned by a quarter"
			}
		}
	}
	s := q.Sashing.Width
	if s == 0 && q.Cornerstones != pattern.NoFabric {
		return "it has cornerstones, but no sashing that they would stand between"
	}
	if s > 0 && q.Sashing.Fabric == pattern.NoFabric {
		return "its sashing has no fabric: sashing 1in of sky"
	}
	edge := pattern.Length(0)
	if q.Around {
		edge = s
	}
	for i, row := range rows {
		for k := range row {
			w.place(&row[k], pattern.Pos{X: edge + pattern.Length(k)*(w.side.W+s), Y: edge + pattern.Length(m-1-i)*(w.side.H+s)}, 0)
		}
	}
	w.size = pattern.Size{
		W: pattern.Length(n)*w.side.W + pattern.Length(n-1)*s + 2*edge,
		H: pattern.Length(m)*w.side.H + pattern.Length(m-1)*s + 2*edge,
	}
	if s > 0 {
		w.sashes(n, m, edge)
	}
	return ""
}

// sashes lays the sashing of n blocks across and m down. Without cornerstones,
// short ones lie between the blocks of a row, and long ones between the rows.
func (w *work) sashes(n, m int, edge pattern.Length) {
	q, s := w.q, w.q.Sashing.Width
	first, lastX, lastY := 1, n-1, m-1 // sash i stands before block i, counted from 0
	if q.Around {
		first, lastX, lastY = 0, n, m
	}
	at := func(i int, side pattern.Length) pattern.Length { return edge + pattern.Length(i)*(side+s) - s }
	for i := first; i <= lastX; i++ {
		for k := range m {
			w.rectangle(q.Sashing.Fabric, at(i, w.side.W), edge+pattern.Length(k)*(w.side.H+s), s, w.side.H)
			w.cut("sashes", q.Sashing.Fabric, w.exact(pattern.Size{W: w.side.H, H: s}), 1)
		}
	}
	var long []pattern.Length
	for k := first; k <= lastY; k++ {
		y := at(k, w.side.H)
		if q.Cornerstones == pattern.NoFabric {
			w.rectangle(q.Sashing.Fabric, 0, y, w.size.W, s)
			long = append(long, w.size.W)
			continue
		}
		for i := range n {
			w.rectangle(q.Sashing.Fabric, edge+pattern.Length(i)*(w.side.W+s), y, w.side.W, s)
			w.cut("sashes", q.Sashing.Fabric, w.exact(pattern.Size{W: w.side.W, H: s}), 1)
		}
		for i := first; i <= lastX; i++ {
			w.rectangle(q.Cornerstones, at(i, w.side.W), y, s, s)
			w.cut("cornerstones", q.Cornerstones, w.exact(pattern.Size{W: s, H: s}), 1)
		}
	}
	if len(long) > 0 {
		w.run("long sashes", q.Sashing.Fabric, s, long...)
	}
}
