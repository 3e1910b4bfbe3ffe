package diagram

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

const (
	// apart moves each section away from the middle of the block by this part of
	// its distance. Sections that a straight join parts stay parted.
	apart = 0.22

	// mostLeaders keeps a picture of many tiny spaces from becoming a thicket:
	// where there are more, none is drawn.
	mostLeaders = 60
)

// sections is the block with its sections moved apart, every space numbered.
func sections(pen *drawing.Pen, said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, sizes []*pattern.Sized) *drawing.Page {
	s := sizes[0]
	pic := newPicture(said, "sections", p, b, sizes, said.Say("sections"))
	e := &exploded{sized: s}
	e.frame = pic.fit(e.apart()).with(pen)
	e.from, e.to = pageEdge/2, pageWidth-pageEdge/2
	pic.add(e.draw()...)
	if e.left > 0 {
		pic.words(said.Say("sections_small"))
	}
	return pic.done()
}

// An exploded is a block with its sections apart.
type exploded struct {
	sized    *pattern.Sized
	frame    frame
	parts    []part
	from, to length // labels stand between these
	labels   []box  // of those outside their spaces
	left     int    // labels left out
}

// A part is one section, moved.
type part struct {
	drawing *pattern.Drawing
	move    func(pos) pos
	outline []pos
	bounds  box
}

// apart moves every section and returns the room they take, labels outside
// them included.
func (e *exploded) apart() box {
	whole := boxOf(e.sized.Outline)
	middle := pos{X: (whole.min.X + whole.max.X) / 2, Y: (whole.min.Y + whole.max.Y) / 2}
	bounds := boxOf(nil)
	for c := range e.sized.Copies {
		e.part(c, middle)
		bounds = bounds.with(e.parts[c].outline)
	}
	margin := max(bounds.w(), bounds.h()) * 0.06
	return box{pos{X: bounds.min.X - margin, Y: bounds.min.Y - margin}, pos{X: bounds.max.X + margin, Y: bounds.max.Y + margin}}
}

func (e *exploded) part(c int, middle pos) {
	place := &e.sized.Copies[c]
	d := &e.sized.Drawings[place.Drawing]
	motion := place.Motion()
	outline := make([]pos, len(d.Outline))
	for i, q := range d.Outline {
		outline[i] = motion(q)
	}
	at := centroid(outline)
	dx, dy := (at.X-middle.X)*apart, (at.Y-middle.Y)*apart
	move := func(q pos) pos {
		q = motion(q)
		return pos{X: q.X + dx, Y: q.Y + dy}
	}
	for i, q := range d.Outline {
		outline[i] = move(q)
	}
	e.parts = append(e.parts, part{d, move, outline, box{}})
}

// draw puts the parts on the page, then the labels that found no room inside.
func (e *exploded) draw() []drawing.Item {
	type outside struct {
		part  int
		text  string
		space []pos
	}
	var later []outside
	pen := e.frame.mine()
	var all []drawing.Item // of the groups
	items := make([]drawing.Item, 0, len(e.parts)+1)
	for i := range e.parts {
		part := &e.parts[i]
		e.frame.onPage(part.outline)
		part.bounds = boxOf(part.outline)
	}
	for i := range e.parts {
		part := &e.parts[i]
		g := pen.Group(drawing.Group{ID: "copy-" + strconv.Itoa(i+1), Class: "section"})
		g.Items = drawing.Take(&all, 2*len(part.drawing.Pieces)+1)[:0]
		for k := range part.drawing.Pieces {
			space := e.space(pen, part, k)
			g.Items = append(g.Items, pen.Outline(drawing.SewingLine, space, drawing.NoColour))
		}
		g.Items = append(g.Items, pen.Outline(drawing.OutlineLine, part.outline, drawing.NoColour))
		for k := range part.drawing.Pieces {
			text := part.drawing.Label(k)
			space := g.Items[k].(*drawing.Path).Points
			if label := number(text, space, false); label != nil {
				g.Items = append(g.Items, label)
			} else {
				later = append(later, outside{i, text, space})
			}
		}
		items = append(items, g)
	}
	if e.left = len(later); e.left > mostLeaders {
		return items
	}
	g := &drawing.Group{ID: "leaders", Class: "leaders"}
	for _, o := range later {
		if e.leader(g, o.part, o.text, o.space) {
			e.left--
		}
	}
	return append(items, g)
}

