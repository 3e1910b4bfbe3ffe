package cutting

import "seamwright/compiler/pattern"

// Behind every sewn line, square to it and from end to end, there must be cloth
// one allowance deep. On the side that was sewn before, this is the cloth of the
// pieces that show along the line; with one exception:
//
//	        h, folded over s, lies on this side of s only
//	  s    /
//	------+======== k, sewn later: h shows along ====
//	     /.| a
//	    / .|     Beyond k, the dotted corner is square behind the line where h
//	   /...|     shows, but it lies on the other side of s. Only what was sewn
//	  s          before h can fill it.
//
// It is the corner of a point, and at a sharp one reaches allowance / sin of the
// angle along s: to where the raw edge is trimmed, and no further. Everything
// else that such a tip would have, is cloth that nothing is sewn to.

// nothing is a depth of cloth that is not worth asking for: noise of doubles at a
// right angle, far below a thread.
const nothing pattern.Length = 1e-6

// A debt is the cloth that pieces sewn earlier must put behind later seams.
type debt struct {
	allowance pattern.Length
	parts     [][]pattern.Pos // convex, at most one for each end of a seam
	free      [][]pattern.Pos // room for more of them
	found     []pattern.Pos
}

func (o *debt) start(allowance pattern.Length) {
	o.allowance = allowance
	o.free = append(o.free, o.parts...)
	o.parts = o.parts[:0]
}

// take returns the corners of what lies on a piece's own side of its seam, and
// leaves the rest to those before it. It is good until the next call.
func (o *debt) take(p *pattern.Piece) []pattern.Pos {
	o.found = o.found[:0]
	left, at, sewn := seamOf(p)
	kept := o.parts[:0]
	for _, part := range o.parts {
		near, far := reachOf(part, left)
		switch {
		case !sewn || near >= at-nothing:
			o.found = append(o.found, part...)
			o.free = append(o.free, part)
		case far <= at+nothing:
			kept = append(kept, part)
		default:
			o.found = clip(o.found, part, pattern.Pos{X: -left.X, Y: -left.Y}, -at)
			kept = append(kept, clip(o.room(), part, left, at))
			o.free = append(o.free, part)
		}
	}
	o.parts = kept
	return o.found
}

// add notes what a piece leaves open behind later seams that it shows along. On
// the section's outline that is cloth that shows, and asked for anyway.
func (o *debt) add(p *pattern.Piece) {
	left, at, sewn := seamOf(p)
	if !sewn {
		return
	}
	for i, a := range p.Polygon {
		b := p.Polygon[(i+1)%len(p.Polygon)]
		along, ok := direction(a, b)
		out := pattern.Pos{X: along.Y * o.allowance, Y: -along.X * o.allowance}
		from, to := dot(left, a)-at, dot(left, b)-at
		if !ok || from+to < nothing || min(from, to)+dot(left, out) > -nothing {
			continue // no side, or the seam itself, or the piece fills it all
		}
		strip := [4]pattern.Pos{a, {X: a.X + out.X, Y: a.Y + out.Y}, {X: b.X + out.X, Y: b.Y + out.Y}, b}
		o.parts = append(o.parts, clip(o.room(), strip[:], left, at))
	}
}

func (o *debt) room() []pattern.Pos {
	n := len(o.free)
	if n == 0 {
		return nil
	}
	r := o.free[n-1]
	o.free = o.free[:n-1]
	return r[:0]
}

// seamOf returns the direction in which a piece lies from its seam, and where the
// seam is in that direction; false for piece 1.
func seamOf(p *pattern.Piece) (left pattern.Pos, at pattern.Length, sewn bool) {
	along, ok := direction(p.Seam[0], p.Seam[1])
	left = pattern.Pos{X: -along.Y, Y: along.X}
	return left, dot(left, p.Seam[0]), ok
}

// reachOf returns from where to where a polygon reaches in a direction.
func reachOf(polygon []pattern.Pos, to pattern.Pos) (low, high pattern.Length) {
	for i, p := range polygon {
		d := dot(to, p)
		if i == 0 {
			low, high = d, d
		}
		low, high = min(low, d), max(high, d)
	}
	return low, high
}
