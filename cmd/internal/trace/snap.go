package trace

import (
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// A grid is where the drawing lies in squares: W wide and H high, its points on
// every part-th of a square if Off is 0; else so many points are beside that.
type grid struct {
	W, H  float64
	parts int
	Off   int

	low, high plane.Point // the drawing's box
	unit      float64     // of the drawing, in a square
	near      float64     // the tolerance, in units of the drawing
}

const (
	// finest is how many places a side of the grid may have at most.
	finest = 64

	// wide is how many squares a side should have at most, if that can be had with
	// halves, thirds or quarters.
	wide = 24

	// apart is how many tolerances two places of the grid lie apart, so that being
	// on the grid by chance is rare.
	apart = 4

	// exact is the part of the tolerance within which a drawing lies on its own
	// grid: a drawing program errs by far less. A coarser grid that all points reach
	// only by stretching the tolerance is not the one it was drawn on.
	exact = 1.0 / 8

	// plainShare is how many of the points must lie on a grid for it to be used.
	plainShare = 0.6
)

// snap chooses the grid and moves the shapes onto it, y pointing up. Points nearer
// to each other than the tolerance become one.
func (d *Drawing) snap(part float64) ([]Shape, grid) {
	g := d.box(part)
	points := d.merge(g.near)
	g.choose(points)
	shapes := make([]Shape, 0, len(d.Shapes))
	for i := range d.Shapes {
		s := d.Shapes[i]
		s.Points = slices.Clone(s.Points)
		for j := range s.Points {
			s.Points[j] = g.place(nearest(points, s.Points[j], g.near))
		}
		shapes = append(shapes, s)
	}
	return shapes, g
}

func (d *Drawing) box(part float64) grid {
	g := grid{low: plane.Point{X: math.Inf(1), Y: math.Inf(1)}, high: plane.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	for i := range d.Shapes {
		for _, p := range d.Shapes[i].Points {
			g.low = plane.Point{X: min(g.low.X, p.X), Y: min(g.low.Y, p.Y)}
			g.high = plane.Point{X: max(g.high.X, p.X), Y: max(g.high.Y, p.Y)}
		}
	}
	if d.edge != nil {
		g.low, g.high = d.edge[0], d.edge[1]
	}
	g.near = part * max(g.high.X-g.low.X, g.high.Y-g.low.Y)
	return g
}

// merge lists the places of points, each the first of those about it.
func (d *Drawing) merge(near float64) []plane.Point {
	var list []plane.Point
	for i := range d.Shapes {
		for _, p := range d.Shapes[i].Points {
			if q := nearest(list, p, near); q == p && !slices.Contains(list, p) {
				list = append(list, p)
			}
		}
	}
	return list
}

// nearest returns the nearest of points within reach, p itself if there is none.
func nearest(points []plane.Point, p plane.Point, reach float64) plane.Point {
	best, at := reach, p
	for _, q := range points {
		if dist := q.Dist(p); dist <= best {
			best, at = dist, q
		}
	}
	return at
}

// choose finds the coarsest grid on which all points lie exactly, else the
// coarsest that they are all near to, else one on which most lie.
func (g *grid) choose(points []plane.Point) {
	w, h := g.high.X-g.low.X, g.high.Y-g.low.Y
	places, off := 8, len(points)+1
	for n := 1; n <= finest && w/float64(n) >= apart*g.near; n++ {
		side := w / float64(n)
		if math.Abs(math.Round(h/side)*side-h) > g.near {
			continue
		}
		beside, worst := 0, 0.0
		for _, p := range points {
			miss := g.miss(p, side)
			worst = max(worst, miss)
			if miss > g.near {
				beside++
			}
		}
		if beside == 0 && worst <= exact*g.near {
			places, off = n, 0
			break
		}
		if beside < off && (beside == 0 || float64(beside) <= (1-plainShare)*float64(len(points))) {
			places, off = n, beside
		}
	}
	g.Off = 0
	if off <= len(points) {
		g.Off = off
	} else {
		g.Off = len(points)
	}
	g.parts = 1
	for _, parts := range [...]int{1, 2, 3, 4} {
		if places%parts == 0 && places/parts >= 4 {
			g.parts = parts
			if places/parts <= wide {
				break
			}
		}
	}
	g.unit = w / float64(places) * float64(g.parts)
	g.W = float64(places) / float64(g.parts)
	g.H = h / g.unit
	if on := math.Round(g.H*float64(g.parts)) / float64(g.parts); math.Abs(on-g.H)*g.unit <= g.near {
		g.H = on
	}
}

// miss is how far a point is from the nearest place of a grid of this side.
func (g *grid) miss(p plane.Point, side float64) float64 {
	q := p.Sub(g.low)
	return plane.Point{X: math.Round(q.X / side), Y: math.Round(q.Y / side)}.Mul(side).Dist(q)
}

// place returns a point in squares.
func (g *grid) place(p plane.Point) plane.Point {
	fine := float64(g.parts)
	q := plane.Point{X: (p.X - g.low.X) / g.unit, Y: (g.high.Y - p.Y) / g.unit}
	on := func(v, most float64) float64 {
		switch r := math.Round(v*fine) / fine; {
		case math.Abs(r-v)*g.unit <= g.near && r <= most:
			return r
		case v*g.unit <= g.near:
			return 0
		case (most-v)*g.unit <= g.near:
			return most
		}
		return v
	}
	return plane.Point{X: on(q.X, g.W), Y: on(q.Y, g.H)}
}
