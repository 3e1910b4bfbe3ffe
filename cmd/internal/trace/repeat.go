package trace

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// A repeat is a division of the picture into equal cells, some of them alike.
type repeat struct {
	across, down int
	w, h         float64 // of a cell
	kinds        []cell  // the different ones
	cells        []placed
}

// A cell is what lies in it, as the first of its kind lies, from its lower left.
type cell struct {
	lines   []plane.Line
	patches []patch
}

// A placed cell is one of a kind, reversed and then turned about its middle.
type placed struct {
	kind     int
	middle   plane.Point
	quarters int
	reversed bool
}

// divisions are tried in this order; of those that save as much, the first is
// taken. Others can't be told from chance in a drawing of a block.
func divisions() [][2]int {
	return [][2]int{{2, 2}, {3, 3}, {4, 4}, {2, 1}, {1, 2}, {3, 1}, {1, 3}, {4, 1}, {1, 4}, {4, 2}, {2, 4}, {3, 2}, {2, 3}}
}

// repeated finds the division that leaves the fewest patches to be written; nil if
// it is not worth while.
func (p *picture) repeated() *repeat {
	var best *repeat
	least := len(p.patches) * 3 / 4
	for _, d := range divisions() {
		r := p.divide(d[0], d[1])
		if r == nil {
			continue
		}
		written := len(r.cells)
		for i := range r.kinds {
			if len(r.kinds[i].patches) < 2 {
				written = len(p.patches) // a grid of plain squares says nothing
			}
			written += len(r.kinds[i].patches)
		}
		if written < least {
			best, least = r, written
		}
	}
	return best
}

// divide looks at one division; nil if seams do not run along all of it.
func (p *picture) divide(across, down int) *repeat {
	r := &repeat{across: across, down: down, w: p.W / float64(across), h: p.H / float64(down)}
	for y := range down {
		for x := range across {
			low := plane.Point{X: float64(x) * r.w, Y: float64(y) * r.h}
			c, ok := p.within(low, low.Add(plane.Point{X: r.w, Y: r.h}))
			if !ok {
				return nil
			}
			q := r.find(&c)
			q.middle = low.Add(plane.Point{X: r.w / 2, Y: r.h / 2})
			r.cells = append(r.cells, q)
		}
	}
	return r
}

// within cuts a cell out; false if a patch reaches over its border.
func (p *picture) within(low, high plane.Point) (c cell, ok bool) {
	inside := func(q plane.Point) bool {
		return q.X >= low.X-plane.Tol && q.X <= high.X+plane.Tol && q.Y >= low.Y-plane.Tol && q.Y <= high.Y+plane.Tol
	}
	for _, q := range p.patches {
		if at := q.polygon.Interior(); !inside(at) {
			continue
		}
		moved := patch{color: q.color, filled: q.filled}
		for _, v := range q.polygon {
			if !inside(v) {
				return c, false
			}
			moved.polygon = append(moved.polygon, v.Sub(low))
		}
		c.patches = append(c.patches, moved)
	}
	for _, l := range p.lines {
		if cut, ok := clip(l, low, high); ok {
			c.lines = append(c.lines, plane.Line{A: cut.A.Sub(low), B: cut.B.Sub(low)})
		}
	}
	return c, true
}

// clip returns the part of a line inside a box, its border left out.
func clip(l plane.Line, low, high plane.Point) (plane.Line, bool) {
	from, to := 0.0, 1.0
	d := l.B.Sub(l.A)
	for _, side := range [...]struct{ d, gap float64 }{
		{-d.X, l.A.X - low.X}, {d.X, high.X - l.A.X}, {-d.Y, l.A.Y - low.Y}, {d.Y, high.Y - l.A.Y},
	} {
		switch {
		case math.Abs(side.d) <= plane.Tol:
			if side.gap <= plane.Tol { // beside the box, or along its border
				return l, false
			}
		case side.d < 0:
			from = max(from, side.gap/side.d)
		default:
			to = min(to, side.gap/side.d)
		}
	}
	if (to-from)*l.Len() <= plane.Tol {
		return l, false
	}
	return plane.Line{A: l.A.Add(d.Mul(from)), B: l.A.Add(d.Mul(to))}, true
}

// find says which kind a cell is, a new one if it is like none.
func (r *repeat) find(c *cell) placed {
	step := 2
	if math.Abs(r.w-r.h) <= plane.Tol {
		step = 1
	}
	own := signature(c.patches, func(q plane.Point) plane.Point { return q })
	for kind := range r.kinds {
		for _, reversed := range [...]bool{false, true} {
			for quarters := 0; quarters < 4; quarters += step {
				move := r.motion(quarters, reversed)
				if slices.EqualFunc(own, signature(r.kinds[kind].patches, move), alike) {
					return placed{kind: kind, quarters: quarters, reversed: reversed}
				}
			}
		}
	}
	r.kinds = append(r.kinds, *c)
	return placed{kind: len(r.kinds) - 1}
}

// motion swaps left and right, then turns, both about the cell's middle.
func (r *repeat) motion(quarters int, reversed bool) func(plane.Point) plane.Point {
	middle := plane.Point{X: r.w / 2, Y: r.h / 2}
	return func(q plane.Point) plane.Point {
		q = q.Sub(middle)
		if reversed {
			q.X = -q.X
		}
		for range quarters {
			q = plane.Point{X: -q.Y, Y: q.X}
		}
		return q.Add(middle)
	}
}

// A mark stands for one patch: the corners' sum and squares tell patches apart that
// differ, and are the same however their corners are counted.
type mark struct {
	x, y, xx, yy, xy float64
	n                int
	color            uint32
	filled           bool
}

func signature(list []patch, move func(plane.Point) plane.Point) []mark {
	marks := make([]mark, len(list))
	for i := range list {
		m := mark{n: len(list[i].polygon), color: list[i].color, filled: list[i].filled}
		for _, q := range list[i].polygon {
			q = move(q)
			m.x, m.y = m.x+q.X, m.y+q.Y
			m.xx, m.yy, m.xy = m.xx+q.X*q.X, m.yy+q.Y*q.Y, m.xy+q.X*q.Y
		}
		marks[i] = m
	}
	const coarse = 1e4 // so that rounding changes no order
	slices.SortFunc(marks, func(a, b mark) int {
		return cmp.Or(cmp.Compare(math.Round(a.x*coarse), math.Round(b.x*coarse)), cmp.Compare(math.Round(a.y*coarse), math.Round(b.y*coarse)),
			cmp.Compare(math.Round(a.xx*coarse), math.Round(b.xx*coarse)), cmp.Compare(a.color, b.color))
	})
	return marks
}

// alike compares marks.
func alike(a, b mark) bool {
	const close = 1e-4 // of sums of squares: far below what differs in a drawing
	for _, d := range [...]float64{a.x - b.x, a.y - b.y, a.xx - b.xx, a.yy - b.yy, a.xy - b.xy} {
		if math.Abs(d) > close {
			return false
		}
	}
	return a.n == b.n && a.color == b.color && a.filled == b.filled
}
