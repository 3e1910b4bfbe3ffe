package diagram

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// A Picture is one picture of a block: its file name without extension, and how
// it is made.
type Picture struct {
	Name string
	Of   *pattern.Sized                       // only of this size, because its sections are others; nil: of the block
	Make func(pen *drawing.Pen) *drawing.Page // what the pen makes of it is on the page; nil: one of its own
}

// Pictures lists the pictures of a block. Each may be made by itself. Sections
// and joins are drawn again for sizes at which the block is divided otherwise.
func Pictures(p *pattern.Pattern, b *pattern.Block) []Picture {
	if len(b.Sizes) == 0 {
		return nil
	}
	s := &b.Sizes[0]
	said := words.OnPictures(p.Settings.Language)
	all := []Picture{
		{"front", nil, func(pen *drawing.Pen) *drawing.Page { return front(pen, said, p, b, s) }},
		{"line-drawing", nil, func(pen *drawing.Pen) *drawing.Page { return lineDrawing(pen, said, p, b, s) }},
		{"values", nil, func(pen *drawing.Pen) *drawing.Page { return values(pen, said, p, b, s) }},
	}
	all = append(all, colorways(said, p, b, s)...)
	for i, group := range alike(b) {
		s, of := group[0], group[0]
		if i == 0 {
			of = nil
		}
		all = append(all, Picture{"sections", of, func(pen *drawing.Pen) *drawing.Page { return sections(pen, said, p, b, group) }})
		if len(s.Joins) > 0 {
			all = append(all, Picture{"joining", of, func(*drawing.Pen) *drawing.Page { return joining(said, p, b, group) }})
		}
	}
	for i := range b.Sizes {
		s := &b.Sizes[i]
		if laid := Slants(s); len(laid) > 0 {
			all = append(all, Picture{"slant", s, func(*drawing.Pen) *drawing.Page { return slant(said, p, b, s, laid) }})
		}
	}
	return all
}

// alike groups the sizes at which a block has the same sections.
func alike(b *pattern.Block) (groups [][]*pattern.Sized) {
	for i := range b.Sizes {
		s := &b.Sizes[i]
		at := slices.IndexFunc(groups, func(g []*pattern.Sized) bool { return sameSections(g[0], s) })
		if at < 0 {
			groups = append(groups, nil)
			at = len(groups) - 1
		}
		groups[at] = append(groups[at], s)
	}
	return groups
}

// sameSections reports whether a block has the same sections at two sizes: it is
// one block, so equal names and counts say so.
func sameSections(a, b *pattern.Sized) bool {
	same := func(d, e pattern.Drawing) bool { return d.Name == e.Name && len(d.Pieces) == len(e.Pieces) }
	return len(a.Copies) == len(b.Copies) && len(a.Joins) == len(b.Joins) && slices.EqualFunc(a.Drawings, b.Drawings, same)
}

// every returns all sizes of a block.
func every(b *pattern.Block) []*pattern.Sized {
	all := make([]*pattern.Sized, len(b.Sizes))
	for i := range all {
		all[i] = &b.Sizes[i]
	}
	return all
}

// eachPiece calls f with every piece of every copy, as it lies in the block. The
// polygon's points are f's own, from the pen.
func eachPiece(s *pattern.Sized, pen *drawing.Pen, f func(piece *pattern.Piece, polygon []pos)) {
	for c := range s.Copies {
		place := &s.Copies[c]
		move := place.Motion()
		d := &s.Drawings[place.Drawing]
		for i := range d.Pieces {
			from := d.Pieces[i].Polygon
			polygon := pen.Points(len(from))
			for k, q := range from {
				polygon[k] = move(q)
			}
			f(&d.Pieces[i], polygon)
		}
	}
}

// onPage takes a polygon to the page, in place.
func (f frame) onPage(polygon []pos) []pos {
	for i, q := range polygon {
		polygon[i] = f.at(q)
	}
	return polygon
}

// front is the block in the pattern's own cloths.
func front(pen *drawing.Pen, said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) *drawing.Page {
	pic := newPicture(said, "front", p, b, every(b), said.Say("front"))
	f := pic.fit(boxOf(s.Outline)).with(pen)
	pic.add(&drawing.Group{ID: "block", Class: "block", Items: Colored(p, s).draw(f)})
	pic.key(hatcher{}, usedFabrics(p, s), func(i int) (string, drawing.Colour, string) {
		return p.Fabrics[i].Words, drawing.Colour(p.Fabrics[i].Colour), ""
	})
	return pic.done()
}

// lineDrawing is the block to color in.
func lineDrawing(pen *drawing.Pen, said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) *drawing.Page {
	pic := newPicture(said, "line-drawing", p, b, every(b), said.Say("line_drawing"))
	f := pic.fit(boxOf(s.Outline)).with(pen)
	pic.add(&drawing.Group{ID: "block", Class: "block", Items: Lines(s).draw(f)})
	return pic.done()
}

// values is the block in light, medium and dark, told apart by hatching, so
// that it survives any printer and copier.
func values(pen *drawing.Pen, said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) *drawing.Page {
	pic := newPicture(said, "values", p, b, every(b), said.Say("values"))
	f := pic.fit(boxOf(s.Outline)).with(pen)
	h := hatcher{grey: s.Figures.Pieces > many}
	pic.add(&drawing.Group{ID: "block", Class: "block", Items: Values(p, s).draw(f)})
	pic.key(h, usedFabrics(p, s), func(i int) (string, drawing.Colour, string) {
		value := p.Fabrics[i].Value
		name := value
		if said.Has(value) {
			name = said.Say(value)
		}
		return p.Fabrics[i].Words + " (" + name + ")", drawing.NoColour, value
	})
	return pic.done()
}

// usedFabrics lists the fabrics of a block, in the pattern's order.
func usedFabrics(p *pattern.Pattern, s *pattern.Sized) []int {
	used := make([]bool, len(p.Fabrics))
	for d := range s.Drawings {
		for i := range s.Drawings[d].Pieces {
			used[s.Drawings[d].Pieces[i].Fabric] = true
		}
	}
	var out []int
	for i, u := range used {
		if u {
			out = append(out, i)
		}
	}
	return out
}

// key explains fabrics with a swatch each: its words, fill and hatching.
func (pic *picture) key(h hatcher, fabrics []int, of func(int) (name string, fill drawing.Colour, value string)) {
	const (
		swatch = 0.2 * pattern.Inch
		apart  = 0.25 * pattern.Inch
		gap    = 0.07 * pattern.Inch
	)
	g := &drawing.Group{ID: "key", Class: "key"}
	x := pageEdge
	pic.y += apart
	for _, i := range fabrics {
		name, fill, value := of(i)
		name = drawing.Shorten(name, wordSize, false, inner-swatch-gap)
		width := swatch + gap + drawing.Measure(name, wordSize, false).Width
		if x > pageEdge && x+width > pageWidth-pageEdge {
			x = pageEdge
			pic.y += swatch + gap
		}
		square := []pos{{X: x, Y: pic.y}, {X: x + swatch, Y: pic.y}, {X: x + swatch, Y: pic.y + swatch}, {X: x, Y: pic.y + swatch}}
		g.Items = h.fill(g.Items, square, value)
		g.Items = append(g.Items, &drawing.Path{Style: drawing.PatchLine, Points: square, Closed: true, Fill: fill},
			&drawing.Text{Text: name, At: pos{X: x + swatch + gap, Y: pic.y + swatch/2 + wordSize*drawing.CapHeight/2}, Size: wordSize})
		x += width + apart
	}
	pic.y += swatch
	pic.add(g)
}
