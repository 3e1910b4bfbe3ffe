package solver

import "slices"

// DefaultBudget is how many patches a search may look at, each as often as it is
// looked at: about a quarter of a second's work, far more than patterns need. Most
// steps have a smaller one of their own.
const DefaultBudget = 5_000_000

// A search finds the fewest sections that a part can be cut into. It remembers
// what it found out about every part it has seen.
type search struct {
	*work
	rules   *rules  // nil: none
	near    *grower // nil if the block is not convex
	apart   []bool  // of a face: no two of these share a section; may be nil
	forcing *walls  // if parts are only cut along chords; else nil
	memo    map[key]answer
	spent   int // visited when the budget runs out

	beyond []int32
	facts  *[]fact // see known; searches of one kind may share them
	shaper *shaper
	shapes map[key]likeness
	hints  map[uint64]hint
}

// A key names a part, up to a chance of one in 2^128.
type key [2]uint64

// An answer is what is known of a part.
type answer struct {
	least int // it costs this at least
	cost  int // and this was found
	step  step
	cut   chord // if step is cutting
}

// A step is how an answer's cost is reached.
type step int8

const (
	whole   step = iota // as one section
	parting             // in the pieces between walls, which is always best
	cutting
)

// never is the cost of what can't be sewn.
const never = 1 << 40

func newSearch(w *work, near *grower, budget int) *search {
	return &search{work: w, near: near, memo: map[key]answer{}, spent: w.visited + budget}
}

// keyOf adds up one random number for each face, so that the order of the faces
// doesn't matter.
func (m *mesh) keyOf(p part) key {
	var k key
	for _, f := range p {
		k[0] += m.random[f][0]
		k[1] += m.random[f][1]
	}
	return k
}

// randoms makes the numbers that keys are sums of.
func randoms(n int) []key {
	list := make([]key, n)
	for f := range list {
		x := mix(uint64(f) + 0x9e3779b97f4a7c15)
		list[f] = key{x, mix(x + 0x9e3779b97f4a7c15)}
	}
	return list
}

// section returns what a part costs as one section: 1, more if it is larger than
// wished, never if it can't be one.
func (s *search) section(p part) int {
	if s.rules != nil {
		return s.rules.cost(p)
	}
	if s.peel(p, -1) {
		return 1
	}
	return never
}

// pieces takes a part apart along its walls, or along chords that are joins in
// every plan if it is searched as a whole.
func (s *search) pieces(p part) []part {
	w := s.work
	switch {
	case s.forcing != nil:
		return w.forcedParts(p, s.forcing)
	case w.walls == nil:
		return []part{p}
	}
	w.enter(p)
	var list []part
	for _, f := range p {
		if w.seen[f] != w.stamp {
			list = append(list, w.flood(nil, f))
		}
	}
	return list
}

// anything is the limit of a search that takes the first plan that it finds.
const anything = never - 1

// best returns the least cost of a part, if it is below that of a plan that is
// known, unless the budget runs out before: then its answer's least is below
// both. If none is known, some plan is found in any case.
func (s *search) best(p part, known int) answer {
	limit := 0
	if known == never {
		limit = anything
	}
	a := s.solve(p, limit)
	for limit := a.least; a.least < min(a.cost, known) && limit < min(a.cost, known) && s.visited <= s.spent; limit++ {
		a = s.solve(p, limit)
	}
	return a
}

// solve looks for a way to cut a part that costs no more than limit. If there is
// none, the answer's least is above the limit, or the budget has run out.
func (s *search) solve(p part, limit int) answer {
	k := s.keyOf(p)
	a, known := s.memo[k]
	if !known {
		a = s.first(p)
	}
	switch open := a.least < a.cost && a.least <= limit && limit < a.cost; {
	case !open && known:
		return a
	case !open:
	case a.step == parting:
		a = s.sum(p, a, limit)
	default:
		a = s.alike(p, k, a, limit)
	}
	s.memo[k] = a
	return a
}

