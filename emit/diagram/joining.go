package diagram

import (
	"math"
	"slices"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

const (
	// columns of steps on a page.
	columns = 3
	cellGap = 0.25 * pattern.Inch

	// mostSteps are drawn; after as many joins the way is clear, and the report
	// lists them all.
	mostSteps = 30
)

// joining is the order of the joins, step by step: the parts that are brought
// together, a little apart, with the points that must meet ringed.
func joining(said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, sizes []*pattern.Sized) *drawing.Page {
	s := sizes[0]
	pic := newPicture(said, "joining", p, b, sizes, shown(said, sizes[0]))
	steps := min(len(s.Joins), mostSteps)
	parts := newAssembly(len(s.Copies))
	pic.cells(steps, func(k int, at pos, width length) length {
		return pic.step(said, s, parts, &s.Joins[k], at, width)
	})
	if steps < len(s.Joins) {
		pic.words(said.Count("joining_rest", len(s.Joins)-steps))
	}
	return pic.done()
}

// shown says what the page shows.
func shown(said *words.Catalogue, s *pattern.Sized) string {
	text := said.Say("joining")
	if len(s.Joins) > 0 && s.Joins[0].Press != pattern.Unpressed {
		text += " " + said.Say("joining_press")
	}
	if s.Partial() {
		text += " " + said.Say("joining_bar")
	}
	return text
}

// cells draws n small pictures in rows. Each is told its upper left corner and its
// width, and returns how far down it reaches.
func (pic *picture) cells(n int, draw func(k int, at pos, width length) length) {
	const width = (inner - (columns-1)*cellGap) / columns
	pic.y += cellGap
	for i := 0; i < n; i += columns {
		deepest := pic.y
		for k := i; k < min(i+columns, n); k++ {
			x := pageEdge + length(k-i)*(width+cellGap)
			deepest = max(deepest, draw(k, pos{X: x, Y: pic.y}, width))
		}
		pic.y = deepest + cellGap
	}
}

// heading writes the words over a small picture and returns where it begins.
func (pic *picture) heading(at pos, width length, words string) pos {
	pic.write(at.X, at.Y+wordSize, drawing.Shorten(words, wordSize, true, width), wordSize, drawing.Start, true)
	at.Y += lineStep + 4*pattern.Point
	return at
}

// step draws one join in a cell with its upper left corner at a place, and
// returns how far down it reaches.
func (pic *picture) step(said *words.Catalogue, s *pattern.Sized, parts *assembly, j *pattern.Join, at pos, width length) length {
	title := said.Say("join", "n", strconv.Itoa(j.Number), "left", sideNames(said, s, j.Left), "right", sideNames(said, s, j.Right))
	switch {
	case j.Begins > 0:
		title += said.Say("join_part")
	case j.Begun > 0:
		title += said.Say("join_rest", "n", strconv.Itoa(j.Begun))
	}
	at = pic.heading(at, width, title)
	d := newStep(s, parts, j)
	// Small parts are drawn larger than the block would be, but not so that a
	// short join looks like a long one.
	whole, b := boxOf(s.Outline), d.bounds
	block := width / max(whole.w(), whole.h(), tiny)
	scale := min(width/max(b.w(), tiny), width/max(b.h(), tiny), 1.8*block)
	pic.add(d.draw(frame{scale: scale, origin: pos{X: at.X + width/2 - (b.min.X+b.max.X)/2*scale, Y: at.Y + b.max.Y*scale}})...)
	return at.Y + b.h()*scale
}

// A step is one join: what lies on both sides, moved apart.
type step struct {
	sized           *pattern.Sized
	join            *pattern.Join
	onLeft, onRight []int // copies
	left, right     [][]pos
	away            pos
	bounds          box
}

// newStep takes up the parts of a join and sews them together.
func newStep(s *pattern.Sized, parts *assembly, j *pattern.Join) *step {
	d := &step{sized: s, join: j, onLeft: parts.with(j.Left), onRight: parts.with(j.Right), away: apartBy(s, j)}
	if j.Begun > 0 { // it is one part already, and can't be moved apart
		d.onRight, d.away = nil, pos{}
	}
	parts.join(j)
	d.left, d.right = outlines(s, d.onLeft), outlines(s, d.onRight)
	shift(d.left, d.away)
	shift(d.right, pos{X: -d.away.X, Y: -d.away.Y})
	d.bounds = boxOf([]pos{j.A, j.B})
	for _, polygon := range append(d.left[:len(d.left):len(d.left)], d.right...) {
		d.bounds = d.bounds.with(polygon)
	}
	return d
}

func (d *step) draw(f frame) []drawing.Item {
	g := &drawing.Group{ID: "join-" + strconv.Itoa(d.join.Number), Class: "join"}
	g.Items = f.side(g.Items, d.sized, d.onLeft, d.left)
	g.Items = f.side(g.Items, d.sized, d.onRight, d.right)
	g.Items = f.seam(g.Items, d.sized, d.join, d.away)
	g.Items = append(g.Items, f.press(d.join, apartBy(d.sized, d.join))...)
	return []drawing.Item{g}
}

// outlines returns the outlines of copies as they lie in the block.
func outlines(s *pattern.Sized, copies []int) (out [][]pos) {
	for _, c := range copies {
		place := &s.Copies[c]
		move := place.Motion()
		var polygon []pos
		for _, q := range s.Drawings[place.Drawing].Outline {
			polygon = append(polygon, move(q))
		}
		out = append(out, polygon)
	}
	return out
}

// side draws what lies on one side of a join: the sections and their names.
func (f frame) side(items []drawing.Item, s *pattern.Sized, copies []int, outlines [][]pos) []drawing.Item {
	for k, polygon := range outlines {
		name := s.Drawings[s.Copies[copies[k]].Drawing].Name
		polygon = f.onPage(slices.Clone(polygon))
		items = append(items, &drawing.Path{Style: drawing.FrameLine, Points: polygon, Closed: true, Fill: 0xf2f2f2})
		if label := number(name, polygon, false); label != nil {
			items = append(items, label)
		}
	}
	return items
}

// seam draws both edges of a join, as far as they are sewn, and the points that must
// meet on it; bars where a partial seam stops or goes on.
func (f frame) seam(items []drawing.Item, s *pattern.Sized, j *pattern.Join, away pos) []drawing.Item {
	both := func(p pos) (pos, pos) {
		return f.at(pos{X: p.X + away.X, Y: p.Y + away.Y}), f.at(pos{X: p.X - away.X, Y: p.Y - away.Y})
	}
	from, to := s.Rest(j)
	a, b := both(from)
	c, d := both(to)
	for _, edge := range [2][]pos{{a, c}, {b, d}} {
		items = append(items, &drawing.Path{Style: drawing.OutlineLine, Points: edge, Fill: drawing.NoColour})
	}
	switch {
	case j.Begins > 0:
		items = append(items, stopBar(c, a), stopBar(d, b))
	case j.Begun > 0:
		items = append(items, stopBar(a, c))
	}
	for _, p := range j.Points {
		p, q := both(p)
		items = append(items, &drawing.Path{Style: drawing.FrameLine, Points: []pos{p, q}, Fill: drawing.NoColour})
		for _, at := range [2]pos{p, q} {
			items = append(items, &drawing.Path{Style: drawing.MarkLine, Points: []pos{at}, Circle: pattern.Millimetre, Fill: 0xffffff})
		}
	}
	return items
}

// stopBar is a bar across a seam on the page, at its end.
func stopBar(at, along pos) drawing.Item {
	const half = 1.6 * pattern.Millimetre
	dx, dy := at.X-along.X, at.Y-along.Y
	l := max(length(math.Hypot(float64(dx), float64(dy))), tiny)
	by := pos{X: -dy / l * half, Y: dx / l * half}
	return &drawing.Path{Style: drawing.OutlineLine, Points: []pos{{X: at.X - by.X, Y: at.Y - by.Y}, {X: at.X + by.X, Y: at.Y + by.Y}}, Fill: drawing.NoColour}
}

// apartBy returns how far the left part is moved from the join; the right part
// is moved as far the other way.
func apartBy(s *pattern.Sized, j *pattern.Join) pos {
	whole := boxOf(s.Outline)
	gap := max(whole.w(), whole.h()) * 0.05
	dx, dy := j.B.X-j.A.X, j.B.Y-j.A.Y
	l := length(math.Hypot(float64(dx), float64(dy)))
	if l == 0 {
		return pos{}
	}
	return pos{X: -dy / l * gap, Y: dx / l * gap}
}

func shift(polygons [][]pos, by pos) {
	for _, polygon := range polygons {
		for i := range polygon {
			polygon[i] = pos{X: polygon[i].X + by.X, Y: polygon[i].Y + by.Y}
		}
	}
}

// sideNames names what lies on one side of a join.
func sideNames(said *words.Catalogue, s *pattern.Sized, copies []int) string {
	names, more := SideNames(s, copies)
	if more > 0 {
		return said.Say("join_more", "names", names, "n", strconv.Itoa(more))
	}
	return names
}
