package rules

import (
	"fmt"
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// nearMiss is how near two seam ends may come across a join before a maker
// believes that they were meant to meet.
const nearMiss = 1.0 / 2 // inches, finished

// NearMiss: seams that do not meet across a join keep well apart.
func (catalogue) NearMiss() Rule {
	apart := inches("near_miss", nearMiss)
	return Rule{
		Limits: []Limit{apart},
		Info: problem.Info{
			Code:   "R104",
			Title:  "two seams almost meet across a join",
			Rule:   "Seam ends on the two sides of a join either meet or lie more than 1/2 in apart, finished. Nearer ones look like a mistake of the maker's.",
			Source: "common practice, no source",
			Example: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 8in {
  section A {
    1 sail at (1, 6)
    2 hull along (3, 4) -- (3, 8)
  }
  section B {
    1 hull at (1, 2)
    2 sail along (3.25, 0) -- (3.25, 4)
  }
  join w -- e
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 8in {
  section A {
    1 sail at (1, 6)
    2 hull along (3, 4) -- (3, 8)
  }
  section B {
    1 sail at (5, 2)
    2 hull along (3, 0) -- (3, 4)
  }
  join w -- e
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			for i := range v.Sized.Joins {
				if v.Sized.Joins[i].Begins > 0 { // all of the seam is looked at where it is finished
					continue
				}
				nearMissesOf(v, &v.Sized.Joins[i], v.Limits.length(apart), report)
			}
		},
	}
}

func nearMissesOf(v *View, j *pattern.Join, apart pattern.Length, report func(Finding)) {
	side := segment(j.A, j.B)
	left, right := sideEnds(v, j.Left, j), sideEnds(v, j.Right, j)
	alone := unmatched(right, left)
	for _, a := range unmatched(left, right) {
		for _, b := range alone {
			gap := math.Abs(a.along - b.along)
			if gap > float64(apart+slack) {
				continue
			}
			report(Finding{
				Severity: problem.Warning,
				At:       a.piece.Piece.Source,
				Points:   []pattern.Pos{pos(a.at), pos(b.at)},
				Message: fmt.Sprintf("the seams of %s and %s end %s apart on the two sides of a join, at %s finished",
					a.piece.Label(), b.piece.Label(), v.told(pattern.Length(gap)), v.size()),
				Help: fmt.Sprintf("let them meet, or bring them more than %s apart; the join runs %s", v.told(apart), chord(side.A.X, side.A.Y, side.B.X, side.B.Y)),
			})
		}
	}
}

// sideEnds returns the seam ends of several copies on one join, in order.
func sideEnds(v *View, copies []int, j *pattern.Join) []end {
	var ends []end
	for _, c := range copies {
		ends = append(ends, v.seamEnds(c, segment(j.A, j.B))...)
	}
	return ends
}

// unmatched returns the ends of one side that no end of the other meets.
func unmatched(ends, others []end) []end {
	at := make([]float64, len(others))
	for i := range others {
		at[i] = others[i].along
	}
	slices.Sort(at)
	var alone []end
	for _, e := range ends {
		met := false
		for i, _ := slices.BinarySearch(at, e.along-onLine); i < len(at) && !met && at[i] < e.along+onLine; i++ {
			met = math.Abs(e.along-at[i]) < onLine
		}
		if !met {
			alone = append(alone, e)
		}
	}
	return alone
}

func chord(ax, ay, bx, by float64) string {
	return fmt.Sprintf("from (%.4g, %.4g) to (%.4g, %.4g) inches from the block's lower left corner", ax, ay, bx, by)
}
