package sheet

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// frontCopies is the number of places up to which the small front view shows
// all of them. Beyond it only the sheet's own are drawn: more would be a grey
// smudge on paper and, on hundreds of sheets, most of the file.
const frontCopies = 300

// picked is the grey of the places of a sheet's sections: light enough that a
// letter is read on it after a photocopy.
const picked drawing.Colour = 0xC8C8C8

// frontRoom leaves room for the front view and sets its caption: below it, or
// beside it in a low head.
func (l *layout) frontRoom(x, y, w length, f *frame) ([]drawing.Item, length) {
	finished, side := l.sized.Finished, w
	if f.compact {
		side = w * 0.47
	}
	k := side / max(finished.W, finished.H)
	b := box{x, y, x + finished.W*k, y + finished.H*k}
	f.slots.front = b
	c := column{x: x, y: b.y1 + pattern.Millimetre, w: w}
	if f.compact {
		c = column{x: x + side + partGap/2, y: y, w: w - side - partGap/2}
	}
	c.text(l.say("front"), small, false, 0)
	return c.items, max(c.y, b.y1) - y
}

// front draws the block small, finished, from the front, with every place of
// the sections on this sheet in grey, or of the parts on it.
func (l *layout) front(room box, s *Sheet, pen *pen) []drawing.Item {
	k := room.w() / l.sized.Finished.W
	x, y, height := room.x0, room.y0, room.h()
	show := func(ps []pos, move func(pos) pos) []pos {
		out := pen.Points(len(ps))
		for i, p := range ps {
			q := move(p)
			out[i] = pos{X: x + q.X*k, Y: y + height - q.Y*k}
		}
		return out
	}
	g := &drawing.Group{ID: "front", Class: "front"}
	var letters []drawing.Item
	on := make(map[int]bool)
	for _, p := range s.Places {
		d := &l.sized.Drawings[p.Drawing]
		fill := picked
		if p.Part != nil {
			fill = drawing.NoColour
			shown := l.divided[p.Drawing].front(p.Part.Number-1, d)
			for _, c := range l.copies[p.Drawing] {
				if len(shown) < 3 { // it is of the allowance alone
					break
				}
				g.Items = append(g.Items, pen.Outline(drawing.NoLine, show(shown, l.sized.Copies[c].Motion()), picked))
			}
		}
		if on[p.Drawing] { // another part of it
			continue
		}
		on[p.Drawing] = true
		for _, c := range l.copies[p.Drawing] {
			outline := show(d.Outline, l.sized.Copies[c].Motion())
			g.Items = append(g.Items, pen.Outline(drawing.FrameLine, outline, fill))
			if t := letter(d.Name, outline); t != nil {
				letters = append(letters, t)
			}
		}
	}
	if len(l.sized.Copies) <= frontCopies {
		for i := range l.sized.Copies {
			c := &l.sized.Copies[i]
			if !on[c.Drawing] {
				g.Items = append(g.Items, pen.Outline(drawing.FrameLine, show(l.sized.Drawings[c.Drawing].Outline, c.Motion()), drawing.NoColour))
			}
		}
	}
	g.Items = append(g.Items, chainOf(drawing.RuleLine, show(l.sized.Outline, func(p pos) pos { return p }), true))
	g.Items = append(g.Items, letters...)
	return []drawing.Item{g}
}

// letter names a place in the front view where there is room.
func letter(name string, outline []pos) *drawing.Text {
	ln := newLine(name, small, false)
	at := centroid(outline)
	b := ln.ink.at(at).grown(pattern.Millimetre / 2)
	b.y0, b.y1 = b.y0+ln.ink.h()/2, b.y1+ln.ink.h()/2
	for i, p := range outline {
		if b.crosses(p, outline[(i+1)%len(outline)]) {
			return nil
		}
	}
	if !inside(at, outline) {
		return nil
	}
	return &drawing.Text{Text: name, At: pos{X: at.X + ln.left, Y: at.Y - ln.ink.y0/2}, Size: small}
}
