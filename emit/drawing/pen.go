package drawing

import "seamwright/compiler/pattern"

// A Pen makes the items of pages. A large block has a hundred thousand strokes, so
// they are taken from chunks instead of one by one. The zero Pen is ready; it is
// not for concurrent use, and not to be copied.
type Pen struct {
	paths  stock[Path]
	texts  stock[Text]
	groups stock[Group]
	points stock[pattern.Pos]
}

// Again lets the pen make other items in place of all that it has made, which is
// not used any more.
func (p *Pen) Again() {
	p.paths.again()
	p.texts.again()
	p.groups.again()
	p.points.again()
}

// Chunks begin small, for most pages are, and grow up to a length beyond which
// nothing is gained.
const (
	firstChunk = 16
	chunk      = 256
)

// A stock is what a pen has of one kind.
type stock[T any] struct {
	chunks [][]T
	at     int // the chunk that is taken from
}

func (s *stock[T]) take(n int) []T {
	for ; s.at < len(s.chunks); s.at++ {
		if c := s.chunks[s.at]; cap(c)-len(c) >= n {
			return Take(&s.chunks[s.at], n)
		}
	}
	var c []T
	if s.at > 0 {
		c = s.chunks[s.at-1][:0] // the next is larger
		c = c[:cap(c):cap(c)]
	}
	out := Take(&c, n)
	s.chunks = append(s.chunks, c)
	return out
}

func (s *stock[T]) again() {
	for i := range s.chunks {
		clear(s.chunks[i])
		s.chunks[i] = s.chunks[i][:0]
	}
	s.at = 0
}

// Take returns n fresh things from a chunk that is renewed when it is used up.
func Take[T any](from *[]T, n int) []T {
	if cap(*from)-len(*from) < n {
		*from = make([]T, 0, max(min(2*cap(*from), chunk), firstChunk, n))
	}
	k := len(*from)
	*from = (*from)[: k+n : cap(*from)]
	return (*from)[k : k+n : k+n]
}

// Points returns n points to be filled in.
func (p *Pen) Points(n int) []pattern.Pos { return p.points.take(n) }

// Path returns a chain that is not closed and not filled.
func (p *Pen) Path(style Style, points []pattern.Pos) *Path {
	out := &p.paths.take(1)[0]
	out.Style, out.Points, out.Fill = style, points, NoColour
	return out
}

// Outline returns a closed chain, filled or with NoColour not.
func (p *Pen) Outline(style Style, points []pattern.Pos, fill Colour) *Path {
	out := p.Path(style, points)
	out.Closed, out.Fill = true, fill
	return out
}

// Stroke returns a straight stroke.
func (p *Pen) Stroke(style Style, a, b pattern.Pos) *Path {
	points := p.Points(2)
	points[0], points[1] = a, b
	return p.Path(style, points)
}

// Pairs returns strokes of one style, each between two of the points, as copies.
func (p *Pen) Pairs(style Style, points []pattern.Pos) *Path {
	own := p.Points(len(points))
	copy(own, points)
	out := p.Path(style, own)
	out.Pairs = true
	return out
}

// Ring returns a circle about a point.
func (p *Pen) Ring(style Style, at pattern.Pos, radius pattern.Length) *Path {
	points := p.Points(1)
	points[0] = at
	out := p.Path(style, points)
	out.Circle = radius
	return out
}

// Text returns a copy of a text.
func (p *Pen) Text(t Text) *Text {
	out := &p.texts.take(1)[0]
	*out = t
	return out
}

// Group returns a copy of a group.
func (p *Pen) Group(g Group) *Group {
	out := &p.groups.take(1)[0]
	*out = g
	return out
}
