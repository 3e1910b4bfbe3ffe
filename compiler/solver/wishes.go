package solver

// A grant is the sections that fulfil the wishes that can be had.
type grant struct {
	*rules
	sections []part
	refused  []Refusal
}

// grant divides the block again where the fewest sections don't fulfil the
// wishes. Joins that every plan has are kept, so that the rest of the block stays
// as it was.
func (p *Partition) grant(least solved, d *divided, w Wishes) *grant {
	g := &grant{rules: p.newRules(w), sections: least.sections}
	if w.MaxPieces == 0 && w.Fits == nil && len(w.Together)+len(w.NoJoin)+len(w.First)+len(w.Join) == 0 {
		return g
	}
	g.settle()
	if g.fulfils(least.sections) {
		return g
	}
	if d == nil {
		if all := least.sections; len(all[0]) > againFaces && g.grouped(all) {
			r := repairer{work: newWork(p.mesh), rules: g.rules}
			g.sections = r.repair(all)
			return g
		}
		d = divide(p.mesh, w.Budget)
	}
	s := d.solver(g.rules)
	for _, f := range least.clique {
		s.apart[f] = true
	}
	home := make([]int, p.mesh.faces())
	for i, q := range d.parts {
		for _, f := range q {
			home[f] = i
		}
	}
	inside := make([][]part, len(d.parts))
	for _, x := range least.sections {
		inside[home[x[0]]] = append(inside[home[x[0]]], x)
	}
	g.sections = nil
	for i, q := range d.parts {
		if !g.fulfils(inside[i]) {
			inside[i] = g.plan(s, q, inside[i])
		}
		g.sections = append(g.sections, inside[i]...)
	}
	return g
}

// plan divides a part of which the fewest sections are given.
func (g *grant) plan(s *partSolver, p part, fewest []part) []part {
	var made []part
	if g.grouped(fewest) {
		r := repairer{work: s.whole, rules: g.rules, near: s.near}
		if made = r.repair(fewest); len(p) > againFaces {
			return made
		}
	}
	again := s.part(p).sections
	if made != nil && g.total(made) <= g.total(again) {
		return made
	}
	return again
}

func (p *Partition) newRules(w Wishes) *rules {
	n := p.mesh.faces()
	r := &rules{
		search: newSearch(newWork(p.mesh), nil, 0), p: p, tracer: newTracer(p), wishes: w,
		group: make([]int32, n), firsts: make([]bool, n), mark: make([]int, n),
	}
	r.search.rules = r
	for i := range r.group {
		r.group[i] = -1
	}
	if len(w.Join) > 0 {
		r.joins = make([]bool, len(p.mesh.tail))
		for _, e := range w.Join {
			r.joins[e] = p.Edges[e].Right >= 0
		}
	}
	return r
}

// fulfils reports whether sections are as wished.
func (r *rules) fulfils(sections []part) bool {
	for _, s := range sections {
		if r.cost(s) != 1 {
			return false
		}
	}
	return r.grouped(sections)
}

// grouped reports whether sections divide no set of patches that must share one.
func (r *rules) grouped(sections []part) bool {
	home := map[int32]int{} // of a group, for look-up only
	for i, s := range sections {
		for _, f := range s {
			if g := r.group[f]; g >= 0 {
				if k, known := home[g]; known && k != i {
					return false
				}
				home[g] = i
			}
		}
	}
	return true
}

// over reports whether a section is larger than wished.
func (r *rules) over(s part) bool { return r.oversize(len(s)) > 1 || !r.fits(s) }

// first returns the face that must be a section's first, or -1.
func (r *rules) first(s part) int32 {
	for _, f := range s {
		if r.firsts[f] {
			return f
		}
	}
	return -1
}

// settle takes the wishes for certain patches in, one after the other, and
// refuses each that can't be had together with those before it.
func (g *grant) settle() {
	for i, set := range g.wishes.Together {
		g.join(WishTogether, i, faces(set))
	}
	for i, e := range g.wishes.NoJoin {
		if edge := &g.p.Edges[e]; edge.Right >= 0 {
			g.join(WishNoJoin, i, part{int32(edge.Left), int32(edge.Right)})
		}
	}
	for _, i := range g.wishes.Distinct {
		g.own(i)
	}
	for i, f := range g.wishes.First {
		if g.firsts[f] {
			continue
		}
		g.firsts[f] = true
		if bad := g.hopeless(g.mesh.all()); bad != nil {
			g.firsts[f] = false
			g.refused = append(g.refused, Refusal{WishFirst, i, ints(bad)})
		}
	}
}

// own keeps a set apart from the others that are kept apart, if that can be had.
func (g *grant) own(i int) {
	if g.home == nil {
		g.home = make([]int32, g.mesh.faces())
	}
	old := append([]int32(nil), g.home...)
	taken := false
	for _, f := range g.wishes.Together[i] {
		taken = taken || g.home[f] != 0
		g.home[f] = int32(i) + 1
	}
	bad := g.hopeless(g.mesh.all())
	if taken {
		bad = faces(g.wishes.Together[i])
	}
	if bad != nil {
		g.home = old
		g.refused = append(g.refused, Refusal{WishDistinct, i, ints(bad)})
	}
}

// join makes one group of a set and all groups it touches, if that can be had.
func (g *grant) join(kind WishKind, index int, set part) {
	if len(set) == 0 {
		return
	}
	old := append([]int32(nil), g.group...)
	into := set[0] // a group is known by one of its faces
	for _, f := range set {
		was := g.group[f]
		g.group[f] = into
		for h := range g.group {
			if was >= 0 && g.group[h] == was {
				g.group[h] = into
			}
		}
	}
	if bad := g.hopeless(g.mesh.all()); bad != nil {
		g.group = old
		g.refused = append(g.refused, Refusal{kind, index, ints(bad)})
	}
}

// hopeless cuts a part wherever no group is divided, which is always safe
// (THEORY.md 8), and returns a part that then is no section, or nil.
func (g *grant) hopeless(p part) part {
	if g.can(p) {
		return nil
	}
	for _, c := range g.chords(p, nil) {
		a, b := g.split(p, c)
		if !g.allows(a, b) {
			continue
		}
		if bad := g.hopeless(a); bad != nil {
			return bad
		}
		return g.hopeless(b)
	}
	return p
}
