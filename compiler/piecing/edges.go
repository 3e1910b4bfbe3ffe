package piecing

import (
	"seamwright/compiler/plane"
)

// An edge is one side of a drawing, as its first copy lies.
type edge struct {
	start    plane.Point
	border   bool
	letter   string
	partners []int32 // stretches across, from the edge's start to its end
	marks    []mark
}

// A mark is a point of an edge to pin through.
type mark struct {
	at     plane.Point
	match  bool
	letter string
}

// findEdges works out the edges of every drawing and letters them.
func (a *assembly) findEdges() {
	for i := range a.drawings {
		d := &a.drawings[i]
		runs := a.runs(&a.copies[d.first])
		d.edges = make([]edge, len(runs))
		for e, r := range runs {
			d.edges[e] = a.edgeOf(&r)
		}
	}
	for i := range a.stretch {
		a.matchEnds(int32(i))
	}
	a.letterEdges()
	a.letterMarks()
}

func (a *assembly) edgeOf(r *run) edge {
	e := edge{start: r.start, border: r.border}
	if r.border {
		return e
	}
	for _, i := range r.stretch {
		st, right := &a.stretch[i], a.onRight(i)
		for k := range st.last - st.peer {
			e.partners = append(e.partners, walk(st.peer, st.last, k, right))
		}
		for k := range st.end - st.group {
			g := &a.groups[walk(st.group, st.end, k, right)]
			at := a.seams[st.seam].At(g.at)
			if n := len(e.marks); n > 0 && e.marks[n-1].at.Same(at) { // where two seams follow in one line
				e.marks[n-1].match = e.marks[n-1].match || g.match()
				continue
			}
			e.marks = append(e.marks, mark{at: at, match: g.match()})
		}
	}
	return e
}

// matchEnds marks the ends of a drawing's edge as points to match if they are so
// in any copy: of four points that meet, some joins end there and one runs through.
func (a *assembly) matchEnds(i int32) {
	st := &a.stretch[i]
	marks := a.drawings[a.copies[st.copy].drawing].edges[st.edge].marks
	for g := st.group; g < st.end; g++ {
		if a.groups[g].match() {
			if k := a.markOf(i, g); k >= 0 {
				marks[k].match = true
			}
		}
	}
}

// letterEdges gives small letters to edges where "joins A" would be true of too
// many: where copies of one drawing meet, where repeats of one unit meet, and
// where copies of one drawing meet different drawings.
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
		for s := range c.outline {
			for k := a.sides[int(c.first)+s].stretch; k >= 0; k = a.stretch[k].next {
				for p := a.stretch[k].peer; p < a.stretch[k].last; p++ {
					o := &a.copies[a.stretch[p].copy]
					repeat := o.shape == c.shape && o.unit != c.unit
					if repeat || o.drawing == c.drawing || a.otherThanFirst(c, k, p) {
						need(k)
						need(p)
					}
				}
			}
		}
	}
	type key struct {
		shape *shape
		which int32
	}
	letter, next := map[key]string{}, map[*shape]int{}
	for d := range a.drawings {
		own := 0
		for e := range a.drawings[d].edges {
			if !needed[d][e] {
				continue
			}
			shape, side := a.unitSide(int32(d), int32(e))
			if shape == nil {
				a.drawings[d].edges[e].letter = small(own)
				own++
				continue
			}
			k := key{shape, side}
			if letter[k] == "" {
				letter[k] = small(next[shape])
				next[shape]++
			}
			a.drawings[d].edges[e].letter = letter[k]
		}
	}
}

// otherThanFirst reports whether a copy's side meets another drawing than the
// same side of its drawing's first copy does.
func (a *assembly) otherThanFirst(c *copied, k, p int32) bool {
	d := &a.drawings[c.drawing]
	e := &d.edges[a.stretch[k].edge]
	for _, q := range e.partners {
		if a.copies[a.stretch[q].copy].drawing == a.copies[a.stretch[p].copy].drawing {
			return false
		}
	}
	return true
}

// unitSide returns the placed unit whose outline an edge lies on, and the side;
// nil if it lies inside its unit or is written in the block itself.
func (a *assembly) unitSide(drawing, e int32) (*shape, int32) {
	c := &a.copies[a.drawings[drawing].first]
	if c.shape == a.top {
		return nil, 0
	}
	for s := range c.outline {
		for k := a.sides[int(c.first)+s].stretch; k >= 0; k = a.stretch[k].next {
			if label := c.face.Labels[c.sideOf(int32(s))]; a.stretch[k].edge == e && int(label) < len(c.shape.outline) {
				return c.shape, label
			}
		}
	}
	return nil, 0
}

// small returns a, b, ..., z, aa, ab, ...
func small(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return small(i/26-1) + string(rune('a'+i%26))
}

// markLetters are those that marks get: not those of edges, which begin with a,
// nor l and o, which are read as figures.
const markLetters = "kmnpqrstuvwxyz"

func markLetter(i int) string {
	n := len(markLetters)
	if i < n {
		return markLetters[i : i+1]
	}
	return markLetter(i/n-1) + markLetters[i%n:i%n+1]
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
					letter[r] = markLetter(next[link])
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