func (e *exploded) space(pen *drawing.Pen, p *part, k int) []pos {
	from := p.drawing.Pieces[k].Polygon
	space := pen.Points(len(from))
	for i, q := range from {
		space[i] = e.frame.at(p.move(q))
	}
	return space
}

// leader sets a label outside its section, on the nearest clear place, with a
// line from its space; it reports whether there was one.
func (e *exploded) leader(g *drawing.Group, in int, text string, space []pos) bool {
	size := drawing.SizeForCap(2 * pattern.Millimetre)
	w, h := shape(text, false)
	w, h = w*size, h*size
	from, _ := place(space, 1, 1, 0, inner)
	const turns = 24
	for _, beyond := range [...]length{0.02, 0.08, 0.16, 0.3} { // inches past the outline
		best, found := pos{}, length(math.Inf(1))
		for i := range turns {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / turns)
			dir := pos{X: length(cos), Y: length(sin)}
			out := e.exit(in, from, dir)
			reach := out + beyond + max(min(w/2/abs(dir.X), h/2/abs(dir.Y)), 0)
			at := pos{X: from.X + dir.X*reach, Y: from.Y + dir.Y*reach}
			b := box{pos{X: at.X - w/2, Y: at.Y - h/2}, pos{X: at.X + w/2, Y: at.Y + h/2}}
			if out < found-tiny && e.clear(b) { // of equals the first, whatever their last bits
				best, found = at, out
			}
		}
		if !math.IsInf(float64(found), 1) {
			e.setLeader(g, text, from, best, w, h, size)
			return true
		}
	}
	return false
}

func (e *exploded) setLeader(g *drawing.Group, text string, from, at pos, w, h, size length) {
	d := pos{X: at.X - from.X, Y: at.Y - from.Y}
	stop := 1 - min(w/2/max(abs(d.X), tiny), h/2/max(abs(d.Y), tiny)) // at the label's edge
	end := pos{X: from.X + d.X*stop, Y: from.Y + d.Y*stop}
	g.Items = append(g.Items,
		&drawing.Path{Style: drawing.FrameLine, Points: []pos{from, end}, Fill: drawing.NoColour},
		&drawing.Path{Style: drawing.NoLine, Points: []pos{from}, Circle: 0.3 * pattern.Millimetre, Fill: drawing.Black},
		textAround(text, at, size, false))
	e.labels = append(e.labels, box{pos{X: at.X - w/2, Y: at.Y - h/2}, pos{X: at.X + w/2, Y: at.Y + h/2}})
}

// exit returns how far it is from a point in a part to where a ray leaves it.
func (e *exploded) exit(in int, from, dir pos) length {
	far := length(0)
	outline := e.parts[in].outline
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		side := pos{X: b.X - a.X, Y: b.Y - a.Y}
		k := dir.X*side.Y - dir.Y*side.X
		if k == 0 {
			continue
		}
		t := ((a.X-from.X)*side.Y - (a.Y-from.Y)*side.X) / k
		u := ((a.X-from.X)*dir.Y - (a.Y-from.Y)*dir.X) / k
		if t > far && u >= 0 && u <= 1 {
			far = t
		}
	}
	return far
}

// clear reports whether a box touches no section, no other label and not the
// page's edge.
func (e *exploded) clear(b box) bool {
	if b.min.X < e.from || b.max.X > e.to {
		return false
	}
	for _, l := range e.labels {
		if l.touches(b) {
			return false
		}
	}
	center := pos{X: (b.min.X + b.max.X) / 2, Y: (b.min.Y + b.max.Y) / 2}
	for i := range e.parts {
		if !e.parts[i].bounds.touches(b) {
			continue
		}
		outline := e.parts[i].outline
		if fits(outline, center, 1, 1, 0) > 0 {
			return false
		}
		for k, p := range outline {
			q := outline[(k+1)%len(outline)]
			if reach((p.X-center.X)/b.w()*2, (p.Y-center.Y)/b.h()*2, (q.X-center.X)/b.w()*2, (q.Y-center.Y)/b.h()*2) < 1 {
				return false
			}
		}
	}
	return true
}

func abs(l length) length { return length(math.Abs(float64(l))) }
