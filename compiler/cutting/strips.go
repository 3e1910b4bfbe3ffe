package cutting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// A Need is how many patches of one size are cut from a cloth; of triangles, the
// squares or rectangles that they are cut from.
type Need struct {
	Size  pattern.Size
	Count int
}

// A Strip is cut across the whole usable width, then into patches. Times such
// strips are cut alike, the last of them perhaps not to its end.
type Strip struct {
	Height pattern.Length
	Times  int
	Cuts   []Need // W of a size runs along the strip, H is the strip's height or less
	For    string // of strips that are joined end to end: what for
	Whole  bool   // no strip but a length of cloth, used as it is
}

// noise is what lengths are forgiven in a division: far below a thread.
const noise = 1e-6

// PerStrip returns how many patches of a length come from a width: parts of a
// patch are none.
func PerStrip(width, length pattern.Length) int {
	if length <= 0 {
		return 0
	}
	return int(math.Floor(float64(width/length) + noise))
}

// strips lays out a size by itself: the way round that takes less cloth, upright
// where both take the same. False if no way round fits the width.
func strips(n Need, width pattern.Length) (Strip, bool) {
	best := Strip{}
	for _, size := range [2]pattern.Size{{W: min(n.Size.W, n.Size.H), H: max(n.Size.W, n.Size.H)}, {W: max(n.Size.W, n.Size.H), H: min(n.Size.W, n.Size.H)}} {
		per := PerStrip(width, size.W)
		if per == 0 {
			continue
		}
		s := Strip{Height: size.H, Times: (n.Count + per - 1) / per, Cuts: []Need{{size, n.Count}}}
		if best.Times == 0 || s.inches() < best.inches()-noise {
			best = s
		}
	}
	return best, best.Times > 0
}

func (s *Strip) inches() pattern.Length { return s.Height * pattern.Length(s.Times) }

// total is how much length of cloth strips take.
func total(all []Strip) (sum pattern.Length) {
	for i := range all {
		sum += all[i].inches()
	}
	return sum
}

// unmixed cuts every size from strips of its own, tallest first.
func unmixed(needs []Need, width pattern.Length) ([]Strip, bool) {
	var all []Strip
	for _, n := range needs {
		s, ok := strips(n, width)
		if !ok {
			return nil, false
		}
		all = append(all, s)
	}
	slices.SortStableFunc(all, func(a, b Strip) int { return -cmp.Compare(a.Height, b.Height) })
	return all, true
}

// mixed fills the ends of strips that are not used up with lower patches.
func mixed(plain []Strip, width pattern.Length) []Strip {
	var all []Strip
	var left []pattern.Length // of the strip that has room, for each of all
	for _, s := range plain {
		cut := s.Cuts[0]
		for i := range all {
			if cut.Count == 0 || all[i].Height < cut.Size.H-noise {
				continue
			}
			if n := min(cut.Count, PerStrip(left[i], cut.Size.W)); n > 0 {
				all[i].Cuts = append(all[i].Cuts, Need{cut.Size, n})
				left[i] -= cut.Size.W * pattern.Length(n)
				cut.Count -= n
			}
		}
		if cut.Count == 0 {
			continue
		}
		per := PerStrip(width, cut.Size.W)
		if full := cut.Count / per; full > 0 {
			all = append(all, Strip{Height: s.Height, Times: full, Cuts: []Need{{cut.Size, full * per}}})
			left = append(left, 0) // one end could serve, but each of them must be told apart
			cut.Count -= full * per
		}
		if cut.Count > 0 {
			all = append(all, Strip{Height: s.Height, Times: 1, Cuts: []Need{cut}})
			left = append(left, width-cut.Size.W*pattern.Length(cut.Count))
		}
	}
	return all
}
