package solver

import "slices"

// A fewest is the least number of sections of a block, and how sure that is.
type fewest struct {
	sections []part
	bound    int
	clique   []int32
	looked   int
	walls    *walls // nil if there is one section, or the block is not convex
	near     *grower
}

// fewestSections divides the whole block into the fewest sections that it finds.
func fewestSections(m *mesh, budget int) fewest {
	f := fewest{}
	k := newWork(m)
	if all := m.all(); k.peel(all, -1) {
		return fewest{sections: []part{all}, bound: 1, clique: []int32{0}, looked: 1}
	}
	if m.convex {
		k.walls = newWalls(m)
		f.walls, f.near = k.walls, k.walls.near
	}
	s := newSearch(k, f.near, 0)
	pieces := k.pieces(m.all())
	for _, p := range pieces {
		s.spent = s.visited + budget/m.faces()*len(p)
		f.solve(s, p)
	}
	slices.Sort(f.clique)
	// The pieces were solved each for itself. Mostly their sections can be
	// sewn to one another.
	if m.convex && percolate(m.contract(f.sections)).uncut > 0 {
		f.sections = s.carry(pieces)
		if len(f.sections) > f.bound && m.faces() <= wholeFaces {
			f.whole(m, budget)
		}
	}
	f.looked += k.looked
	return f
}

// wholeFaces is up to how many faces a block is searched as a whole, where its
// pieces don't settle it.
const wholeFaces = 128

// whole searches the block without taking it apart.
func (f *fewest) whole(m *mesh, budget int) {
	s := newSearch(newWork(m), f.near, budget)
	for _, g := range f.clique {
		s.apart[g] = true
	}
	a := s.best(m.all())
	if a.cost < len(f.sections) {
		f.sections = s.collect(m.all(), nil)
	}
	f.bound = max(f.bound, a.least)
	f.looked += s.looked
}

// solve adds the sections of one piece: first by the most promising cuts alone.
// Only if no certificate shows that this is the best are others tried.
func (f *fewest) solve(s *search, p part) {
	a := s.solve(p, anything)
	sections, clique := s.collect(p, nil), p[:1]
	if a.cost > 1 && f.near != nil {
		clique = f.near.spread(sections)
	}
	if len(clique) < a.cost && f.near != nil && len(p) <= cliqueFaces {
		clique = f.near.largestClique(p)
	}
	if len(clique) < a.cost {
		for _, g := range clique {
			s.apart[g] = true
		}
		b := s.best(p)
		if b.cost < a.cost {
			sections = s.collect(p, nil)
			if f.near != nil {
				clique = f.near.spread(sections)
			}
		}
		a = b
	}
	f.bound += max(len(clique), a.least)
	f.sections, f.clique = append(f.sections, sections...), append(f.clique, clique...)
}
