package rules

import (
	"cmp"
	"fmt"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

const (
	// layersNote: a crossing of four seams that nest is 7 layers of cloth, a
	// pinwheel's center 12 to 14: the needle goes slowly there.
	layersNote = 12
	// layersMost: machines for the home stop or skip stitches over so much cloth.
	layersMost = 16
)

// crowdedFrom is from how many seams at a point layers are counted. Where fewer meet
// it is thick only if seams end close by, or at sharp points, of which other rules warn:
// of 2,000 blocks cut at random test sewing found 12 layers or more at such places in 53,
// and one of those had no other warning.
const crowdedFrom = 4

// mostCounted is at how many points layers are counted, those of the most seams
// first: the thickest is among them in any block but a crafty one, and a block of
// 10,000 pieces takes no longer.
const mostCounted = 24

// Layers: the cloth at a point is no thicker than a machine sews.
func (catalogue) Layers() Rule {
	note, most := count("layers_note", layersNote), count("layers_most", layersMost)
	return Rule{
		Limits: []Limit{note, most},
		Info: problem.Info{
			Code:   "R117",
			Title:  "many layers of cloth lie at one point",
			Rule:   "At most 16 layers of cloth lie at one point, joins pressed as planned and allowances counted. From 12 on, as in the middle of a pinwheel, the seams there are sewn slowly and the allowances thinned out; over more than 16 a machine for the home skips stitches. Layers are counted where four seams or more meet; `testsew` counts them all over the block. Where R103 warns of the seams already, this is a note.",
			Source: "common practice, no source; the layers are counted",
			Example: `fabric vane "vane" dark #25525e
fabric sky "sky" light #dfeaf0
unit quarter 2 x 2 {
  section A {
    1 vane at (1.5, 0.5)
    2 sky along sw -- ne
  }
}
block windmill 4 x 4 finished 6in {
  join w -- c, c -- e
  join n -- s
  for i in 0..3 { place quarter at c turn 90deg * i }
}
`,
			Cured: `fabric vane "vane" dark #25525e
fabric sky "sky" light #dfeaf0
unit quarter 2 x 2 {
  section A {
    1 vane at (0.5, 0.5)
    2 sky along se -- nw
  }
}
block windmill 4 x 4 finished 6in {
  join w -- c, c -- e
  join n -- s
  for i in 0..3 { place quarter at c turn 90deg * i }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			thick, layers := v.thickest()
			v.Sized.Figures.MostLayers = layers // it is told whether it is many or not
			if layers < int(v.Limits.number(note)) {
				return
			}
			at := thick.at
			f := Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Points:   []pattern.Pos{pos(at)},
				Message: fmt.Sprintf("%d layers of cloth lie at a point %s from the left and %s from the lower edge, at %s finished, joins pressed as planned",
					layers, v.told(pattern.Length(at.X)), v.told(pattern.Length(at.Y)), v.size()),
				Help: "sew slowly there, turning the wheel by hand, and thin out the allowances once the seams hold",
			}
			if layers > int(v.Limits.number(most)) && thick.seams <= int(v.Limits.number(seamsMost())) {
				f.Severity = problem.Warning
				f.Help = "let fewer seams run into the point, set a patch over it, or accept it here with a reason"
			}
			report(f)
		},
	}
}

// thickest returns the point with most layers of cloth, of those where most seams meet.
func (v *View) thickest() (at meeting, layers int) {
	crowds := slices.Clone(v.crowds())
	slices.SortStableFunc(crowds, func(a, b []corner) int { return -cmp.Compare(len(a), len(b)) })
	var y *yard
	for _, c := range crowds[:min(mostCounted, len(crowds))] {
		seams := v.seamsAt(c)
		if seams < crowdedFrom {
			continue
		}
		if y == nil {
			y = yardOf(v)
		}
		if n := y.stackAt(v, c[0].at).most(); n > layers {
			at, layers = meeting{c[0].at, seams}, n
		}
	}
	return at, layers
}

// mostThick is for how many points [Thick] counts: more numbers can't be read on a
// drawing.
const mostThick = 150

// A Stack is how many layers of cloth lie at a point of a finished block.
type Stack struct {
	At     pattern.Pos
	Layers int
}

// Thick counts the layers of cloth where three pieces or more have a corner, joins
// pressed as planned: at those places of a block at a size at which most meet, the
// thickest first.
func Thick(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []Stack {
	v := newView(p, limitsOf(p), b, s)
	crowds := slices.Clone(v.crowds())
	slices.SortStableFunc(crowds, func(a, b []corner) int { return -cmp.Compare(len(a), len(b)) })
	y := yardOf(v)
	var all []Stack
	for _, c := range crowds[:min(mostThick, len(crowds))] {
		all = append(all, Stack{pos(c[0].at), y.stackAt(v, c[0].at).most()})
	}
	slices.SortStableFunc(all, func(a, b Stack) int { return -cmp.Compare(a.Layers, b.Layers) })
	return all
}
