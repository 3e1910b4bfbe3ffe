package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// grainSlack is how far a border edge may lean off the straight grain, in
// degrees. Woven cloth gives little near its threads; 5 degrees is how true a
// patch is laid by eye. Common practice, no source.
const grainSlack = 5.0

// borderBias is how much of the edge, per cent, may be off the grain before the
// block as a whole stretches. Single bias edges are the rule on foundations,
// where patches are laid along their seams, and the paper holds them. Common
// practice, no source.
const borderBias = 66.0

// BorderGrain: the block's edges lie on the straight grain of their patches.
func (catalogue) BorderGrain() Rule {
	slant, part := degrees("border_grain", grainSlack), count("border_bias", borderBias)
	return Rule{
		Limits: []Limit{slant, part},
		Info: problem.Info{
			Code:   "R112",
			Title:  "most of a block's edge is off the straight grain",
			Rule:   "At most two thirds of a block's edge are cut off the straight grain. A bias edge stretches and ripples. On a foundation the paper holds it, so this is a note: the paper stays on until the block is joined to its neighbors.",
			Source: "Cutting out pieces; Importance of grain, jinnybeyer.com; keeping the paper on: gracieoliverarts.blogspot.ca, 2009",
			Example: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block lugger 8 x 8 finished 6in {
  section A {
    1 sail at c
    2 sky along (0, 2) -- (3, 8)
    3 sky along (3, 0) -- (0, 6)
    4 sky along (8, 6) -- (5, 0)
    5 sky along (5, 8) -- (8, 2)
  }
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block lugger 8 x 8 finished 6in {
  section A {
    1 sail at c
    2 sky along (3, 0) -- (3, 8)
    3 sky along (5, 0) -- (5, 8)
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			most, edge, bias := v.Limits.number(slant), 0.0, 0.0
			var off []string
			var points []pattern.Pos
			var free []int // fabrics whose grain does not go first
			told := map[*pattern.Piece]bool{}
			for i := range v.Placed {
				p := &v.Placed[i]
				onEdge, onBias := v.biasOnBorder(p, most)
				edge, bias = edge+onEdge, bias+onBias
				if onBias == 0 || told[p.Piece] {
					continue
				}
				told[p.Piece] = true
				if f := p.Piece.Fabric; !slices.Contains(v.Pattern.Settings.Grain, f) && !slices.Contains(free, f) {
					free = append(free, f)
				}
				off = append(off, p.Label())
				points = append(points, pos(p.Polygon.Interior()))
			}
			share := bias / max(edge, onLine) * 100
			if share <= v.Limits.number(part)+angleSlack {
				return
			}
			report(Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Points:   points,
				Message:  fmt.Sprintf("%.0f per cent of the block's edge is cut off the straight grain: %s", share, strings.Join(off, ", ")),
				Help:     "leave the paper on until the block is joined to its neighbors" + keepsGrain(v.Pattern, free),
			})
		},
	}
}

// keepsGrain says with which setting fabrics keep the grain.
func keepsGrain(p *pattern.Pattern, fabrics []int) string {
	if len(fabrics) == 0 {
		return ""
	}
	names := make([]string, len(fabrics))
	for i, f := range fabrics {
		names[i] = p.Fabrics[f].Name
	}
	return "; or write grain " + strings.Join(names, ", ") + " into the pattern: then such patches keep the straight grain there, where their shape permits, and are laid at a slant"
}

// biasOnBorder returns how much of a piece's sides lies on the block's edge, and
// how much of that is more degrees than allowed off both directions of its
// patch's threads.
func (v *View) biasOnBorder(p *Placed, most float64) (edge, bias float64) {
	cut := &p.Piece.Patch
	grain := plane.Motion{Turn: v.Sized.Copies[p.Copy].Turn}.Matrix().Apply(point(cut.Laid[1]).Sub(point(cut.Laid[0])))
	known := !cut.Plain && cut.Shape != pattern.Uncut
	n := len(p.Polygon)
	for k, q := range p.Polygon {
		next := p.Polygon[(k+1)%n]
		side := next.Sub(q)
		length := math.Hypot(side.X, side.Y)
		if length < onLine || !v.onBorder(q, next) {
			continue
		}
		edge += length
		angle := math.Abs(math.Mod(math.Atan2(grain.Cross(side), grain.Dot(side))*180/math.Pi, 90))
		if known && min(angle, 90-angle) > most+angleSlack {
			bias += length
		}
	}
	return edge, bias
}
