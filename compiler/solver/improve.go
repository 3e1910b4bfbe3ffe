package solver

import "slices"

// Limits of the search for better sections of a piece around those that no
// certificate needs.
const (
	windowFaces  = 32  // are solved anew
	windowEffort = 150 // how often each of them may be looked at
	windowRounds = 4
)

// improve looks for a better division of a piece near its loose sections: those
// without a face in the clique. All others are needed, so it is there that one may
// be saved.
func (s *partSolver) improve(p part, out *solved) {
	if s.home == nil {
		s.home = make([]int32, s.faces())
		for f := range s.home {
			s.home[f] = -1
		}
	}
	for range windowRounds {
		before := len(out.sections)
		for i, x := range out.sections {
			for _, f := range x {
				s.home[f] = int32(i)
			}
		}
		for i := range before {
			if x := out.sections[i]; x != nil && s.marks(x) == 0 {
				s.window(x, out)
			}
		}
		out.sections = slices.DeleteFunc(out.sections, func(x part) bool { return x == nil })
		if len(out.sections) == before {
			break
		}
		if s.certify(p, out); len(out.clique) == len(out.sections) {
			break
		}
	}
	for _, f := range p {
		s.home[f] = -1
	}
}

// certify finds the clique of a piece's sections.
func (s *partSolver) certify(p part, out *solved) {
	for _, f := range out.clique {
		s.apart[f] = false
	}
	if more := s.near.clique(p, out.sections); len(more) > len(out.clique) {
		out.clique = more
	}
	for _, f := range out.clique {
		s.apart[f] = true
	}
}

// window solves the sections around one anew. Of those that it replaces, nothing
// stays in the list.
func (s *partSolver) window(x part, out *solved) {
	taken := []int32{s.home[x[0]]}
	w := append(make(part, 0, 2*windowFaces), x...)
	for i := 0; i < len(w); i++ {
		for _, h := range s.halves(w[i]) {
			k := s.home[s.other(h)]
			if k >= 0 && !slices.Contains(taken, k) && len(w)+len(out.sections[k]) <= windowFaces {
				taken = append(taken, k)
				w = append(w, out.sections[k]...)
			}
		}
	}
	s.spent = s.visited + windowEffort*len(w)
	if a := s.best(w, len(taken)); a.cost >= len(taken) {
		return
	}
	for _, k := range taken {
		out.sections[k] = nil
	}
	for _, x := range s.collect(w, nil) {
		for _, f := range x {
			s.home[f] = int32(len(out.sections))
		}
		out.sections = append(out.sections, x)
	}
}
