package sheet

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Widths of the parts of the head.
const (
	frontWidth  = 1.3 * pattern.Inch
	frontLow    = 1.75 * pattern.Inch // with its caption beside it
	squareWidth = 1 * pattern.Inch
	textWidth   = 2.1 * pattern.Inch // at least
	legendWidth = 2.05 * pattern.Inch
)

// titleSize is the size of the pattern's title, with capitals of 3.5 mm.
const titleSize = 4.8 * pattern.Millimetre

// Slots are the places in the head of what differs from sheet to sheet.
type slots struct {
	front  box  // of the front view
	prints slot // how often the sheet is printed, and what is on it
	check  slot // an edge to measure
}

// A slot is room for some lines of text, from a point downwards.
type slot struct {
	at    pos
	w     length
	bold  bool
	lines int
}

// leave leaves room for a slot in a column.
func (c *column) leave(s *slot, bold bool, lines int) {
	*s = slot{pos{X: c.x, Y: c.y}, c.w, bold, lines}
	c.y += small * leading * length(lines)
}

// fill sets a text in a slot.
func (s *slot) fill(text string) []drawing.Item {
	c := column{x: s.at.X, y: s.at.Y, w: s.w}
	c.text(text, small, s.bold, s.lines)
	return c.items
}

// varying draws what differs from sheet to sheet in a head.
func (l *layout) varying(f *frame, s *Sheet, pen *pen) []drawing.Item {
	items := l.front(f.slots.front, s, pen)
	items = append(items, f.slots.prints.fill(l.prints(s, &f.slots.prints))...)
	return append(items, f.slots.check.fill(l.say("check", "what", l.check(s)))...)
}

// A part of the head is drawn at a corner in a width and returns its height.
type part struct {
	width length
	flex  bool // takes the width that is left in its row
	draw  func(x, y, w length) ([]drawing.Item, length)
}

// head draws what all heads of a frame have in common, and returns its height.
// Parts stand beside each other as far as there is room, the next one below the last.
func (l *layout) head(f *frame) (items []drawing.Item, height length) {
	front := part{width: frontWidth, draw: func(x, y, w length) ([]drawing.Item, length) { return l.frontRoom(x, y, w, f) }}
	if f.compact {
		front.width = frontLow
	}
	parts := [...]part{
		front,
		{textWidth, true, func(x, y, w length) ([]drawing.Item, length) { return l.headText(x, y, w, f) }},
		{legendWidth, false, l.legend},
		{squareWidth, false, squares},
	}
	at := f.head
	at.y0 += headGap
	w := at.w()
	for i := 0; i < len(parts); {
		used, end := length(0), i
		for ; end < len(parts) && (end == i || used+parts[end].width <= w); end++ {
			used += min(parts[end].width, w) + partGap
		}
		x, row, last := at.x0, length(0), pos{}
		for _, p := range parts[i:end] {
			pw := min(p.width, w)
			if p.flex {
				pw += w - (used - partGap)
			}
			drawn, h := p.draw(x, at.y0+height, pw)
			items = append(items, drawn...)
			last = pos{X: x, Y: at.y0 + height + h + partGap}
			x += pw + partGap
			row = max(row, h)
		}
		if end == len(parts)-1 && end-i > 1 && parts[end].width <= parts[end-1].width { // below the last one is room already
			drawn, h := parts[end].draw(last.X, last.Y, parts[end].width)
			items = append(items, drawn...)
			row = max(row, last.Y+h-at.y0-height)
			end++
		}
		height += row + partGap
		i = end
	}
	return items, height - partGap
}

// headText says what this sheet is and how it is used. What differs from sheet
// to sheet has a fixed number of lines, so that all heads are equally high.
func (l *layout) headText(x, y, w length, f *frame) ([]drawing.Item, length) {
	c := column{x: x, y: y, w: w}
	if !f.compact {
		title := l.title
		c.text(title, titleSize, true, min(2, max(1, len(drawing.Wrap(title, titleSize, true, w)))))
		block := drawing.Clean(l.block.Title)
		alone := len(l.p.Blocks) == 1 && strings.Contains(strings.ToLower(title), strings.ToLower(block))
		if !alone && !strings.EqualFold(title, block) {
			c.text(block, medium, true, 1)
		}
		finishes := l.say("finishes", "measures", l.measures())
		if len(drawing.Wrap(finishes, small, false, w)) > 2 {
			finishes = l.sizes("finishes_low")
		}
		c.text(finishes, small, false, 2)
	}
	c.leave(&f.slots.prints, true, 1)
	// Beside a front view that says that it is one: printed foundations have no
	// common convention.
	c.text(l.say("reverse"), small, false, 0)
	// As many lines as the longest check takes, so that none is cut short.
	check := len(drawing.Wrap(l.say("longest_check"), small, false, w))
	left := 0 // lines, no limit
	if f.compact {
		left = int((y+squareWidth-c.y)/(small*leading)) - check // beside the squares it costs no height
	}
	l.trim(&c, left, f.compact)
	c.leave(&f.slots.check, false, check)
	return c.items, c.y - y
}

