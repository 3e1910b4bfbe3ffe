package cutting

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// mostWays is how many steps all ways of cutting scraps may take to be looked at: some
// ten milliseconds, and enough for a block or two of a few sizes.
const mostWays = 2_000_000

// allWays looks at all ways of cutting scraps into strips, and those into patches, where
// that does not take too long; sure is false if it does.
//
// What has been cut so far is a number for each size, no more than is needed: a place
// in a grid of that many dimensions. From each place that the scraps so far can reach,
// the next one leads on to others.
func allWays(needs [][]Need, scraps []Scrap) (serve, sure bool) {
	g := &grid{budget: mostWays}
	of := make([][]int, len(needs)) // dimensions of each fabric
	lacks := -noise
	for i := range needs {
		for _, n := range needs[i] {
			lacks += float64(n.Size.W*n.Size.H) * float64(n.Count)
			if n.Count > 0 {
				of[i] = append(of[i], len(g.needs))
				g.needs = append(g.needs, n)
			}
		}
	}
	for _, s := range scraps {
		lacks -= float64(s.W * s.H)
	}
	if lacks > 0 {
		return false, true
	}
	every := make([]int, len(g.needs))
	for k := range every {
		every[k] = k
	}
	places, ok := g.places(every)
	if !ok {
		return false, false
	}
	reached := make([]bool, places)
	reached[0] = true
	known := map[Scrap][][]int{}
	for _, s := range scraps {
		cuts, ok := known[s]
		if !ok {
			for i := range of {
				if s.Of == i || s.Of == Any {
					cuts = append(cuts, g.cuts(of[i], s.Size)...)
				}
			}
			known[s] = cuts
		}
		if reached = g.onward(reached, cuts); g.budget < 0 {
			return false, false
		}
	}
	return reached[places-1], true
}

// A grid has a dimension for each size that is needed.
type grid struct {
	needs  []Need
	budget int
}

// side is how many places there are along a dimension.
func (g *grid) side(k int) int { return g.needs[k].Count + 1 }

// places is how many places there are in some of the dimensions; false where there
// are too many.
func (g *grid) places(dims []int) (n int, ok bool) {
	n = 1
	for _, k := range dims {
		if n *= g.side(k); n > mostWays {
			return n, false
		}
	}
	return n, true
}

// onward returns the places that are reached with one scrap more.
func (g *grid) onward(reached []bool, cuts [][]int) []bool {
	next := slices.Clone(reached)
	for place, is := range reached {
		for n := 0; is && n < len(cuts); n++ {
			if g.budget -= len(g.needs); g.budget < 0 {
				return next
			}
			sum, rest, times := 0, place, 1
			for k := range g.needs {
				sum += min(rest%g.side(k)+cuts[n][k], g.side(k)-1) * times
				rest, times = rest/g.side(k), times*g.side(k)
			}
			next[sum] = true
		}
	}
	return next
}

// cuts lists what a scrap gives of one fabric's sizes at most, by dimension.
func (g *grid) cuts(dims []int, scrap pattern.Size) (all [][]int) {
	n, ok := g.places(dims)
	if !ok || g.budget < 0 {
		g.budget = -1
		return nil
	}
	for _, s := range [2]pattern.Size{scrap, {W: scrap.H, H: scrap.W}} {
		least := g.least(dims, n, g.strips(dims, s.W))
		for place := range least {
			if least[place] <= s.H+noise && !g.more(dims, place, least, s.H) {
				all = append(all, g.counts(dims, place))
			}
		}
	}
	return all
}

// counts is a place of some dimensions as a number for each dimension of the grid.
func (g *grid) counts(dims []int, place int) []int {
	out := make([]int, len(g.needs))
	for _, k := range dims {
		out[k], place = place%g.side(k), place/g.side(k)
	}
	return out
}

// more reports whether of some size one more comes from the same height.
func (g *grid) more(dims []int, place int, least []pattern.Length, high pattern.Length) bool {
	rest, times := place, 1
	for _, k := range dims {
		if rest%g.side(k) < g.side(k)-1 && least[place+times] <= high+noise {
			return true
		}
		rest, times = rest/g.side(k), times*g.side(k)
	}
	return false
}

// least returns, for every place of some dimensions, the least height of strips that
// lead there or beyond.
func (g *grid) least(dims []int, places int, strips []laid) []pattern.Length {
	least := make([]pattern.Length, places)
	for place := 1; place < places && g.budget >= 0; place++ {
		least[place] = pattern.Length(math.Inf(1))
		for i := range strips {
			g.budget -= len(dims)
			before, rest, times := 0, place, 1
			for _, k := range dims {
				before += max(rest%g.side(k)-strips[i].counts[k], 0) * times
				rest, times = rest/g.side(k), times*g.side(k)
			}
			if before < place {
				least[place] = min(least[place], least[before]+strips[i].high)
			}
		}
	}
	return least
}

// A laid is a strip with so many patches of each size.
type laid struct {
	high   pattern.Length
	counts []int
}

// strips lists the strips of a width that are filled with patches, each as high as one
// of its patches is, upright or lying.
func (g *grid) strips(dims []int, width pattern.Length) (all []laid) {
	var heights []pattern.Length
	for _, k := range dims {
		heights = append(heights, g.needs[k].Size.W, g.needs[k].Size.H)
	}
	slices.Sort(heights)
	for _, high := range slices.Compact(heights) {
		all = g.fill(all, laid{high, make([]int, len(g.needs))}, dims, width)
	}
	return all
}

// fill adds the strips that come of one by laying patches of some sizes in what is left
// of its width, of the last size as many as find room.
func (g *grid) fill(all []laid, strip laid, dims []int, width pattern.Length) []laid {
	if g.budget -= len(g.needs); g.budget < 0 {
		return nil
	}
	if len(dims) == 0 {
		return append(all, strip)
	}
	n, size := 0, g.needs[dims[0]].Size
	wide := min(size.W, size.H)
	if max(size.W, size.H) > strip.high+noise {
		wide = max(size.W, size.H)
	}
	if min(size.W, size.H) <= strip.high+noise {
		n = min(PerStrip(width, wide), g.needs[dims[0]].Count)
	}
	for from := n; n >= 0 && (len(dims) > 1 || n == from); n-- {
		next := laid{strip.high, slices.Clone(strip.counts)}
		next.counts[dims[0]] = n
		all = g.fill(all, next, dims[1:], width-wide*pattern.Length(n))
	}
	return all
}
