package solver

// knotFaces is up to how many faces a knot is solved as a whole.
const knotFaces = 256

// settle makes sections sewable.
func (s *partSolver) settle(p part, sections []part) []part {
	knots, list := s.settler.knots(p, sections)
	for _, k := range knots {
		list = append(list, s.untie(k)...)
	}
	return list
}

// untie solves a knot.
func (s *partSolver) untie(k knot) []part {
	if len(k.part) <= knotFaces {
		t := s.wholeSearch(s.share(k.part))
		if a := t.best(k.part, never); a.cost < never {
			if a.least > len(k.sections) {
				s.tangles = append(s.tangles, tangle{k.part, a.least})
			}
			s.looked += t.looked
			return t.collect(k.part, nil)
		}
	}
	a, b := s.settler.halve(k, func(a, b part) bool { return s.rules == nil || s.rules.allows(a, b) })
	return append(s.resolve(a, k.sections), s.resolve(b, k.sections)...)
}

// againFaces is up to how many faces what was cut is solved again.
const againFaces = 128

// resolve solves half of a knot. Only pieces of which sections were cut are solved
// again.
func (s *partSolver) resolve(p part, sections []part) []part {
	list, cut := s.settler.within(p, sections)
	if len(cut) == 0 {
		return s.settle(p, list)
	}
	for i, x := range append(list, cut...) {
		for _, f := range x {
			s.settler.label[f] = int32(i)
		}
	}
	list = append(list, cut...)
	whole := len(list) - len(cut)
	var made []part
	for _, q := range s.pieces(p) {
		var old []part
		touched := false
		for _, f := range q {
			if i := s.settler.label[f]; list[i][0] == f {
				old = append(old, list[i])
				touched = touched || int(i) >= whole
			}
		}
		if touched && len(q) <= againFaces {
			if again := s.quick(q); s.rules != nil || len(again) < len(old) {
				old = again
			}
		}
		made = append(made, old...)
	}
	return s.settle(p, made)
}
