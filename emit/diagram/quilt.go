package diagram

import (
	"slices"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// Quilts lists the pictures of a quilt: in the pattern's own cloths, and in those
// of every colorway.
func Quilts(p *pattern.Pattern, q *pattern.Quilt) (all []Picture) {
	said := words.OnPictures(p.Settings.Language)
	for i := range p.Colorway {
		way := &p.Colorway[i]
		name := "quilt"
		if way.Name != "" {
			name += "-" + way.Name
		}
		all = append(all, Picture{name, nil, func() *drawing.Page { return quilt(said, p, q, way) }})
	}
	return all
}

// quilt is the whole quilt from the front. Its binding is drawn as a line.
func quilt(said *words.Catalogue, p *pattern.Pattern, q *pattern.Quilt, way *pattern.Colorway) *drawing.Page {
	l := q.Layout
	title := drawing.Clean(q.Title)
	shows := said.Say("quilt")
	if way.Name != "" {
		shows = said.Say("quilt_way", "words", drawing.Clean(way.Words))
	}
	pic := &picture{page: &drawing.Page{Name: "quilt", Title: title + ": " + shows}, y: pageEdge + titleSize}
	pic.write(pageEdge, pic.y, drawing.Shorten(title, titleSize, true, inner), titleSize, drawing.Start, true)
	pic.y += 4 * pattern.Point
	pic.words(shows + "  " + said.Say("finishes", "sizes", strings.ReplaceAll(measures(l.Size, p.Settings.Metric), ".", said.Say("decimal_mark"))))
	pic.y += 6 * pattern.Point
	outline := []pos{{}, {X: l.Size.W}, {X: l.Size.W, Y: l.Size.H}, {Y: l.Size.H}}
	edge := outline
	if q.Binding.Width > 0 { // it lies over the seam allowance beyond the finished edge
		edge = offset(outline, p.Settings.Allowance)
	}
	f := pic.fit(boxOf(edge))
	used := make([]bool, len(p.Fabrics))
	pen := &drawing.Pen{}
	g := &drawing.Group{ID: "quilt", Class: "quilt"}
	style := drawing.PatchLine
	if quiltPieces(p, l) > many {
		style = drawing.RunOnLine
	}
	fill := func(fabric int) drawing.Colour {
		used[fabric] = true
		return drawing.Colour(way.Dress[fabric].Colour)
	}
	if q.Binding.Width > 0 {
		g.Items = append(g.Items, &drawing.Path{Style: style, Points: f.onPage(slices.Clone(edge)), Closed: true, Fill: fill(q.Binding.Fabric)})
	}
	for i := range l.Areas {
		a := &l.Areas[i]
		g.Items = append(g.Items, &drawing.Path{Style: style, Points: f.onPage(slices.Clone(a.Polygon)), Closed: true, Fill: fill(a.Fabric)})
	}
	whole := quiltPieces(p, l) <= mostDrawn
	if !whole {
		pic.words(said.Say("quilt_fine"))
	}
	for i := range l.Placed {
		move := l.Placed[i].Motion()
		if !whole {
			polygon := slices.Clone(p.Blocks[l.Placed[i].Block].Sizes[l.Placed[i].Size].Outline)
			for k, v := range polygon {
				polygon[k] = move(v)
			}
			g.Items = append(g.Items, &drawing.Path{Style: style, Points: f.onPage(polygon), Closed: true, Fill: drawing.NoColour})
			continue
		}
		eachPiece(&p.Blocks[l.Placed[i].Block].Sizes[l.Placed[i].Size], pen, func(piece *pattern.Piece, polygon []pos) {
			for k, v := range polygon {
				polygon[k] = move(v)
			}
			g.Items = append(g.Items, &drawing.Path{Style: style, Points: f.onPage(polygon), Closed: true, Fill: fill(piece.Fabric)})
		})
	}
	g.Items = append(g.Items, &drawing.Path{Style: drawing.OutlineLine, Points: f.onPage(outline), Closed: true, Fill: drawing.NoColour})
	pic.add(g)
	var fabrics []int
	for i, u := range used {
		if u {
			fabrics = append(fabrics, i)
		}
	}
	pic.key(hatcher{}, fabrics, func(i int) (string, drawing.Colour, string) {
		return way.Dress[i].Words, drawing.Colour(way.Dress[i].Colour), ""
	})
	return pic.done()
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
