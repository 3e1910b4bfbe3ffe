package diagram

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
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
func joining(p *pattern.Pattern, b *pattern.Block, sizes []*pattern.Sized) *drawing.Page {
	s := sizes[0]
	pic := newPicture("joining", p, b, sizes, "Joining the sections, from the front, in this order. Rings are points to match.")
	steps := min(len(s.Joins), mostSteps)
	parts := newAssembly(len(s.Copies))
	pic.cells(steps, func(k int, at pos, width length) length {
		return pic.step(s, parts, &s.Joins[k], at, width)
	})
	if steps < len(s.Joins) {
		pic.words("The report lists the other " + strconv.Itoa(len(s.Joins)-steps) + " joins.")
	}
	return pic.done()
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
func (pic *picture) step(s *pattern.Sized, parts *assembly, j *pattern.Join, at pos, width length) length {
	title := strconv.Itoa(j.Number) + ".  " + sideNames(s, j.Left) + " to " + sideNames(s, j.Right)
	at = pic.heading(at, width, title)
	onLeft, onRight := parts.with(j.Left), parts.with(j.Right)
	parts.join(j)
	left, right := outlines(s, onLeft), outlines(s, onRight)
	away := apartBy(s, j)
	shift(left, away)
	shift(right, pos{X: -away.X, Y: -away.Y})
	b := boxOf([]pos{j.A, j.B})
	for _, polygon := range append(left[:len(left):len(left)], right...) {
		b = b.with(polygon)
	}
	// Small parts are drawn larger than the block would be, but not so that a
	// short join looks like a long one.
	whole := boxOf(s.Outline)
	block := width / max(whole.w(), whole.h(), tiny)
	scale := min(width/max(b.w(), tiny), width/max(b.h(), tiny), 1.8*block)
	f := frame{scale: scale, origin: pos{X: at.X + width/2 - (b.min.X+b.max.X)/2*scale, Y: at.Y + b.max.Y*scale}}
	g := &drawing.Group{ID: "join-" + strconv.Itoa(j.Number), Class: "join"}
	g.Items = f.side(g.Items, s, onLeft, left)
	g.Items = f.side(g.Items, s, onRight, right)
	g.Items = f.seam(g.Items, j, away)
	pic.add(g)
	return at.Y + b.h()*scale
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
		items = append(items, &drawing.Path{Style: drawing.FrameLine, Points: f.onPage(polygon), Closed: true, Fill: 0xf2f2f2})
		if label := number(name, polygon, false); label != nil {
			items = append(items, label)
		}
	}
	return items
}

// seam draws both edges of a join and the points that must meet on it.
func (f frame) seam(items []drawing.Item, j *pattern.Join, away pos) []drawing.Item {
	both := func(p pos) (pos, pos) {
		return f.at(pos{X: p.X + away.X, Y: p.Y + away.Y}), f.at(pos{X: p.X - away.X, Y: p.Y - away.Y})
	}
	a, b := both(j.A)
	c, d := both(j.B)
	for _, edge := range [2][]pos{{a, c}, {b, d}} {
		items = append(items, &drawing.Path{Style: drawing.OutlineLine, Points: edge, Fill: drawing.NoColour})
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

// sideNames names what lies on one side of a join, "A + B", each letter once.
func sideNames(s *pattern.Sized, copies []int) string {
	const most = 5 // more do not fit beside a step
	names, last, n := "", "", 0
	for i, c := range copies {
		name := s.Drawings[s.Copies[c].Drawing].Name
		if name == last {
			continue
		}
		if n++; n > most {
			return names + " + " + strconv.Itoa(len(copies)-i) + " more"
		}
		if names != "" {
			names += " + "
		}
		names, last = names+name, name
	}
	return names
}
