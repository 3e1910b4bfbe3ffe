package solver

import "slices"

// A fewest is the least number of sections of a block, and how sure that is.
type fewest struct {
	sections []part
	bound    int
	clique   []int32
	looked   int
	budget   int
	walls    *walls // nil if there is one section, or the block is not convex
	near     *grower
}

// fewestSections divides the whole block into the fewest sections that it finds.
func fewestSections(m *mesh, budget int) fewest {
	k := newWork(m)
	all := m.all()
	if k.peel(all, -1) {
		return fewest{sections: []part{all}, bound: 1, clique: []int32{0}, looked: 1}
	}
	f := fewest{budget: budget}
	if !m.convex {
		f.solve(newSearch(k, nil, 0), all)
		f.looked = k.looked
		return f
	}
	k.walls = newWalls(m)
	f.walls, f.near = k.walls, k.walls.near
	s := newSearch(k, f.near, 0)
	block, parts := forcedParts(m, f.walls.always)
	g := newGuide(s, block)
	for _, p := range parts {
		f.solvePart(g, p)
	}
	slices.Sort(f.clique)
	f.looked += k.looked
	return f
}

// solvePart adds the sections of a convex part. Its pieces are solved each for
// itself. Mostly their sections can be sewn to one another; if not, other plans
// for them are looked for, and where that costs more, and the part is not too
// large, a plan for all of it at once.
func (f *fewest) solvePart(g *guide, p part) {
	pieces := g.pieces(p)
	bound, from, clique := f.bound, len(f.sections), len(f.clique)
	for _, q := range pieces {
		f.solve(g.search, q)
	}
	if g.sewable(p, f.sections[from:]) {
		return
	}
	f.sections = append(f.sections[:from], g.carry(pieces)...)
	if len(f.sections)-from > f.bound-bound && len(p) <= wholeFaces {
		s := newSearch(newWork(g.mesh), f.near, f.budget/g.faces()*len(p))
		for _, c := range f.clique[clique:] {
			s.apart[c] = true
		}
		a := s.best(p)
		if a.cost < len(f.sections)-from {
			f.sections = s.collect(p, f.sections[:from])
		}
		f.bound = max(f.bound, bound+a.least)
		f.looked += s.looked
	}
}

// wholeFaces is up to how many faces a part is searched without taking it apart
// into pieces, where those don't settle it.
const wholeFaces = 128

// solve adds the sections of one piece: first by the most promising cuts alone.
// Only if no certificate shows that this is the best are others tried.
func (f *fewest) solve(s *search, p part) {
	s.spent = s.visited + f.budget/s.faces()*len(p)
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
