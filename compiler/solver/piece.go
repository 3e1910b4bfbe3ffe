package solver

// trimFaces is from how many faces on a piece is trimmed before it is searched.
const trimFaces = 64

// exactFaces is up to how many faces a piece is searched for its best plan.
const exactFaces = 128

// piece solves a piece, first by the most promising cuts alone. Only if no
// certificate shows that this is the best are others tried.
func (s *partSolver) piece(p part) solved {
	out := solved{sections: s.quick(p), clique: p[:1]}
	cost := len(out.sections)
	if s.rules != nil {
		cost = s.rules.total(out.sections)
	}
	certified := s.near != nil && s.rules == nil
	if cost > 1 && certified {
		if s.certify(p, &out); len(out.clique) < cost {
			s.improve(p, &out)
		}
		cost = len(out.sections)
	}
	out.bound = len(out.clique)
	if len(out.clique) < cost && (len(p) <= exactFaces || s.near == nil) {
		s.spent = s.visited + s.share(p)
		b := s.best(p, cost)
		out.bound = max(out.bound, min(b.least, cost))
		if b.cost < cost {
			out.sections = s.collect(p, nil)
			if certified && len(out.clique) < b.cost {
				s.certify(p, &out)
				out.bound = max(out.bound, len(out.clique))
			}
		}
	}
	return out
}

// quick divides a piece without looking back.
func (s *partSolver) quick(p part) []part {
	if len(p) <= trimFaces || s.near == nil || s.rules != nil {
		s.spent = s.visited + s.share(p)
		s.search.solve(p, anything)
		return s.collect(p, nil)
	}
	if s.trimmer == nil {
		s.trimmer = newTrimmer(s.search)
	}
	list, rest := s.trimmer.trim(p)
	for _, q := range rest {
		for _, x := range s.inTwo(q) {
			list = append(list, s.quick(x)...)
		}
	}
	return list
}

// inTwo takes a piece apart where no section can be taken off: in pieces, if it
// does not hang together; else in two and what pieces that leaves.
func (s *partSolver) inTwo(p part) []part {
	list := s.pieces(p)
	if len(list) > 1 || len(p) <= trimFaces {
		return list
	}
	o := s.halving(p)
	if len(o) == 0 { // then nothing but single patches is sure to do
		return singles(p)
	}
	return append(s.pieces(o[0].side), s.pieces(s.without(p, o[0].side))...)
}

func singles(p part) []part {
	list := make([]part, len(p))
	for i := range p {
		list[i] = p[i : i+1 : i+1]
	}
	return list
}
