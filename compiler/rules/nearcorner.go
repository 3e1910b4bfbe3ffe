package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// nearCorner is one seam allowance: a seam that ends nearer than that to a
// corner of its section leaves no cloth to hold and a lump in the next seam.
const nearCorner = 1.0 / 4 // inches, finished

// NearCorner: seams end in the corners of their section or well away from them.
func (catalogue) NearCorner() Rule {
	away := inches("near_corner", nearCorner)
	return Rule{
		Limits: []Limit{away},
		Info: problem.Info{
			Code:   "R105",
			Title:  "a seam ends just beside a corner",
			Rule:   "A seam ends in a corner of its section or at least 1/4 in from it, finished. In between, its allowance is folded into the next seam and there is no cloth to hold.",
			Source: "common practice, no source",
			Example: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block lugger 8 x 8 finished 6in {
  section A {
    1 sail at (4, 1)
    2 sky along (0.125, 0) -- (8, 8)
  }
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block lugger 8 x 8 finished 6in {
  section A {
    1 sail at (4, 1)
    2 sky along (0, 0) -- (8, 8)
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			for c := range v.Sized.Copies {
				at := &v.Sized.Copies[c]
				d := &v.Sized.Drawings[at.Drawing]
				if d.First != c {
					continue // other copies of the drawing say the same
				}
				nearCornersOf(v, c, d, at, v.Limits.length(away), report)
			}
		},
	}
}

func nearCornersOf(v *View, c int, d *pattern.Drawing, at *pattern.Copy, away pattern.Length, report func(Finding)) {
	move := plane.Motion{Turn: at.Turn, Shift: point(at.Shift)}
	n := len(d.Outline)
	for i := range n {
		side := plane.Line{A: move.Apply(point(d.Outline[i])), B: move.Apply(point(d.Outline[(i+1)%n]))}
		for _, e := range v.seamEnds(c, side) {
			gap := math.Min(e.along, side.Len()-e.along)
			if gap >= float64(away-slack) {
				continue
			}
			report(Finding{
				Severity: problem.Warning,
				At:       e.piece.Piece.Source,
				Points:   []pattern.Pos{pos(e.at)},
				Message: fmt.Sprintf("the seam of %s ends %s from a corner of section %s, at %s finished",
					e.piece.Label(), v.told(pattern.Length(gap)), d.Name, v.size()),
				Help: "let it end in the corner, or at least " + v.told(away) + " from it",
			})
		}
	}
}
