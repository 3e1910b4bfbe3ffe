package solver

import (
	"cmp"
	"math/bits"
	"slices"
)

// An option is a cut that may be made first.
type option struct {
	cut
	section   bool // the side taken off is one section
	sideLeast int  // what the side costs at least
	restLeast int  // what remains costs at least
}

// branch tries the cuts of a part without walls until one leads to a cost within
// the limit. Every bound in it holds, whether the budget lasts or not.
func (s *search) branch(p part, a answer, limit int) answer {
	a.least = max(a.least, s.marks(p))
	if limit = min(limit, a.cost-1); a.least > limit {
		return a
	}
	if s.visited > s.spent && a.cost < never {
		return a
	}
	hurried := limit >= anything || s.visited > s.spent
	halved := s.visited > s.spent && len(p) > halvedFaces
	var list []option
	if halved {
		list = s.halving(p)
	} else {
		list = s.options(p)
	}
	least := never
	for i, o := range list {
		if o.sideLeast+o.restLeast > limit {
			least = min(least, o.sideLeast+o.restLeast)
			continue
		}
		if i > 0 && s.visited > s.spent {
			return a
		}
		x := s.takeOff(o, limit-o.restLeast, hurried)
		if x.least+o.restLeast > limit {
			least = min(least, x.least+o.restLeast)
			continue
		}
		y := s.solve(s.without(p, o.side), limit-x.cost)
		if c := x.cost + y.cost; c < a.cost {
			a.cost, a.step, a.cut = c, cutting, o.chord
			if c <= limit {
				a.least = min(a.least, c)
				return a
			}
		}
		least = min(least, x.least+max(y.least, o.restLeast))
	}
	if !halved { // else not all cuts were looked at
		a.least = max(a.least, min(least, a.cost))
	}
	return a
}

// halvedFaces is up to how many faces all cuts of a part are looked at when the
// budget has run out. Above, one cut must do, or the time would grow with the cube.
const halvedFaces = 128

// halving returns the cut that parts most evenly.
func (s *search) halving(p part) []option {
	total, best := s.marks(p), option{}
	for _, c := range s.cuts(p) {
		if min(len(c.side), len(p)-len(c.side)) > min(len(best.side), len(p)-len(best.side)) &&
			(s.rules == nil || s.rules.allows(c.side, s.without(p, c.side))) {
			n := s.marks(c.side)
			best = option{cut: c, sideLeast: max(1, n), restLeast: max(1, total-n)}
		}
	}
	if best.side == nil {
		return nil
	}
	return []option{best}
}

// takeOff solves the side that an option takes off. Unless hurried, what it costs is
// the least or above the limit.
func (s *search) takeOff(o option, limit int, hurried bool) answer {
	if o.section {
		return answer{least: 1, cost: 1}
	}
	x := s.solve(o.side, 0)
	if hurried {
		return s.solve(o.side, limit)
	}
	// A limit that was tried in vain may leave the bound below it; from the cost on
	// there is nothing to look for.
	for l := x.least; x.least < x.cost && l < x.cost && l <= limit && s.visited <= s.spent; l++ {
		x = s.solve(o.side, l)
	}
	return x
}

// marks counts the faces of a part that can't share sections.
func (s *search) marks(p part) int {
	if s.apart == nil {
		return 0
	}
	n := 0
	for _, f := range p {
		if s.apart[f] {
			n++
		}
	}
	return n
}

// options lists the cuts of a part that need be tried, the most promising first.
// Of those that take off a section only the largest matter, and one of them alone
// if it is separate (THEORY.md 7).
func (s *search) options(p part) []option {
	total := s.marks(p)
	var list []option
	for _, c := range s.cuts(p) {
		o := option{cut: c}
		if s.rules != nil && !s.rules.allows(c.side, s.without(p, c.side)) {
			continue
		}
		n := s.marks(c.side)
		o.restLeast = max(1, total-n)
		k := s.known(c)
		if o.section = k.section; o.section {
			o.sideLeast = 1
			if k.separate {
				return []option{o}
			}
		} else {
			o.sideLeast = max(2, n)
		}
		list = append(list, o)
	}
	slices.SortStableFunc(list, func(x, y option) int {
		return cmp.Or(x.sideLeast+x.restLeast-y.sideLeast-y.restLeast, x.sideLeast-y.sideLeast, len(y.side)-len(x.side))
	})
	if s.convex {
		list = s.maximal(list)
	}
	return list
}

// A fact is what is known of a cut's side, whatever the rest of the part is.
type fact struct {
	key               key
	section, separate bool
}

// known tells whether a cut's side is one section and, if so, whether the cut is
// separate. It remembers what was asked last.
func (s *search) known(c cut) fact {
	k := s.keyOf(c.side)
	k[0] += mix(uint64(s.edge(c.seam, c.from))<<32 | uint64(c.to))
	if s.facts == nil {
		s.facts = new([]fact)
	}
	if *s.facts == nil {
		*s.facts = make([]fact, 1<<bits.Len(uint(min(s.faces(), maxFacts))))
	}
	at := &(*s.facts)[k[0]&uint64(len(*s.facts)-1)]
	if at.key != k {
		*at = fact{key: k, section: s.section(c.side) == 1}
		at.separate = at.section && s.near != nil && s.separate(c)
	}
	return *at
}

// maxFacts bounds the facts that are remembered.
const maxFacts = 1 << 13

// separate reports whether some face of a cut's side can share a section with
// nothing beyond the cut.
func (s *search) separate(c cut) bool {
	s.sides += 2
	for _, f := range c.side {
		s.marked[f] = s.sides
	}
	beyond := s.beyond[:0]
	for i := c.from; i < c.to; i++ {
		for _, f := range [2]int32{s.left[s.edge(c.seam, i)], s.right[s.edge(c.seam, i)]} {
			if s.marked[f] != s.sides {
				beyond = append(beyond, f)
			}
		}
	}
	s.beyond = beyond
	for _, g := range beyond {
		s.marked[g] = s.sides + 1
	}
	for _, f := range c.side {
		if !s.besides(f) && !slices.ContainsFunc(beyond, func(g int32) bool { return s.near.share(f, g) }) {
			return true
		}
	}
	return false
}

// besides reports whether a face can share a section with a neighbour beyond the
// cut.
func (s *search) besides(f int32) bool {
	for _, h := range s.halves(f) {
		if g := s.other(h); s.marked[g] == s.sides+1 && s.near.share(f, g) {
			return true
		}
	}
	return false
}

// maximal drops the cuts whose section lies inside another's.
func (s *search) maximal(list []option) []option {
	kept := list[:0:0]
	for _, o := range list {
		inside := false
		for _, k := range kept {
			if o.section && k.section && s.contains(k.side, o.side) {
				inside = true
				break
			}
		}
		if !inside {
			kept = append(kept, o)
		}
	}
	return kept
}

func (s *search) contains(p, q part) bool {
	if len(p) < len(q) {
		return false
	}
	s.sides += 2
	for _, f := range p {
		s.marked[f] = s.sides
	}
	for _, f := range q {
		if s.marked[f] != s.sides {
			return false
		}
	}
	return true
}
