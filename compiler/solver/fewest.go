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
	of         *divided
	settler    *settler // nil if the block is not convex
	trimmer    *trimmer // nil until it is needed
	tangles    []tangle // of the part that is being solved
	home       []int32  // of a face of the piece that is improved: its section; else -1
	whole      *work    // without walls
	wholeFacts []fact
	looked     int // parts that other searches looked at
}

func (d *divided) solver(r *rules) *partSolver {
	w := newWork(d.mesh)
	s := &partSolver{of: d, whole: newWork(d.mesh)}
	if w.walls = d.walls; d.walls == nil {
		s.search = newSearch(w, nil, 0)
	} else {
		s.search = newSearch(w, d.walls.near, 0)
		s.settler = newSettler(d.mesh)
	}
	s.apart = make([]bool, d.faces())
	if s.rules = r; r != nil {
		r.search = s.search
	}
	return s
}

// share is the budget for a part: every face has the same.
func (s *partSolver) share(p part) int { return s.of.budget / s.faces() * len(p) }

// part solves a part. Its pieces are solved each for itself. Mostly their sections
// can be sewn to one another. Where they can't, what is tangled is solved anew.
func (s *partSolver) part(p part) solved {
	pieces := s.pieces(p)
	if s.settler == nil {
		return s.piece(p)
	}
	var out solved
	list := make([]solved, len(pieces))
	for i, q := range pieces {
		x := s.piece(q)
		list[i] = x
		out.sections = append(out.sections, x.sections...)
		out.clique = append(out.clique, x.clique...)
		out.bound += x.bound
	}
	s.tangles = s.tangles[:0]
	out.sections = s.settle(p, out.sections)
	if s.rules == nil && len(s.tangles) > 0 {
		r := newRaiser(s.near, pieces, list)
		for i, t := range s.tangles {
			out.bound += r.raise(int32(i+1), t)
		}
		if len(p) <= proofFaces {
			s.prove(p, &out)
		}
	}
	return out
}

// Limits of the search for a proof where tangles give none.
const (
	proofFaces  = 1024
	proofEffort = 500 // how often every face may be looked at
)

// prove searches a part as a whole for a better plan, or for the proof that there
// is none.
func (s *partSolver) prove(p part, out *solved) {
	cost := len(out.sections)
	if out.bound == cost {
		return
	}
	t := s.wholeSearch(min(s.share(p), proofEffort*len(p)))
	a := t.best(p, cost)
	if a.cost < cost {
		out.sections = t.collect(p, nil)
	}
	out.bound = max(out.bound, min(a.least, cost))
	s.looked += t.looked
}

// wholeSearch returns a search that does not take a part apart into pieces.
func (s *partSolver) wholeSearch(budget int) *search {
	t := newSearch(s.whole, s.near, budget)
	t.apart, t.rules, t.forcing, t.facts = s.apart, s.rules, s.of.walls, &s.wholeFacts
	return t
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
