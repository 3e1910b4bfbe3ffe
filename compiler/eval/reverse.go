package eval

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// reverseBlocks adds the mirror image of every block that a quilt has reversed: its
// sheets are other sheets, and are printed apart. It places the block reversed in a
// box of its size. A blank in its name keeps it apart from all that is written.
func (e *evaluator) reverseBlocks() {
	p := &e.out.Pattern
	for i := range e.out.Blocks {
		b := e.out.Blocks[i]
		if b.Failed || b.Outline == nil || !hasReversed(p, b.Name) {
			continue
		}
		low, high := b.Outline.Box()
		body := &Body{Name: b.Name + " reversed", Source: b.Source, Outline: b.Outline, Box: b.Box, parts: b.parts,
			Places: []Place{{Body: b.Body, Motion: plane.Motion{Reversed: true, Shift: plane.Point{X: low.X + high.X}}, At: b.Source}}}
		info := p.Blocks[i]
		info.Reverses, info.Name, info.Title = info.Name, body.Name, info.Title+", reversed"
		e.out.Blocks = append(e.out.Blocks, &Block{Body: body, Finished: b.Finished, At: b.At, Reverses: i + 1})
		p.Blocks = append(p.Blocks, info)
	}
}

// hasReversed reports whether a quilt has a block reversed.
func hasReversed(p *pattern.Pattern, name string) bool {
	for i := range p.Quilts {
		for _, row := range p.Quilts[i].Rows {
			if slices.ContainsFunc(row, func(c pattern.Cell) bool { return c.Reversed && c.Block == name }) {
				return true
			}
		}
	}
	return false
}