// trim says when and where a section is trimmed; in a low head as far as there are
// lines left, in fewer words or not at all: the legend says it once more.
func (l *layout) trim(c *column, left int, low bool) {
	long, short := "trim", "trim_low"
	if l.p.Settings.Extra > 0 {
		long, short = "trim_extra", "trim_low_extra"
	}
	allowance := l.local(l.p.Settings.Allowance.OnRuler(l.p.Settings.Metric))
	for _, words := range [...]string{l.say(long, "allowance", allowance), l.say(short)} {
		if !low || len(drawing.Wrap(words, small, false, c.w)) <= left {
			c.text(words, small, false, 0)
			return
		}
	}
}

func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// measures tells what the block measures, finished and before.
func (l *layout) measures() string { return l.sizes("measures") }

// sizes fills both sizes of the block into a message.
func (l *layout) sizes(key string) string {
	size, set := l.sized.Finished, &l.p.Settings
	raw := pattern.Size{W: size.W + 2*set.Allowance, H: size.H + 2*set.Allowance}
	return l.say(key, "size", l.local(size.Words(set.Metric)), "raw", l.local(raw.Words(set.Metric)))
}

// sections lists what is on a sheet.
func (l *layout) sections(s *Sheet) string {
	names := l.names(s)
	return l.said.Count("sections", len(names), "names", strings.Join(names, ", "))
}

// prints says how often a sheet is printed, and its sections as far as there is
// room: never a part of them, which would read as if they were all.
func (l *layout) prints(s *Sheet, room *slot) string {
	times := capital(l.times(s.Print))
	forms := [...]string{l.sections(s), strings.Join(l.names(s), ", ")}
	titles := []string{""}
	if unit := l.repeated(s); unit != "" {
		titles = []string{capital(unit) + ". ", ""}
	}
	for _, title := range titles {
		for _, sections := range forms {
			if words := title + times + ": " + sections; len(drawing.Wrap(words, small, room.bold, room.w)) <= room.lines {
				return words
			}
		}
	}
	return times
}

// repeated names the unit that a sheet is of, where it is one that the block has
// more than once and all of the sheet's sections belong to it: makers look for the
// quarter, not for its letters.
func (l *layout) repeated(s *Sheet) string {
	if s.Print < 2 || len(s.Places) == 0 {
		return ""
	}
	unit := l.sized.Drawings[s.Places[0].Drawing].Unit
	for _, p := range s.Places {
		if l.sized.Drawings[p.Drawing].Unit != unit {
			return ""
		}
	}
	if unit == l.block.Name {
		return ""
	}
	return printed(unit)
}

// names are a sheet's sections, as its head lists them.
func (l *layout) names(s *Sheet) []string {
	var names []string
	for _, p := range s.Places {
		d := &l.sized.Drawings[p.Drawing]
		name := d.Name
		switch {
		case d.Plain:
			name = l.say("template", "name", name)
		case d.Reversed >= 0:
			name = l.say("reversed", "name", name, "of", l.sized.Drawings[d.Reversed].Name)
		}
		if p.Part != nil {
			name = l.partName(name, p.Part)
		}
		names = append(names, name)
	}
	return names
}

// sample is the width of a line's sample in the legend.
const sample = 9 * pattern.Millimetre

