package sheet

import "seamwright/emit/drawing"

// A pen makes what is drawn on one page, and what is kept of its labels.
type pen struct {
	drawing.Pen
	lines []line
	items []drawing.Item
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
