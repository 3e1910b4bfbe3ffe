package sheet

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
)

// A section that fits the paper at no angle is printed in parts, where the pattern
// wants that. It is laid and painted once, as on a page without end; every part
// then shows its window of that drawing, so that nothing can differ between them.
// Lines are clipped to the window; a text stands in one part alone, clear of the
// joining lines, which go through no text.

// A Part is which part of a section a place shows. Lengths are on its page.
type Part struct {
	Row, Rows       int // from 1
	Column, Columns int
	Number, Of      int // of those with anything on them, row by row
	Own             drawing.Reach
	Shown           drawing.Reach // with the strips for glue
}

// A divided is a section in parts.
type divided struct {
	*tiling.Tiling
	turn    float64
	corner  pos      // the section's shift on a page without end
	section *section // on a page without end, the upper left corner of its box at its origin
	whole   box
	lines   *drawing.Wide
	owned   [][]drawing.Item // of each part: texts and what belongs to them
	titles  []string         // of each part, where it has no room in it
}

// captionHigh is the height of what is told above a part, and captionWide the least
// width of it.
const (
	captionHigh = 0.95 * pattern.Inch
	captionWide = 3.5 * pattern.Inch
	captionGap  = 2 * pattern.Millimetre
)

// besideGlue is kept free of texts on both sides of a joining line, for its crosses.
const besideGlue = 2.6 * pattern.Millimetre

// inParts replaces the items that fit no frame by their parts, where the pattern
// wants that and it can be done.
func (l *layout) inParts(items []item, frames []frame) (out []item) {
	for i := range items {
		it := &items[i]
		fits := false
		for _, f := range frames {
			if _, ok := it.turnFor(f.room.w(), f.room.h()); ok {
				fits = true
			}
		}
		if fits {
			out = append(out, *it)
			continue
		}
		if d := l.divide(it, frames); d != nil {
			if l.divided == nil {
				l.divided = map[int]*divided{}
			}
			l.divided[it.drawing] = d
			out = append(out, d.items(it.drawing)...)
			l.glued(it, d)
		} else {
			out = append(out, *it)
		}
	}
	return out
}

// divide finds the frame and the turn with the fewest parts; nil where none will do.
func (l *layout) divide(it *item, frames []frame) *divided {
	var best *divided
	for _, f := range frames {
		room := pattern.Size{W: f.room.w(), H: f.room.h() - captionHigh - captionGap}
		if room.W < captionWide {
			continue
		}
		for _, turn := range [...]float64{0, 90} {
			b := it.turned(turn)
			line := turnedLine(it.line, turn)
			for i := range line {
				line[i] = sub(line[i], pos{X: b.x0, Y: b.y0})
			}
			place := Place{Drawing: it.drawing, Turn: turn, Shift: pos{X: -b.x0, Y: -b.y0}}
			t, ok := tiling.Divide(line, room, tiling.Most, l.doubled(place))
			if ok && (best == nil || len(t.Parts) < len(best.Parts)) {
				best = &divided{Tiling: t, turn: turn, corner: place.Shift, whole: box{0, 0, b.w(), b.h()}}
				best.section = l.lay(it.drawing, place, &pen{})
			}
		}
	}
	return best
}

