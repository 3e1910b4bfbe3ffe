package cutting

import (
	"math"

	"seamwright/compiler/pattern"
)

// noLength is a length below which two corners are one: far under any printed
// line, far above the noise of doubles.
const noLength pattern.Length = 1e-7

// straight is the sine of the turn below which an edge runs on into the next.
const straight = 1e-9

// Windows yields, from the last piece back to the first, the area that each
// must fill: its space and the allowance around it.
type windows struct {
	allowance    pattern.Length // beyond the seams
	rest, buffer []pattern.Pos  // what is not yet undone, and room for the next
	piece        []pattern.Pos
}

// start begins with the section's cutting line.
func (w *windows) start(contour []pattern.Pos, allowance pattern.Length) {
	w.allowance = allowance
	w.rest = append(w.rest[:0], contour...)
}

// next returns the area of a piece and takes it off. The result is good until
// the next call.
func (w *windows) next(p *pattern.Piece) []pattern.Pos {
	along, ok := direction(p.Seam[0], p.Seam[1])
	if !ok { // piece 1: whatever is left
		return w.rest
	}
	left := pattern.Pos{X: -along.Y, Y: along.X}
	at := dot(left, p.Seam[0])
	w.piece = clip(w.piece[:0], w.rest, pattern.Pos{X: -left.X, Y: -left.Y}, w.allowance-at)
	w.buffer = clip(w.buffer[:0], w.rest, left, w.allowance+at)
	w.rest, w.buffer = w.buffer, w.rest
	return w.piece
}

// moves returns how far each side of a drawing is moved out: an allowance, and
// on the block's border what is left beyond it.
func (c *cutter) moves(d *pattern.Drawing, allowance pattern.Length) []pattern.Length {
	c.out = c.out[:0]
	for i := range d.Outline {
		move := allowance
		if i < len(d.Edges) && d.Edges[i].Kind == pattern.Border {
			move += c.extra
		}
		c.out = append(c.out, move)
	}
	return c.out
}

// contour returns a section's cutting line, its sharp corners blunted. It is
// good until the next call of a method.
func (c *cutter) contour(d *pattern.Drawing) []pattern.Pos {
	c.line = offset(c.line[:0], d.Outline, c.moves(d, c.allowance))
	if !convex(d.Outline) {
		return c.line
	}
	return c.blunt(c.line, d.Outline, true)
}

// Blunt takes the tips off an area. At a corner of the finished shape sharper
// than a right angle the allowances of its edges meet far away (allowance / sin
// of half the angle); everybody cuts such tips off, for they only make lumps.
//
// Between pieces of a section, what is kept reaches sqrt 2 allowances past the
// corner, as at a right angle: more than an allowance that ends square with
// either edge. Where a seam goes on past the corner more is needed; that is a
// [debt]. At the section's own corners the cutting line is made to meet the
// neighbour's raw edge, which is the mirror image of the one edge's cutting line
// in the other; that tip reaches half as far as the sharp one.
func (c *cutter) blunt(area, finished []pattern.Pos, section bool) []pattern.Pos {
	allowance := c.allowance + c.extra
	n := len(finished)
	for i, corner := range finished {
		in, ok1 := direction(finished[(i+n-1)%n], corner)
		out, ok2 := direction(corner, finished[(i+1)%n])
		if !ok1 || !ok2 || dot(in, out) > -straight {
			continue // a right angle or wider: the edges do not turn back
		}
		tip, ok := direction(pattern.Pos{}, pattern.Pos{X: in.X - out.X, Y: in.Y - out.Y})
		if !ok {
			continue
		}
		reach := math.Sqrt2 * allowance
		if half := cross(tip, in); section && half > 0 { // the sine of half the angle
			reach = max(reach, allowance/(2*half))
		}
		c.scratch = clip(c.scratch[:0], area, tip, dot(tip, corner)+reach)
		c.edge, c.scratch = c.scratch, c.edge
		area = c.edge
	}
	return area
}

// offset appends the outline with edge i moved out by out[i], corners mitred.
func offset(to, outline []pattern.Pos, out []pattern.Length) []pattern.Pos {
	last := -1 // the last edge that has a length
	for i := range outline {
		if _, ok := direction(outline[i], outline[(i+1)%len(outline)]); ok {
			last = i
		}
	}
	if last < 0 {
		return to
	}
	for i, corner := range outline {
		b, ok := direction(corner, outline[(i+1)%len(outline)])
		if !ok {
			continue
		}
		a, _ := direction(outline[last], outline[(last+1)%len(outline)])
		da, db := out[last], out[i]
		last = i
		sin := cross(a, b)
		if math.Abs(float64(sin)) < straight {
			to = append(to, pattern.Pos{X: corner.X + a.Y*da, Y: corner.Y - a.X*da})
			if da != db {
				to = append(to, pattern.Pos{X: corner.X + b.Y*db, Y: corner.Y - b.X*db})
			}
			continue
		}
		// The moved lines meet at corner + (a*db - b*da) / sin.
		to = append(to, pattern.Pos{X: corner.X + (a.X*db-b.X*da)/sin, Y: corner.Y + (a.Y*db-b.Y*da)/sin})
	}
	return to
}

// clip appends the part of a polygon where dot(normal, p) <= limit.
func clip(to, polygon []pattern.Pos, normal pattern.Pos, limit pattern.Length) []pattern.Pos {
	if len(polygon) == 0 {
		return to
	}
	prev := polygon[len(polygon)-1]
	dp := dot(normal, prev) - limit
	for _, p := range polygon {
		d := dot(normal, p) - limit
		if (d < 0 && dp > 0) || (d > 0 && dp < 0) {
			t := dp / (dp - d)
			to = append(to, pattern.Pos{X: prev.X + (p.X-prev.X)*t, Y: prev.Y + (p.Y-prev.Y)*t})
		}
		if d <= 0 {
			to = append(to, p)
		}
		prev, dp = p, d
	}
	return to
}

// direction returns the unit vector from a to b; false where they are one.
func direction(a, b pattern.Pos) (pattern.Pos, bool) {
	x, y := b.X-a.X, b.Y-a.Y
	l := pattern.Length(math.Sqrt(float64(x*x + y*y)))
	if l < noLength {
		return pattern.Pos{}, false
	}
	return pattern.Pos{X: x / l, Y: y / l}, true
}

func dot(a, b pattern.Pos) pattern.Length   { return a.X*b.X + a.Y*b.Y }
func cross(a, b pattern.Pos) pattern.Length { return a.X*b.Y - a.Y*b.X }
