package solver

// walls knows which neighbours can share a section. Two faces that share one
// bring others with them: a section is convex, so it holds the smallest convex
// set around the two. If that set is no section, the edge between them is a join
// in every plan: a wall. If it is one, the edge is a wall still in every part
// that does not hold the whole set.
//
// A part is taken apart along its walls before anything is searched; what is
// left are small parts, though the block may be large.
type walls struct {
	always []bool  // of an edge
	start  []int32 // the set around edge e, but for its own two faces, is with[start[e]:start[e+1]]
	with   []int32
	near   *grower
}

// between reports whether an edge of the part entered is a wall.
func (b *walls) between(w *work, e int32) bool {
	if b.always[e] {
		return true
	}
	for _, f := range b.with[b.start[e]:b.start[e+1]] {
		if w.in[f] != w.stamp {
			return true
		}
	}
	return false
}

// newWalls tries every edge of a convex block that can be sewn.
func newWalls(m *mesh) *walls {
	n := len(m.tail)
	g := newGrower(newWork(m))
	out := &walls{always: make([]bool, n), start: make([]int32, 1, n+1), near: g}
	for e := range n {
		ok := g.together(m.left[e], m.right[e])
		if out.always[e] = !ok; ok && len(g.set) <= growLimit {
			out.with = append(out.with, g.set[2:]...)
		}
		out.start = append(out.start, int32(len(out.with)))
	}
	g.always = out.always
	return out
}
