package solver

// renewAt has the chord along an edge looked at again.
func (t *trimmer) renewAt(e int32) {
	if t.looks[e] == t.round || !t.isInner(e) {
		return
	}
	if c, ok := t.through(e); ok {
		for i := c.from; i < c.to; i++ {
			t.looks[t.edge(c.seam, i)] = t.round
		}
		t.fresh = append(t.fresh, c)
		for range 3 {
			if c, ok = t.backwards(c); !ok {
				break
			}
			t.fresh = append(t.fresh, c)
		}
	}
}

// through returns the chord along an edge, if there is one.
func (t *trimmer) through(e int32) (chord, bool) {
	s := t.seam[e]
	from, to := e-t.first[s], e-t.first[s]+1
	for !t.isOpen(t.point(s, from)) {
		from--
		if from < 0 || !t.isInner(t.edge(s, from)) {
			return chord{}, false
		}
	}
	for !t.isOpen(t.point(s, to)) {
		if to >= t.last(s) || !t.isInner(t.edge(s, to)) {
			return chord{}, false
		}
		to++
	}
	return chord{s, from, to}, true
}

// onwards returns a cut together with the next chord on its seam.
func (t *trimmer) onwards(c chord) (chord, bool) {
	for i := c.to; i < t.last(c.seam); i++ {
		if e := t.edge(c.seam, i); t.isInner(e) && t.isOpen(t.tail[e]) {
			if d, ok := t.through(e); ok {
				return chord{c.seam, c.from, d.to}, true
			}
		}
	}
	return c, false
}

// backwards returns the chord before another on its seam.
func (t *trimmer) backwards(c chord) (chord, bool) {
	for i := c.from - 1; i >= 0; i-- {
		if e := t.edge(c.seam, i); t.isInner(e) && t.isOpen(t.head[e]) {
			return t.through(e)
		}
	}
	return c, false
}

// entire reports whether a cut can be made still.
func (t *trimmer) entire(c chord) bool {
	e, f := t.edge(c.seam, c.from), t.edge(c.seam, c.to-1)
	return t.isInner(e) && t.isInner(f) && t.isOpen(t.tail[e]) && t.isOpen(t.head[f])
}

// look sorts the cuts that are to be looked at.
func (t *trimmer) look() {
	for _, c := range t.fresh {
		if e := t.edge(c.seam, c.from); t.offered[e] != t.round && t.entire(c) {
			t.offered[e] = t.round
			t.offer(c)
		}
	}
	t.fresh = t.fresh[:0]
}

func (t *trimmer) offer(c chord) {
	side, ok := t.side(c)
	for ok && side == nil {
		if c, ok = t.onwards(c); !ok {
			return
		}
		side, ok = t.side(c)
	}
	switch {
	case !ok:
		t.deep = append(t.deep, c)
	case t.search.section(side) != 1:
		for _, f := range side {
			t.watch[f] = append(t.watch[f], c)
		}
	case t.search.separate(cut{c, side}):
		t.offers[0] = append(t.offers[0], c)
	default:
		t.offers[len(side)] = append(t.offers[len(side)], c)
		t.most = max(t.most, len(side))
	}
}

// best returns the cut to make next.
func (t *trimmer) best() (chord, bool) {
	for n := 0; ; n = t.most {
		for list := &t.offers[n]; len(*list) > 0; {
			c := (*list)[len(*list)-1]
			*list = (*list)[:len(*list)-1]
			if !t.entire(c) {
				continue
			}
			side, ok := t.side(c)
			if ok && side != nil && (n == 0 || n == len(side)) && t.search.section(side) == 1 {
				return c, true
			}
			t.offer(c)
			if len(t.offers[0]) > 0 {
				n, list = 0, &t.offers[0]
			}
		}
		if n > 0 && n == t.most {
			t.most--
		}
		if t.most == 0 {
			return chord{}, false
		}
	}
}

// side returns the smaller side of a cut, nil if it leaves the piece whole. It
// reports false if both sides are larger than those that are looked at. The side
// is good until the next call.
func (t *trimmer) side(c chord) (part, bool) {
	t.work.sides += 2
	e := t.edge(c.seam, c.from)
	last := t.edge(c.seam, c.to-1)
	for k, f := range [2]int32{t.mesh.left[e], t.mesh.right[e]} {
		t.sides[k] = append(t.sides[k][:0], f)
		t.marked[f] = t.work.sides + int32(k)
	}
	for i := 0; i < t.size; i++ {
		for k := range int32(2) {
			list := t.sides[k]
			if i == len(list) {
				return list, true
			}
			for _, h := range t.halves(list[i]) {
				d := int32(h >> 1)
				if d >= e && d <= last || t.work.cut[d] == t.stamp {
					continue
				}
				g := t.other(h)
				if t.in[g] != t.stamp || t.marked[g] == t.work.sides+k {
					continue
				}
				if t.marked[g] == t.work.sides+1-k {
					return nil, true
				}
				t.marked[g] = t.work.sides + k
				list = append(list, g)
			}
			t.sides[k] = list
		}
	}
	return nil, false
}
