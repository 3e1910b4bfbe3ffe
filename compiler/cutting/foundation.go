package cutting

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

const (
	// A patch is laid along its seam unless that takes twice the cloth: an edge
	// to lay against the line is worth much to the maker, a long strip across
	// a square of cloth is not. Common practice, no source.
	slantWorth = 2

	// A first piece, which is laid against nothing, keeps the grain of the
	// block unless turning it saves a tenth of the cloth. Common practice, no
	// source.
	turnWorth = 1.1

	// A sharp tip of the cutting line may reach beyond the ease. Then the cloth
	// reaches an eighth of an inch beyond the tip, or as far as it reaches
	// beyond a straight edge if that is less. Common practice, no source.
	tipMargin = pattern.Inch / 8
)

// A box is a rectangle with one side along the unit vector axis.
type box struct {
	axis     pattern.Pos
	min, max pattern.Pos // along axis and square to it
}

// foundationPatch finds the cloth for a space, a rectangle or half a square: the points that it is measured
// by and their ease on every side, and the need wherever that reaches further.
func (c *cutter) foundationPatch(d *pattern.Drawing, p *pattern.Piece, need, space []pattern.Pos, first bool) {
	seam, along := direction(p.Seam[0], p.Seam[1])
	if slices.Contains(c.grain, p.Fabric) {
		c.grainPatch(d, p, need, space, first)
		return
	}
	best := c.cover(seam, need, space)
	worth := pattern.Length(slantWorth)
	if first || !along {
		along = false
		best = c.cover(pattern.Pos{X: 1}, need, space)
		worth = turnWorth
	}
	if cloth := best.area(); cloth > worth*c.leastArea(p.Polygon) { // only then can another do better
		least := cloth / worth
		for _, axis := range c.directions(p.Polygon) {
			if b := c.cover(axis, need, space); b.area() < least*(1-sameArea) {
				best, least, along = b, b.area(), false
			}
		}
	}
	patch := c.rectangle(best, need, pattern.Size{}, along)
	if half, ok := c.firstHalf(p, need, space, &patch); first && ok {
		patch = half
	} else if half, ok := c.halfSquare(d, p, need, space, &patch); ok {
		patch = half
	} else if len(c.even) > 0 && along && len(p.Polygon) == 3 {
		patch = c.rectangle(best, need, c.even[lookOf(p)], along)
	}
	p.Patch = patch
}

// grainPatch finds the cloth for a space that keeps the straight grain on the block's
// border, or inside a block the grain of the block: half a square, or a rectangle that
// has an edge along its line only where the line runs with the grain.
func (c *cutter) grainPatch(d *pattern.Drawing, p *pattern.Piece, need, space []pattern.Pos, first bool) {
	axis := borderGrain(d, p)
	seam, along := direction(p.Seam[0], p.Seam[1])
	if along = along && !first && min(math.Abs(float64(dot(seam, axis))), math.Abs(float64(cross(seam, axis)))) < onGrain; along {
		axis = seam
	}
	p.Patch = c.rectangle(c.cover(axis, need, space), need, pattern.Size{}, along)
	if half, ok := c.firstHalf(p, need, space, &p.Patch); first && ok {
		p.Patch = half
	} else if half, ok := c.halfSquare(d, p, need, space, &p.Patch); ok && !first && !along {
		p.Patch = half
	}
}

// onGrain is the sine of the angle within which a line runs with the grain: what is drawn
// at right angles is so but for rounding.
const onGrain = 1e-6

// borderGrain is the direction of the longest side of a piece on the block's border; of a
// piece inside, that of the block.
func borderGrain(d *pattern.Drawing, p *pattern.Piece) pattern.Pos {
	axis, long := pattern.Pos{X: 1}, pattern.Length(0)
	for i, a := range p.Polygon {
		b := p.Polygon[(i+1)%len(p.Polygon)]
		if side, ok := direction(a, b); ok && onBorder(d, a, b) && distance(a, b) > long*(1+sameArea) {
			axis, long = side, distance(a, b)
		}
	}
	return axis
}

