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
// in order along it. A seam ends wherever two pieces share a corner there. The
// list is good until the next call.
func (v *View) seamEnds(copy int, side plane.Line) []end {
	ends, line := v.ends[:0], side.Ray()
	of := v.Of(copy)
	for i := range of {
		p := &of[i]
		for _, q := range p.Polygon {
			if d := line.Offset(q); d > onLine || d < -onLine {
				continue
			}
			if t := line.Along(q); t > onLine && t < line.Len-onLine {
				ends = append(ends, end{t, q, p})
			}
		}
	}
	v.ends = ends
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.along, b.along) })
	// The two pieces of a seam give the same end twice; the later piece is the
	// one whose seam it is.
	kept := ends[:0]
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
