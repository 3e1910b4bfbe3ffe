package diagram

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

const (
	// pressArrow is how long an arrow of the pressing of a quilt is on the page; a
	// shorter join has a shorter one, and below leastArrow none: it would be a blot.
	pressArrow = 4.5 * pattern.Millimetre
	leastArrow = 1.2 * pattern.Millimetre

	// matchRing is the radius of a ring about a point to match.
	matchRing = 0.7 * pattern.Millimetre

	// otherWay shades blocks that are pressed the other way.
	otherWay drawing.Colour = 0xd0d0d0
	oneWay   drawing.Colour = 0xffffff
	between  drawing.Colour = 0xf2f2f2 // what is no block
)

// quiltPressing is the quilt in lines, with all its joins: an arrow to the side that
// each is pressed to, and rings where seams of both sides meet.
func quiltPressing(said *words.Catalogue, p *pattern.Pattern, q *pattern.Quilt) *drawing.Page {
	pic := newQuilt(said, p, q, pressingWords(said, q.Layout))
	g, all := pic.fit(quiltBox(q)).pressing(p, q)
	pic.add(g)
	if !all {
		pic.y += 4 * pattern.Point
		pic.words(said.Say("quilt_press_fine"))
	}
	return pic.done()
}

func quiltBox(q *pattern.Quilt) box {
	return boxOf([]pos{{}, {X: q.Layout.Size.W, Y: q.Layout.Size.H}})
}

// Pressing draws the joins of a quilt with their arrows, as large as a part of a page
// allows; all reports whether every arrow found room.
func Pressing(p *pattern.Pattern, q *pattern.Quilt, at pattern.Pos, size pattern.Size) (items []drawing.Item, all bool) {
	b := quiltBox(q)
	g, all := b.frameAt(at, size, min(size.W/max(b.w(), tiny), size.H/max(b.h(), tiny))).pressing(p, q)
	return g.Items, all
}

// pressing draws the joins of a quilt; all reports whether every arrow found room.
func (f frame) pressing(p *pattern.Pattern, q *pattern.Quilt) (g *drawing.Group, all bool) {
	l := q.Layout
	lines := quiltPieces(p, l) <= mostDrawn
	pen := &drawing.Pen{}
	g = &drawing.Group{ID: "pressing", Class: "pressing"}
	for i := range l.Areas {
		g.Items = append(g.Items, &drawing.Path{Style: drawing.NoLine, Points: f.onPage(slices.Clone(l.Areas[i].Polygon)), Closed: true, Fill: between})
	}
	for i := range l.Placed {
		at := &l.Placed[i]
		s, move, shade := &p.Blocks[at.Block].Sizes[at.Size], at.Motion(), oneWay
		if at.OtherWay {
			shade = otherWay
		}
		g.Items = append(g.Items, &drawing.Path{Style: drawing.NoLine, Points: f.onPage(mapped(s.Outline, move)), Closed: true, Fill: shade})
		if lines {
			eachPiece(s, pen, func(_ *pattern.Piece, polygon []pos) {
				g.Items = append(g.Items, &drawing.Path{Style: drawing.RunOnLine, Points: f.onPage(mapped(polygon, move)), Closed: true, Fill: drawing.NoColour})
			})
		}
	}
	tooShort := false
	for i := range l.Joins {
		j := &l.Joins[i]
		g.Items = append(g.Items, &drawing.Path{Style: drawing.MarkLine, Points: f.onPage([]pos{j.A, j.B}), Fill: drawing.NoColour})
	}
	arrows := len(g.Items)
	for i := range l.Joins { // over all lines
		tooShort = !f.quiltJoin(g, p, l, &l.Joins[i]) || tooShort
	}
	edge := []pos{{}, {X: l.Size.W}, {X: l.Size.W, Y: l.Size.H}, {Y: l.Size.H}}
	g.Items = append(g.Items, &drawing.Path{Style: drawing.OutlineLine, Points: f.onPage(edge), Closed: true, Fill: drawing.NoColour})
	f.rowNumbers(g, p, q, g.Items[arrows:len(g.Items)-1])
	return g, !tooShort
}

// pressingWords tells what the page shows.
func pressingWords(said *words.Catalogue, l *pattern.Layout) string {
	shows := said.Say("quilt_press")
	if len(l.Two) > 0 {
		shows += " " + said.Say("quilt_press_other")
	}
	return shows
}

// newQuilt begins a page about a quilt. The page is white: it is looked at on screens
// of any color.
func newQuilt(said *words.Catalogue, p *pattern.Pattern, q *pattern.Quilt, shows string) *picture {
	title := drawing.Clean(q.Title)
	pic := &picture{page: &drawing.Page{Name: "quilt", Title: title + ": " + shows}, y: pageEdge + titleSize, white: true}
	pic.write(pageEdge, pic.y, drawing.Shorten(title, titleSize, true, inner), titleSize, drawing.Start, true)
	pic.y += 4 * pattern.Point
	pic.words(shows + "  " + said.Say("finishes", "sizes", strings.ReplaceAll(measures(q.Layout.Size, p.Settings.Metric), ".", said.Say("decimal_mark"))))
	pic.y += 6 * pattern.Point
	return pic
}

func mapped(polygon []pos, move func(pos) pos) []pos {
	out := make([]pos, len(polygon))
	for i, v := range polygon {
		out[i] = move(v)
	}
	return out
}

