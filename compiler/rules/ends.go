package rules

import (
	"cmp"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// onLine is how near a corner must lie to a join to be on it: rounding error
// of coordinates scaled to inches, far below anything drawn on purpose.
const onLine = 1e-5

// An end is where a seam of a section meets one of the section's sides.
type end struct {
	along float64 // from the side's start, inches
	at    plane.Point
	piece *Placed
}

// seamEnds returns where seams of one copy end strictly inside the segment,
// in order along it. A seam ends wherever two pieces share a corner there.
func (v *View) seamEnds(copy int, side plane.Line) []end {
	var ends []end
	length := side.Len()
	for i := range v.Of(copy) {
		p := &v.Of(copy)[i]
		for _, q := range p.Polygon {
			if d := side.Offset(q); d > onLine || d < -onLine {
				continue
			}
			if t := side.Along(q); t > onLine && t < length-onLine {
				ends = append(ends, end{t, q, p})
			}
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.along, b.along) })
	// The two pieces of a seam give the same end twice; the later piece is the
	// one whose seam it is.
	var kept []end
	for _, e := range ends {
		if n := len(kept); n > 0 && e.along-kept[n-1].along < onLine {
			if e.piece.Piece.Number > kept[n-1].piece.Piece.Number {
				kept[n-1] = e
			}
			continue
		}
		kept = append(kept, e)
	}
	return kept
}

// segment is a line between two positions of the model.
func segment(a, b pattern.Pos) plane.Line { return plane.Line{A: point(a), B: point(b)} }
