package piecing

import (
	"slices"

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
	stop   bool // a partial seam stops here at first
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
	a.addStops()
}

// addStops adds the marks where partial seams stop at first: last of all, for they
// need no letter.
func (a *assembly) addStops() {
	if !slices.ContainsFunc(a.seams, func(m seam) bool { return m.begin > 0 }) {
		return
	}
	for i := range a.drawings {
		d := &a.drawings[i]
		for e, r := range a.runs(&a.copies[d.first]) {
			for _, k := range r.stretch {
				a.addStop(&d.edges[e], k)
			}
		}
	}
}

func (a *assembly) edgeOf(r *run) edge {
	e := edge{start: r.start, border: r.border}
	if r.border {
		return e
	}
	partners, marks := int32(0), int32(0)
	for _, i := range r.stretch {
		partners += a.stretch[i].last - a.stretch[i].peer
		marks += a.stretch[i].end - a.stretch[i].group
	}
	e.partners, e.marks = make([]int32, 0, partners), make([]mark, 0, marks)
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

// addStop adds the mark where a partial seam stops at first, if that lies on a
// stretch. Plain patches are cut without paper and marks.
func (a *assembly) addStop(e *edge, i int32) {
	at, ok := a.stopOn(i)
	if !ok {
		return
	}
	p := a.seams[a.stretch[i].seam].At(at)
	k := len(e.marks)
	for k > 0 && e.start.Dist(e.marks[k-1].at) > e.start.Dist(p)-plane.Tol {
		k--
	}
	if k < len(e.marks) && e.marks[k].at.Same(p) {
		e.marks[k].stop = true
		return
	}
	e.marks = slices.Insert(e.marks, k, mark{at: p, stop: true})
}

// stopOn returns where along its seam a partial seam stops at first on a stretch
// of a section on paper; false where none does.
func (a *assembly) stopOn(i int32) (at float64, ok bool) {
	st := &a.stretch[i]
	if st.seam < 0 || a.seams[st.seam].begin == 0 || len(a.copies[st.copy].section.pieces) == 1 {
		return 0, false
	}
	m := &a.seams[st.seam]
	at = m.Along(a.seams[m.begin-1].B)
	return at, at > st.from+plane.Tol && at < st.to-plane.Tol
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
