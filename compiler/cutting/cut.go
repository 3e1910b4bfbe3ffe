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

	need, space   windows
	edge, scratch []pattern.Pos
	axes          []pattern.Pos
}

func (c *cutter) drawing(d *pattern.Drawing) {
	if d.Plain && len(d.Pieces) == 1 {
		c.plainPatch(d)
		return
	}
	c.need.start(d, c.allowance, c.extra)
	if c.extra > 0 {
		c.space.start(d, 0, c.extra)
	}
	for k := len(d.Pieces) - 1; k >= 0; k-- {
		piece := &d.Pieces[k]
		space := piece.Polygon
		if c.extra > 0 {
			space = c.space.next(piece)
		}
		need := c.blunt(c.need.next(piece), piece.Polygon)
		c.foundationPatch(piece, need, space, k == 0)
	}
}
