package sheet

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Rules and notes stand in a band between a quarter and half an inch from the
// paper's edge, where most printers still print but no section may lie.
const (
	bandFrom = pattern.Inch / 4
	bandWide = pattern.Inch / 4
)

// furnitureGap parts the head, the sections and the foot.
const furnitureGap = 3 * pattern.Millimetre

// besideWidth is the width of a head that stands beside the sections.
const besideWidth = 2.4 * pattern.Inch

// A frame is how a page is divided: room for sections, the head, the foot.
type frame struct {
	area box // within the margins
	room box // for sections
	head box // only the corner at x0, y0 and the width count
}

// printable returns the area inside the margins, without the band of the rules
// along the left and lower edges.
func (l *layout) printable() box {
	m := l.paper.Margin
	ruled := max(m, l.band()+bandWide)
	return box{ruled, m, l.paper.Paper.W - m, l.paper.Paper.H - ruled}
}

// band returns how far from the paper's edge the band of the rules begins.
func (l *layout) band() length { return max(bandFrom, l.paper.Margin-bandWide) }

// frames are the ways to divide a page, the preferred one first: the head across
// the top, or beside the sections where they are too high for that.
func (l *layout) frames() []frame {
	area := l.printable()
	_, foot := l.foot(area, 1, 1, 1)
	bottom := area.y1 - foot - furnitureGap
	var out []frame
	for _, w := range [...]length{area.w(), min(area.w(), besideWidth)} {
		f := frame{area: area, head: box{area.x0, area.y0, area.x0 + w, area.y0}, room: area}
		_, h := l.head(f.head, nil, 1, 1, 1)
		f.head.y1 += h
		f.room.y1 = bottom
		if len(out) == 0 {
			f.room.y0 = f.head.y1 + furnitureGap
		} else if h > bottom-area.y0 {
			break
		} else {
			f.head = box{area.x1 - w, area.y0, area.x1, area.y0 + h}
			f.room.x1 = f.head.x0 - furnitureGap
		}
		out = append(out, f)
	}
	return out
}

// A column sets lines of text under each other.
type column struct {
	x, y, w length
	items   []drawing.Item
}

// leading is the distance of lines as a part of the text's size.
const leading = 1.22

// text sets a text in at most a number of lines, each counted, used or not, so
// that heads of all sheets are equally high. No limit where it is 0.
func (c *column) text(text string, size length, bold bool, lines int) {
	wrapped := drawing.Wrap(text, size, bold, c.w)
	if lines > 0 && len(wrapped) > lines {
		for i, rest := lines, wrapped[lines:]; i == lines; i++ {
			for _, r := range rest {
				wrapped[lines-1] += " " + r
			}
		}
		wrapped = wrapped[:lines]
		wrapped[lines-1] = drawing.Shorten(wrapped[lines-1], size, bold, c.w)
	}
	for i, s := range wrapped {
		at := pos{X: c.x, Y: c.y + size*(length(i)*leading+drawing.CapHeight+0.08)}
		c.items = append(c.items, &drawing.Text{Text: s, At: at, Size: size, Bold: bold})
	}
	c.y += size * leading * length(max(lines, len(wrapped)))
}

// foot sets what belongs under every sheet, and returns its height.
func (l *layout) foot(area box, n, of, print int) ([]drawing.Item, length) {
	about := &l.p.About
	line := drawing.Clean(l.p.Title)
	part := func(s string) {
		if s = drawing.Clean(s); s != "" {
			line += "  -  " + s
		}
	}
	part("edition " + strconv.Itoa(about.Edition))
	switch {
	case about.Author != "" && about.Year != "":
		part("(c) " + about.Year + " " + about.Author)
	case about.Author != "":
		part("by " + about.Author)
	}
	part(about.Rights)
	part(about.Contact)
	if about.Corrections != "" {
		part("corrections: " + about.Corrections)
	}
	c := column{x: area.x0, w: area.w()}
	c.text("Cut out each section roughly, about 1/4 in outside the dashed line. Cut on no printed line until the section is sewn; then lay the ruler's "+
		l.p.Settings.Allowance.In(16)+" line on the heavy outline and trim on the dashed line.", small, false, 0)
	c.text(line, small, false, 2)
	c.text("Sheet "+strconv.Itoa(n)+" of "+strconv.Itoa(of)+"  -  "+times(print)+"  -  print at 100 %, one side only", small, true, 1)
	h := c.y
	for _, item := range c.items {
		item.(*drawing.Text).At.Y += area.y1 - h
	}
	return c.items, h
}

// times says how often a sheet is printed for one block.
func times(n int) string {
	if n == 1 {
		return "print once for one block"
	}
	return "print " + strconv.Itoa(n) + " times for one block"
}

// rules draws the two rules along the lower and the left edge: printers stretch
// the two directions differently.
func (l *layout) rules() *drawing.Group {
	g := &drawing.Group{ID: "rules", Class: "rule"}
	area, paper, inner := l.printable(), l.paper.Paper, l.band()+bandWide-pattern.Millimetre
	inches := min(6, math.Floor(float64(area.w())))
	l.rule(g, pos{X: area.x0, Y: paper.H - inner}, pos{X: 1}, pos{Y: 1}, int(inches), pattern.Inch, 4, "in")
	cm := min(15, math.Floor(area.h().MM()/10))
	l.rule(g, pos{X: inner, Y: area.y1}, pos{Y: -1}, pos{X: -1}, int(cm), pattern.Centimetre, 2, "cm")
	return g
}

// rule draws one rule from a point along a direction, its strokes to the side.
func (l *layout) rule(g *drawing.Group, at, dir, side pos, n int, unit length, parts int, name string) {
	if n <= 0 {
		return
	}
	tick := func(t, h length) {
		p := along(at, dir, t)
		g.Items = append(g.Items, stroke(drawing.RuleLine, p, along(p, side, h)))
	}
	g.Items = append(g.Items, stroke(drawing.RuleLine, at, along(at, dir, length(n)*unit)))
	for i := 0; i <= n*parts; i++ {
		h := 1.2 * pattern.Millimetre
		if i%parts == 0 {
			h = 2.6 * pattern.Millimetre
		}
		tick(unit*length(i)/length(parts), h)
	}
	turn := 0.0
	if dir.Y < 0 {
		turn = 90
	}
	words := strconv.Itoa(n) + " " + name + " when printed at 100 %"
	end := along(along(at, dir, length(n)*unit+1.5*pattern.Millimetre), side, small*drawing.CapHeight)
	text := drawing.Shorten(words, small, false, 2*pattern.Inch)
	if turn == 0 && end.X+drawing.Measure(words, small, false).Width > l.paper.Paper.W-bandFrom {
		text = strconv.Itoa(n) + " " + name
	}
	g.Items = append(g.Items, &drawing.Text{Text: text, At: end, Size: small, Turn: turn})
}