// doubled returns what a joining line costs: the length of seams that are sewn
// where paper lies double beyond it, and much where it leaves no room for a label.
func (l *layout) doubled(place Place) func(upright bool, at length) float64 {
	d := &l.sized.Drawings[place.Drawing]
	move := place.Motion()
	var seams [][2]pos
	for i, p := range d.Outline {
		seams = append(seams, [2]pos{move(p), move(d.Outline[(i+1)%len(d.Outline)])})
	}
	var spaces []box
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		if i > 0 {
			seams = append(seams, [2]pos{move(piece.Seam[0]), move(piece.Seam[1])})
		}
		polygon, _ := moved(nil, piece.Polygon, move)
		spaces = append(spaces, boxOf(polygon))
	}
	var meet []pos // seams and edges
	for _, s := range seams {
		meet = append(meet, s[0], s[1])
	}
	const (
		label = 0.6 * pattern.Inch // what a number and its words take
		clear = pattern.Inch / 8   // of where lines meet, and pins go
	)
	return func(upright bool, at length) float64 {
		sum := length(0)
		for _, s := range seams {
			p, q := s[0].X-at, s[1].X-at
			if !upright {
				p, q = s[0].Y-at, s[1].Y-at
			}
			p, q = min(p, q), max(p, q)
			if in := min(q, tiling.Lap) - max(p, 0); in >= 0 && q-p > near {
				sum += dist(s[0], s[1]) * in / (q - p)
			} else if in >= 0 {
				sum += dist(s[0], s[1])
			}
		}
		for _, p := range meet {
			off := p.X - at
			if !upright {
				off = p.Y - at
			}
			if off*off < clear*clear {
				sum += pattern.Inch / 4
			}
		}
		for _, b := range spaces {
			lo, hi := b.x0, b.x1
			if !upright {
				lo, hi = b.y0, b.y1
			}
			if lo < at && at < hi && max(at-lo, hi-at) < label {
				sum += pattern.Inch
			}
		}
		return float64(sum)
	}
}

// items are the parts as they are packed: each with its caption above it.
func (d *divided) items(index int) (out []item) {
	for i := range d.Parts {
		b := d.room(i)
		corners := b.corners()
		out = append(out, item{drawing: index, line: corners[:], box: b, part: i + 1, turn: d.turn})
	}
	return out
}

// front returns what of a drawing a part shows, as it lies in the drawing. A place's
// motion reverses and turns, less its shift: that of the opposite turn undoes it.
func (d *divided) front(i int, of *pattern.Drawing) []pos {
	back := Place{Turn: -d.turn}.Motion()
	outline, _ := moved(nil, of.Outline, Place{Turn: d.turn, Shift: d.corner}.Motion())
	shown := tiling.Clip(outline, d.Parts[i].Own)
	out, _ := moved(nil, shown, func(p pos) pos { return back(sub(p, d.corner)) })
	return out
}

// room is what a part takes on its page with its caption.
func (d *divided) room(i int) box {
	s := d.Parts[i].Shown
	return box{s.X0, s.Y0 - captionGap - captionHigh, max(s.X1, s.X0+captionWide), s.Y1}
}

// placeParts fills in what places of parts show: they were packed by the corner of
// the section that they belong to. Sheets with parts come last, in the order of the
// first part on each.
func (l *layout) placeParts(sheets [][]Place) {
	some := false
	for _, places := range sheets {
		for i := range places {
			p := &places[i]
			if p.Part == nil {
				continue
			}
			d := l.divided[p.Drawing]
			p.Part = d.partAt(p.Part.Number-1, p.Shift)
			p.Shift = add(p.Shift, d.corner)
			some = true
		}
		if some {
			slices.SortStableFunc(places, byPart)
		}
	}
	if some {
		first := func(places []Place) Place {
			i := slices.IndexFunc(places, func(p Place) bool { return p.Part != nil })
			return places[max(i, 0)]
		}
		slices.SortStableFunc(sheets, func(a, b []Place) int { return byPart(first(a), first(b)) })
	}
}

// byPart orders places: whole sections first, then parts.
func byPart(a, b Place) int {
	switch {
	case a.Part == nil && b.Part == nil:
		return 0
	case a.Part == nil:
		return -1
	case b.Part == nil:
		return 1
	}
	return cmp.Or(cmp.Compare(a.Drawing, b.Drawing), cmp.Compare(a.Part.Number, b.Part.Number))
}

