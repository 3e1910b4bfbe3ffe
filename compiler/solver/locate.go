package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// A Spot tells where a point lies.
type Spot struct {
	Patch    int     // -1 outside the outline
	Edge     int     // the nearest edge of the patch; -1 outside
	Distance float64 // from that edge; a point within [plane.Tol] lies on it
}

// Locate finds the patches that points lie in. The cost is about linear in
// patches and points together.
func (p *Partition) Locate(points []plane.Point) []Spot {
	g := p.boxes()
	out := make([]Spot, len(points))
	for i, q := range points {
		out[i] = Spot{-1, -1, -plane.Tol}
		if !(q.X >= g.low.X-plane.Tol && q.X <= g.high.X+plane.Tol && q.Y >= g.low.Y-plane.Tol && q.Y <= g.high.Y+plane.Tol) {
			out[i].Distance = 0
			continue
		}
		c := g.cell(q)
		for _, f := range g.list[g.start[c]:g.start[c+1]] {
			if s := p.spot(int(f), q); s.Distance >= out[i].Distance {
				out[i] = s
			}
		}
		out[i].Distance = max(out[i].Distance, 0)
	}
	return out
}

// spot returns how deep a point lies in a patch: its distance from the border,
// negative outside.
func (p *Partition) spot(patch int, q plane.Point) Spot {
	a := &p.Patches[patch]
	s := Spot{patch, -1, math.Inf(1)}
	for i, v := range a.Points {
		w := a.Points[0]
		if i+1 < len(a.Points) {
			w = a.Points[i+1]
		}
		l := plane.Line{A: p.Points[v].Point, B: p.Points[w].Point}
		d := l.Nearest(q).Dist(q)
		if a.Convex && l.Offset(q) < 0 {
			d = -d
		}
		if d < s.Distance {
			s.Edge, s.Distance = a.Edges[i], d
		}
	}
	if !a.Convex && p.Polygon(patch).Locate(q) < 0 {
		s.Distance = -s.Distance
	}
	return s
}

// boxes is a grid of cells, each with the patches whose boxes reach into it.
type boxes struct {
	low, high plane.Point
	side      float64
	nx, ny    int
	start     []int32
	list      []int32
}

func (p *Partition) boxes() *boxes {
	g := &boxes{nx: 1, ny: 1}
	if len(p.Points) > 0 {
		g.low, g.high = p.Points[0].Point, p.Points[0].Point
	}
	for i := range p.Points {
		q := p.Points[i].Point
		g.low.X, g.high.X = min(g.low.X, q.X), max(g.high.X, q.X)
		g.low.Y, g.high.Y = min(g.low.Y, q.Y), max(g.high.Y, q.Y)
	}
	w, h := g.high.X-g.low.X, g.high.Y-g.low.Y
	g.side = max(math.Sqrt(w*h/float64(len(p.Patches)+1)), w/maxCellsAcross, h/maxCellsAcross, plane.Tol)
	g.nx, g.ny = int(w/g.side)+1, int(h/g.side)+1
	g.start = make([]int32, g.nx*g.ny+2)
	for f := range p.Patches {
		p.reach(g, f, func(c int) { g.start[c+2]++ })
	}
	for c := 2; c < len(g.start); c++ {
		g.start[c] += g.start[c-1]
	}
	g.list = make([]int32, g.start[len(g.start)-1])
	for f := range p.Patches {
		p.reach(g, f, func(c int) {
			g.list[g.start[c+1]] = int32(f)
			g.start[c+1]++
		})
	}
	return g
}

// reach names the cells that a patch's box, a little widened, reaches into.
func (p *Partition) reach(g *boxes, patch int, f func(cell int)) {
	low, high := p.Polygon(patch).Box()
	d := plane.Point{X: 2 * plane.Tol, Y: 2 * plane.Tol}
	a, b := g.cell(low.Sub(d)), g.cell(high.Add(d))
	for y := a / g.nx; y <= b/g.nx; y++ {
		for x := a % g.nx; x <= b%g.nx; x++ {
			f(x + g.nx*y)
		}
	}
}

// cell returns the cell of a point; points outside belong to the nearest.
func (g *boxes) cell(q plane.Point) int {
	x := int(min(max((q.X-g.low.X)/g.side, 0), float64(g.nx-1)))
	y := int(min(max((q.Y-g.low.Y)/g.side, 0), float64(g.ny-1)))
	return x + g.nx*y
}
