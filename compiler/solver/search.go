package solver

import "slices"

// DefaultBudget is how many patches a search may look at, each as often as it is
// looked at: about half a second's work, far more than patterns need.
const DefaultBudget = 20_000_000

// A search finds the fewest sections that a part can be cut into, by looking
// at every cut that could matter and remembering every part it has seen.
type search struct {
	*reducer
	rules *rules // nil: none
	memo  map[key]answer
	spent int // visited when the budget runs out
}

// A key names a part, up to a chance of one in 2^128.
type key [2]uint64

// An answer is the least cost of a part and the first step that leads to it.
type answer struct {
	cost  int
	exact bool // else cost is only what was found
	step  step
	cut   chord // if step is cutting
}

type step int8

const (
	whole    step = iota // the part is one section
	reducing             // reduce divides it
	cutting
)

// never is the cost of what can't be sewn.
const never = 1 << 40

func newSearch(w *work, budget int) *search {
	return &search{reducer: &reducer{work: w, degree: make([]int32, w.faces())},
		memo: map[key]answer{}, spent: w.visited + budget}
}

// keyOf adds up one random number for each face, so that the order of the faces
// doesn't matter.
func keyOf(p part) key {
	var k key
	for _, f := range p {
		x := mix(uint64(f) + 0x9e3779b97f4a7c15)
		k[0] += x
		k[1] += mix(x + 0x9e3779b97f4a7c15)
	}
	return k
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

// reducible divides a part by the steps that cost nothing.
func (s *search) reducible(p part) (reduction, bool) {
	if !s.convex {
		return reduction{}, false
	}
	red := s.reduce(p, s.rules == nil)
	return red, len(red.parts) > 1 || len(red.tied) > 0
}

// solve returns the least cost of a part.
func (s *search) solve(p part) answer {
	k := keyOf(p)
	if a, ok := s.memo[k]; ok {
		return a
	}
	a := answer{cost: s.section(p), exact: true}
	if a.cost > 1 {
		if red, ok := s.reducible(p); ok {
			a.cost, a.step = 0, reducing
			for _, q := range red.parts {
				b := s.solve(q)
				a.cost, a.exact = a.cost+b.cost, a.exact && b.exact
			}
		} else {
			a = s.branch(p, a)
		}
	}
	s.memo[k] = a
	return a
}

// An option is a cut and the two parts it leaves; if one of them is one section,
// it is a.
type option struct {
	cut     chord
	a, b    part
	section bool
}

// branch tries the cuts of a part that reduce can't divide. What it costs as one
// section is the answer so far.
func (s *search) branch(p part, best answer) answer {
	options, final := s.options(p)
	if final.cost > 0 && final.cost < best.cost {
		return final
	}
	greedy := s.visited > s.spent
	if greedy && best.cost < never {
		best.exact = false
		return best
	}
	for i, o := range options {
		least := 4 // a side that is no section needs two
		if o.section {
			least = 3 // not 2: options would have said so
		}
		if least >= best.cost {
			continue
		}
		if greedy && i > 0 {
			best.exact = false
			break
		}
		a, b := s.solve(o.a), s.solve(o.b)
		if c := a.cost + b.cost; c < best.cost {
			best.cost, best.step, best.cut = c, cutting, o.cut
		}
		best.exact = best.exact && a.exact && b.exact
	}
	return best
}

// options lists the cuts of a part that need be tried, the most promising first.
// If one leaves two sections, that is the final answer. Of the cuts that leave a
// section on one side only those with the largest such sides matter
// (THEORY.md 8).
func (s *search) options(p part) (list []option, final answer) {
	for _, c := range s.chords(p, nil) {
		o := option{cut: c}
		o.a, o.b = s.split(p, c)
		if s.rules != nil && !s.rules.allows(o.a, o.b) {
			continue
		}
		a, b := s.section(o.a), s.section(o.b)
		if a == 1 && b == 1 {
			return nil, answer{cost: 2, exact: true, step: cutting, cut: c}
		}
		if o.section = a == 1 || b == 1; b == 1 {
			o.a, o.b = o.b, o.a
		}
		list = append(list, o)
	}
	slices.SortStableFunc(list, func(x, y option) int {
		switch {
		case x.section && y.section:
			return len(y.a) - len(x.a)
		case x.section:
			return -1
		case y.section:
			return 1
		}
		return max(len(x.a), len(x.b)) - max(len(y.a), len(y.b))
	})
	if s.convex {
		list = s.maximal(list)
	}
	return list, answer{}
}

// maximal drops the cuts whose section lies inside another's.
func (s *search) maximal(list []option) []option {
	kept := list[:0:0]
	for _, o := range list {
		inside := false
		for _, k := range kept {
			if o.section && k.section && s.contains(k.a, o.a) {
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
	s.stamp++
	for _, f := range p {
		s.in[f] = s.stamp
	}
	for _, f := range q {
		if s.in[f] != s.stamp {
			return false
		}
	}
	return true
}

// collect adds the sections of a part that was solved. A tied face comes with the
// section of the face it is tied to.
func (s *search) collect(p part, list []part) []part {
	switch a := s.memo[keyOf(p)]; a.step {
	case cutting:
		l, r := s.split(p, a.cut)
		return s.collect(r, s.collect(l, list))
	case reducing:
		red, _ := s.reducible(p)
		from := len(list)
		for _, q := range red.parts {
			list = s.collect(q, list)
		}
		return untie(list, from, red.tied)
	}
	return append(list, p)
}

// untie adds tied faces to the sections list[from:].
func untie(list []part, from int, tied []tie) []part {
	if len(tied) == 0 {
		return list
	}
	where := map[int32]int{} // for look-up only
	for i := from; i < len(list); i++ {
		for _, f := range list[i] {
			where[f] = i
		}
	}
	for i := len(tied) - 1; i >= 0; i-- {
		t := tied[i]
		k := where[t.to]
		where[t.face] = k
		list[k] = append(list[k], t.face)
	}
	return list
}
