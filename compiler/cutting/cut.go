package cutting

import "seamwright/compiler/pattern"

// Cut fills in the patch of every piece of the pattern.
func Cut(p *pattern.Pattern) {
	c := cutter{
		allowance:  p.Settings.Allowance,
		extra:      p.Settings.Extra,
		ease:       p.Settings.Ease,
		foundation: p.Settings.PatchStep(false),
		plain:      p.Settings.PatchStep(true),
	}
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			drawings := p.Blocks[b].Sizes[s].Drawings
			for d := range drawings {
				c.drawing(&drawings[d])
			}
		}
	}
}

// A cutter has the pattern's settings and room to work in.
type cutter struct {
	allowance, extra, ease pattern.Length
	foundation, plain      pattern.Length // steps of rounding

	whole, shown, space windows // with all allowances; as seen from the front; finished
	edge, scratch       []pattern.Pos
	needed, axes, line  []pattern.Pos
	out                 []pattern.Length
}

func (c *cutter) drawing(d *pattern.Drawing) {
	if d.Plain && len(d.Pieces) == 1 {
		c.plainPatch(d)
		return
	}
	contour := c.contour(d)
	c.whole.start(contour, c.allowance)
	c.shown.start(contour, 0)
	if c.extra > 0 {
		c.line = offset(c.line[:0], d.Outline, c.moves(d, 0))
		c.space.start(c.line, 0)
	}
	for k := len(d.Pieces) - 1; k >= 0; k-- {
		piece := &d.Pieces[k]
		space := piece.Polygon
		if c.extra > 0 {
			space = c.space.next(piece)
		}
		c.needed = append(c.needed[:0], c.shown.next(piece)...)
		c.needed = append(c.needed, c.blunt(c.whole.next(piece), piece.Polygon, false)...)
		c.foundationPatch(piece, c.needed, space, k == 0)
	}
}
