package piecing

import (
	"cmp"
	"slices"

	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// A seam joins finished parts along a line. Its leaves are the sides of copies
// that lie along it; those on its left run with it, those on its right against.
type seam struct {
	plane.Line
	source      problem.Place
	left, right []leaf
	// stretches of this seam: [l, r) lie left, [r, e) right, each in order from A
	// to B; and its groups.
	l, r, e      int32
	groups, last int32

	finish int32 // of a partial seam's first part: the seam of all of it, which is never the first; else 0
	begin  int32 // of that: the first part, plus 1; else 0
}

// A stretch is the part of a copy's side that lies along one seam or border.
type stretch struct {
	copy, side int32
	seam       int32   // or -1 on the border
	from, to   float64 // along the seam (from < to); on the border along the side
	start      float64 // where on the seam the side itself starts
	group, end int32   // marks: groups [group, end) of the seam
	peer, last int32   // stretches [peer, last) across the seam
	next       int32   // of the same side, or -1
	edge       int32   // of the copy's drawing
}

// A group is a point of a seam where edges or inner seams end.
type group struct {
	at          float64
	left, right bool // something ends here on that side
}

// border notes which sides of copies lie on a side of the block.
func (a *assembly) border(l plane.Line, leaves []leaf) {
	for _, f := range leaves {
		c := &a.copies[f.copy]
		s := c.outline.Side(int(f.side))
		from, to := s.Along(l.A), s.Along(l.B)
		st := stretch{copy: f.copy, side: f.side, seam: -1,
			from: max(0, min(from, to)), to: min(s.Len(), max(from, to)), next: -1}
		if st.to-st.from > plane.Tol {
			a.link(st)
		}
	}
}

// link adds a stretch to its side.
func (a *assembly) link(s stretch) {
	first := &a.sides[a.copies[s.copy].first+s.side].stretch
	s.next = *first
	*first = int32(len(a.stretch))
	a.stretch = append(a.stretch, s)
}

// meet works out a seam: what lies opposite each side along it, and where seams
// end on it.
func (a *assembly) meet(id int32) {
	m := &a.seams[id]
	if m.finish > 0 { // it lies along the seam that finishes it, and all is told there
		return
	}
	long, dir := m.Len(), m.Dir()
	m.l = int32(len(a.stretch))
	a.lay(m, id, m.left, dir, long)
	m.r = int32(len(a.stretch))
	a.lay(m, id, m.right, dir, long)
	m.e = int32(len(a.stretch))
	m.left, m.right = nil, nil
	a.group(m, long)
	a.oppose(m.l, m.r, m.r, m.e)
	a.oppose(m.r, m.e, m.l, m.r)
}

// lay adds the stretches on one side of a seam, in order along it.
func (a *assembly) lay(m *seam, id int32, leaves []leaf, dir plane.Point, long float64) {
	room := a.scratch[:0]
	for _, f := range leaves {
		s := a.copies[f.copy].outline.Side(int(f.side))
		from, to := dir.Dot(s.A.Sub(m.A)), dir.Dot(s.B.Sub(m.A))
		st := stretch{copy: f.copy, side: f.side, seam: id, start: from,
			from: max(0, min(from, to)), to: min(long, max(from, to)), next: -1}
		if st.to-st.from > plane.Tol {
			room = append(room, st)
		}
	}
	slices.SortStableFunc(room, func(x, y stretch) int { return cmp.Compare(x.from, y.from) })
	for _, st := range room {
		a.link(st)
	}
	a.scratch = room
}

// group collects the points of a seam, each with what ends there.
func (a *assembly) group(m *seam, long float64) {
	m.groups = int32(len(a.groups))
	points := a.groups
	add := func(at float64, right bool) {
		points = append(points, group{at, !right, right})
	}
	for i := m.l; i < m.e; i++ {
		st, right := &a.stretch[i], i >= m.r
		add(st.from, right)
		add(st.to, right)
		c := &a.copies[st.copy]
		if len(c.section.ends) == 0 {
			continue
		}
		n := c.outline.Side(int(st.side)).Len()
		for _, e := range c.section.ends {
			if c.sideOf(e.side) != st.side {
				continue
			}
			u := e.at
			if c.motion.Reversed {
				u = n - u
			}
			if right {
				u = -u
			}
			if t := st.start + u; t > st.from-plane.Tol && t < st.to+plane.Tol {
				add(min(max(t, st.from), st.to), right)
			}
		}
	}
	found := points[m.groups:]
	slices.SortFunc(found, func(x, y group) int { return cmp.Compare(x.at, y.at) })
	kept := int32(0)
	for _, g := range found {
		if kept > 0 && g.at-found[kept-1].at <= plane.Tol {
			a.proof.same = max(a.proof.same, g.at-found[kept-1].at)
			found[kept-1].left = found[kept-1].left || g.left
			found[kept-1].right = found[kept-1].right || g.right
			continue
		}
		found[kept] = g
		kept++
	}
	a.groups = points[:m.groups+kept]
	m.last = m.groups + kept
	for _, i := range [2]int32{m.groups, m.last - 1} { // the seam's own ends need no match
		if i >= m.groups && i < m.last && (a.groups[i].at <= plane.Tol || a.groups[i].at >= long-plane.Tol) {
			a.groups[i].left, a.groups[i].right = false, false
		}
	}
}

// oppose finds for the stretches on one side of a seam their marks and what lies
// across.
func (a *assembly) oppose(from, to, other, otherEnd int32) {
	if from == to {
		return
	}
	m := &a.seams[a.stretch[from].seam]
	g, q := m.groups, other
	for i := from; i < to; i++ {
		st := &a.stretch[i]
		for g < m.last && a.groups[g].at < st.from-plane.Tol {
			g++
		}
		st.group, st.end = g, g
		for st.end < m.last && a.groups[st.end].at <= st.to+plane.Tol {
			st.end++
		}
		for q < otherEnd && a.stretch[q].to <= st.from+plane.Tol {
			q++
		}
		st.peer, st.last = q, q
		for st.last < otherEnd && a.stretch[st.last].from < st.to-plane.Tol {
			st.last++
		}
	}
}

// match reports whether seams of both sides end at a group.
func (g *group) match() bool { return g.left && g.right }

// along returns how far along its copy's side a point of a stretch's seam lies.
func (a *assembly) along(i int32, at float64) float64 {
	st := &a.stretch[i]
	switch {
	case st.seam < 0:
		return at
	case i >= a.seams[st.seam].r:
		return st.start - at
	}
	return at - st.start
}

// extent returns where along its copy's side a stretch begins and ends.
func (a *assembly) extent(i int32) (from, to float64) {
	from, to = a.along(i, a.stretch[i].from), a.along(i, a.stretch[i].to)
	return min(from, to), max(from, to)
}
