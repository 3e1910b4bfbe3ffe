package sheet

import "seamwright/emit/drawing"

// A pen makes what is drawn on pages, one after the other, and keeps what is only
// needed until a page is done.
type pen struct {
	drawing.Pen
	items []drawing.Item // that stay with the pages
	scratch
}

// A scratch is what the sections of one page are worked out with.
type scratch struct {
	lines         []line // of labels
	spaces        []space
	outer         []bool
	strips        []strip
	gaps          []gap
	dirs          []pos
	painted, text []drawing.Item // of the section at work
	seams, runs   []pos          // likewise: ends of strokes
	ticks, rings  []pos
	labels        []box // likewise
}

// turn begins another page.
func (p *pen) turn() {
	p.lines, p.spaces, p.outer, p.strips, p.gaps, p.dirs = p.lines[:0], p.spaces[:0], p.outer[:0], p.strips[:0], p.gaps[:0], p.dirs[:0]
}

// kept returns a copy of a list of items that stays with its page.
func (p *pen) kept(items []drawing.Item) []drawing.Item {
	out := drawing.Take(&p.items, len(items))
	copy(out, items)
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
