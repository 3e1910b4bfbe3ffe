package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// A segment is one straight stretch of the input between two numbered points.
type segment struct {
	a, b    int32
	line    int32 // of the input; -1 for a side of the outline
	from    plane.Point
	dir     plane.Point // unit vector
	len     float64
	outline bool
}

// offset returns the distance of p from the segment's line, positive on the left.
func (s *segment) offset(p plane.Point) float64 { return s.dir.Cross(p.Sub(s.from)) }

// along returns how far along the segment the foot of p lies.
func (s *segment) along(p plane.Point) float64 { return s.dir.Dot(p.Sub(s.from)) }

// cells is a grid of square cells laid over the outline; each lists the segments
// that pass through it, so that only neighbours are compared.
type cells struct {
	low    plane.Point
	side   float64
	nx, ny int
	start  []int32 // cell c lists list[start[c]:start[c+1]]
	list   []int32
}

// margin widens a segment when its cells are listed, in parts of a cell: enough
// for rounding, and to see what lies nearly on it.
const margin = 1.0 / 64

// newCells makes about as many cells as there are segments.
func newCells(low, high plane.Point, segments []segment) *cells {
	w, h := high.X-low.X, high.Y-low.Y
	length := 0.0
	for i := range segments {
		length += min(segments[i].len, w+h)
	}
	side := max(math.Sqrt(w*h/float64(len(segments)+1)), w/maxCellsAcross, h/maxCellsAcross, length/maxListed, plane.Tol/margin)
	g := &cells{low: low, side: side, nx: int(w/side) + 1, ny: int(h/side) + 1}
	g.start = make([]int32, g.nx*g.ny+2)
	for i := range segments {
		g.visit(&segments[i], func(c int) { g.start[c+2]++ })
	}
	for c := 2; c < len(g.start); c++ {
		g.start[c] += g.start[c-1]
	}
	g.list = make([]int32, g.start[len(g.start)-1])
	for i := range segments {
		g.visit(&segments[i], func(c int) {
			g.list[g.start[c+1]] = int32(i)
			g.start[c+1]++
		})
	}
	return g
}

// maxListed bounds the lists of all cells together, roughly.
const maxListed = 4_000_000

// maxCellsAcross bounds the grid where an outline is long and thin.
const maxCellsAcross = 4096

// of returns the cell of p; points outside the grid belong to its nearest cell.
func (g *cells) of(p plane.Point) int {
	return g.clampX((p.X-g.low.X)/g.side) + g.nx*g.clampY((p.Y-g.low.Y)/g.side)
}

func (g *cells) clampX(x float64) int { return int(min(max(x, 0), float64(g.nx-1))) }
func (g *cells) clampY(y float64) int { return int(min(max(y, 0), float64(g.ny-1))) }

// visit names the cells within the margin of a segment, once each, and a few more.
func (g *cells) visit(s *segment, f func(cell int)) {
	a := plane.Point{X: (s.from.X - g.low.X) / g.side, Y: (s.from.Y - g.low.Y) / g.side}
	d := s.dir.Mul(s.len / g.side)
	b := a.Add(d)
	if math.Abs(d.X) >= math.Abs(d.Y) {
		if d.X < 0 {
			a, b, d = b, a, d.Mul(-1)
		}
		for x := g.clampX(a.X - margin); x <= g.clampX(b.X+margin); x++ {
			y0, y1 := span(a.X, a.Y, d.X, d.Y, float64(x))
			for y := g.clampY(y0); y <= g.clampY(y1); y++ {
				f(x + g.nx*y)
			}
		}
		return
	}
	if d.Y < 0 {
		a, b, d = b, a, d.Mul(-1)
	}
	for y := g.clampY(a.Y - margin); y <= g.clampY(b.Y+margin); y++ {
		x0, x1 := span(a.Y, a.X, d.Y, d.X, float64(y))
		for x := g.clampX(x0); x <= g.clampX(x1); x++ {
			f(x + g.nx*y)
		}
	}
}

// span returns how far a segment reaches across within one row of cells, the row
// that starts at t. The segment starts at (t0, u0) and runs by (dt, du), dt > 0.
// In the last rows it is taken to run on, which lists a cell too many at most.
func span(t0, u0, dt, du, t float64) (low, high float64) {
	if dt == 0 {
		return u0 - margin, u0 + margin
	}
	k := du / dt
	low, high = u0+k*(max(t-margin, t0)-t0), u0+k*(min(t+1+margin, t0+dt)-t0)
	if low > high {
		low, high = high, low
	}
	return low - margin, high + margin
}
