package sheet

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Rules and notes stand in a band between a quarter and half an inch from the
// paper's edge, where most printers still print but no section may lie. With a
// margin of less than half an inch sections gain nothing: the band is needed.
const (
	bandFrom = pattern.Inch / 4
	bandWide = pattern.Inch / 4
)

// headGap parts the notes from the head and the head from the sections below
// it, partGap the parts of the head, and the sections beside it, from each other.
const (
	headGap = 1.5 * pattern.Millimetre
	partGap = 3 * pattern.Millimetre
)

// besideWidth is the width of a head that stands beside the sections.
const besideWidth = 2.4 * pattern.Inch

// A frame is how a page is divided: room for sections, and the head, with all
// that is the same on every page of the frame.
type frame struct {
	room    box
	head    box
	compact bool
	fixed   *drawing.Group
	slots   slots
}

// band returns how far from the paper's edge the band begins.
func (l *layout) band() length { return max(bandFrom, l.paper.Margin-bandWide) }

// area returns what is inside the margins and the band.
func (l *layout) area() box {
	m := l.band() + bandWide
	return box{m, m, l.paper.Paper.W - m, l.paper.Paper.H - m}
}

// Frames are the ways to divide a page, the preferred one first: a head across
// the top; a low one, for high sections; one in a column beside the sections.
// Those without room for sections are left out. Most patterns need but the first,
// so each is made when it is asked for.
type frames struct {
	l     *layout
	made  []frame
	tried int // ways
}

func (l *layout) frames() *frames { return &frames{l: l, made: make([]frame, 0, ways)} }

// ways are how many ways there are to divide a page.
const ways = 3

// at returns one of the frames; false where there are not so many.
func (fs *frames) at(k int) (*frame, bool) {
	area := fs.l.area()
	if area.w() < squareWidth || area.h() < squareWidth {
		return nil, false
	}
	for len(fs.made) <= k && fs.tried < ways {
		f := frame{head: area, room: area, compact: fs.tried == 1}
		if fs.tried == 2 {
			f.head.x0 = max(area.x0+partGap, area.x1-besideWidth)
		}
		fs.tried++
		if fs.l.furnish(&f, "f"+strconv.Itoa(fs.tried)) { // short identities, for every glyph's use repeats them
			fs.made = append(fs.made, f)
		}
	}
	if len(fs.made) <= k {
		return nil, false
	}
	return &fs.made[k], true
}

// lower finds the next frame, where it differs in having a lower head.
func (fs *frames) lower(k int) func() *frame {
	return func() *frame {
		if f, ok := fs.at(k + 1); ok && f.compact && !fs.made[k].compact {
			return f
		}
		return nil
	}
}

// furnish makes what stands on every page of a frame; false where that leaves no
// room for sections.
func (l *layout) furnish(f *frame, id string) bool {
	items, h := l.head(f)
	if f.head.w() < l.area().w() { // beside
		f.room.x1 = f.head.x0 - partGap
		if h > l.area().h()-headGap {
			return false
		}
	} else {
		f.room.y0 += headGap + h + headGap
	}
	f.fixed = &drawing.Group{ID: id, Class: "furniture", Shared: true, Items: append(items, l.notes(), l.rules())}
	return f.room.w() >= leastRoom && f.room.h() >= leastRoom
}

// leastRoom is the room without which a sheet is not worth printing: a section
// of half an inch with its allowance.
const leastRoom = 1 * pattern.Inch

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

// bandLines are the distances of two lines' baselines from the edge of the band
// at which they begin, above or on the right.
var bandLines = [2]length{2.4 * pattern.Millimetre, 5.5 * pattern.Millimetre}

// sideLines are those of the text on the right, clear of sections at the margin.
var sideLines = [2]length{2.95 * pattern.Millimetre, 5.75 * pattern.Millimetre}

