package solver

import (
	"cmp"
	"math/bits"
)

// A planter chooses the order of joins: the cut that is made first is the join
// that is sewn last. Any cut is safe, so the choice is free; it is made for the
// least depth, so that no part of the block goes through more seams under the
// needle than needed, and then for long joins after short ones.
type planter struct {
	*work
	memo  map[key]shape
	spent int
}

// A shape is how good the best tree of a part is, and its first cut.
type shape struct {
	depth  int
	early  int     // joins that are longer than the one that takes them in
	length float64 // of the first cut
	cut    chord
}

func (s shape) compare(t shape) int {
	return cmp.Or(s.depth-t.depth, s.early-t.early, cmp.Compare(rounded(s.length), rounded(t.length)))
}

// Limits of the search for the best tree: above, the most even cut is taken.
const (
	treeFaces  = 64     // in a part
	treeStart  = 20_000 // faces looked at, all in all
	treeEffort = 200    // and so many times the block's faces
	treeChords = 64     // cuts compared for the most even one
)

// best returns the shape of a part's tree.
func (t *planter) best(p part) shape {
	if len(p) == 1 {
		return shape{}
	}
	k := t.keyOf(p)
	if s, ok := t.memo[k]; ok {
		return s
	}
	chords := t.chords(p, nil)
	var s shape
	if len(p) > treeFaces || t.visited > t.spent {
		s = t.even(p, chords)
	} else {
		s = t.tryAll(p, chords)
	}
	t.memo[k] = s
	return s
}

func (t *planter) tryAll(p part, chords []chord) shape {
	var best shape
	least := bits.Len(uint(len(p) - 1))
	for i, c := range chords {
		l, r := t.split(p, c)
		if i > 0 && 1+bits.Len(uint(max(len(l), len(r))-1)) > best.depth {
			continue
		}
		if s := t.joined(c, l, r); i == 0 || s.compare(best) < 0 {
			best = s
		}
		if best.depth == least && best.early == 0 && i > 0 {
			break
		}
	}
	return best
}

// joined returns the shape of a tree whose first cut is c.
func (t *planter) joined(c chord, l, r part) shape {
	a, b := t.best(l), t.best(r)
	s := shape{depth: 1 + max(a.depth, b.depth), early: a.early + b.early, length: t.length(c), cut: c}
	for _, x := range [2]shape{a, b} {
		if rounded(x.length) > rounded(s.length) {
			s.early++
		}
	}
	return s
}

// even takes the cut that leaves the smallest larger part, then the longest.
func (t *planter) even(p part, chords []chord) shape {
	var best chord
	bestSize, bestLength := len(p)+1, 0.0
	for i, c := range chords {
		if i >= treeChords {
			break
		}
		l, r := t.split(p, c)
		n, length := max(len(l), len(r)), rounded(t.length(c))
		if n < bestSize || n == bestSize && length > bestLength {
			best, bestSize, bestLength = c, n, length
		}
	}
	l, r := t.split(p, best)
	return t.joined(best, l, r)
}

// plant returns the joins of a part in sewing order and appends its faces to
// order, those of each part of the tree together.
func (t *planter) plant(p part, joins []Join, order []int) ([]Join, []int) {
	if len(p) == 1 {
		return joins, append(order, int(p[0]))
	}
	s := t.best(p)
	l, r := t.split(p, s.cut)
	from := len(order)
	joins, order = t.plant(l, joins, order)
	middle := len(order)
	joins, order = t.plant(r, joins, order)
	return append(joins, Join{
		A: t.at[t.point(s.cut.seam, s.cut.from)], B: t.at[t.point(s.cut.seam, s.cut.to)],
		Left: order[from:middle:middle], Right: order[middle:len(order):len(order)],
		Level: s.depth,
	}), order
}

// plantTree returns the joins of all faces of a mesh that can be taken apart, in
// sewing order, and their depth.
func plantTree(m *mesh) ([]Join, int) {
	t := &planter{work: newWork(m), memo: map[key]shape{}, spent: treeStart + treeEffort*m.faces()}
	all := m.all()
	joins, _ := t.plant(all, make([]Join, 0, len(all)-1), make([]int, 0, len(all)))
	return joins, t.best(all).depth
}
