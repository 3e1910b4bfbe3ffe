package cutting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// Fits reports whether a patch can be cut from a scrap, one way round or the other.
func Fits(patch, scrap pattern.Size) bool {
	return max(patch.W, patch.H) <= max(scrap.W, scrap.H)+noise && min(patch.W, patch.H) <= min(scrap.W, scrap.H)+noise
}

// A Scrap is cloth that is there already, of one of several fabrics or of any of them.
type Scrap struct {
	pattern.Size
	Of int // index into what is needed, or Any
}

// Any says that a scrap may serve for whichever fabric lacks most, for one of them.
const Any = -1

// Serve reports whether the patches of several fabrics come from scraps, each of which
// is cut into strips and those into patches. What a quick way of cutting finds room for
// surely does; where it does not, all ways are looked at if there are few enough. If
// there are more, sure is false: another way may find room.
func Serve(needs [][]Need, scraps []Scrap, step pattern.Length) (serve, sure bool) {
	if quickly(needs, scraps, step) {
		return true, true
	}
	return allWays(needs, scraps)
}

// quickly cuts the small scraps first, those of one fabric before those of any.
func quickly(needs [][]Need, scraps []Scrap, step pattern.Length) bool {
	left := make([][]Need, len(needs))
	for i := range needs {
		left[i] = slices.Clone(needs[i])
	}
	scraps = slices.Clone(scraps)
	slices.SortStableFunc(scraps, func(a, b Scrap) int {
		return cmp.Or(-cmp.Compare(min(a.Of, 0), min(b.Of, 0)), cmp.Compare(a.W*a.H, b.W*b.H))
	})
	for _, s := range scraps {
		best, most, cut := Any, pattern.Length(0), []Need(nil)
		for i := range left {
			if s.Of != i && s.Of != Any {
				continue
			}
			for _, size := range [2]pattern.Size{s.Size, {W: s.H, H: s.W}} {
				after := slices.Clone(left[i])
				if area := use(after, size, step); area > most+noise {
					best, most, cut = i, area, after
				}
			}
		}
		if best != Any {
			left[best] = cut
		}
	}
	lacks := func(n Need) bool { return n.Count > 0 }
	return !slices.ContainsFunc(left, func(of []Need) bool { return slices.ContainsFunc(of, lacks) })
}

// Gives returns how many patches of one size, up to a number, come from a scrap that
// is cut into strips and those into patches, each strip with its patches one way round.
func Gives(patch, scrap pattern.Size, most int) int {
	best := 0
	for _, s := range [2]pattern.Size{scrap, {W: scrap.H, H: scrap.W}} {
		upright, lying := PerStrip(s.W, patch.W), PerStrip(s.W, patch.H) // in a strip
		for n := 0; n <= PerStrip(s.H, patch.H) && best < most; n++ {
			rest := PerStrip(s.H-patch.H*pattern.Length(n), patch.W)
			best = max(best, n*upright+rest*lying)
		}
	}
	return min(best, most)
}

// use takes off what a scrap gives, and returns its area.
func use(left []Need, scrap pattern.Size, step pattern.Length) (area pattern.Length) {
	ways := items(left, step)
	for i := range ways {
		size := left[ways[i].index/2].Size
		if ways[i].index%2 == 1 {
			size.W = size.H
		}
		ways[i].width = int(math.Ceil(float64(size.W/step) - noise))
	}
	f := &filling{left: left, worth: worths(left, 1), value: make([]float64, int(math.Floor(float64(scrap.W/step)+noise))+1)}
	for room := scrap.H; ; {
		height, fullest := pattern.Length(0), 0.0
		f.empty(false)
		for k := 0; k < len(ways) && ways[k].height <= room+noise; k++ {
			f.let(&ways[k])
			if full := f.value[len(f.value)-1] / float64(ways[k].height); full > fullest+1e-9 {
				height, fullest = ways[k].height, full
			}
		}
		if fullest == 0 {
			return area
		}
		f.empty(true)
		for k := 0; k < len(ways) && ways[k].height <= height+noise; k++ {
			f.let(&ways[k])
		}
		s, ok := cutOut(left, height, f.counts(), 1, scrap.W)
		if !ok {
			return area
		}
		for _, c := range s.Cuts {
			area += c.Size.W * c.Size.H * pattern.Length(c.Count)
		}
		room -= height
	}
}
