package piecing

import (
	"math"

	"seamwright/compiler/plane"
)

// A class holds sections that are equal up to turning and shifting: the same
// outline, the same pieces in the same order, the same fabrics.
type class struct {
	look
	turns []int32 // by how many sides it may be turned and look the same; 0 first
	same  []int32 // for each side, the first of those that turning takes to it
	twin  int32   // the class that is this one reversed, or -1

	narrow    float64 // the least width of any piece,
	narrowest int     // and which piece that is
}

// A look is a section's geometry, seen from the front.
type look struct {
	outline plane.Polygon
	pieces  []lookPiece
	area    float64 // of the pieces, each weighed by its number,
	border  float64 // and the length of their sides likewise: to find equals by
}

type lookPiece struct {
	fabric  int
	polygon plane.Polygon
}

// lookAt returns the geometry of a cell in its unit's own coordinates.
func lookAt(c *cell, reversed bool) look {
	l := look{outline: c.face.Corners, pieces: make([]lookPiece, len(c.section.pieces))}
	for i := range c.section.pieces {
		p := &c.section.pieces[i]
		l.pieces[i] = lookPiece{p.src.Fabric, p.face.Corners}
		weight := 1 / float64(i+1)
		l.area += weight * p.face.Corners.Area()
		l.border += weight * p.face.Corners.Length()
	}
	if reversed {
		l = l.reverse()
	}
	return l
}

func (l look) reverse() look {
	r := look{outline: l.outline.Move(plane.Motion{Reversed: true}), pieces: make([]lookPiece, len(l.pieces)),
		area: l.area, border: l.border}
	for i, p := range l.pieces {
		r.pieces[i] = lookPiece{p.fabric, p.polygon.Move(plane.Motion{Reversed: true})}
	}
	return r
}

// A catalogue finds classes again.
type catalogue struct {
	classes []class
	byKey   map[uint64][]int32
}

// keyStep is the step in which areas and lengths are sorted into drawers. It is
// large beside plane.Tol, so that few values lie near a limit of two drawers.
const keyStep = 1e-4

// keys returns the drawers in which an equal section may lie, its own first.
func (l *look) keys() [4]uint64 {
	h := uint64(len(l.outline))<<32 + uint64(len(l.pieces))
	for _, p := range l.pieces {
		h = mix(h, p.fabric, len(p.polygon))
	}
	area, border := drawers(l.area), drawers(l.border)
	return [4]uint64{mix(h, area[0], border[0]), mix(h, area[0], border[1]),
		mix(h, area[1], border[0]), mix(h, area[1], border[1])}
}

// drawers returns the drawer of a value and the next nearest one, the same
// again if the value is well inside.
func drawers(x float64) [2]int {
	q := x / keyStep
	n := math.Floor(q)
	switch slack := 4 * plane.Tol / keyStep; {
	case q-n < slack:
		return [2]int{int(n), int(n) - 1}
	case n+1-q < slack:
		return [2]int{int(n), int(n) + 1}
	}
	return [2]int{int(n), int(n)}
}

// find returns the class of a section and which of its sides is the class's
// side 0; a new class where there is none.
func (c *catalogue) find(l look) (id, offset int32) {
	keys := l.keys()
	if id, offset = c.lookUp(&l, keys); id >= 0 {
		return id, offset
	}
	id = int32(len(c.classes))
	n := len(l.outline)
	k := class{look: l, same: make([]int32, n), twin: -1}
	for i := range k.same {
		k.same[i] = int32(i)
	}
	for o := range l.outline {
		if l.matches(&l, o) {
			k.turns = append(k.turns, int32(o))
			for i := range k.same {
				k.same[(i+o)%n] = min(k.same[(i+o)%n], int32(i))
			}
		}
	}
	if c.any(keys) { // few have a twin; most need not be reversed to know
		r := l.reverse()
		if t, _ := c.lookUp(&r, keys); t >= 0 {
			k.twin, c.classes[t].twin = t, id
		}
	}
	k.narrow = math.Inf(1)
	for i, p := range l.pieces {
		if width := p.polygon.Width(); width < k.narrow-plane.Tol { // the first of equals
			k.narrow, k.narrowest = width, i
		}
	}
	c.classes = append(c.classes, k)
	c.byKey[keys[0]] = append(c.byKey[keys[0]], id)
	return id, 0
}

// any reports whether there is anything in the drawers.
func (c *catalogue) any(keys [4]uint64) bool {
	for _, k := range keys {
		if len(c.byKey[k]) > 0 {
			return true
		}
	}
	return false
}

func (c *catalogue) lookUp(l *look, keys [4]uint64) (id, offset int32) {
	for i, key := range keys {
		if i > 0 && key == keys[0] {
			continue
		}
		for _, id := range c.byKey[key] {
			if k := &c.classes[id]; math.Abs(k.area-l.area) > near || math.Abs(k.border-l.border) > near {
				continue
			}
			for o := range l.outline {
				if l.matches(&c.classes[id].look, o) {
					return id, int32(o)
				}
			}
		}
	}
	return -1, 0
}

// near is how far points of equal sections may lie apart: both sections were
// computed within plane.Tol of the truth.
const near = 4 * plane.Tol

// matches reports whether l is m turned and shifted so that m's side 0 comes to
// lie on l's side o.
func (l *look) matches(m *look, o int) bool {
	n := len(m.outline)
	if len(l.outline) != n || len(l.pieces) != len(m.pieces) {
		return false
	}
	longest, most := 0, 0.0
	for i := range m.outline {
		a, b := m.outline.Side(i).Len(), l.outline.Side((i+o)%n).Len()
		if math.Abs(a-b) > near {
			return false
		}
		if a > most {
			longest, most = i, a
		}
	}
	t := turning(m.outline.Side(longest), l.outline.Side((longest+o)%n))
	for i, p := range m.outline {
		if !t.takes(p, l.outline[(i+o)%n]) {
			return false
		}
	}
	for i := range m.pieces {
		p, q := &m.pieces[i], &l.pieces[i]
		if p.fabric != q.fabric || !t.takesAll(p.polygon, q.polygon) {
			return false
		}
	}
	return true
}

// A rigid turns about a point and shifts that to another.
type rigid struct{ from, to, turn plane.Point }

// turning returns what takes one line to another of equal length.
func turning(from, to plane.Line) rigid {
	u, v := from.Dir(), to.Dir()
	return rigid{from.A, to.A, plane.Point{X: u.Dot(v), Y: u.Cross(v)}}
}

func (t *rigid) takes(p, to plane.Point) bool {
	d := p.Sub(t.from)
	d = plane.Point{X: t.turn.X*d.X - t.turn.Y*d.Y, Y: t.turn.Y*d.X + t.turn.X*d.Y}
	d = d.Add(t.to).Sub(to)
	return d.Dot(d) <= near*near
}

// takesAll reports whether p is taken to q, whichever corner is written first.
func (t *rigid) takesAll(p, q plane.Polygon) bool {
	n := len(p)
	if len(q) != n {
		return false
	}
	for o := range q {
		if !t.takes(p[0], q[o]) {
			continue
		}
		for i := range p {
			if !t.takes(p[i], q[(o+i)%n]) {
				return false
			}
		}
		return true
	}
	return false
}
