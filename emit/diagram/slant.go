package diagram

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// mostSlanting are drawn on one page.
const mostSlanting = 30

// A slanting is a piece whose patch has no edge along its line.
type slanting struct{ drawing, piece int }

// slants lists the pieces of a block at one size that are laid at a slant.
func slants(s *pattern.Sized) (all []slanting) {
	for d := range s.Drawings {
		pieces := s.Drawings[d].Pieces
		for i := 1; i < len(pieces); i++ {
			if patch := &pieces[i].Patch; !patch.Along && !patch.Plain && patch.Shape != pattern.Uncut {
				all = append(all, slanting{d, i})
			}
		}
	}
	return all
}

// slant shows how such patches lie once they are folded over: the patch dashed,
// its space grey, its section around it.
func slant(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, all []slanting) *drawing.Page {
	pic := newPicture("slant", p, b, []*pattern.Sized{s},
		"Patches that are laid at a slant, from the front, where they lie when folded over their line. The patch is dashed, its line heavy.")
	n := min(len(all), mostSlanting)
	pic.cells(n, func(k int, at pos, width length) length {
		d := &s.Drawings[all[k].drawing]
		piece := &d.Pieces[all[k].piece]
		at = pic.heading(at, width, d.Label(all[k].piece)+", "+piece.Patch.Size.In(8))
		b := boxOf(d.Outline).with(piece.Patch.Laid[:])
		scale := width / max(b.w(), b.h(), tiny)
		f := frame{scale: scale, origin: pos{X: at.X - b.min.X*scale, Y: at.Y + b.max.Y*scale}}
		outline := func(polygon []pos, style drawing.Style, fill drawing.Colour) *drawing.Path {
			return &drawing.Path{Style: style, Points: f.onPage(append([]pos(nil), polygon...)), Closed: true, Fill: fill}
		}
		seam := outline(piece.Seam[:], drawing.OutlineLine, drawing.NoColour)
		seam.Closed = false
		pic.add(&drawing.Group{ID: "slant-" + d.Label(all[k].piece), Class: "slant", Items: []drawing.Item{
			outline(piece.Polygon, drawing.NoLine, 0xd8d8d8),
			outline(d.Outline, drawing.SewingLine, drawing.NoColour),
			outline(piece.Patch.Laid[:], drawing.CuttingLine, drawing.NoColour),
			seam,
		}})
		return at.Y + b.h()*scale
	})
	if n < len(all) {
		pic.words("The cutting table lists the other " + strconv.Itoa(len(all)-n) + ".")
	}
	return pic.done()
}
