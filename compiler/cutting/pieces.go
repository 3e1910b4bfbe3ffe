package cutting

import (
	"cmp"
	"slices"

	"seamwright/compiler/pattern"
)

// Pieces returns how many cloths of a size patches take, fat quarters or pre-cut
// squares: strips are cut along one side of each, the side that takes fewer. Long
// runs are not cut from them. False where a patch is too large.
func Pieces(needs []Need, from pattern.Size) (int, bool) {
	least, fits := 0, false
	for _, s := range [2]pattern.Size{from, {W: from.H, H: from.W}} {
		plain, ok := upTo(needs, s)
		if !ok {
			continue
		}
		for _, all := range [2][]Strip{plain, mixed(plain, s.W)} {
			var heights []pattern.Length
			for _, strip := range all {
				heights = append(heights, slices.Repeat([]pattern.Length{strip.Height}, strip.Times)...)
			}
			if n := shelves(heights, s.H); !fits || n < least {
				least, fits = n, true
			}
		}
	}
	return least, fits
}

// upTo cuts every size from strips of its own that are no higher than the cloth.
func upTo(needs []Need, from pattern.Size) (all []Strip, ok bool) {
	for _, n := range needs {
		best := Strip{}
		for _, size := range [2]pattern.Size{n.Size, {W: n.Size.H, H: n.Size.W}} {
			per := PerStrip(from.W, size.W)
			if per == 0 || size.H > from.H+noise {
				continue
			}
			s := Strip{Height: size.H, Times: (n.Count + per - 1) / per, Cuts: []Need{{size, n.Count}}}
			// What counts is how many such strips lie in one cloth.
			if best.Times == 0 || shelvesOf(s, from.H) < shelvesOf(best, from.H)-noise {
				best = s
			}
		}
		if best.Times == 0 {
			return nil, false
		}
		all = append(all, best)
	}
	slices.SortStableFunc(all, func(a, b Strip) int { return -cmp.Compare(a.Height, b.Height) })
	return all, true
}

// shelvesOf is how many cloths of a height a strip's times take, in parts.
func shelvesOf(s Strip, height pattern.Length) float64 {
	return float64(s.Times) / float64(PerStrip(height, s.Height))
}
