package compare

import (
	"math"
	"slices"
	"strconv"

	"seamwright/emit/edition"
)

// A patch is one space of one copy, where it lies in the block.
type patch struct {
	copy, section, space int
	label                string
	polygon              []point
	box                  box
}

// A matching says which patch of the new is which of the old.
type matching struct {
	old, new *edition.Size
	was, is  []patch
	from     []int // for each of is: index into was, or -1
}

// patches lays a size out.
func patches(s *edition.Size) []patch {
	index := map[string]int{}
	for i := range s.Sections {
		index[s.Sections[i].Name] = i
	}
	var out []patch
	for c := range s.Copies {
		at := index[s.Copies[c].Section] // Read and Of give no other
		move := motion(s.Copies[c].Turn, s.Copies[c].Shift)
		sec := &s.Sections[at]
		for i := range sec.Spaces {
			polygon := moved(sec.Spaces[i].Polygon, move)
			out = append(out, patch{c, at, i, label(sec, i), polygon, boxOf(polygon)})
		}
	}
	return out
}

func label(s *edition.Section, i int) string { return s.Name + strconv.Itoa(s.Spaces[i].Number) }

const (
	// alike is the part of two spaces that must be common to them to be one that
	// was changed.
	alike = 0.2
	// mostPairs bounds the search among those that are not where one was: a block
	// that was redrawn altogether is matched by labels.
	mostPairs = 4_000_000
)

// match finds every patch again: first those that lie where one lay, then those
// that cover most of one, then those of the same label.
func match(old, new *edition.Size) *matching {
	m := &matching{old: old, new: new, was: patches(old), is: patches(new)}
	m.from = make([]int, len(m.is))
	for i := range m.from {
		m.from[i] = -1
	}
	taken := make([]bool, len(m.was))
	take := func(is, was int) {
		if m.from[is] < 0 && !taken[was] {
			m.from[is], taken[was] = was, true
		}
	}
	m.samePlace(take)
	m.overlapping(taken, take)
	byLabel := map[string][]int{}
	for k := range m.was {
		if !taken[k] {
			byLabel[m.was[k].label] = append(byLabel[m.was[k].label], k)
		}
	}
	for i := range m.is {
		if left := byLabel[m.is[i].label]; m.from[i] < 0 && len(left) > 0 {
			take(i, left[0])
			byLabel[m.is[i].label] = left[1:]
		}
	}
	return m
}

// samePlace takes patches that did not move, found by their middles on a grid.
func (m *matching) samePlace(take func(is, was int)) {
	const cell = 0.01
	grid := map[[2]int][]int{}
	at := func(ps []point) [2]int {
		c := middle(ps)
		return [2]int{int(math.Round(c[0] / cell)), int(math.Round(c[1] / cell))}
	}
	for k := range m.was {
		if len(m.was[k].polygon) > 0 {
			c := at(m.was[k].polygon)
			grid[c] = append(grid[c], k)
		}
	}
	for i := range m.is {
		c := at(m.is[i].polygon)
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				for _, k := range grid[[2]int{c[0] + dx, c[1] + dy}] {
					if apart(m.is[i].polygon, m.was[k].polygon) <= same {
						take(i, k)
					}
				}
			}
		}
	}
}

// overlapping takes patches by the area that they have in common, the largest
// part first.
func (m *matching) overlapping(taken []bool, take func(is, was int)) {
	var open, lost []int
	for i, k := range m.from {
		if k < 0 {
			open = append(open, i)
		}
	}
	for k := range taken {
		if !taken[k] {
			lost = append(lost, k)
		}
	}
	if len(open)*len(lost) > mostPairs {
		return
	}
	type pair struct {
		is, was int
		part    float64
	}
	var pairs []pair
	for _, i := range open {
		for _, k := range lost {
			a, b := &m.is[i], &m.was[k]
			if !a.box.meets(b.box) {
				continue
			}
			common := shared(a.polygon, b.polygon)
			if part := common / (area(a.polygon) + area(b.polygon) - common); part >= alike {
				pairs = append(pairs, pair{i, k, part})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int {
		switch {
		case a.part > b.part:
			return -1
		case a.part < b.part:
			return 1
		}
		return 0
	})
	for _, p := range pairs {
		take(p.is, p.was)
	}
}