// notes sets in the band above and on the right what is the same on every
// sheet: how it is printed, whose it is.
func (l *layout) notes() *drawing.Group {
	g := &drawing.Group{ID: "notes", Class: "notes"}
	area := l.area()
	text := fitting(false, area.w(),
		l.advice()...)
	g.Items = append(g.Items, &drawing.Text{Text: text, At: pos{X: area.x0, Y: l.band() + bandLines[1]}, Size: small})
	c := column{w: area.h()}
	c.text(l.credits(), small, false, 2)
	for i, item := range c.items {
		t := item.(*drawing.Text)
		t.Turn, t.At = 90, pos{X: area.x1 + sideLines[i], Y: area.y1}
		g.Items = append(g.Items, t)
	}
	return g
}

// number says which sheet of how many it is, and how often it is printed.
func (l *layout) number(n, of, print int) *drawing.Text {
	title, sheet := l.title, l.say("sheet", "n", strconv.Itoa(n), "m", strconv.Itoa(of))
	edition := ""
	if n := l.p.About.Edition; n > 0 {
		edition = l.say("edition", "n", strconv.Itoa(n)) + " - "
	}
	text := fitting(true, l.area().w()-markWidth,
		sheet+" - "+l.times(print)+" - "+edition+title,
		sheet+" - "+edition+title)
	return &drawing.Text{Text: text, At: pos{X: l.area().x0, Y: l.band() + bandLines[0]}, Size: small, Bold: true}
}

// markWidth is kept free at the end of the first line for the version mark.
const markWidth = 1 * pattern.Inch

// fitting returns the first text that fits a width, else the last, shortened.
func fitting(bold bool, w length, forms ...string) string {
	for _, f := range forms {
		if drawing.Measure(f, small, bold).Width <= w {
			return f
		}
	}
	return drawing.Shorten(forms[len(forms)-1], small, bold, w)
}

// stamp prints the version mark on a page, at the upper right.
func (l *layout) stamp(page *drawing.Page, mark string) {
	at := pos{X: l.area().x1, Y: l.band() + bandLines[0]}
	page.Items = append(page.Items, &drawing.Group{ID: "version", Class: "notes", Items: []drawing.Item{
		&drawing.Text{Text: l.say("mark", "mark", mark), At: at, Size: small, Bold: true, Anchor: drawing.End},
	}})
}

// credits say whose the pattern is, what it makes and where its errata are.
func (l *layout) credits() string {
	about := &l.p.About
	line := l.title + ": " + l.measures()
	part := func(s string) {
		if s = drawing.Clean(s); s != "" {
			line += " - " + s
		}
	}
	if about.Author != "" && about.Year != "" {
		part("(c) " + about.Year + " " + about.Author)
	} else if drawing.Clean(about.Author) != "" {
		part(l.say("by", "author", about.Author))
	}
	part(about.Rights)
	part(about.Contact)
	if where := drawing.Clean(about.Corrections); where != "" {
		part(l.say("corrections", "where", where))
	}
	return line
}

// times says how often a sheet is printed for one block.
func (l *layout) times(n int) string {
	if l.paper.Bound {
		return l.said.Count("bound_times", n)
	}
	return l.said.Count("times", n)
}

// advice is what stands above the sections, the longest form first.
func (l *layout) advice() []string {
	if l.paper.Bound {
		return []string{l.say("bound_long"), l.say("bound_short")}
	}
	if l.p.Settings.Tile {
		return []string{l.say("print_parts"), l.say("print_medium"), l.say("print_short")}
	}
	return []string{l.say("print_long"), l.say("print_medium"), l.say("print_short")}
}

// rules draws the two rules along the lower and the left edge: printers stretch
// the two directions differently.
func (l *layout) rules() *drawing.Group {
	g := &drawing.Group{ID: "rules", Class: "rule"}
	area, paper, inner := l.area(), l.paper.Paper, l.band()+bandWide-2*pattern.Millimetre
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
	words := l.say("rule", "n", strconv.Itoa(n), "unit", name)
	end := along(along(at, dir, length(n)*unit+1.5*pattern.Millimetre), side, small*drawing.CapHeight)
	text := drawing.Shorten(words, small, false, 2*pattern.Inch)
	if turn == 0 && end.X+drawing.Measure(words, small, false).Width > l.paper.Paper.W-bandFrom {
		text = strconv.Itoa(n) + " " + name
	}
	g.Items = append(g.Items, &drawing.Text{Text: text, At: end, Size: small, Turn: turn})
}