// first tells what is plain about a part.
func (s *search) first(p part) answer {
	cost := s.section(p)
	if cost == 1 {
		return answer{least: 1, cost: 1}
	}
	if len(p) == 1 {
		return answer{least: cost, cost: cost}
	}
	if list := s.pieces(p); len(list) > 1 {
		return answer{least: len(list), cost: never, step: parting}
	}
	return answer{least: 2, cost: cost}
}

// sum solves the pieces of a part, each within what the others leave of limit.
func (s *search) sum(p part, a answer, limit int) answer {
	list := s.pieces(p)
	answers := make([]answer, len(list))
	slack := limit
	for i, q := range list {
		answers[i] = s.solve(q, 0)
		slack -= answers[i].least
	}
	for i, q := range list {
		if slack < 0 {
			break
		}
		least := answers[i].least
		answers[i] = s.solve(q, least+slack)
		slack -= min(answers[i].cost, never) - least
	}
	least, cost := 0, 0
	for _, b := range answers {
		least, cost = least+b.least, min(cost+b.cost, never)
	}
	a.least, a.cost = max(a.least, least), min(a.cost, cost)
	return a
}

// A likeness is the answer for all parts of one shape; the cut is known by its
// outermost edges, in the order in which the shape lists them.
type likeness struct {
	answer
	edges [2]int
}

// A hint is the first part that was met with some mark. Parts of one shape have
// one mark, and most marks are met once: only if one is met again are its parts
// named.
type hint struct {
	part  part
	key   key
	named bool
}

// alike is branch, but knows what was found for parts of the same shape. Wishes
// look at more than the shape.
func (s *search) alike(p part, k key, a answer, limit int) answer {
	if s.rules != nil || !s.convex {
		return s.branch(p, a, limit)
	}
	if s.shaper == nil {
		s.shaper, s.shapes, s.hints = newShaper(s.work), map[key]likeness{}, map[uint64]hint{}
	}
	mark := s.shaper.mark(p)
	h, met := s.hints[mark]
	if !met {
		s.hints[mark] = hint{part: p, key: k}
		return s.branch(p, a, limit)
	}
	if !h.named {
		if h.key == k {
			return s.branch(p, a, limit)
		}
		s.hints[mark] = hint{named: true}
		if known, ok := s.memo[h.key]; ok {
			name, edges := s.shaper.name(h.part)
			s.shapes[name] = s.likeness(known, edges)
		}
	}
	name, edges := s.shaper.name(p)
	if l, ok := s.shapes[name]; ok {
		a.least = max(a.least, l.least)
		if l.cost < a.cost {
			e, f := edges[l.edges[0]], edges[l.edges[1]]
			seam := s.seam[e]
			a.cost, a.step = l.cost, cutting
			a.cut = chord{seam, min(e, f) - s.mesh.first[seam], max(e, f) - s.mesh.first[seam] + 1}
		}
		if a.least >= a.cost || a.least > limit || a.cost <= limit {
			return a
		}
	}
	edges = slices.Clone(edges)
	a = s.branch(p, a, limit)
	s.shapes[name] = s.likeness(a, edges)
	return a
}

// likeness returns an answer for all parts of a shape, given the edges of one.
func (s *search) likeness(a answer, edges []int32) likeness {
	l := likeness{answer: a}
	if a.step == cutting {
		l.edges[0] = slices.Index(edges, s.edge(a.cut.seam, a.cut.from))
		l.edges[1] = slices.Index(edges, s.edge(a.cut.seam, a.cut.to-1))
	}
	return l
}

// collect adds the sections of a part that was solved.
func (s *search) collect(p part, list []part) []part {
	switch a := s.solve(p, anything); a.step {
	case cutting:
		l, r := s.split(p, a.cut)
		return s.collect(r, s.collect(l, list))
	case parting:
		for _, q := range s.pieces(p) {
			list = s.collect(q, list)
		}
		return list
	}
	return append(list, p)
}
