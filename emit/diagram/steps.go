package diagram

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Step is one of the things that are done to sew a piece to a foundation.
type Step int8

const (
	Lay   Step = iota // cloth side: the patch lies right sides together on what is sewn
	Sew               // print side: the line is sewn, past both ends
	Trim              // print side: the paper is folded back on the line, the allowance cut
	Press             // cloth side: the patch is folded over its space
	Steps             // how many there are
)

const (
	roughly   = pattern.Inch / 2    // what paper is left outside the outline when it is cut out
	sight     = 1.75 * pattern.Inch // how far around the paper cloth is seen, at the most
	pastEnds  = pattern.Inch / 4    // how far a seam runs past both ends
	wrongSide = 0xe4e4e4            // of cloth
	paperFill = 0xffffff
)

// A piecing is a section under the machine at one step of one piece.
type piecing struct {
	p     *pattern.Pattern
	d     *pattern.Drawing
	k     int // the piece
	frame frame
	back  bool // seen from the print side: reversed
	items []drawing.Item
	hatch hatcher
}

// Piecing is one step of a piece, which is an index into the drawing's pieces.
// What is printed on the paper is seen from the print side only. Piece 0 is
// laid and pressed; it has no seam.
func Piecing(p *pattern.Pattern, d *pattern.Drawing, piece int, step Step) *Figure {
	paper := offset(d.Outline, roughly)
	b := seen(p, d, paper)
	back := step == Sew || step == Trim
	if back {
		b.min.X, b.max.X = -b.max.X, -b.min.X
	}
	return &Figure{bounds: b, draw: func(f frame) []drawing.Item {
		t := &piecing{p: p, d: d, k: piece, frame: f, back: back}
		switch step {
		case Lay:
			t.lay(paper)
		case Sew:
			t.sew(paper)
		case Trim:
			t.trim(paper)
		case Press:
			t.press(paper)
		}
		clip := []pos{f.at(b.min), f.at(pos{X: b.max.X, Y: b.min.Y}), f.at(b.max), f.at(pos{X: b.min.X, Y: b.max.Y})}
		return []drawing.Item{&drawing.Group{Clip: clip, Items: t.items}}
	}}
}

// seen is what all pictures of a section show: its paper and the cloth that
// looks out around it, so that all are drawn to one scale.
func seen(p *pattern.Pattern, d *pattern.Drawing, paper []pos) box {
	b := boxOf(paper)
	most := box{pos{X: b.min.X - sight, Y: b.min.Y - sight}, pos{X: b.max.X + sight, Y: b.max.Y + sight}}
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		patch := laidPatch(p, piece)
		b = b.with(patch)
		if i > 0 {
			b = b.with(reflect(patch, piece.Seam[0], piece.Seam[1]))
		}
	}
	return box{pos{X: max(b.min.X, most.min.X), Y: max(b.min.Y, most.min.Y)}, pos{X: min(b.max.X, most.max.X), Y: min(b.max.Y, most.max.Y)}}
}

// laidPatch returns where a patch lies once it is folded over, its raw edge an
// allowance past its line on the other side, as the words say. One at a slant
// lies where the cutting table puts it.
func laidPatch(p *pattern.Pattern, piece *pattern.Piece) []pos {
	out := slices.Clone(piece.Patch.Laid[:])
	u := towards(piece.Seam[0], piece.Seam[1])
	if !piece.Patch.Along || u == (pos{}) {
		return out
	}
	least := length(math.Inf(1))
	for _, q := range out {
		least = min(least, across(u, piece.Seam[0], q))
	}
	by := -p.Settings.Allowance - least
	for i, q := range out {
		out[i] = pos{X: q.X - length(u.Y*by), Y: q.Y + length(u.X*by)}
	}
	return out
}

// on takes places of the block to the page.
func (t *piecing) on(polygon []pos) []pos {
	out := make([]pos, len(polygon))
	for i, q := range polygon {
		if t.back {
			q.X = -q.X
		}
		out[i] = t.frame.at(q)
	}
	return out
}

// distinct drops corners that are the one before but for noise; what is left of a
// sliver is no polygon.
func distinct(polygon []pos) (out []pos) {
	near := func(a, b pos) bool { return math.Abs(float64(a.X-b.X))+math.Abs(float64(a.Y-b.Y)) < tiny }
	for _, q := range polygon {
		if len(out) == 0 || !near(q, out[len(out)-1]) {
			out = append(out, q)
		}
	}
	for len(out) > 1 && near(out[0], out[len(out)-1]) {
		out = out[:len(out)-1]
	}
	return out
}

func (t *piecing) area(style drawing.Style, fill drawing.Colour, polygon []pos) {
	if polygon = distinct(polygon); len(polygon) > 2 {
		t.items = append(t.items, &drawing.Path{Style: style, Points: t.on(polygon), Closed: true, Fill: fill})
	}
}

func (t *piecing) line(style drawing.Style, a, b pos) {
	t.items = append(t.items, &drawing.Path{Style: style, Points: t.on([]pos{a, b}), Fill: drawing.NoColour})
}

