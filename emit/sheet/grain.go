package sheet

import (
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A grain arrow stands only where a maker cannot see how the cloth lies: in a
// space whose patch is not laid along its seam, in a first space with no side on
// the straight grain, and on a template. An arrow in every space is clutter.

const (
	arrowHalf = 4.5 * pattern.Millimetre // half the length of an arrow
	arrowHead = 1.4 * pattern.Millimetre // length and breadth of its heads
)

// onGrain is the sine of the angle, one degree, within which a side lies on
// the grain.
const onGrain = 0.0175

// grain returns the direction of the straight grain of a piece, front view, and
// whether the sheet must tell it.
func grain(d *pattern.Drawing, p *pattern.Piece) (pos, bool) {
	switch {
	case d.Plain:
		return pos{X: 1}, true
	case p.Patch.Shape == pattern.Uncut || p.Patch.Along:
		return pos{}, false
	}
	g := unit(p.Patch.Laid[0], p.Patch.Laid[1])
	if p.Number == 1 {
		for i, a := range p.Polygon {
			s := unit(a, p.Polygon[(i+1)%len(p.Polygon)])
			if math.Abs(float64(cross(g, s))) < onGrain || math.Abs(float64(dot(g, s))) < onGrain {
				return pos{}, false
			}
		}
	}
	return g, true
}

// tellsGrain reports whether any printed section has a grain arrow.
func (l *layout) tellsGrain() bool {
	for i := range l.sized.Drawings {
		d := &l.sized.Drawings[i]
		if !printedOn(d) {
			continue
		}
		for k := range d.Pieces {
			if _, ok := grain(d, &d.Pieces[k]); ok {
				return true
			}
		}
	}
	return false
}

// grainArrow draws the arrow of a space beside its label, if it has one and
// there is room.
func (s *section) grainArrow(sp *space) []drawing.Item {
	g, ok := grain(s.d, sp.piece)
	if !ok {
		return nil
	}
	dir := unit(s.move(pos{}), s.move(g))
	reach := func(out pos) length {
		return arrowHalf*length(math.Abs(float64(dot(out, dir)))) + arrowHead/2 + labelRoom
	}
	if !sp.placed {
		return nil
	}
	s.sides = sidesOf(s.sides[:0], sp)
	keep := make([]length, len(s.sides))
	for i := range s.sides {
		keep[i] = reach(s.sides[i].out)
	}
	var bufs shrunk
	room := bufs.shrink(sp, s.sides, keep)
	for _, b := range s.parts {
		if b.holds(sp.at) {
			room = inOne([]box{b}, room, reach)
		}
	}
	if len(room) == 0 {
		return nil
	}
	b := sp.label.box().at(sp.at)
	for _, side := range [...]pos{{Y: 1}, {Y: -1}, {X: 1}, {X: -1}} {
		edge := b.x1*side.X + b.y1*side.Y // of the label, along the side
		if side.X+side.Y < 0 {
			edge = b.x0*side.X + b.y0*side.Y
		}
		if part := clip(nil, room, side, edge+reach(side)); len(part) > 0 {
			return arrow(s.pen, centroid(part), dir)
		}
	}
	return nil
}

// arrow draws a line with a head at both ends.
func arrow(pen *pen, at, dir pos) []drawing.Item {
	items := []drawing.Item{pen.Stroke(drawing.FrameLine, along(at, dir, -arrowHalf), along(at, dir, arrowHalf))}
	for _, d := range [...]pos{dir, mul(dir, -1)} {
		tip := along(at, d, arrowHalf)
		back := along(tip, d, -arrowHead)
		head := pen.Points(3)
		head[0], head[1], head[2] = along(back, right(d), arrowHead/2), tip, along(back, right(d), -arrowHead/2)
		items = append(items, pen.Path(drawing.FrameLine, head))
	}
	return items
}