// quiltJoin draws the rings and the arrows of a join; false where there is no room
// for an arrow.
func (f frame) quiltJoin(g *drawing.Group, p *pattern.Pattern, l *pattern.Layout, j *pattern.QuiltJoin) bool {
	for _, at := range j.Points {
		g.Items = append(g.Items, &drawing.Path{Style: drawing.MarkLine, Points: []pos{f.at(j.At(at))}, Circle: matchRing, Fill: 0xffffff})
	}
	at, room := widest(j)
	// An arrow ends well within what it points into: another may come from beyond.
	reach := func(parts []pattern.Part) length {
		deep := length(math.Inf(1))
		for _, part := range parts {
			deep = min(deep, depth(j, partOutline(p, l, part)))
		}
		return min(pressArrow*0.6, 0.4*deep*f.scale, 0.4*room*f.scale)
	}
	left, right := reach(j.Left), reach(j.Right)
	if min(left, right) < leastArrow/2 {
		return false
	}
	dx, dy := (j.B.X-j.A.X)/j.Length(), (j.B.Y-j.A.Y)/j.Length()
	middle := f.at(j.At(at))
	beside := func(far length) pos { // of the join's left, on the page
		return pos{X: middle.X - dy*far, Y: middle.Y - dx*far}
	}
	switch j.Press {
	case pattern.PressLeft:
		g.Items = append(g.Items, arrow(beside(-min(left/2, right)), beside(left))...)
	case pattern.PressRight:
		g.Items = append(g.Items, arrow(beside(min(right/2, left)), beside(-right))...)
	case pattern.PressOpen:
		g.Items = append(g.Items, arrow(beside(0), beside(left))...)
		g.Items = append(g.Items, arrow(beside(0), beside(-right))...)
	}
	return true
}

// partOutline returns the corners of a part in its quilt.
func partOutline(p *pattern.Pattern, l *pattern.Layout, part pattern.Part) []pos {
	if i, ok := part.Area(); ok {
		return l.Areas[i].Polygon
	}
	at := &l.Placed[part]
	return mapped(p.Blocks[at.Block].Sizes[at.Size].Outline, at.Motion())
}

// depth is how far corners lie from a join at the most.
func depth(j *pattern.QuiltJoin, corners []pos) (far length) {
	for _, c := range corners {
		d := ((j.B.X-j.A.X)*(c.Y-j.A.Y) - (j.B.Y-j.A.Y)*(c.X-j.A.X)) / max(j.Length(), tiny)
		far = max(far, d, -d)
	}
	return far
}

// widest returns the middle of the longest stretch of a join where no seam ends, and
// how long that is: of equal ones the last, for rows have their numbers in the first.
func widest(j *pattern.QuiltJoin) (at, room length) {
	last := length(0)
	for k := 0; k <= len(j.Ends); k++ {
		next := j.Length()
		if k < len(j.Ends) {
			next = j.Ends[k].Along
		}
		if next-last > room-1e-3 {
			at, room = (next+last)/2, next-last
		}
		last = next
	}
	return at, room
}

// rowNumber is how large the numbers of rows are.
const rowNumber = 7 * pattern.Point

// rowNumbers writes the number of each row on the first of its parts where it is clear of
// the arrows. Rows too narrow for it have none.
func (f frame) rowNumbers(g *drawing.Group, p *pattern.Pattern, q *pattern.Quilt, arrows []drawing.Item) {
	l, dir := q.Layout, pos{X: 1}
	if q.OnPoint {
		dir = pos{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}
	}
	for i := range l.Rows {
		var places []pos
		for _, part := range l.Rows[i].Parts {
			places = f.numberPlaces(places, partOutline(p, l, part), dir)
		}
		if len(places) == 0 {
			continue
		}
		k := slices.IndexFunc(places, func(at pos) bool { return clearOf(at, arrows) })
		at := places[max(k, 0)]
		g.Items = append(g.Items, &drawing.Path{Style: drawing.NoLine, Points: []pos{at}, Circle: 0.65 * rowNumber, Fill: 0xffffff})
		g.Items = append(g.Items, &drawing.Text{Text: strconv.Itoa(i + 1), At: pos{X: at.X, Y: at.Y + 0.36*rowNumber}, Size: rowNumber, Anchor: drawing.Middle, Bold: true})
	}
}

// numberPlaces adds the places on the page where a number may stand on a part of a row
// that runs in a direction: in its middle, then before and behind that. None if the part
// is too narrow for it.
func (f frame) numberPlaces(places, corners []pos, dir pos) []pos {
	along := boxOf(nil) // in x alone
	middle := pos{}
	for _, c := range corners {
		along = along.with([]pos{{X: c.X*dir.X + c.Y*dir.Y}})
		middle = pos{X: middle.X + c.X/length(len(corners)), Y: middle.Y + c.Y/length(len(corners))}
	}
	outline := f.onPage(slices.Clone(corners))
	for _, part := range [5]length{0, -0.15, 0.15, -0.3, 0.3} {
		far := part * along.w()
		at := f.at(pos{X: middle.X + far*dir.X, Y: middle.Y + far*dir.Y})
		if toPath(at, outline) >= 0.6*rowNumber {
			places = append(places, at)
		}
	}
	return places
}

// clearOf reports whether a row's number at a place keeps off arrows and rings.
func clearOf(at pos, items []drawing.Item) bool {
	const gap = rowNumber*0.65 + pattern.Millimetre/3
	for _, item := range items {
		if p, ok := item.(*drawing.Path); ok && toPath(at, p.Points) < gap+p.Circle {
			return false
		}
	}
	return true
}

// toPath is how far a place is from a closed path.
func toPath(at pos, points []pos) length {
	least := math.Inf(1)
	for i, a := range points {
		b := points[(i+1)%len(points)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := ((at.X-a.X)*dx + (at.Y-a.Y)*dy) / max(dx*dx+dy*dy, tiny)
		t = min(max(t, 0), 1)
		least = min(least, math.Hypot(float64(a.X+t*dx-at.X), float64(a.Y+t*dy-at.Y)))
	}
	return length(least)
}