// right paints cloth with its right side up: pale, hatched by its value, so
// that it is told from its neighbour and from its wrong side in grey too.
func (t *piecing) right(i int, polygon []pos) {
	if polygon = distinct(polygon); len(polygon) < 3 {
		return
	}
	fabric := &t.p.Fabrics[t.d.Pieces[i].Fabric]
	t.area(drawing.NoLine, pale(drawing.Colour(fabric.Colour)), polygon)
	t.items = t.hatch.fill(t.items, t.on(polygon), fabric.Value)
	t.area(drawing.PatchLine, drawing.NoColour, polygon)
}

// pale returns a color two thirds of the way to white.
func pale(c drawing.Colour) drawing.Colour {
	out := drawing.Colour(0)
	for shift := 0; shift < 24; shift += 8 {
		v := c >> shift & 0xff
		out |= (255 - (255-v)/3) << shift
	}
	return out
}

// sewn paints the first n pieces as they lie, the later over the earlier.
func (t *piecing) sewn(n int) {
	for i := range n {
		t.right(i, t.open(i, n))
	}
}

// open returns where a patch lies once it is folded over its line, and what the
// trimming of the first n pieces has left of it.
func (t *piecing) open(i, n int) []pos {
	piece := &t.d.Pieces[i]
	polygon := laidPatch(t.p, piece)
	if i > 0 {
		polygon = leftOf(polygon, piece.Seam[0], piece.Seam[1])
	}
	for k := i + 1; k < n; k++ {
		a, b := t.cut(k)
		polygon = leftOf(polygon, b, a)
	}
	return polygon
}

// cut returns the line on which cloth is cut when piece k is sewn: an allowance
// beyond its seam, past both ends.
func (t *piecing) cut(k int) (a, b pos) {
	a, b = t.d.Pieces[k].Seam[0], t.d.Pieces[k].Seam[1]
	u, by := towards(a, b), t.p.Settings.Allowance
	n := pos{X: -u.Y * by, Y: u.X * by}
	a, b = along(a, u, -pastEnds), along(b, u, pastEnds)
	return pos{X: a.X + length(n.X), Y: a.Y + length(n.Y)}, pos{X: b.X + length(n.X), Y: b.Y + length(n.Y)}
}

// laid returns where the patch lies before it is folded over.
func (t *piecing) laid() []pos {
	piece := &t.d.Pieces[t.k]
	return reflect(laidPatch(t.p, piece), piece.Seam[0], piece.Seam[1])
}

func (t *piecing) seam() (a, b, beyondA, beyondB pos) {
	a, b = t.d.Pieces[t.k].Seam[0], t.d.Pieces[t.k].Seam[1]
	u := towards(a, b)
	return a, b, along(a, u, -pastEnds), along(b, u, pastEnds)
}

// lay shows the cloth side, the line to be sewn as it shows through.
func (t *piecing) lay(paper []pos) {
	t.area(drawing.FrameLine, paperFill, paper)
	t.sewn(t.k)
	if t.k == 0 {
		t.right(0, t.open(0, 1))
		return
	}
	t.area(drawing.PatchLine, wrongSide, t.laid())
	_, _, a, b := t.seam()
	t.line(drawing.CuttingLine, a, b)
}

// press shows the cloth side with the patch folded over.
func (t *piecing) press(paper []pos) {
	t.area(drawing.FrameLine, paperFill, paper)
	t.sewn(t.k + 1)
}

// sew shows the print side, cloth looking out from under the paper.
func (t *piecing) sew(paper []pos) {
	t.under()
	t.area(drawing.FrameLine, paperFill, paper)
	t.printed(nil)
	_, _, a, b := t.seam()
	t.line(drawing.OutlineLine, a, b)
}

// under paints the cloth that lies under the paper: its wrong side is up there,
// but for the patch laid face down on it, whose right side is.
func (t *piecing) under() {
	t.right(t.k, t.laid())
	for i := t.k - 1; i >= 0; i-- {
		t.area(drawing.PatchLine, wrongSide, t.open(i, t.k))
	}
}

// trim shows the print side with the paper folded back on the line: both cloths
// look out beyond the fold, to be cut a quarter inch from it.
func (t *piecing) trim(paper []pos) {
	a, b, _, _ := t.seam()
	t.under()
	t.area(drawing.FrameLine, paperFill, leftOf(paper, b, a))
	t.printed(&[2]pos{a, b})
	t.area(drawing.FrameLine, 0xf4f4f4, reflect(leftOf(paper, a, b), a, b))
	t.line(drawing.OutlineLine, a, b)
	from, to := t.cut(t.k)
	t.line(drawing.CuttingLine, from, to)
}

// printed draws what is printed on the paper: spaces and their numbers, all of
// them or only those to the right of a fold.
func (t *piecing) printed(fold *[2]pos) {
	for i := range t.d.Pieces {
		space := t.d.Pieces[i].Polygon
		if fold != nil {
			space = leftOf(space, fold[1], fold[0])
		}
		if len(space) < 3 {
			continue
		}
		t.area(drawing.SewingLine, drawing.NoColour, space)
		if label := number(t.d.Label(i), t.on(space), i == t.k); label != nil {
			t.items = append(t.items, label)
		}
	}
}

