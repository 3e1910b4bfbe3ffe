package solver

import "slices"

// A divided is a block taken apart as far as every plan must: see forcedParts.
type divided struct {
	*mesh
	budget int
	walls  *walls // nil if the block is not convex
	cuts   *work  // with the joins that every plan has
	parts  []part // what those leave
}

func divide(m *mesh, budget int) *divided {
	d := &divided{mesh: m, budget: budget, parts: []part{m.all()}}
	if m.convex {
		d.walls = newWalls(m)
		d.cuts = newWork(m)
		d.parts = d.cuts.forcedParts(m.all(), d.walls)
	}
	return d
}

// A solved is the least number of sections of a part or block, and how sure that
// is: there can't be fewer than bound, nor than faces in the clique, no two of
// which can share a section.
type solved struct {
	sections []part
	bound    int
	clique   []int32
}

// A partSolver solves the parts of a divided block.
type partSolver struct {
	*search
	of     *divided
	guide  *guide
	looked int // parts that other searches looked at
}

func (d *divided) solver(r *rules) *partSolver {
	w := newWork(d.mesh)
	s := &partSolver{of: d}
	if w.walls = d.walls; d.walls == nil {
		s.search = newSearch(w, nil, 0)
	} else {
		s.search = newSearch(w, d.walls.near, 0)
		s.guide = newGuide(s.search, d.cuts)
	}
	if s.rules = r; r != nil {
		r.search = s.search
	}
	return s
}

// share is the budget for a part: every face has the same.
func (s *partSolver) share(p part) int { return s.of.budget / s.faces() * len(p) }

// part solves a part. Its pieces are solved each for itself. Mostly their sections
// can be sewn to one another; if not, other plans for them are looked for, and
// where that costs more, and the part is not too large, a plan for all of it at
// once.
func (s *partSolver) part(p part) solved {
	var out solved
	pieces := s.pieces(p)
	for _, q := range pieces {
		x := s.piece(q)
		out.sections = append(out.sections, x.sections...)
		out.clique = append(out.clique, x.clique...)
		out.bound += x.bound
	}
	if s.guide == nil || s.guide.sewable(p, out.sections) {
		return out
	}
	out.sections = s.guide.carry(pieces)
	// Under wishes a piece may be left whole that other pieces' seams would have to
	// cut: then only a plan for all of the part at once will do.
	carried := s.rules == nil || s.guide.sewable(p, out.sections)
	if cost := s.cost(out.sections); !carried || cost > out.bound && len(p) <= wholeFaces {
		t := newSearch(newWork(s.mesh), s.near, s.share(p))
		t.apart, t.rules, t.forcing = s.apart, s.rules, s.of.walls
		a := t.best(p)
		if !carried || a.cost < cost {
			out.sections = t.collect(p, nil)
		}
		out.bound = max(out.bound, a.least)
		s.looked += t.looked
	}
	return out
}

// wholeFaces is up to how many faces a part is searched without taking it apart
// into pieces, where those don't settle it: the time grows with the square.
const wholeFaces = 1024

func (s *partSolver) cost(sections []part) int {
	if s.rules == nil {
		return len(sections)
	}
	cost := 0
	for _, p := range sections {
		cost += s.rules.cost(p)
	}
	return cost
}

// piece solves a piece, first by the most promising cuts alone. Only if no
// certificate shows that this is the best are others tried.
func (s *partSolver) piece(p part) solved {
	s.spent = s.visited + s.share(p)
	a := s.search.solve(p, anything)
	out := solved{sections: s.collect(p, nil), clique: p[:1]}
	if a.cost > 1 && s.near != nil && s.rules == nil {
		out.clique = s.near.clique(p, out.sections)
		for _, f := range out.clique {
			s.apart[f] = true
		}
	}
	if len(out.clique) < a.cost {
		b := s.best(p)
		if b.cost < a.cost {
			out.sections = s.collect(p, nil)
			if s.near != nil && s.rules == nil && len(out.clique) < b.cost {
				out.clique = s.near.clique(p, out.sections)
			}
		}
		a = b
	}
	out.bound = max(len(out.clique), a.least)
	return out
}

// fewest divides a whole block into the fewest sections that it finds.
func (d *divided) fewest() (solved, int) {
	s := d.solver(nil)
	var out solved
	for _, p := range d.parts {
		x := s.part(p)
		out.sections = append(out.sections, x.sections...)
		out.clique = append(out.clique, x.clique...)
		out.bound += x.bound
	}
	slices.Sort(out.clique)
	return out, s.search.looked + s.looked
}