// finish paints a section in parts.
func (l *layout) finish(d *divided) {
	s := d.section
	s.glue = d.Joints
	for _, p := range d.Parts {
		b := box{p.Own.X0, p.Own.Y0, p.Own.X1, p.Own.Y1}
		for _, j := range d.Joints { // beyond the drawing's end there are no crosses
			switch {
			case j.Upright && j.A.X == p.Own.X0:
				b.x0 = p.Own.X0 + besideGlue
			case j.Upright && j.A.X == p.Own.X1:
				b.x1 = p.Own.X1 - besideGlue
			case !j.Upright && j.A.Y == p.Own.Y0:
				b.y0 = p.Own.Y0 + besideGlue
			case !j.Upright && j.A.Y == p.Own.Y1:
				b.y1 = p.Own.Y1 - besideGlue
			}
		}
		s.parts = append(s.parts, b)
	}
	d.titles = make([]string, len(d.Parts))
	l.paintParts(s, d)
}

// paintParts paints the section and deals out what was painted.
func (l *layout) paintParts(s *section, d *divided) {
	s.names = d.titles
	var lines []drawing.Item
	d.owned = make([][]drawing.Item, len(d.Parts))
	var texts []drawing.Reach
	for _, item := range l.paint(s).Items {
		r := drawing.ReachOf([]drawing.Item{item})
		path, ok := item.(*drawing.Path)
		if ok && path.Style != drawing.LeaderLine && (path.Style != drawing.NoLine || path.Circle == 0) {
			lines = append(lines, item)
			continue
		}
		owner := d.at(pos{X: (r.X0 + r.X1) / 2, Y: (r.Y0 + r.Y1) / 2})
		d.owned[owner] = append(d.owned[owner], item)
		texts = append(texts, r)
	}
	d.lines = drawing.NewWide(lines)
	d.Letters(small, func(letter string) []string { return []string{l.say("part_glue", "a", letter), letter} },
		func(r drawing.Reach) bool {
			return unprinted(box{r.X0, r.Y0, r.X1, r.Y1}.grown(glueRoom), lines, texts)
		})
}

// glueRoom is kept free around what stands on joining lines.
const glueRoom = 0.6 * pattern.Millimetre

// unprinted reports whether nothing is printed in a box.
func unprinted(b box, lines []drawing.Item, texts []drawing.Reach) bool {
	for _, t := range texts {
		if b.meets(box{t.X0, t.Y0, t.X1, t.Y1}) {
			return false
		}
	}
	for _, item := range lines {
		p := item.(*drawing.Path)
		if p.Circle > 0 {
			if b.grown(p.Circle).crosses(p.Points[0], p.Points[0]) {
				return false
			}
			continue
		}
		n := len(p.Points) - 1
		if p.Closed {
			n++
		}
		for i := range n {
			if p.Pairs && i%2 == 1 {
				continue
			}
			if p.Style != drawing.NoLine && b.crosses(p.Points[i], p.Points[(i+1)%len(p.Points)]) {
				return false
			}
		}
	}
	return true
}

// at returns the part that a point belongs to, the nearest where there is none.
func (d *divided) at(p pos) int {
	best, far := 0, length(math.Inf(1))
	for i, part := range d.Parts {
		o := part.Own
		off := max(o.X0-p.X, p.X-o.X1, o.Y0-p.Y, p.Y-o.Y1)
		if off < far {
			best, far = i, off
		}
	}
	return best
}

// partAt describes a part where it lies on its page: so far from where the section
// was laid.
func (d *divided) partAt(i int, by pos) *Part {
	p := &d.Parts[i]
	shift := func(r drawing.Reach) drawing.Reach {
		return drawing.Reach{X0: r.X0 + by.X, Y0: r.Y0 + by.Y, X1: r.X1 + by.X, Y1: r.Y1 + by.Y}
	}
	return &Part{Row: p.Row, Rows: d.Rows, Column: p.Column, Columns: d.Columns, Number: i + 1, Of: len(d.Parts), Own: shift(p.Own), Shown: shift(p.Shown)}
}
