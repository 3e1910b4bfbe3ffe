package solver

// repairFaces is up to how many faces a section that breaks a wish is searched for
// its best division. Larger ones are cut in two first.
const repairFaces = 64

// repairEffort is how often every face of such a section may be looked at.
const repairEffort = 40

// A repairer divides sections that are larger than wished, each by itself.
type repairer struct {
	*work
	rules *rules
	near  *grower // nil if nothing is known
	facts []fact
}

// repair divides the sections that are larger than wished: what
// was sewn to the whole can be sewn to the parts, joined. Groups stay together.
// Where dividing costs no more, they are divided.
func (r *repairer) repair(sections []part) []part {
	r.rules.dear = 1
	defer func() { r.rules.dear = 0 }()
	var list []part
	for _, p := range sections {
		list = append(list, r.divide(p)...)
	}
	return list
}

// divide cuts a section into smaller ones, if that is worth while: in two, and
// again; and if it is not large, as is best.
func (r *repairer) divide(p part) []part {
	cost := r.rules.cost(p)
	if cost == 1 {
		return []part{p}
	}
	list := []part{p}
	side := r.wellCut(p)
	if side != nil && (cost >= never || len(side) >= len(p)/leastShare) {
		halves := append(r.divide(side), r.divide(r.without(p, side))...)
		if n := r.rules.total(halves); n < cost || cost >= never {
			list, cost = halves, n
		}
	}
	if len(p) <= repairFaces && cost > 2 {
		t := newSearch(r.work, r.near, repairEffort*len(p))
		t.rules, t.facts = r.rules, &r.facts
		if a := t.best(p, cost); a.cost < cost {
			return t.collect(p, nil)
		}
	}
	return list
}

// leastShare is the smallest part of a large section that is worth being cut off,
// as its inverse: of a log cabin only single logs can be cut off.
const leastShare = 16

// wellCut returns a side of the cut that parts a section best: in two halves, both
// of as many pieces as full sections have.
func (r *repairer) wellCut(p part) (best part) {
	want := len(p) / 2
	if most := r.rules.wishes.MaxPieces; most > 0 && most <= want {
		want -= want % most
	}
	off := len(p)
	for _, c := range r.cuts(p) {
		if d := max(want-len(c.side), len(c.side)-want); d < off && r.rules.allows(c.side, r.without(p, c.side)) {
			best, off = c.side, d
		}
	}
	return best
}
