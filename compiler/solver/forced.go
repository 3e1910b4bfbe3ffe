package solver

// forcedParts cuts a convex part along every chord that lies on joins in every
// plan: one that has a wall in each of its stretches between crossing seams, for
// such a stretch is cut in one go (THEORY.md 6). What the pieces need adds up to
// what the part needs. The part stays entered, with these cuts made.
func (w *work) forcedParts(p part, walls *walls) []part {
	w.cutAlong(p, nil, walls)
	var parts []part
	for _, f := range p {
		if w.seen[f] != w.stamp {
			parts = append(parts, w.flood(nil, f))
		}
	}
	return parts
}

// cutAlong enters a part and cuts along one stretch after the other between open
// points, and opens what lies on it: with labels those between faces of different
// labels, with walls those that are forced.
func (w *work) cutAlong(p part, label []int32, walls *walls) {
	w.enter(p)
	todo := w.queue[:0]
	for _, f := range p {
		for _, h := range w.halves(f) {
			if v := w.begin(h); w.isOpen(v) {
				todo = append(todo, v)
			}
		}
	}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, r := range w.refsAt(v) {
			for _, c := range [2]chord{w.run(r, -1, label), w.run(r, 1, label)} {
				if c.to == 0 || walls != nil && !w.forced(c, walls) {
					continue
				}
				w.mark(c)
				for i := c.from + 1; i < c.to; i++ {
					w.open[w.point(c.seam, i)] = w.stamp
					todo = append(todo, w.point(c.seam, i))
				}
			}
		}
	}
	w.queue = todo
}

// run follows a seam from an open point to the next one, in the part entered; the
// chord is zero if there is none, or if that stretch is cut. With labels, it must
// run between faces of different labels.
func (w *work) run(r ref, by int32, label []int32) chord {
	for j := r.pos + by; j >= 0 && j <= w.last(r.seam); j += by {
		e := w.edge(r.seam, min(j, j-by))
		if !w.isInner(e) || label != nil && label[w.left[e]] == label[w.right[e]] {
			break
		}
		if w.isOpen(w.point(r.seam, j)) {
			return chord{r.seam, min(r.pos, j), max(r.pos, j)}
		}
	}
	return chord{}
}

func (w *work) forced(c chord, walls *walls) bool {
	wall := false
	for i := c.from; i < c.to; i++ {
		if i > c.from && *w.meets(c.seam, i)&crossed != 0 {
			if !wall {
				return false
			}
			wall = false
		}
		wall = wall || walls.between(w, w.edge(c.seam, i))
	}
	return wall
}
