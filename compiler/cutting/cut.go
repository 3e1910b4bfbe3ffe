package cutting

import (
	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
)

// Cut fills in the patch of every piece of the pattern.
func Cut(p *pattern.Pattern) {
	settings := cutter{
		allowance:  p.Settings.Allowance,
		extra:      p.Settings.Extra,
		ease:       p.Settings.Ease,
		foundation: p.Settings.PatchStep(false),
		plain:      p.Settings.PatchStep(true),
		grain:      p.Settings.Grain,
	}
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			size := &p.Blocks[b].Sizes[s]
			const some = 16 // drawings for one who cuts
			n := len(size.Drawings)
			parallel.Do((n+some-1)/some, size.Figures.Pieces >= parallel.Worth, func(i int) {
				c := settings
				for d := i * some; d < min((i+1)*some, n); d++ {
					c.drawing(&size.Drawings[d])
				}
			})
			settings.cutAlike(size)
		}
	}
}

// A cutter has the pattern's settings and room to work in.
type cutter struct {
	allowance, extra, ease pattern.Length
	foundation, plain      pattern.Length // steps of rounding
	grain                  []int          // fabrics whose grain goes first

	alike map[triangle]bool     // that are cut as halves of squares elsewhere
	even  map[look]pattern.Size // that are cut larger elsewhere
	// first spaces of which a block has several, cut two from a square
	firsts map[triangle]bool

	whole, shown, space windows // with all allowances; as seen from the front; with what is left on the border alone
	behind              debt    // later seams
	edge, scratch       []pattern.Pos
	needed, axes, line  []pattern.Pos
	measured            []pattern.Pos
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
	c.behind.start(c.allowance)
	if c.extra > 0 {
		c.line = offset(c.line[:0], d.Outline, c.moves(d, 0))
		c.space.start(c.line, 0)
	}
	for k := len(d.Pieces) - 1; k >= 0; k-- {
		piece := &d.Pieces[k]
		space := piece.Polygon
		if c.extra > 0 {
			space = c.leftBeyond(d, piece, c.space.next(piece))
		}
		c.needed = append(c.needed[:0], c.shown.next(piece)...)
		c.needed = append(c.needed, c.blunt(c.whole.next(piece), piece.Polygon, false)...)
		c.needed = append(c.needed, c.behind.take(piece)...)
		c.behind.add(piece)
		c.foundationPatch(d, piece, c.needed, space, k == 0)
	}
}

// leftBeyond returns the points that a patch is measured by: its space, and square
// to each side on the block's border what is left there. Window is the space with
// all that is left; its tips are no part of what a maker takes for the middle.
func (c *cutter) leftBeyond(d *pattern.Drawing, p *pattern.Piece, window []pattern.Pos) []pattern.Pos {
	c.measured = append(c.measured[:0], p.Polygon...)
	for i, a := range p.Polygon {
		b := p.Polygon[(i+1)%len(p.Polygon)]
		along, ok := direction(a, b)
		if !ok || !onBorder(d, a, b) {
			continue
		}
		c.scratch = clip(c.scratch[:0], window, along, dot(along, b))
		c.measured = clip(c.measured, c.scratch, pattern.Pos{X: -along.X, Y: -along.Y}, -dot(along, a))
	}
	return c.measured
}