// legend shows every kind of line with its words: sheets get parted from the
// booklet that would explain them.
func (l *layout) legend(x, y, w length) ([]drawing.Item, length) {
	c := column{x: x + sample + 2*pattern.Millimetre, y: y, w: w - sample - 2*pattern.Millimetre}
	row := func(words string, draw func(y length) []drawing.Item) {
		at := c.y + small*leading/2
		c.text(words, small, false, 0)
		c.items = append(c.items, draw(at)...)
		c.y += 0.45 * pattern.Millimetre
	}
	lined := func(styles ...drawing.Style) func(length) []drawing.Item {
		return func(y length) (out []drawing.Item) {
			for i, s := range styles {
				from, to := sample*length(i)/length(len(styles)), sample*length(i+1)/length(len(styles))
				out = append(out, stroke(s, pos{X: x + from, Y: y}, pos{X: x + to, Y: y}))
			}
			return out
		}
	}
	row(l.say("legend_sewing"), lined(drawing.SewingLine, drawing.RunOnLine))
	row(l.say("legend_outline"), lined(drawing.OutlineLine))
	row(l.say("legend_cutting"), lined(drawing.CuttingLine))
	if l.p.Settings.Extra > 0 {
		row(l.say("legend_extra"), lined(drawing.ExtraLine))
	}
	row(l.say("legend_mark"), func(y length) []drawing.Item {
		m := x + sample/2
		return []drawing.Item{
			stroke(drawing.OutlineLine, pos{X: x, Y: y + ringRadius}, pos{X: x + sample, Y: y + ringRadius}),
			stroke(drawing.MarkLine, pos{X: m, Y: y + ringRadius}, pos{X: m, Y: y - 2*pattern.Millimetre}),
			ring(drawing.MarkLine, pos{X: m, Y: y + ringRadius}, ringRadius),
		}
	})
	if l.sized.Partial() {
		row(l.say("legend_stop"), func(y length) []drawing.Item {
			m, low := x+sample/2, y+ringRadius
			return []drawing.Item{
				stroke(drawing.OutlineLine, pos{X: x, Y: low}, pos{X: x + sample, Y: low}),
				stroke(drawing.MarkLine, pos{X: m, Y: low}, pos{X: m, Y: y - 2*pattern.Millimetre}),
				stroke(drawing.MarkLine, pos{X: m - stopHalf, Y: y - ringRadius}, pos{X: m + stopHalf, Y: y - ringRadius}),
			}
		})
	}
	row(l.say("legend_first"), func(y length) []drawing.Item {
		lab := stacked([]line{newLine("1", small, true)}, true)
		return []drawing.Item{
			&drawing.Text{Text: "1", At: pos{X: x + sample/2 + lab.lines[0].left, Y: y + lab.lines[0].at.Y}, Size: small, Bold: true},
			ring(drawing.FrameLine, pos{X: x + sample/2, Y: y + lab.mid.Y}, lab.ring),
		}
	})
	row(l.say("legend_leader"), func(y length) []drawing.Item {
		dot := ring(drawing.NoLine, pos{X: x + sample, Y: y}, dotRadius)
		dot.Fill = drawing.Black
		return append(lined(drawing.LeaderLine)(y), dot)
	})
	if l.p.Settings.Placement {
		row(l.say("legend_place"), lined(drawing.PlaceLine))
	}
	if l.tellsGrain() {
		row(l.say("legend_grain"), func(y length) []drawing.Item { return arrow(&pen{}, pos{X: x + sample/2, Y: y}, pos{X: 1}) })
	}
	return []drawing.Item{&drawing.Group{ID: "legend", Class: "legend", Items: c.items}}, c.y - y
}

// squares draws a 1-inch square and a 2-cm square in its corner.
func squares(x, y, _ length) ([]drawing.Item, length) {
	g := &drawing.Group{ID: "squares", Class: "rule"}
	square := func(id string, side length, words string, down length) {
		b := box{x, y, x + side, y + side}.corners()
		g.Items = append(g.Items,
			&drawing.Group{ID: id, Items: []drawing.Item{chainOf(drawing.RuleLine, b[:], true)}},
			&drawing.Text{Text: words, At: pos{X: x + side - pattern.Millimetre, Y: y + down}, Size: small, Anchor: drawing.End})
	}
	square("square-1in", pattern.Inch, "1 in", pattern.Inch-1.5*pattern.Millimetre)
	square("square-2cm", 2*pattern.Centimetre, "2 cm", 2*pattern.Centimetre-1.5*pattern.Millimetre)
	return []drawing.Item{g}, pattern.Inch
}

// check names one edge of the largest section on the sheet, from where to where,
// and its length: the surest way to see that the print is true.
func (l *layout) check(s *Sheet) string {
	var best Place
	most := length(-1)
	for _, p := range s.Places {
		if a := area(l.sized.Drawings[p.Drawing].Outline); a > most+near && p.Part == nil { // of equals the first, whatever their last bits
			best, most = p, a
		}
	}
	if most < 0 {
		return l.crosses(s.Places[0])
	}
	d := &l.sized.Drawings[best.Drawing]
	outline, _ := moved(make([]pos, 0, len(d.Outline)), d.Outline, best.Motion())
	cut, _ := l.contours(best.Drawing, outline)
	edge, long, dashed := 0, length(0), false
	for i, p := range outline {
		next := (i + 1) % len(outline)
		n, sharp := dist(p, outline[next]), len(cut.corner(i)) > 1 || len(cut.corner(next)) > 1
		if !sharp {
			n = dist(cut.corner(i)[0], cut.corner(next)[0])
		}
		if !sharp && !dashed || sharp == !dashed && n > long+near {
			edge, long, dashed = i, n, !sharp
		}
	}
	kind := "heavy"
	if dashed {
		kind = "dashed"
	}
	return l.say("check_edge", "name", d.Name, "edge", l.say(sideWords(outline, edge)), "corners", l.say(kind),
		"length", l.local(long.Words(l.p.Settings.Metric, 16)))
}

// sideWords says which edge of an outline is meant, as it lies on the page, by the
// name of its message.
func sideWords(outline []pos, edge int) string {
	a, b := outline[edge], outline[(edge+1)%len(outline)]
	d := unit(a, b)
	const straight = 0.966 // within 15 degrees
	switch {
	case d.X > straight: // the inside is below: the page's y runs down
		return "edge_top"
	case d.X < -straight:
		return "edge_bottom"
	case d.Y > straight:
		return "edge_right"
	case d.Y < -straight:
		return "edge_left"
	}
	for i, p := range outline {
		if dist(p, outline[(i+1)%len(outline)]) > dist(a, b)+near {
			return "edge_slanting"
		}
	}
	return "edge_longest"
}
