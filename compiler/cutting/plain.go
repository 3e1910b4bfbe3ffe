package cutting

import (
	"math"

	"seamwright/compiler/pattern"
)

// plainPatch finds the exact patch for a section of one piece. Of a right
// triangle the sides that lie along the block's edge, or else along its grain,
// are cut on the straight grain.
func (c *cutter) plainPatch(d *pattern.Drawing) {
	piece := &d.Pieces[0]
	corners := c.corners(piece.Polygon)
	patch := pattern.Patch{Plain: true}
	switch right := rightAngles(corners); {
	case len(corners) == 4 && right[0] && right[1] && right[2] && right[3]:
		c.plainRectangle(&patch, corners)
	case len(corners) == 3 && (right[0] || right[1] || right[2]):
		for i := range right {
			if right[i] {
				c.rightTriangle(&patch, d, [3]pattern.Pos{corners[i], corners[(i+1)%3], corners[(i+2)%3]})
				break
			}
		}
	default:
		c.template(&patch, d, corners)
	}
	piece.Patch = patch
}

// plainRectangle: cut = finished + two allowances each way.
func (c *cutter) plainRectangle(patch *pattern.Patch, corners []pattern.Pos) {
	w, h := distance(corners[0], corners[1]), distance(corners[1], corners[2])
	w, h = max(w, h), min(w, h)
	patch.Exact = pattern.Size{W: w + 2*c.allowance, H: h + 2*c.allowance}
	patch.Size = c.roundPlain(patch.Exact)
	patch.Shape = pattern.Rectangle
	if math.Abs(float64(patch.Size.W-patch.Size.H)) < float64(noLength) {
		patch.Shape = pattern.Square
	}
}

// rightTriangle: t is the right angle and then the others, anticlockwise.
//
// A triangle with an allowance s all round is the same triangle (r+s)/r as
// large, r the radius of its inscribed circle. Of two equal legs that makes
// finished + (2 + sqrt 2) s, which the trade rounds from 0.854 to 7/8; of the
// long side finished + (2 + 2 sqrt 2) s, rounded from 1.207 to 1 1/4.
func (c *cutter) rightTriangle(patch *pattern.Patch, d *pattern.Drawing, t [3]pattern.Pos) {
	p, q, hyp := distance(t[0], t[1]), distance(t[0], t[2]), distance(t[1], t[2])
	s := c.allowance
	if math.Abs(float64(p-q)) > float64(noLength) {
		k := 1 + s/((p+q-hyp)/2)
		patch.Shape = pattern.HalfRectangle
		patch.Exact = pattern.Size{W: max(p, q) * k, H: min(p, q) * k}
		patch.Size = c.roundPlain(patch.Exact)
		patch.Reversed = p < q
		return
	}
	finished, add := p, (2+math.Sqrt2)*s
	patch.Shape = pattern.HalfSquare
	if longSideOnGrain(d, t) {
		finished, add = hyp, (2+2*math.Sqrt2)*s
		patch.Shape = pattern.QuarterSquare
	}
	cut := pattern.RoundUp(finished+pattern.RoundUp(add, c.plain), c.plain)
	patch.Exact = pattern.Size{W: finished + add, H: finished + add}
	patch.Size = pattern.Size{W: cut, H: cut}
}

// longSideOnGrain reports whether the long side of a triangle, rather than its
// legs, wants the straight grain: because it lies on the block's edge and they
// do not, or else because it runs with the block's sides and they do not.
// Bias edges ripple (Bias, quilterchic.com; Cutting QSTs, quiltville 2005).
func longSideOnGrain(d *pattern.Drawing, t [3]pattern.Pos) bool {
	long := onBorder(d, t[1], t[2])
	short := onBorder(d, t[0], t[1]) || onBorder(d, t[2], t[0])
	if long != short {
		return long
	}
	along, _ := direction(t[1], t[2])
	return math.Abs(float64(along.X*along.Y)) < float64(noLength)
}

// onBorder reports whether the side from a to b lies on the block's border.
func onBorder(d *pattern.Drawing, a, b pattern.Pos) bool {
	along, _ := direction(a, b)
	for i, e := range d.Edges {
		if e.Kind != pattern.Border {
			continue
		}
		p, q := d.Outline[i], d.Outline[(i+1)%len(d.Outline)]
		far := func(r pattern.Pos) float64 {
			return math.Abs(float64(cross(along, pattern.Pos{X: r.X - a.X, Y: r.Y - a.Y})))
		}
		if far(p) < float64(noLength) && far(q) < float64(noLength) {
			return true
		}
	}
	return false
}

// template: any other shape is cut round a printed template; the size is of the
// cloth that takes it with its longest side along the grain.
func (c *cutter) template(patch *pattern.Patch, d *pattern.Drawing, corners []pattern.Pos) {
	patch.Shape = pattern.TemplatePatch
	patch.Reversed = d.Reversed >= 0
	plain := *c
	plain.extra = 0
	need := plain.contour(d)
	axis, longest := pattern.Pos{X: 1}, pattern.Length(0)
	for i, p := range corners {
		next := corners[(i+1)%len(corners)]
		if a, ok := direction(p, next); ok && distance(p, next) > longest+noLength {
			axis, longest = a, distance(p, next)
		}
	}
	b := bounds(axis, need)
	patch.Exact = pattern.Size{W: b.max.X - b.min.X, H: b.max.Y - b.min.Y}
	patch.Size = c.roundPlain(patch.Exact)
}

func (c *cutter) roundPlain(s pattern.Size) pattern.Size {
	return pattern.Size{W: pattern.RoundUp(s.W, c.plain), H: pattern.RoundUp(s.H, c.plain)}
}

// corners returns the polygon without points in the middle of a side.
func (c *cutter) corners(polygon []pattern.Pos) []pattern.Pos {
	n := len(polygon)
	c.edge = c.edge[:0]
	for i, p := range polygon {
		in, ok1 := direction(polygon[(i+n-1)%n], p)
		out, ok2 := direction(p, polygon[(i+1)%n])
		if ok1 && ok2 && math.Abs(float64(cross(in, out))) > float64(noLength) {
			c.edge = append(c.edge, p)
		}
	}
	return append([]pattern.Pos(nil), c.edge...)
}

// rightAngles says of each corner whether it is a right angle.
func rightAngles(corners []pattern.Pos) []bool {
	n := len(corners)
	right := make([]bool, n)
	for i, p := range corners {
		in, _ := direction(corners[(i+n-1)%n], p)
		out, _ := direction(p, corners[(i+1)%n])
		right[i] = math.Abs(float64(dot(in, out))) < float64(noLength) && cross(in, out) > 0
	}
	return right
}

func convex(corners []pattern.Pos) bool {
	n := len(corners)
	for i, p := range corners {
		in, _ := direction(corners[(i+n-1)%n], p)
		out, _ := direction(p, corners[(i+1)%n])
		if cross(in, out) < 0 {
			return false
		}
	}
	return true
}

func distance(a, b pattern.Pos) pattern.Length {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	return pattern.Length(math.Sqrt(x*x + y*y))
}
