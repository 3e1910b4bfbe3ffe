package piecing

// letterEdges gives small letters to edges where "joins A" would be true of too
// many: where copies of one drawing meet, where repeats of one unit meet, and
// where copies of one drawing meet different drawings. Sections of a unit that lie
// on one side of it share its letter, for the unit is joined as a whole; where
// that would not be true of all copies, equal sides of equal sections do.
func (a *assembly) letterEdges() {
	needed := make([][]bool, len(a.drawings))
	for i := range a.drawings {
		needed[i] = make([]bool, len(a.drawings[i].edges))
	}
	need := func(i int32) {
		st := &a.stretch[i]
		needed[a.copies[st.copy].drawing][st.edge] = true
	}
	for i := range a.copies {
		c := &a.copies[i]
		a.eachPartner(c, func(k, p, first int32) {
			o := &a.copies[a.stretch[p].copy]
			repeat := o.shape == c.shape && o.unit != c.unit
			if repeat || o.drawing == c.drawing || o.drawing != a.copies[a.stretch[first].copy].drawing {
				need(k)
				need(p)
				need(first)
			}
		})
	}
	a.letter(needed, a.unitSide)
	if !a.lettersTrue() {
		a.letter(needed, a.classSide)
	}
}

// eachPartner goes through what a copy is joined to: stretch k of the copy
// meets stretch p, where the same edge of its drawing's first copy meets first.
func (a *assembly) eachPartner(c *copied, do func(k, p, first int32)) {
	edges := a.drawings[c.drawing].edges
	visit := func(e int, stretches []int32) {
		n := 0
		for _, k := range stretches {
			st, right := &a.stretch[k], a.onRight(k)
			for i := range st.last - st.peer {
				do(k, walk(st.peer, st.last, i, right), edges[e].partners[n])
				n++
			}
		}
	}
	if !c.straight && a.plainSides(c) {
		n := int32(len(c.outline))
		for e := range n {
			visit(int(e), []int32{a.sides[c.first+(c.offset+e)%n].stretch})
		}
		return
	}
	for e, r := range a.runs(c) {
		visit(e, r.stretch)
	}
}

// An edgeKey is what edges with one letter have in common.
type edgeKey struct {
	shape *shape
	class int32
	side  int32
}

// letter gives letters to the edges that need one, by what they have in common.
func (a *assembly) letter(needed [][]bool, by func(d, e int32) edgeKey) {
	letter := map[edgeKey]string{}
	for d := range a.drawings {
		for e := range needed[d] {
			if !needed[d][e] {
				continue
			}
			k := by(int32(d), int32(e))
			if letter[k] == "" {
				letter[k] = small(len(letter), edgeLetters)
			}
			a.drawings[d].edges[e].letter = letter[k]
		}
	}
}

// lettersTrue reports whether what is printed of the first copy's partners holds
// for all copies.
func (a *assembly) lettersTrue() bool {
	ok := true
	letter := func(i int32) string {
		st := &a.stretch[i]
		return a.drawings[a.copies[st.copy].drawing].edges[st.edge].letter
	}
	for i := range a.copies {
		a.eachPartner(&a.copies[i], func(_, p, first int32) { ok = ok && letter(p) == letter(first) })
	}
	return ok
}

// unitSide is the side of the placed unit that an edge lies on. An edge inside
// its unit, or in the block itself, is alone.
func (a *assembly) unitSide(drawing, e int32) edgeKey {
	c := &a.copies[a.drawings[drawing].first]
	if c.shape == a.top {
		return a.classSide(drawing, e)
	}
	side := a.sideUnder(c, e)
	if label := c.face.Labels[c.sideOf(side)]; int(label) < len(c.shape.outline) {
		return edgeKey{c.shape, -1, label}
	}
	return a.classSide(drawing, e)
}

// classSide is the side of its class that an edge lies on.
func (a *assembly) classSide(drawing, e int32) edgeKey {
	c := &a.copies[a.drawings[drawing].first]
	n := int32(len(c.outline))
	return edgeKey{nil, c.class, a.classes[c.class].same[(a.sideUnder(c, e)-c.offset+n)%n]}
}

// sideUnder returns the first side of a copy that an edge of its drawing lies on.
func (a *assembly) sideUnder(c *copied, e int32) int32 {
	for s := range c.outline {
		for k := a.sides[int(c.first)+s].stretch; k >= 0; k = a.stretch[k].next {
			if a.stretch[k].edge == e {
				return int32(s)
			}
		}
	}
	return 0
}

