package rules

import (
	"fmt"
	"math"
	"math/bits"
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

func seamsNote() Limit { return count("seams_note", pointNote) }

func seamsMost() Limit { return count("seams_most", pointWarn) }

// ManyAtPoint: not more seams meet at a point than can be pressed flat.
func (catalogue) ManyAtPoint() Rule {
	note, most, patch := seamsNote(), seamsMost(), count("seams_patch", pointPatch)
	return Rule{
		Limits: []Limit{note, most, patch},
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
			from := int(v.Limits.number(note))
			var points []pattern.Pos
			for _, p := range v.meetings() {
				if p.seams >= from {
					points = append(points, pos(p.at))
				}
				if p.seams > worst.seams {
					worst = p
				}
			}
			if worst.seams < from {
				return
			}
			f := Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Points:   points,
				Message: fmt.Sprintf("%d seams meet at a point, %s from the left and %s from the lower edge at %s finished",
					worst.seams, v.told(pattern.Length(worst.at.X)), v.told(pattern.Length(worst.at.Y)), v.size()),
				Help: "press these seams open or spin them",
			}
			if n := len(points) - 1; n > 0 {
				f.Message += fmt.Sprintf("; there are %d more such points of %d seams or more", n, from)
			}
			if worst.seams > int(v.Limits.number(most)) {
				f.Severity = problem.Warning
				f.Help = "let fewer seams run into the point, or accept it here with a reason"
			}
			if worst.seams >= int(v.Limits.number(patch)) {
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

// A corner is one corner of one piece: where it is, and the piece's corners
// before and after it.
type corner struct{ at, before, after plane.Point }

// meetings finds every point where enough corners fall together for seams to
// crowd, and counts the different directions in which seams leave it.
func (v *View) meetings() []meeting {
	var found []meeting
	for _, corners := range v.crowds() {
		if n := v.seamsAt(corners); n > 0 {
			found = append(found, meeting{corners[0].at, n})
		}
	}
	return found
}

// gather gathers corners by place. Places with too few corners for from
// seams are left out, as far as that is seen at once: a corner has two sides.
func (v *View) gather(from int) [][]corner {
	type cell struct{ x, y int32 }
	of := func(q plane.Point) cell {
		const size = 4 * onLine
		return cell{int32(math.Round(q.X / size)), int32(math.Round(q.Y / size))}
	}
	corners := 0
	for i := range v.Placed {
		corners += len(v.Placed[i].Polygon)
	}
	// Nearly all places have few corners. A small table in which several places
	// may share a count tells so without a map.
	shift := 64 - bits.Len(uint(4*corners))
	hash := func(c cell) uint32 {
		return uint32((uint64(uint32(c.x))*0x9e3779b97f4a7c15 ^ uint64(uint32(c.y))*0xc2b2ae3d27d4eb4f) >> shift)
	}
	count := make([]uint8, 1<<(64-shift))
	for i := range v.Placed {
		for _, q := range v.Placed[i].Polygon {
			if n := &count[hash(of(q))]; *n < math.MaxUint8 {
				*n++
			}
		}
	}
	least := uint8(min(from/2, math.MaxUint8))
	var crowds [][]corner
	at := map[cell]int{}
	for i := range v.Placed {
		p := v.Placed[i].Polygon
		n := len(p)
		for k, q := range p {
			c := of(q)
			if count[hash(c)] < least {
				continue
			}
			id, ok := at[c]
			if !ok {
				id = len(crowds)
				at[c] = id
				crowds = append(crowds, nil)
			}
			crowds[id] = append(crowds[id], corner{q, p[(k+n-1)%n], p[(k+1)%n]})
		}
	}
	return slices.DeleteFunc(crowds, func(c []corner) bool { return len(c) < int(least) })
}

// seamsAt counts the directions of the sides that leave a place. Where the
// place is on the block's edge, the edge itself is no seam.
func (v *View) seamsAt(corners []corner) int {
	var angles []float64
	for _, c := range corners {
		for _, other := range [2]plane.Point{c.before, c.after} {
			if !v.onBorder(c.at, other) {
				d := other.Sub(c.at)
				angles = append(angles, math.Atan2(d.Y, d.X))
			}
		}
	}
	slices.Sort(angles)
	const same = 1e-4 // radians; seams nearer than this cannot be told apart
	seams := 0
	for i, a := range angles {
		if i == 0 || a-angles[i-1] > same {
			seams++
		}
	}
	// West has two names, pi and -pi.
	if seams > 1 && angles[0]+2*math.Pi-angles[len(angles)-1] < same {
		seams--
	}
	return seams
}

// onBorder reports whether the stretch from p to q lies on the block's edge.
func (v *View) onBorder(p, q plane.Point) bool {
	for i := range v.border {
		side := &v.border[i]
		if math.Abs(side.Offset(p)) < onLine && math.Abs(side.Offset(q)) < onLine {
			return true
		}
	}
	return false
}