// rectangle is a patch that covers a box, of a size at least, the box in its middle.
func (c *cutter) rectangle(best box, need []pattern.Pos, least pattern.Size, along bool) pattern.Patch {
	w, h := best.max.X-best.min.X, best.max.Y-best.min.Y
	size := pattern.Size{W: max(pattern.RoundUp(w, c.foundation), least.W), H: max(pattern.RoundUp(h, c.foundation), least.H)}
	best = best.grow((size.W-w)/2, (size.H-h)/2)
	exact := bounds(best.axis, need)
	patch := pattern.Patch{
		Shape:  pattern.Rectangle,
		Size:   size,
		Exact:  pattern.Size{W: exact.max.X - exact.min.X, H: exact.max.Y - exact.min.Y},
		Margin: min(exact.min.X-best.min.X, exact.min.Y-best.min.Y, best.max.X-exact.max.X, best.max.Y-exact.max.Y),
		Along:  along,
		Laid:   best.corners(),
	}
	if math.Abs(float64(size.W-size.H)) < float64(noLength) {
		patch.Shape = pattern.Square
	}
	return patch
}

// sameArea is how near two areas are one: of patches that take the same cloth, as
// in a section with a mirror line, the first is laid, whatever noise says.
const sameArea = 1e-9

// cover returns the least rectangle along an axis that holds the space with its
// ease, and the need. The space lies in its middle, since that is where a maker
// puts it.
func (c *cutter) cover(axis pattern.Pos, need, space []pattern.Pos) box {
	b, n := bounds(axis, space), bounds(axis, need)
	margin := max(0, min(tipMargin, c.ease-c.allowance))
	return b.grow(
		max(c.ease, b.min.X-n.min.X+margin, n.max.X-b.max.X+margin),
		max(c.ease, b.min.Y-n.min.Y+margin, n.max.Y-b.max.Y+margin))
}

// leastArea is no more than the area of any rectangle that covers the space: a
// rectangle round a convex shape has at least its area and its perimeter.
func (c *cutter) leastArea(space []pattern.Pos) pattern.Length {
	var area, perimeter pattern.Length
	for i, p := range space {
		q := space[(i+1)%len(space)]
		area += cross(p, q) / 2
		perimeter += distance(p, q)
	}
	return max(area, 0) + c.ease*perimeter + 4*c.ease*c.ease
}

// directions returns the unit vectors along the edges of a polygon.
func (c *cutter) directions(polygon []pattern.Pos) []pattern.Pos {
	c.axes = c.axes[:0]
	for i, p := range polygon {
		if axis, ok := direction(p, polygon[(i+1)%len(polygon)]); ok {
			c.axes = append(c.axes, axis)
		}
	}
	return c.axes
}

// bounds returns the least rectangle along an axis that holds the points.
func bounds(axis pattern.Pos, points []pattern.Pos) box {
	b := box{axis: axis}
	for i, p := range points {
		q := pattern.Pos{X: dot(axis, p), Y: cross(axis, p)}
		if i == 0 {
			b.min, b.max = q, q
		}
		if q.X < b.min.X {
			b.min.X = q.X
		} else if q.X > b.max.X {
			b.max.X = q.X
		}
		if q.Y < b.min.Y {
			b.min.Y = q.Y
		} else if q.Y > b.max.Y {
			b.max.Y = q.Y
		}
	}
	return b
}

func (b box) grow(x, y pattern.Length) box {
	b.min = pattern.Pos{X: b.min.X - x, Y: b.min.Y - y}
	b.max = pattern.Pos{X: b.max.X + x, Y: b.max.Y + y}
	return b
}

func (b box) area() pattern.Length { return (b.max.X - b.min.X) * (b.max.Y - b.min.Y) }

// corners returns the box in block coordinates, anticlockwise.
func (b box) corners() [4]pattern.Pos {
	at := func(x, y pattern.Length) pattern.Pos {
		return pattern.Pos{X: b.axis.X*x - b.axis.Y*y, Y: b.axis.Y*x + b.axis.X*y}
	}
	return [4]pattern.Pos{at(b.min.X, b.min.Y), at(b.max.X, b.min.Y), at(b.max.X, b.max.Y), at(b.min.X, b.max.Y)}
}
