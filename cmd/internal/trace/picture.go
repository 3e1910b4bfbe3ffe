package trace

import (
	"slices"

	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
)

// A picture is what can be seen of the shapes.
type picture struct {
	grid
	lines   []plane.Line // seams, each as long as it is
	patches []patch
	loose   bool // the lines make no patches: these are the shapes that have a color
}

// A patch is an area of one color.
type patch struct {
	polygon plane.Polygon
	color   uint32
	filled  bool
	at      *plane.Point // the place that names it; nil for the plainest inside
}

// A side is one line of a shape.
type side struct {
	plane.Line
	shape int
}

// see finds the seams and the patches.
func (g grid) see(shapes []Shape) *picture {
	p := &picture{grid: g}
	outline := plane.Polygon{{}, {X: g.W}, {X: g.W, Y: g.H}, {Y: g.H}}
	sides := meeting(sidesOf(shapes), g.near/g.unit)
	all := make([]plane.Line, len(sides))
	for i := range sides {
		all[i] = sides[i].Line
	}
	part := solver.Build(outline, all, 0)
	p.lines = seen(part, sides, shapes)
	if part = solver.Build(outline, p.lines, 0); unmade(part) || len(p.lines) == 0 {
		if p.lines = inner(all, outline); len(p.lines) > 0 { // as they are: what is wrong with them is the compiler's to tell
			p.loose, p.patches = true, painted(shapes, p.lines)
			return p
		}
	}
	for i := range part.Patches {
		q := patch{polygon: part.Polygon(i).Corners()}
		at := q.polygon.Interior()
		for k := len(shapes) - 1; k >= 0 && !q.filled; k-- {
			if shapes[k].Filled && plane.Polygon(shapes[k].Points).Locate(at) > 0 {
				q.color, q.filled = shapes[k].Fill, true
			}
		}
		p.patches = append(p.patches, q)
	}
	return p
}

// samples is at how many places along either side of a shape's box it is looked for
// where it can be seen.
const samples = 24

// painted lists the filled shapes that can be seen, each with a place in it away from
// all lines: what their fabrics are is known, though not yet of which patch.
func painted(shapes []Shape, lines []plane.Line) (list []patch) {
	for k := range shapes {
		if !shapes[k].Filled {
			continue
		}
		q := plane.Polygon(shapes[k].Points)
		clear := func(at plane.Point) float64 {
			for i := len(shapes) - 1; i >= k; i-- {
				if in := plane.Polygon(shapes[i].Points).Locate(at) > 0; in != (i == k) && (shapes[i].Filled || i == k) {
					return 0
				}
			}
			d := q.Nearest(at).Dist(at)
			for _, l := range lines {
				d = min(d, l.Nearest(at).Dist(at))
			}
			return d
		}
		low, high := q.Box()
		far, best := 0.0, plane.Point{}
		for i := range samples * samples {
			at := plane.Point{X: low.X + (high.X-low.X)*(float64(i%samples)+0.5)/samples, Y: low.Y + (high.Y-low.Y)*(float64(i/samples)+0.5)/samples}
			if d := clear(at); d > far+plane.Tol {
				far, best = d, at
			}
		}
		if far > 0 {
			if q.Area() < 0 {
				q = slices.Clone(q)
				slices.Reverse(q)
			}
			at := short(best, func(p plane.Point) bool { return clear(p) >= far/2 })
			list = append(list, patch{polygon: q, color: shapes[k].Fill, filled: true, at: &at})
		}
	}
	return list
}

// unmade reports whether lines do not make patches: they end in the middle of
// nowhere, or float.
func unmade(part *solver.Partition) bool {
	for i := range part.Faults {
		if part.Faults[i].Kind != solver.NotConvex {
			return true
		}
	}
	return len(part.Patches) == 0
}

// inner returns the lines that do not lie on the outline, each once.
func inner(lines []plane.Line, outline plane.Polygon) (list []plane.Line) {
	for _, l := range lines {
		if outline.Locate(l.A.Mid(l.B)) > 0 && !slices.Contains(list, l) && !slices.Contains(list, plane.Line{A: l.B, B: l.A}) {
			list = append(list, l)
		}
	}
	return list
}

func sidesOf(shapes []Shape) (list []side) {
	for i := range shapes {
		s := &shapes[i]
		for j := range s.Points {
			next := j + 1
			if next == len(s.Points) {
				if next = 0; !s.Closed {
					break
				}
			}
			if l := (plane.Line{A: s.Points[j], B: s.Points[next]}); l.Len() > plane.Tol {
				list = append(list, side{l, i})
			}
		}
	}
	return list
}

// meeting lets sides that end almost on another side end on it: where the other
// crosses their own line, if that is near enough.
func meeting(sides []side, near float64) []side {
	out := slices.Clone(sides)
	for i := range out {
		for _, end := range [...]*plane.Point{&out[i].A, &out[i].B} {
			for k := range sides {
				l := sides[k].Line
				foot := l.Nearest(*end)
				if k == i || foot.Same(*end) || foot.Dist(*end) > near || foot.Same(l.A) || foot.Same(l.B) {
					continue
				}
				if at, ok := sides[i].Meet(l); ok && at.Dist(*end) <= near {
					foot = at
				}
				*end = foot
				break
			}
		}
	}
	return out
}

// seen returns the runs of edges that no later shape is painted over.
func seen(part *solver.Partition, sides []side, shapes []Shape) (lines []plane.Line) {
	for _, seam := range part.Seams {
		from := -1
		for k := 0; k < len(seam.Points); k++ {
			last := k == len(seam.Points)-1
			open := !last && visible(plane.Line{A: part.Points[seam.Points[k]].Point, B: part.Points[seam.Points[k+1]].Point}, sides, shapes)
			switch {
			case open && from < 0:
				from = k
			case !open && from >= 0:
				lines = append(lines, plane.Line{A: part.Points[seam.Points[from]].Point, B: part.Points[seam.Points[k]].Point})
				from = -1
			}
		}
	}
	return lines
}

// visible reports whether an edge belongs to a side with nothing painted over it.
func visible(edge plane.Line, sides []side, shapes []Shape) bool {
	at := edge.A.Mid(edge.B)
	top := -1
	for i := range sides {
		if sides[i].shape > top && sides[i].Nearest(at).Same(at) {
			top = sides[i].shape
		}
	}
	for k := top + 1; k < len(shapes); k++ {
		if shapes[k].Filled && plane.Polygon(shapes[k].Points).Locate(at) > 0 {
			return false
		}
	}
	return true
}
