package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// The tip of a patch of angle A reaches allowance/sin(A/2) past the sewn point:
// 1.28 in at 22 1/2 degrees, 2.4 in at 12.
const (
	sharpWarn = 22.5 // degrees
	sharpStop = 12.0
	// angleSlack lets a 16-point compass, drawn with roots, have its 22 1/2.
	angleSlack = 1e-6
)

// Sharp: no piece ends in a needle.
func (catalogue) Sharp() Rule {
	warn, stop := degrees("sharp_point", sharpWarn), degrees("sharp_stop", sharpStop)
	return Rule{
		Limits: []Limit{warn, stop},
		Info: problem.Info{
			Code:   "R102",
			Title:  "a piece has a very sharp point",
			Rule:   "A piece's angles are at least 22 1/2 degrees. The cloth of a sharper point reaches far past it and heaps up in the seam; under 12 degrees the pattern must say with `accept` that it is meant.",
			Source: "common practice, no source; the reach of a tip is allowance / sin(angle / 2), computed",
			Example: `fabric beam "beam" light #f3ecdd
fabric night "night" dark #25304a
block beacon 8 x 8 finished 6in {
  section A {
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 2)
  }
}
`,
			Cured: `fabric beam "beam" light #f3ecdd
fabric night "night" dark #25304a
block beacon 8 x 8 finished 6in {
  section A {
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 4)
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			usual, least := v.Limits.number(warn), v.Limits.number(stop)
			for i := range v.Placed {
				p := &v.Placed[i]
				if !anySharp(p.Polygon, usual) {
					continue
				}
				at, angle := sharpest(p.Polygon)
				if angle >= usual-angleSlack {
					continue
				}
				tip := pattern.Length(float64(v.Pattern.Settings.Allowance) / math.Sin(angle*math.Pi/360))
				f := Finding{
					Severity: problem.Warning,
					At:       p.Piece.Source,
					Points:   []pattern.Pos{pos(at)},
					Message:  fmt.Sprintf("%s has a point of %.1f degrees; its tip needs cloth %s beyond the point", p.Label(), angle, v.told(pattern.RoundUp(tip, 1.0/8))),
					Help:     "widen the point, or accept it here with a reason",
				}
				if angle < least-angleSlack {
					f.Severity, f.Acceptable = problem.Error, true
				}
				report(f)
			}
		},
	}
}

// anySharp reports whether some corner may be sharper than an angle. Nearly all
// pieces have none, and arc tangents are dear.
func anySharp(p plane.Polygon, than float64) bool {
	const sure = 0.01 // degrees
	wide := math.Cos(min(than+sure, 180) * math.Pi / 180)
	for i := range p {
		a := p[(i+len(p)-1)%len(p)].Sub(p[i])
		b := p[(i+1)%len(p)].Sub(p[i])
		if a.Dot(b) >= wide*math.Sqrt(a.Dot(a)*b.Dot(b)) {
			return true
		}
	}
	return false
}

// sharpest returns the corner of the least angle, in degrees.
func sharpest(p plane.Polygon) (at plane.Point, angle float64) {
	p = p.Corners()
	angle = 360
	for i := range p {
		q := p[i]
		a := p[(i+len(p)-1)%len(p)].Sub(q)
		b := p[(i+1)%len(p)].Sub(q)
		inner := math.Atan2(b.Cross(a), b.Dot(a)) * 180 / math.Pi
		if inner < 0 {
			inner += 360
		}
		if inner < angle {
			at, angle = q, inner
		}
	}
	return at, angle
}