// Small is a section from the cloth side after a piece is pressed, for a strip
// of many: the spaces sewn so far in their cloths, the new one outlined.
func Small(p *pattern.Pattern, d *pattern.Drawing, piece int) *Figure {
	return small(p, d, piece, drawing.OutlineLine)
}

// Sewn is a section from the cloth side when all of it is sewn; no piece is new.
func Sewn(p *pattern.Pattern, d *pattern.Drawing) *Figure {
	return small(p, d, len(d.Pieces)-1, drawing.RunOnLine)
}

// small draws a section as far as a piece, whose outline is drawn in a style.
func small(p *pattern.Pattern, d *pattern.Drawing, piece int, last drawing.Style) *Figure {
	return &Figure{bounds: boxOf(d.Outline), draw: func(f frame) []drawing.Item {
		t := &piecing{p: p, d: d, k: piece, frame: f}
		t.area(drawing.FrameLine, paperFill, d.Outline)
		for i := range piece + 1 {
			polygon := d.Pieces[i].Polygon
			fabric := &p.Fabrics[d.Pieces[i].Fabric]
			t.area(drawing.NoLine, pale(drawing.Colour(fabric.Colour)), polygon)
			t.items = t.hatch.fill(t.items, t.on(polygon), fabric.Value)
			t.area(drawing.RunOnLine, drawing.NoColour, polygon)
		}
		t.area(last, drawing.NoColour, d.Pieces[piece].Polygon)
		t.area(drawing.FrameLine, drawing.NoColour, d.Outline)
		return t.items
	}}
}

// Faced is a section as it is printed: reversed, spaces numbered.
func Faced(d *pattern.Drawing) *Figure {
	b := boxOf(d.Outline)
	b.min.X, b.max.X = -b.max.X, -b.min.X
	return &Figure{bounds: b, draw: func(f frame) []drawing.Item {
		t := &piecing{d: d, k: -1, frame: f, back: true}
		t.printed(nil)
		t.area(drawing.OutlineLine, drawing.NoColour, d.Outline)
		return t.items
	}}
}

// towards returns the direction from a to b, length 1; zero where they are one.
func towards(a, b pos) pos {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := length(math.Hypot(float64(dx), float64(dy)))
	if n == 0 {
		return pos{}
	}
	return pos{X: dx / n, Y: dy / n}
}

// along returns the place so far from q in direction u.
//
// Here and below a product is converted before it is added: some processors would
// else round once instead of twice, and a corner that lies on a line would be on
// another side of it there.
func along(q, u pos, by length) pos {
	return pos{X: q.X + length(u.X*by), Y: q.Y + length(u.Y*by)}
}

// across returns how far q is to the left of the line through a in direction u.
func across(u, a, q pos) length {
	return length(u.X*(q.Y-a.Y)) - length(u.Y*(q.X-a.X))
}

// leftOf returns the part of a polygon to the left of the line from a to b. What
// is as near to the line as noise lies on it.
func leftOf(polygon []pos, a, b pos) []pos {
	side := func(u, q pos) length {
		if off := across(u, a, q); off > tiny || off < -tiny {
			return off
		}
		return 0
	}
	u := towards(a, b)
	var out []pos
	for i, q := range polygon {
		r := polygon[(i+1)%len(polygon)]
		sq, sr := side(u, q), side(u, r)
		if sq >= 0 {
			out = append(out, q)
		}
		if sq > 0 && sr < 0 || sq < 0 && sr > 0 {
			k := sq / (sq - sr)
			out = append(out, pos{X: q.X + length((r.X-q.X)*k), Y: q.Y + length((r.Y-q.Y)*k)})
		}
	}
	return out
}

// reflect returns a polygon reflected in the line from a to b.
func reflect(polygon []pos, a, b pos) []pos {
	u := towards(a, b)
	out := slices.Clone(polygon)
	for i, q := range out {
		off := 2 * across(u, a, q)
		out[i] = pos{X: q.X + length(off*u.Y), Y: q.Y - length(off*u.X)}
	}
	return out
}

// offset moves every side of a polygon out by a length; corners that would
// reach further than twice that are cut short.
func offset(polygon []pos, by length) []pos {
	var out []pos
	n := len(polygon)
	for i, q := range polygon {
		u, v := towards(polygon[(i+n-1)%n], q), towards(q, polygon[(i+1)%n])
		m := pos{X: u.Y + v.Y, Y: -u.X - v.X}      // out of both sides
		k := 1 + length(u.X*v.X) + length(u.Y*v.Y) // 2 cos^2 of half the turn
		if k < 0.5 {
			out = append(out, along(q, pos{X: u.Y + u.X, Y: u.Y - u.X}, by), along(q, pos{X: v.Y - v.X, Y: -v.X - v.Y}, by))
			continue
		}
		out = append(out, along(q, m, by/k))
	}
	return out
}
