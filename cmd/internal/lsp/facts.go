package lsp

import (
	"seamwright/compiler/pattern"
	"seamwright/lang"
)

// A made is one thing that a place in the text became: a piece, join or section of
// one size of one block.
type made struct {
	block   *pattern.Block
	size    *pattern.Sized
	drawing *pattern.Drawing // of a piece or section
	copy    *pattern.Copy    // as which it lies, where that is not the drawing's first
	piece   int              // index into its pieces
	join    *pattern.Join
}

// index notes what every place in the text became.
func (c *checked) index() {
	c.pieces, c.joins, c.sections = map[pattern.Source][]made{}, map[pattern.Source][]made{}, map[pattern.Source][]made{}
	for i := range c.pattern.Blocks {
		b := &c.pattern.Blocks[i]
		for j := range b.Sizes {
			z := &b.Sizes[j]
			for k := range z.Drawings {
				d := &z.Drawings[k]
				m := made{block: b, size: z, drawing: d}
				c.sections[d.Source] = append(c.sections[d.Source], m)
				for n := range d.Pieces {
					m.piece = n
					c.pieces[d.Pieces[n].Source] = append(c.pieces[d.Pieces[n].Source], m)
				}
			}
			for k := range z.Copies {
				own := &z.Copies[k]
				if len(own.Pieces) == 0 {
					continue
				}
				m := made{block: b, size: z, drawing: &z.Drawings[own.Drawing], copy: own}
				if own.Of == "" { // else its source is where its unit is placed
					c.sections[own.Source] = append(c.sections[own.Source], m)
				}
				for n := range own.Pieces {
					m.piece = n
					c.pieces[own.Pieces[n]] = append(c.pieces[own.Pieces[n]], m)
				}
			}
			for k := range z.Joins {
				c.joins[z.Joins[k].Source] = append(c.joins[z.Joins[k].Source], made{block: b, size: z, join: &z.Joins[k]})
			}
		}
	}
}

// follow returns what tells where an offset of the document stood in the text that
// compiled last, as the pattern names places; nil where none compiled yet.
func (d *document) follow() func(offset int32) (pattern.Source, bool) {
	if d.good == nil {
		return nil
	}
	src := d.good.text.source
	back := followed(d.source.Text, src.Text)
	return func(offset int32) (pattern.Source, bool) {
		at, ok := back(offset)
		if !ok {
			return pattern.Source{}, false
		}
		p := src.Position(at)
		return pattern.Source{File: src.Name, Line: p.Line, Column: p.Column}, true
	}
}

// pieces returns what a piece's statement became; of a drawn unit, the patches
// named by its points.
func (d *document) pieces(p *lang.Piece) (all []made) {
	follow := d.follow()
	if follow == nil {
		return nil
	}
	starts := []int32{p.Span.Start}
	for _, e := range p.At {
		starts = append(starts, e.Where().Start)
	}
	for _, start := range starts {
		if at, ok := follow(start); ok {
			all = append(all, d.good.pieces[at]...)
		}
	}
	return all
}

// ofShown keeps what belongs to the sizes that facts are told for.
func (s *server) ofShown(all []made) []made {
	var kept []made
	for _, m := range all {
		if s.shown(m.block) == m.size {
			kept = append(kept, m)
		}
	}
	return kept
}
