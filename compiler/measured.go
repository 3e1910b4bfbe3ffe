package compiler

import (
	"slices"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

// Measured returns a compiled pattern with the measures of one system first, as if its
// text said so: patches are rounded to the steps of its rulers. The pattern is not
// changed; what does not depend on measures is shared.
func Measured(p *pattern.Pattern, metric bool) *pattern.Pattern {
	if p.Settings.Metric == metric {
		return p
	}
	m := *p
	m.Settings.Metric = metric
	if buying := &m.Settings.Buying; buying.Straighten == pattern.UsualStraighten(!metric) {
		buying.Straighten = pattern.UsualStraighten(metric)
	}
	m.Blocks = slices.Clone(p.Blocks)
	for b := range m.Blocks {
		sizes := slices.Clone(m.Blocks[b].Sizes)
		m.Blocks[b].Sizes = sizes
		for s := range sizes {
			drawings := slices.Clone(sizes[s].Drawings)
			sizes[s].Drawings = drawings
			for d := range drawings {
				drawings[d].Pieces = slices.Clone(drawings[d].Pieces)
			}
		}
	}
	cutting.Cut(&m)
	return &m
}
