package sheet

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
)

// A section is one drawing where it lies on its page, reversed.
type section struct {
	d       *pattern.Drawing
	index   int    // into Drawings
	id      string // of its drawing in the file: its name, where that is of plain letters
	move    func(pos) pos
	outline []pos
	along   []pos // the direction of each of its edges
	cut     contour
	extra   contour // no points where the extra is not wanted or no edge is on the border
	spaces  []space
	strips  []strip  // the allowance along each edge
	key     []string // fabrics and their spaces, for which there is no room in it
	name    string   // the section's title, where it has no room in the section
	bare    []string // labels for which there is no room at all
	parts   []box    // where texts may stand in each part; nil where it is not in parts
	glue    []tiling.Joint
	names   []string // as name, of each part
	foot    length   // of a part, where it ends on its page

	allowance length
	pen       *pen
	scratch   [8]line // of the label that is tried
	sides     []side  // of the space at work
}

// A space is one space of a section on the page.
type space struct {
	piece   *pattern.Piece
	polygon []pos
	outer   []bool // which of its sides lie on the section's outline
	border  int    // its longest side on the block's border, or -1
	label   label
	at      pos  // the label's origin
	placed  bool // the number stands in the space
	worded  bool // and the fabric's words with it
}

// Motion returns the function that takes a point of the drawing, front view, to
// its place on the page: reversed, turned, shifted.
func (p Place) Motion() func(pattern.Pos) pattern.Pos {
	sin, cos := math.Sincos(p.Turn * math.Pi / 180)
	switch p.Turn {
	case 0:
		sin, cos = 0, 1
	case 90:
		sin, cos = 1, 0
	case 180:
		sin, cos = 0, -1
	case 270:
		sin, cos = -1, 0
	}
	s, c := length(sin), length(cos)
	return func(q pos) pos {
		return pos{X: p.Shift.X - c*q.X - s*q.Y, Y: p.Shift.Y + s*q.X - c*q.Y}
	}
}

// lay puts a drawing on its page: every line of it, no text.
func (l *layout) lay(index int, place Place, pen *pen) *section {
	d := &l.sized.Drawings[index]
	s := &section{d: d, index: index, id: identity(d, index), move: place.Motion(), allowance: l.p.Settings.Allowance, pen: pen}
	s.outline = s.moved(d.Outline)
	s.along = drawing.Take(&pen.dirs, len(s.outline))
	for i, p := range s.outline {
		s.along[i] = unit(p, s.outline[(i+1)%len(s.outline)])
	}
	s.cut, s.extra = l.contours(index, s.outline)
	s.spaces = drawing.Take(&pen.spaces, len(d.Pieces))
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		outer := drawing.Take(&pen.outer, len(piece.Polygon))
		clear(outer)
		s.spaces[i] = space{piece: piece, polygon: s.moved(piece.Polygon), outer: outer}
		s.findSides(&s.spaces[i])
	}
	return s
}

// identity returns what stands for a drawing in identities of groups. A name that
// is not of plain letters could not be one, or would run into a space's number.
func identity(d *pattern.Drawing, index int) string {
	for _, r := range d.Name {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z') {
			return strconv.Itoa(index+1) + "-"
		}
	}
	return d.Name
}

// moved puts points on the page.
func (s *section) moved(ps []pos) []pos {
	out := s.pen.Points(len(ps))
	for i, p := range ps {
		out[i] = s.move(p)
	}
	return out
}

func moved(buf, ps []pos, move func(pos) pos) (out, rest []pos) {
	n := len(buf)
	for _, p := range ps {
		buf = append(buf, move(p))
	}
	return buf[n:len(buf):len(buf)], buf
}

// contours returns the cutting line of a drawing and, where the pattern wants
// one and the drawing has edges on the border, the line of the extra.
func (l *layout) contours(index int, outline []pos) (cut, extra contour) {
	d := &l.sized.Drawings[index]
	a, x := l.p.Settings.Allowance, l.p.Settings.Extra
	if l.blunts[index] == nil && !l.blunted[index] {
		l.blunts[index], l.blunted[index] = blunts(d, index, l.order), true
	}
	cut = offset(outline, func(int) length { return a }, l.blunts[index])
	if x > 0 && !d.Plain && hasBorder(d) {
		extra = offset(outline, func(i int) length {
			if d.Edges[i].Kind == pattern.Border {
				return a + x
			}
			return a
		}, l.blunts[index])
	}
	return cut, extra
}

func hasBorder(d *pattern.Drawing) bool {
	for i := range d.Edges {
		if d.Edges[i].Kind == pattern.Border {
			return true
		}
	}
	return false
}

// outermost returns the line beyond which nothing of a section is printed.
func outermost(cut, extra contour) []pos {
	if len(extra.at) > 0 {
		return extra.at
	}
	return cut.at
}

// findSides finds which sides of a space lie on the outline and on the border.
func (s *section) findSides(sp *space) {
	sp.border = -1
	longest := length(0)
	for i, a := range sp.polygon {
		b := sp.polygon[(i+1)%len(sp.polygon)]
		m := mid(a, b)
		for j := range s.outline {
			if !s.onEdge(m, j) {
				continue
			}
			sp.outer[i] = true
			if n := dist(a, b); s.d.Edges[j].Kind == pattern.Border && n > longest {
				longest, sp.border = n, i
			}
		}
	}
}

// onEdge reports whether a point lies on an edge of the outline. Most lie on none,
// which is seen without a root.
func (s *section) onEdge(p pos, edge int) bool {
	a := s.outline[edge]
	off := cross(s.along[edge], sub(p, a))
	return off <= onLine && off >= -onLine && segmentDist(p, a, s.outline[(edge+1)%len(s.outline)]) <= onLine
}

// onLine is how near a point must be to a line to lie on it: the corners of a
// space are computed apart from the outline, with noise far below this, and
// different points of a block are at least 1/64 in apart.
const onLine = 1.0 / 1000

// seams calls f with each sewing line between spaces, and with the points on
// the cutting line to which its ends run on, equal to the ends where they do not.
func (s *section) seams(f func(a, b, beyondA, beyondB pos)) {
	for i := range s.d.Pieces {
		seam := s.d.Pieces[i].Seam
		if i == 0 || seam[0] == seam[1] {
			continue
		}
		a, b := s.move(seam[0]), s.move(seam[1])
		f(a, b, s.runOn(a, b), s.runOn(b, a))
	}
}

// runOn returns where the line from b through a, which ends on the outline at a,
// meets the cutting line; a itself where it ends inside the section.
func (s *section) runOn(a, b pos) pos {
	on := false
	for j := range s.outline {
		on = on || s.onEdge(a, j)
	}
	if !on {
		return a
	}
	d := unit(b, a)
	best, found := length(0), false
	for j, p := range s.cut.at {
		q := s.cut.at[(j+1)%len(s.cut.at)]
		x, ok := meet(ray{a, d}, ray{p, unit(p, q)})
		if t := dot(sub(x, a), d); ok && t > 0 && segmentDist(x, p, q) < near && (!found || t < best) {
			best, found = t, true
		}
	}
	return along(a, d, best)
}
