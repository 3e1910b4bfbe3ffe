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
	edge := pattern.Length(0)
	if q.Around {
		edge = s
	}
	w.size = pattern.Size{
		W: pattern.Length(n)*w.side.W + pattern.Length(n-1)*s + 2*edge,
		H: pattern.Length(m)*w.side.H + pattern.Length(m-1)*s + 2*edge,
	}
	if edge > 0 {
		w.sashRow(n, w.size.H-s)
	}
	for i := range rows {
		low := edge + pattern.Length(m-1-i)*(w.side.H+s)
		w.blockRow(i, low, edge)
		if s > 0 && (i < m-1 || edge > 0) {
			w.sashRow(n, low-s)
		}
	}
	return ""
}

// blockRow lays a row of blocks from a height up, with sashes between them, and
// before and behind them where there is an edge.
func (w *work) blockRow(i int, low, edge pattern.Length) {
	s, right := w.q.Sashing.Width, pattern.Pos{X: 1}
	r := row{low: pattern.Pos{Y: low}, dir: right}
	sash := func(x pattern.Length) {
		r.parts = append(r.parts, w.rectangle("sash", w.q.Sashing.Fabric, x, low, s, w.side.H))
		w.cut("sashes", w.q.Sashing.Fabric, w.exact(pattern.Size{W: w.side.H, H: s}), 1)
	}
	if edge > 0 {
		sash(0)
	}
	cells := w.q.Rows[i]
	for k := range cells {
		x := edge + pattern.Length(k)*(w.side.W+s)
		r.parts = append(r.parts, w.place(i, k, pattern.Pos{X: x, Y: low}, 0))
		if s > 0 && (k < len(cells)-1 || edge > 0) {
			sash(x + w.side.W)
		}
	}
	w.rows = append(w.rows, r)
}

// sashRow lays the sashing between two rows of n blocks, or beside the outer ones,
// from a height up: one long sash, or sashes with cornerstones between them.
func (w *work) sashRow(n int, low pattern.Length) {
	q, s := w.q, w.q.Sashing.Width
	r := row{low: pattern.Pos{Y: low}, dir: pattern.Pos{X: 1}, sashing: true}
	if q.Cornerstones == pattern.NoFabric {
		r.parts = append(r.parts, w.rectangle("long sash", q.Sashing.Fabric, 0, low, w.size.W, s))
		w.run("long sashes", q.Sashing.Fabric, s, w.size.W)
		w.rows = append(w.rows, r)
		return
	}
	stone := func(x pattern.Length) {
		r.parts = append(r.parts, w.rectangle("cornerstone", q.Cornerstones, x, low, s, s))
		w.cut("cornerstones", q.Cornerstones, w.exact(pattern.Size{W: s, H: s}), 1)
	}
	x := pattern.Length(0)
	if q.Around {
		stone(0)
		x = s
	}
	for i := range n {
		r.parts = append(r.parts, w.rectangle("sash", q.Sashing.Fabric, x, low, w.side.W, s))
		w.cut("sashes", q.Sashing.Fabric, w.exact(pattern.Size{W: w.side.W, H: s}), 1)
		if x += w.side.W; i < n-1 || q.Around {
			stone(x)
		}
		x += s
	}
	w.rows = append(w.rows, r)
}
