package rules

import (
	"fmt"
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// borderPoint is one seam allowance: a point that lies nearer than that to the
// edge is neither on it nor visibly inside, and reads as one that was cut off.
const borderPoint pattern.Length = 1.0 / 4

// BorderPoint: points lie on the block's edge or well inside it.
func (catalogue) BorderPoint() Rule {
	apart := inches("border_point", borderPoint)
	return Rule{
		Limits: []Limit{apart},
		Info: problem.Info{
			Code:   "R114",
			Title:  "a point lies just inside the block's edge",
			Rule:   "The point of a piece lies exactly on the finished edge of the block, or at least 1/4 in inside it. In between it looks as if the maker had missed the edge, and the next seam may cut it off.",
			Source: "common practice, no source",
			Example: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block pennant 8 x 8 finished 6in {
  section A {
    1 sail at (4, 2)
    2 sky along (0, 0) -- (4.0625, 8)
    3 sky along (8, 0) -- (3.9375, 8)
  }
}
`,
			Cured: `fabric sail "sail" light #f3ecdd
fabric sky "sky" medium #8fb3c4
block pennant 8 x 8 finished 6in {
  section A {
    1 sail at (4, 2)
    2 sky along (0, 0) -- (4, 8)
    3 sky along (4, 8) -- (8, 0)
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			least := v.Limits.length(apart)
			var told []plane.Point // the pieces round one point have it in common
			for i := range v.Placed {
				p := &v.Placed[i]
				at, gap, ok := v.pointNearBorder(p, least)
				if ok && !slices.ContainsFunc(told, func(q plane.Point) bool { return q.Sub(point(at)).Len() < onLine }) {
					told = append(told, point(at))
					report(Finding{
						Severity: problem.Warning,
						At:       p.Piece.Source,
						Points:   []pattern.Pos{at},
						Message:  fmt.Sprintf("%s has a point %s inside the block's edge, at %s finished", p.Label(), v.told(gap), v.size()),
						Help:     "let it touch the edge, or bring it at least " + v.told(least) + " inside",
					})
				}
			}
		},
	}
}

// pointNearBorder returns a sharp corner of a piece that is near the block's
// edge and not on it, of a piece that does not itself lie along that edge.
func (v *View) pointNearBorder(p *Placed, least pattern.Length) (pattern.Pos, pattern.Length, bool) {
	for i := range v.border {
		near, next := float64(least), float64(least) // what is farther is no matter
		var at pattern.Pos
		for _, q := range p.Polygon {
			switch off := math.Abs(v.border[i].Offset(q)); {
			case off >= next || v.onBorder(q, q):
			case off < near:
				near, next, at = off, near, pos(q)
			default:
				next = off
			}
		}
		// A corner on the edge is where a seam ends. A side that runs beside the
		// edge has two corners at that distance: a narrow border, which is another
		// rule's.
		if near > onLine && near < float64(least-slack) && next > near+onLine {
			return at, pattern.Length(near), true
		}
	}
	return pattern.Pos{}, 0, false
}
