package piecing

import (
	"math"
	"slices"

	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
)

// name gives every patch its fabric; false where one has none, or two.
func (k *sketch) name() bool {
	n := len(k.part.Patches)
	k.fabric, k.point, k.corner = make([]int, n), make([]int, n), make([]int, n)
	k.grid = newPatchGrid(k.part)
	ok := true
	for i := range k.body.Drawn {
		d := &k.body.Drawn[i]
		for j, p := range d.Points {
			patch := k.grid.at(p)
			if patch < 0 {
				k.tellNoPatch(p, pointAt(d.PointAt, j, d.At))
				ok = false
				continue
			}
			ok = k.claim(patch, i, j) && ok
		}
		if len(d.Corners) == 0 {
			continue
		}
		corners := anticlockwise(d.Corners)
		patch := k.grid.at(corners.Interior())
		if patch < 0 || fit(k.part.Polygon(patch).Corners(), corners, false) == nil {
			k.tellCorners(i, patch)
			ok = false
			continue
		}
		k.corner[patch] = i + 1
		ok = k.claim(patch, i, -1) && ok
	}
	if ok {
		return k.allNamed()
	}
	return false
}

func (k *sketch) claim(patch, drawn, point int) bool {
	if k.fabric[patch] > 0 {
		k.tellNamedTwice(patch, drawn, point)
		return false
	}
	k.fabric[patch], k.point[patch] = drawn+1, point
	return true
}

// anticlockwise returns a polygon's true corners, anticlockwise.
func anticlockwise(p plane.Polygon) plane.Polygon {
	if p.Area() < 0 {
		p = slices.Clone(p)
		slices.Reverse(p)
	}
	return p.Corners()
}

// A patchGrid finds the patch at a point: buckets over the unit, each with the
// patches whose boxes reach into it.
type patchGrid struct {
	part *solver.Partition
	low  plane.Point
	side float64
	n    int
	list [][]int32
}

func newPatchGrid(p *solver.Partition) *patchGrid {
	g := &patchGrid{part: p, n: max(1, int(math.Sqrt(float64(len(p.Patches)))))}
	var high plane.Point
	for i := range p.Points {
		q := p.Points[i].Point
		if i == 0 {
			g.low, high = q, q
		}
		g.low = plane.Point{X: min(g.low.X, q.X), Y: min(g.low.Y, q.Y)}
		high = plane.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	g.side = max(high.X-g.low.X, high.Y-g.low.Y, plane.Tol) / float64(g.n)
	g.list = make([][]int32, g.n*g.n)
	for i := range p.Patches {
		low, high := p.Polygon(i).Box()
		for y := g.cell(low.Y - g.low.Y); y <= g.cell(high.Y-g.low.Y); y++ {
			for x := g.cell(low.X - g.low.X); x <= g.cell(high.X-g.low.X); x++ {
				g.list[y*g.n+x] = append(g.list[y*g.n+x], int32(i))
			}
		}
	}
	return g
}

func (g *patchGrid) cell(d float64) int { return max(0, min(g.n-1, int(d/g.side))) }

// at returns the patch with a point in its inside, -1 if there is none.
func (g *patchGrid) at(q plane.Point) int {
	for _, i := range g.list[g.cell(q.Y-g.low.Y)*g.n+g.cell(q.X-g.low.X)] {
		if g.part.Polygon(int(i)).Locate(q) > 0 {
			return int(i)
		}
	}
	return -1
}
