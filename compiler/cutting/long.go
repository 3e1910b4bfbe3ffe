package cutting

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// OnBias stands after what a square of cloth is for that is cut into bias strips.
const OnBias = ": a square of that side, cut into strips on the bias"

// joined cuts the strips for a run: whole lengths from one strip each where they
// all fit, as many to a strip as go; otherwise strips joined end to end into one,
// from which the lengths are cut. False where the run is higher than cloth that
// is cut on the bias can be.
func joined(r *pattern.Run, set *pattern.Settings) (Strip, bool) {
	width := set.Buying.Usable
	s := Strip{Height: r.Height, For: r.For}
	switch sum := lengthOf(r.Lengths); {
	case len(r.Lengths) == 0:
	case r.Bias:
		s.Height = biasSquare(sum, r.Height)
		s.Times, s.Whole = 1, true
		s.For += OnBias
		return s, s.Height <= width+noise
	case r.Lengthy:
		s.Times, s.Whole = len(r.Lengths), true
	case r.Loose:
		s.Times = whole(sum, width)
	case slices.Max(r.Lengths) <= width+noise:
		s.Times = shelves(r.Lengths, width)
	default:
		seam := 2 * set.Allowance // each join takes
		s.Times = whole(sum-seam, width-seam)
	}
	return s, true
}

// whole returns how many strips of a width make a length.
func whole(length, width pattern.Length) int {
	return int(math.Ceil(float64(length/width) - noise))
}

func lengthOf(all []pattern.Length) (sum pattern.Length) {
	for _, l := range all {
		sum += l
	}
	return sum
}

// biasSquare returns the side of a square that gives bias strips of a height and
// a length together: as large in area, rounded up to an inch, and one more for
// the seams of the strips. Common practice, no source.
func biasSquare(length, height pattern.Length) pattern.Length {
	return pattern.RoundUp(pattern.Length(math.Sqrt(float64(length*height))), pattern.Inch) + pattern.Inch
}

// shelves counts the strips that lengths are cut from, the longest first, each
// from the first strip that has room for it.
func shelves(lengths []pattern.Length, width pattern.Length) int {
	sorted := slices.Sorted(slices.Values(lengths))
	slices.Reverse(sorted)
	var left []pattern.Length
	for _, l := range sorted {
		at := slices.IndexFunc(left, func(room pattern.Length) bool { return room >= l-noise })
		if at < 0 {
			at = len(left)
			left = append(left, width)
		}
		left[at] -= l
	}
	return len(left)
}
