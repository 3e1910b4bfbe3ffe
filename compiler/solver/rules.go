package solver

// rules are wishes as a search needs them.
type rules struct {
	*search
	p      *Partition
	tracer *tracer
	wishes Wishes
	group  []int32 // of a face: a face of the set that it must share a section with, or -1
	firsts []bool  // of a face: must be the first of its section
	home   []int32 // of a face: which of the sets that may not share a section it is in, plus 1; 0 for none; nil if there are none
	joins  []bool  // of an edge: a join must follow it; nil if of none
	mark   []int   // of a group: stamp
	stamp  int
	dear   int // what a section that is larger than wished costs more, where it is to be avoided
}

// What a section costs that is larger than wished, in sections: a log cabin of
// forty logs can only be divided into twenty-one sections, of which twenty are
// one log, and nobody wants that. Up to twice the number of sections that would
// do by size alone is worth while; a section too large for the sheet counts as
// four, which is what it takes to glue one from parts.
const (
	overCost  = 2
	gluedCost = 4
)

// cost returns what a part costs as one section.
func (r *rules) cost(p part) int {
	if !r.can(p) {
		return never
	}
	cost := r.oversize(len(p))
	if !r.fits(p) {
		cost = max(cost, r.unfit())
	}
	if cost > 1 {
		cost += r.dear
	}
	return cost
}

// total returns what sections cost.
func (r *rules) total(sections []part) int {
	cost := 0
	for _, p := range sections {
		cost += r.cost(p)
	}
	return cost
}

// can reports whether a part can be one section at all.
func (r *rules) can(p part) bool {
	if r.joins != nil && r.joined(p) {
		return false
	}
	if r.home != nil && r.mixed(p) {
		return false
	}
	last := int32(-1)
	for _, f := range p {
		if r.firsts[f] {
			if last >= 0 {
				return false
			}
			last = f
		}
	}
	return r.peel(p, last)
}

// mixed reports whether a part holds faces of two sets that may not share a section.
func (r *rules) mixed(p part) bool {
	home := int32(0)
	for _, f := range p {
		switch h := r.home[f]; {
		case h == 0 || h == home:
		case home != 0:
			return true
		default:
			home = h
		}
	}
	return false
}

// joined reports whether an edge that a join must follow lies inside a part.
func (r *rules) joined(p part) bool {
	r.enter(p)
	for _, f := range p {
		for _, h := range r.halves(f) {
			if r.joins[h>>1] && r.in[r.other(h)] == r.work.stamp {
				return true
			}
		}
	}
	return false
}

// unfit returns what a section that does not fit costs.
func (r *rules) unfit() int {
	if r.wishes.Unfit > 0 {
		return r.wishes.Unfit
	}
	return gluedCost
}

// oversize returns what a section of n pieces costs.
func (r *rules) oversize(n int) int {
	most := r.wishes.MaxPieces
	if most <= 0 || n <= most {
		return 1
	}
	return overCost * ((n + most - 1) / most)
}

func (r *rules) fits(p part) bool {
	if len(p) == 1 && r.wishes.Plain != nil && r.wishes.Plain[p[0]] {
		return true
	}
	return r.wishes.Fits == nil || r.wishes.Fits(r.tracer.polygon(ints(p)))
}

// allows reports whether a cut leaves every set that must share a section whole.
func (r *rules) allows(a, b part) bool {
	r.stamp++
	for _, f := range a {
		if g := r.group[f]; g >= 0 {
			r.mark[g] = r.stamp
		}
	}
	for _, f := range b {
		if g := r.group[f]; g >= 0 && r.mark[g] == r.stamp {
			return false
		}
	}
	return true
}
