package solver

// A grant is the sections that fulfil the wishes that can be had.
type grant struct {
	*rules
	sections []part
	refused  []Refusal
}

// grant divides the block again where the fewest sections don't fulfil the
// wishes. Joins that every plan has are kept, so that the rest of the block
// stays as it was.
func (p *Partition) grant(least fewest, w Wishes) grant {
	r := p.newRules(w)
	g := grant{rules: r, sections: least.sections}
	if w.MaxPieces == 0 && w.Fits == nil && len(w.Together)+len(w.NoJoin)+len(w.First) == 0 {
		return g
	}
	g.settle()
	if r.walls, r.near = least.walls, least.near; r.walls == nil && p.mesh.convex {
		r.walls = newWalls(p.mesh)
		r.near = r.walls.near
	}
	parts := r.pieces(p.mesh.all())
	home := make([]int, p.mesh.faces())
	for i, q := range parts {
		for _, f := range q {
			home[f] = i
		}
	}
	inside := make([][]part, len(parts))
	for _, s := range least.sections {
		inside[home[s[0]]] = append(inside[home[s[0]]], s)
	}
	g.sections = nil
	for i, q := range parts {
		if !r.fulfils(inside[i]) {
			if a := r.best(q); a.cost < never {
				inside[i] = r.collect(q, nil)
			}
		}
		g.sections = append(g.sections, inside[i]...)
	}
	return g
}

func (p *Partition) newRules(w Wishes) *rules {
	n := p.mesh.faces()
	r := &rules{
		search: newSearch(newWork(p.mesh), nil, w.Budget), p: p, tracer: newTracer(p), wishes: w,
		group: make([]int32, n), firsts: make([]bool, n), mark: make([]int, n),
	}
	r.search.rules = r
	for i := range r.group {
		r.group[i] = -1
	}
	return r
}

// fulfils reports whether sections are as wished.
func (r *rules) fulfils(sections []part) bool {
	for i, s := range sections {
		if r.cost(s) != 1 {
			return false
		}
		for _, t := range sections[:i] {
			if !r.allows(s, t) {
				return false
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
// (THEORY.md 9), and returns a part that then is no section, or nil.
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
