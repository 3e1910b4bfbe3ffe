package sheet

import "seamwright/emit/drawing"

// A pen makes the items of one page. A large block has a hundred thousand
// strokes, so they are taken from chunks instead of one by one.
type pen struct {
	paths  []drawing.Path
	texts  []drawing.Text
	groups []drawing.Group
	points []pos
	lines  []line
	items  []drawing.Item
}

// chunk is how many things are made room for at a time.
const chunk = 128

// take returns n fresh things from a chunk that is renewed when it is used up.
func take[T any](from *[]T, n int) []T {
	if cap(*from)-len(*from) < n {
		*from = make([]T, 0, max(chunk, n))
	}
	k := len(*from)
	*from = (*from)[: k+n : cap(*from)]
	return (*from)[k : k+n : k+n]
}

func (p *pen) path(style drawing.Style, points []pos) *drawing.Path {
	out := &take(&p.paths, 1)[0]
	out.Style, out.Points, out.Fill = style, points, drawing.NoColour
	return out
}

func (p *pen) stroke(style drawing.Style, a, b pos) *drawing.Path {
	points := take(&p.points, 2)
	points[0], points[1] = a, b
	return p.path(style, points)
}

func (p *pen) ring(style drawing.Style, at pos, radius length) *drawing.Path {
	points := take(&p.points, 1)
	points[0] = at
	out := p.path(style, points)
	out.Circle = radius
	return out
}

func (p *pen) text(t drawing.Text) *drawing.Text {
	out := &take(&p.texts, 1)[0]
	*out = t
	return out
}

func (p *pen) group(g drawing.Group) *drawing.Group {
	out := &take(&p.groups, 1)[0]
	*out = g
	return out
}

// stroke, ring and chainOf make what is made only a few times.
func stroke(style drawing.Style, a, b pos) *drawing.Path {
	return chainOf(style, []pos{a, b}, false)
}

func ring(style drawing.Style, at pos, radius length) *drawing.Path {
	return &drawing.Path{Style: style, Points: []pos{at}, Circle: radius, Fill: drawing.NoColour}
}

func chainOf(style drawing.Style, ps []pos, closed bool) *drawing.Path {
	return &drawing.Path{Style: style, Points: ps, Closed: closed, Fill: drawing.NoColour}
}
