package diagram

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// mostSlanting are drawn on one page.
const mostSlanting = 30

// A Slant is a piece whose patch has no edge along its line: indices into
// Drawings and into its Pieces.
type Slant struct{ Drawing, Piece int }

// Slants lists the pieces of a block at one size that are laid at a slant.
func Slants(s *pattern.Sized) (all []Slant) {
	for d := range s.Drawings {
		pieces := s.Drawings[d].Pieces
		for i := 1; i < len(pieces); i++ {
			if patch := &pieces[i].Patch; !patch.Along && !patch.Plain && patch.Shape != pattern.Uncut {
				all = append(all, Slant{d, i})
			}
		}
	}
	return all
}

// slant shows how such patches lie once they are folded over: the patch dashed,
// its space grey, its section around it.
func slant(said *words.Catalogue, p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, all []Slant) *drawing.Page {
	pic := newPicture(said, "slant", p, b, []*pattern.Sized{s}, said.Say("slant"))
	n := min(len(all), mostSlanting)
	pic.cells(n, func(k int, at pos, width length) length {
		d := &s.Drawings[all[k].Drawing]
		at = pic.heading(at, width, d.Label(all[k].Piece)+", "+d.Pieces[all[k].Piece].Patch.Size.In(8))
		figure := Slanting(d, all[k].Piece)
		b := figure.bounds
		scale := width / max(b.w(), b.h(), tiny)
		f := frame{scale: scale, origin: pos{X: at.X - b.min.X*scale, Y: at.Y + b.max.Y*scale}}
		pic.add(&drawing.Group{ID: "slant-" + d.Label(all[k].Piece), Class: "slant", Items: figure.draw(f)})
		return at.Y + b.h()*scale
	})
	if n < len(all) {
		pic.words(said.Count("slant_rest", len(all)-n))
	}
	return pic.done()
}

// Slanting shows where a patch lies that has no edge along its line: the patch
// dashed, its space grey, its line heavy, its section around it.
func Slanting(d *pattern.Drawing, piece int) *Figure {
	p := &d.Pieces[piece]
	return &Figure{bounds: boxOf(d.Outline).with(p.Patch.Laid[:]), draw: func(f frame) []drawing.Item {
		outline := func(polygon []pos, style drawing.Style, fill drawing.Colour) *drawing.Path {
			return &drawing.Path{Style: style, Points: f.onPage(append([]pos(nil), polygon...)), Closed: true, Fill: fill}
		}
		seam := outline(p.Seam[:], drawing.OutlineLine, drawing.NoColour)
		seam.Closed = false
		return []drawing.Item{
			outline(p.Polygon, drawing.NoLine, 0xd8d8d8),
			outline(d.Outline, drawing.SewingLine, drawing.NoColour),
			outline(p.Patch.Laid[:], drawing.CuttingLine, drawing.NoColour),
			seam,
		}
	}}
}
