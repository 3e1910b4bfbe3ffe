package rules

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// A pinwheel has eight seams at its center and is ordinary; from six on the
// seams are pressed open or spun; above eight the point is a lump.
const (
	pointNote = 6
	pointWarn = 8
	// pointPatch is from where a patch over the center is the better design.
	pointPatch = 12
)

// ManyAtPoint: not more seams meet at a point than can be pressed flat.
func (catalogue) ManyAtPoint() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R103",
			Title:  "many seams meet at one point",
			Rule:   "At most eight seams run into one point. From six on they are pressed open or spun; above eight the point is a lump that no pressing cures, and from twelve a patch over the center is the better design.",
			Source: "common practice, no source; pressing open above four seams is published (windmill center of eight)",
			Example: `fabric ray "ray" light #f3ecdd
fabric dusk "dusk" dark #25304a
unit quarter 4 x 4 {
  section A {
    1 ray at (2, 2)
    2 dusk along (0, 0) -- (4, 2)
    3 dusk along (0, 0) -- (2, 4)
  }
}
block lamp 8 x 8 finished 12in {
  join w -- c, c -- e
  join n -- s
  for i in 0..3 { place quarter at c turn 90deg * i }
}
`,
			Cured: `fabric ray "ray" light #f3ecdd
fabric dusk "dusk" dark #25304a
unit quarter 4 x 4 {
  section A {
    1 ray at (1, 1)
    2 dusk along (4, 0) -- (0, 4)
  }
}
block lamp 8 x 8 finished 12in {
  join w -- c, c -- e
  join n -- s
  for i in 0..3 { place quarter at c turn 90deg * i }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			var worst meeting
			var points []pattern.Pos
			for _, p := range v.meetings() {
				if p.seams >= pointNote {
					points = append(points, pos(p.at))
				}
				if p.seams > worst.seams {
					worst = p
				}
			}
			if worst.seams < pointNote {
				return
			}
			f := Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Points:   points,
				Message: fmt.Sprintf("%d seams meet at a point, %s from the left and %s from the lower edge at %s finished",
					worst.seams, pattern.Length(worst.at.X).In(32), pattern.Length(worst.at.Y).In(32), v.size()),
				Help: "press these seams open or spin them",
			}
			if n := len(points) - 1; n > 0 {
				f.Message += fmt.Sprintf("; there are %d more such points of %d seams or more", n, pointNote)
			}
			if worst.seams > pointWarn {
				f.Severity = problem.Warning
				f.Help = "let fewer seams run into the point, or accept it here with a reason"
			}
			if worst.seams >= pointPatch {
				f.Help = "set a patch over the center so that the seams end at its edge, or accept it here with a reason"
			}
			report(f)
		},
	}
}

// A meeting is a point inside the block with the seams that run into it.
type meeting struct {
	at    plane.Point
	seams int
}

// meetings finds every point where pieces' corners fall together and counts the
// different directions in which seams leave it. Points on the block's edge have
// the edge among their directions, which is not a seam.
func (v *View) meetings() []meeting {
	type ray struct {
		x, y  int64 // the point, in cells of onLine
		angle float64
		at    plane.Point
	}
	var rays []ray
	cell := func(f float64) int64 { return int64(math.Round(f / (4 * onLine))) }
	for i := range v.Placed {
		p := &v.Placed[i]
		n := len(p.Polygon)
		for k, q := range p.Polygon {
			for _, other := range [2]plane.Point{p.Polygon[(k+1)%n], p.Polygon[(k+n-1)%n]} {
				if v.onBorder(q, other) {
					continue
				}
				d := other.Sub(q)
				rays = append(rays, ray{cell(q.X), cell(q.Y), math.Atan2(d.Y, d.X), q})
			}
		}
	}
	slices.SortStableFunc(rays, func(a, b ray) int {
		return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y), cmp.Compare(a.angle, b.angle))
	})
	const sameAngle = 1e-4 // radians; seams nearer than this cannot be told apart
	var found []meeting
	for i := 0; i < len(rays); {
		first, m := i, meeting{rays[i].at, 0}
		for ; i < len(rays) && rays[i].x == rays[first].x && rays[i].y == rays[first].y; i++ {
			if i == first || rays[i].angle-rays[i-1].angle > sameAngle {
				m.seams++
			}
		}
		// West has two names, pi and -pi.
		if m.seams > 1 && rays[first].angle+2*math.Pi-rays[i-1].angle < sameAngle {
			m.seams--
		}
		found = append(found, m)
	}
	return found
}

// onBorder reports whether the stretch from p to q lies on the block's edge.
func (v *View) onBorder(p, q plane.Point) bool {
	o := v.Sized.Outline
	for i := range o {
		side := segment(o[i], o[(i+1)%len(o)])
		if math.Abs(side.Offset(p)) < onLine && math.Abs(side.Offset(q)) < onLine {
			return true
		}
	}
	return false
}
