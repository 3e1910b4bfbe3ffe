package solver

// A reduction is what a part falls into by steps that never cost a section.
type reduction struct {
	parts []part
	tied  []tie // faces that join a neighbour's section, in the order they were cut off
}

// A tie says that face joins the section of to, as its last piece but for
// those that were tied before.
type tie struct{ face, to int32 }

// reducer finds forced joins and free additions.
type reducer struct {
	*work
	degree []int32 // of a face: its uncut edges inside the part
}

// reduce cuts a convex part along every chord that lies on joins in every plan
// (THEORY.md 6), then, unless additions cost something, ties every face that has
// a single neighbour to that neighbour (THEORY.md 7). Additions open no points,
// so they make no new forced joins.
func (r *reducer) reduce(p part, additions bool) reduction {
	r.enter(p)
	r.force(p)
	var red reduction
	if additions {
		red.tied = r.add(p)
	}
	for _, f := range p {
		if r.seen[f] != r.stamp {
			red.parts = append(red.parts, r.flood(nil, f))
		}
	}
	return red
}

// force cuts every forced chord. A chord that is not forced is looked at again
// when another cut has divided it.
func (r *reducer) force(p part) {
	todo := r.queue[:0]
	for _, f := range p {
		for _, h := range r.halves(f) {
			e := int32(h >> 1)
			if h&1 == 0 && r.in[r.right[e]] == r.stamp && r.cut[e] != r.stamp && r.isOpen(r.tail[e]) {
				s := r.seam[e]
				todo = r.tryRun(todo, s, e-r.first[s])
			}
		}
	}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, at := range r.refsAt(v) {
			s, i := at.seam, at.pos
			if i < r.last(s) && r.cut[r.edge(s, i)] != r.stamp {
				todo = r.tryRun(todo, s, i)
			}
			if i > 0 && r.cut[r.edge(s, i-1)] != r.stamp {
				for i--; i > 0 && !r.isOpen(r.point(s, i)); {
					i--
				}
				if r.isOpen(r.point(s, i)) {
					todo = r.tryRun(todo, s, i)
				}
			}
		}
	}
	r.queue = todo
}

// tryRun cuts the chord that starts at an open position, if it is forced, and
// adds the points it opens.
func (r *reducer) tryRun(opened []int32, s, from int32) []int32 {
	to, ok := r.runEnd(s, from)
	if !ok || !r.forced(s, from, to) {
		return opened
	}
	r.mark(chord{s, from, to})
	for i := from + 1; i < to; i++ {
		v := r.point(s, i)
		r.open[v] = r.stamp
		opened = append(opened, v)
	}
	return opened
}

// forced reports whether a chord lies on joins in every plan: it is if every
// stretch of it between crossing seams is met from both sides.
func (r *reducer) forced(s, from, to int32) bool {
	both := fromLeft | fromRight
	met := meets(0)
	for i := from + 1; i < to; i++ {
		if m := *r.meets(s, i); m&crossed == 0 {
			met |= m & both
		} else if met != both {
			return false
		} else {
			met = 0
		}
	}
	return met == both
}

// add ties faces with a single neighbour, until none is left.
func (r *reducer) add(p part) []tie {
	todo := r.queue[:0]
	for _, f := range p {
		r.degree[f] = 0
		for _, h := range r.halves(f) {
			if r.in[r.other(h)] == r.stamp && r.cut[h>>1] != r.stamp {
				r.degree[f]++
			}
		}
		if r.degree[f] == 1 {
			todo = append(todo, f)
		}
	}
	var ties []tie
	for len(todo) > 0 {
		f := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, h := range r.halves(f) {
			g := r.other(h)
			if r.in[g] != r.stamp || r.cut[h>>1] == r.stamp || r.degree[f] != 1 {
				continue
			}
			r.cut[h>>1] = r.stamp
			r.seen[f] = r.stamp
			ties = append(ties, tie{f, g})
			r.degree[f]--
			if r.degree[g]--; r.degree[g] == 1 {
				todo = append(todo, g)
			}
		}
	}
	r.queue = todo
	return ties
}
