package diagram

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// PressingName is the name of the picture of a quilt's joins.
const PressingName = "pressing"

// Quilts lists the pictures of a quilt: in the pattern's own cloths, in those of
// every colorway, and how it is pressed.
func Quilts(p *pattern.Pattern, q *pattern.Quilt) (all []Picture) {
	said := words.OnPictures(p.Settings.Language)
	for i := range p.Colorway {
		way := &p.Colorway[i]
		name := "quilt"
		if way.Name != "" {
			name += "-" + way.Name
		}
		all = append(all, Picture{name, nil, func(*drawing.Pen) *drawing.Page { return quilt(said, p, q, way) }})
	}
	if len(q.Layout.Joins) > 0 {
		all = append(all, Picture{PressingName, nil, func(*drawing.Pen) *drawing.Page { return quiltPressing(said, p, q) }})
	}
	return all
}

// PlainQuilts lists the pictures of a quilt that show nothing but the quilt: in the
// pattern's own cloths and in those of every colorway.
func PlainQuilts(p *pattern.Pattern, q *pattern.Quilt) (all []Picture) {
	for i := range p.Colorway {
		way := &p.Colorway[i]
		name := "quilt"
		if way.Name != "" {
			name += "-" + way.Name
		}
		all = append(all, Picture{name, nil, func(*drawing.Pen) *drawing.Page {
			figure, _ := Quilted(p, q, way)
			return plain(name, q.Title, figure)
		}})
	}
	return all
}

// quilt is the whole quilt from the front, with a key to its cloths.
func quilt(said *words.Catalogue, p *pattern.Pattern, q *pattern.Quilt, way *pattern.Colorway) *drawing.Page {
	shows := said.Say("quilt")
	if way.Name != "" {
		shows = said.Say("quilt_way", "words", drawing.Clean(way.Words))
	}
	pic := newQuilt(said, p, q, shows)
	figure, whole := Quilted(p, q, way)
	f := pic.fit(figure.bounds)
	if !whole {
		pic.words(said.Say("quilt_fine"))
	}
	pic.add(&drawing.Group{ID: "quilt", Class: "quilt", Items: figure.draw(f)})
	pic.key(hatcher{}, quiltFabrics(p, q, whole), func(i int) (string, drawing.Colour, string) {
		return way.Dress[i].Words, drawing.Colour(way.Dress[i].Colour), ""
	})
	return pic.done()
}

// Quilted is a quilt that is laid out, from the front, in the cloths of a colorway;
// its binding is drawn round it. Whole is false where its pieces are too many, and
// its blocks are drawn as they lie.
func Quilted(p *pattern.Pattern, q *pattern.Quilt, way *pattern.Colorway) (figure *Figure, whole bool) {
	l := q.Layout
	outline := []pos{{}, {X: l.Size.W}, {X: l.Size.W, Y: l.Size.H}, {Y: l.Size.H}}
	edge := outline
	if q.Binding.Width > 0 { // it lies over the seam allowance beyond the finished edge
		edge = offset(outline, p.Settings.Allowance)
	}
	style := drawing.PatchLine
	if quiltPieces(p, l) > many {
		style = drawing.RunOnLine
	}
	whole = quiltPieces(p, l) <= mostDrawn
	return &Figure{bounds: boxOf(edge), draw: func(f frame) (items []drawing.Item) {
		pen := &drawing.Pen{}
		patch := func(fill drawing.Colour, polygon []pos) {
			items = append(items, pen.Outline(style, f.onPage(polygon), fill))
		}
		of := func(fabric int) drawing.Colour { return drawing.Colour(way.Dress[fabric].Colour) }
		if q.Binding.Width > 0 {
			patch(of(q.Binding.Fabric), slices.Clone(edge))
		}
		for i := range l.Areas {
			patch(of(l.Areas[i].Fabric), slices.Clone(l.Areas[i].Polygon))
		}
		for i := range l.Placed {
			move := l.Placed[i].Motion()
			moved := func(polygon []pos) []pos {
				for k, v := range polygon {
					polygon[k] = move(v)
				}
				return polygon
			}
			s := &p.Blocks[l.Placed[i].Block].Sizes[l.Placed[i].Size]
			if !whole {
				patch(drawing.NoColour, moved(slices.Clone(s.Outline)))
				continue
			}
			eachPiece(s, pen, func(piece *pattern.Piece, polygon []pos) { patch(of(piece.Fabric), moved(polygon)) })
		}
		return append(items, &drawing.Path{Style: drawing.OutlineLine, Points: f.onPage(slices.Clone(outline)), Closed: true, Fill: drawing.NoColour})
	}}, whole
}

// quiltFabrics lists the fabrics that are seen in a quilt, in the pattern's order;
// those of its blocks where they are drawn.
func quiltFabrics(p *pattern.Pattern, q *pattern.Quilt, blocks bool) (fabrics []int) {
	used := make([]bool, len(p.Fabrics))
	if q.Binding.Width > 0 {
		used[q.Binding.Fabric] = true
	}
	for i := range q.Layout.Areas {
		used[q.Layout.Areas[i].Fabric] = true
	}
	known := map[*pattern.Sized]bool{}
	for i := range q.Layout.Placed {
		s := &p.Blocks[q.Layout.Placed[i].Block].Sizes[q.Layout.Placed[i].Size]
		if !blocks || known[s] {
			continue
		}
		known[s] = true
		for _, f := range usedFabrics(p, s) {
			used[f] = true
		}
	}
	for i, u := range used {
		if u {
			fabrics = append(fabrics, i)
		}
	}
	return fabrics
}

// measures tells a size to the nearest eighth, for on point none lies on a ruler.
func measures(s pattern.Size, metric bool) string {
	if metric {
		return s.W.Cm() + " x " + s.H.Cm()
	}
	return s.W.In(8) + " x " + s.H.In(8)
}

// mostDrawn is how many pieces of a quilt are drawn: more would be smaller than a
// printer's dots, and files of many megabytes.
const mostDrawn = 50_000

// quiltPieces counts all that is drawn.
func quiltPieces(p *pattern.Pattern, l *pattern.Layout) int {
	n := len(l.Areas)
	for i := range l.Placed {
		n += p.Blocks[l.Placed[i].Block].Sizes[l.Placed[i].Size].Figures.Pieces
	}
	return n
}
