package cutting

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

const (
	// A triangle cut from a square lies with its long side along the seam and
	// its short sides on the straight grain, where a rectangle along a seam at 45
	// degrees would lie on the bias. That is worth a quarter more cloth. Common
	// practice, no source; which sides of a square cut once are on the grain:
	// Right triangles and grain, frommartimichell.blogspot.com, 2015.
	halfWorth = 1.25

	// offGrain is how far a side may lean from 45 degrees and still count as
	// lying on the grain of such a triangle. Common practice, no source.
	offGrain = 5.0 * math.Pi / 180
)

// halfSquare returns the half of a square that covers a space at the block's
// border, where that puts the border on the straight grain and the rectangle
// does not. Flat is the rectangle.
func (c *cutter) halfSquare(d *pattern.Drawing, p *pattern.Piece, need, space []pattern.Pos, flat *pattern.Patch) (pattern.Patch, bool) {
	along, ok := direction(p.Seam[0], p.Seam[1])
	if !ok || !flat.Along && !slices.Contains(c.grain, p.Fabric) || !borderAtHalf(d, p, along) && !c.alikeHalf(p) {
		return pattern.Patch{}, false
	}
	half := c.half(along, p.Seam[0], need, space)
	return half, half.Size.W*half.Size.W/2 <= halfWorth*flat.Size.W*flat.Size.H
}

// firstHalf returns the half of a square that covers a first space like others of its
// fabric, where that takes less cloth than the rectangle. Two are cut from a square then.
func (c *cutter) firstHalf(p *pattern.Piece, need, space []pattern.Pos, flat *pattern.Patch) (pattern.Patch, bool) {
	long, ok := longSide(p)
	if !ok || !c.firsts[triangle{p.Fabric, shortOf(p, long)}] {
		return pattern.Patch{}, false
	}
	a := p.Polygon[long]
	along, _ := direction(a, p.Polygon[(long+1)%3])
	half := c.half(along, a, need, space)
	half.Along = false
	return half, half.Size.W*half.Size.W/2*halfWorth <= flat.Size.W*flat.Size.H
}

// firstTriangle returns the triangle that a first space is, if half a square fits it with
// the short sides on the grain of its rectangle and none but them on the block's border.
func firstTriangle(d *pattern.Drawing) (triangle, bool) {
	p := &d.Pieces[0]
	long, ok := longSide(p)
	if !ok || p.Patch.Plain || len(d.Pieces) == 1 {
		return triangle{}, false
	}
	a, b := p.Polygon[long], p.Polygon[(long+1)%3]
	along, _ := direction(a, b)
	grain, _ := direction(p.Patch.Laid[0], p.Patch.Laid[1])
	slants := math.Abs(math.Abs(float64(dot(along, grain)))-math.Sqrt2/2) < onGrain
	return triangle{p.Fabric, shortOf(p, long)}, slants && !onBorder(d, a, b)
}

// longSide returns the side of a space that is the long one of half a square.
func longSide(p *pattern.Piece) (side int, ok bool) {
	if len(p.Polygon) != 3 {
		return 0, false
	}
	for i, a := range p.Polygon {
		b, tip := p.Polygon[(i+1)%3], p.Polygon[(i+2)%3]
		short := distance(b, tip)
		if math.Abs(float64(short-distance(tip, a))) < sameSide && math.Abs(float64(short*math.Sqrt2-distance(a, b))) < sameSide {
			return i, true
		}
	}
	return 0, false
}

// shortOf is how long the short sides are, in thousandths of an inch.
func shortOf(p *pattern.Piece, long int) int {
	return int(math.Round(float64(distance(p.Polygon[(long+1)%3], p.Polygon[(long+2)%3])) / sameSide))
}

// sameSide is how near the sides of a triangle may be to those of half a square, in inches.
const sameSide = 1e-3

// half is the half of a square that covers a space to the left of a line, the long side
// along it.
func (c *cutter) half(along, on pattern.Pos, need, space []pattern.Pos) pattern.Patch {
	b := bounds(along, space)
	middle, seam := (b.min.X+b.max.X)/2, cross(along, on)
	// In the triangle's own terms: how far a point lies out toward the short
	// sides, and how far above the seam.
	place := func(q pattern.Pos) (out, up pattern.Length) {
		up = cross(along, q) - seam
		return pattern.Length(math.Abs(float64(dot(along, q)-middle))) + up, up
	}
	margin := max(0, min(tipMargin, c.ease-c.allowance))
	var reach, base pattern.Length // of the triangle, above the seam and below
	for _, q := range space {
		out, up := place(q)
		reach, base = max(reach, out+c.ease*math.Sqrt2), max(base, c.ease-up)
	}
	far, low := pattern.Length(math.Inf(-1)), pattern.Length(math.Inf(1)) // of the exact need
	for _, q := range need {
		out, up := place(q)
		far, low = max(far, out), min(low, up)
	}
	reach, base = max(reach, far+margin*math.Sqrt2), max(base, margin-low)
	side := pattern.RoundUp((reach+base)*math.Sqrt2, c.foundation)
	high := side / math.Sqrt2
	at := func(x, y pattern.Length) pattern.Pos { // y above the seam
		y += seam
		return pattern.Pos{X: along.X*(middle+x) - along.Y*y, Y: along.Y*(middle+x) + along.X*y}
	}
	left := at(-high, -base)
	return pattern.Patch{
		Shape:  pattern.HalfSquare,
		Size:   pattern.Size{W: side, H: side},
		Exact:  pattern.Size{W: (far - low) * math.Sqrt2, H: (far - low) * math.Sqrt2},
		Margin: min((high-base-far)/math.Sqrt2, low+base),
		Along:  true,
		Laid:   [4]pattern.Pos{at(high, -base), at(0, high-base), left, left},
	}
}

// A triangle is a space that half a square fits, of one fabric: two short sides
// of a length, in thousandths of an inch, and the long one along its seam.
type triangle struct{ fabric, short int }

// triangleOf returns the triangle that a space is, if it is one.
func triangleOf(p *pattern.Piece) (triangle, bool) {
	const same = sameSide
	if len(p.Polygon) != 3 {
		return triangle{}, false
	}
	long := distance(p.Seam[0], p.Seam[1])
	for _, q := range p.Polygon {
		a, b := distance(q, p.Seam[0]), distance(q, p.Seam[1])
		if min(a, b) < same {
			continue // an end of the seam
		}
		right := math.Abs(float64(a-b)) < same && math.Abs(float64(a*math.Sqrt2-long)) < same
		return triangle{p.Fabric, int(math.Round(float64(a) / same))}, right
	}
	return triangle{}, false
}

// alikeHalf reports whether a space like this one is cut as half a square.
func (c *cutter) alikeHalf(p *pattern.Piece) bool {
	if len(c.alike) == 0 {
		return false
	}
	t, ok := triangleOf(p)
	return ok && c.alike[t]
}

// borderAtHalf reports whether a piece has sides on the block's border, all of
// them at 45 degrees to a direction.
func borderAtHalf(d *pattern.Drawing, p *pattern.Piece, along pattern.Pos) bool {
	some := false
	for i, a := range p.Polygon {
		b := p.Polygon[(i+1)%len(p.Polygon)]
		side, ok := direction(a, b)
		if !ok || !onBorder(d, a, b) {
			continue
		}
		angle := math.Abs(math.Atan2(float64(cross(along, side)), float64(dot(along, side))))
		if math.Abs(math.Mod(angle, math.Pi/2)-math.Pi/4) > offGrain {
			return false
		}
		some = true
	}
	return some
}