// Edges and marks have different letters; l and o would be read as figures.
const (
	edgeLetters = "abcdefghij"
	markLetters = "kmnpqrstuvwxyz"
)

// small returns the ith of a, b, ..., j, aa, ab, ..., made of some letters.
func small(i int, of string) string {
	n := len(of)
	if i < n {
		return of[i : i+1]
	}
	return small(i/n-1, of) + of[i%n:i%n+1]
}

// letterMarks letters the marks of joined edges alike, where one of them has
// more than two. Marks are one if any two copies pin them together. Where that
// makes two marks of one edge the same (a row of equal units along a strip) no
// letter could be true, and they get none.
func (a *assembly) letterMarks() {
	first := make([][]int32, len(a.drawings)) // the number of an edge's first mark
	total, edges := int32(0), int32(0)
	at := make([]int32, len(a.drawings))
	for d := range a.drawings {
		first[d] = make([]int32, len(a.drawings[d].edges))
		at[d] = edges
		edges += int32(len(first[d]))
		for e := range first[d] {
			first[d][e] = total
			total += int32(len(a.drawings[d].edges[e].marks))
		}
	}
	marks, links := newSets(total), newSets(edges)
	for i := range a.seams {
		a.tie(&a.seams[i], first, at, marks, links)
	}
	wants, bad := make([]bool, edges), make([]bool, total)
	seen := make([]int32, total)
	visit := int32(0)
	for d := range a.drawings {
		for e := range first[d] {
			visit++
			n := int32(len(a.drawings[d].edges[e].marks))
			if n > 2 {
				wants[links.find(at[d]+int32(e))] = true
			}
			for k := range n {
				r := marks.find(first[d][e] + k)
				if seen[r] == visit {
					bad[r] = true
				}
				seen[r] = visit
			}
		}
	}
	letter, next := make([]string, total), make([]int, edges)
	for d := range a.drawings {
		for e := range first[d] {
			link := links.find(at[d] + int32(e))
			if !wants[link] {
				continue
			}
			for k := range a.drawings[d].edges[e].marks {
				r := marks.find(first[d][e] + int32(k))
				if bad[r] {
					continue
				}
				if letter[r] == "" {
					letter[r] = small(next[link], markLetters)
					next[link]++
				}
				a.drawings[d].edges[e].marks[k].letter = letter[r]
			}
		}
	}
}

// tie joins the marks that copies have in common along a seam.
func (a *assembly) tie(m *seam, first [][]int32, at []int32, marks, links *sets) {
	if m.l == m.r || m.r == m.e {
		return
	}
	for i := m.l; i < m.r; i++ {
		st := &a.stretch[i]
		d := a.copies[st.copy].drawing
		for p := st.peer; p < st.last; p++ {
			o := &a.stretch[p]
			od := a.copies[o.copy].drawing
			links.union(at[d]+st.edge, at[od]+o.edge)
			for g := max(st.group, o.group); g < min(st.end, o.end); g++ {
				x, y := a.markOf(i, g), a.markOf(p, g)
				if x >= 0 && y >= 0 {
					marks.union(first[d][st.edge]+x, first[od][o.edge]+y)
				}
			}
		}
	}
}

// markOf returns which mark of its edge a group of a stretch is. Nearly always
// an edge is one stretch, and its marks are the stretch's groups.
func (a *assembly) markOf(i, g int32) int32 {
	st := &a.stretch[i]
	c := &a.copies[st.copy]
	n := int32(len(a.drawings[c.drawing].edges[st.edge].marks))
	if st.end-st.group != n {
		return -1
	}
	if a.onRight(i) {
		return st.end - 1 - g
	}
	return g - st.group
}

// sets are disjoint sets of numbers.
type sets struct{ up []int32 }

func newSets(n int32) *sets {
	s := &sets{make([]int32, n)}
	for i := range s.up {
		s.up[i] = int32(i)
	}
	return s
}

func (s *sets) find(i int32) int32 {
	for s.up[i] != i {
		s.up[i] = s.up[s.up[i]]
		i = s.up[i]
	}
	return i
}

// union keeps the smaller number as the name of the set.
func (s *sets) union(i, j int32) {
	i, j = s.find(i), s.find(j)
	s.up[max(i, j)] = min(i, j)
}
