package solver

import (
	"cmp"
	"slices"
)

// A part is a list of faces that cutting can produce. Parts are never changed.
type part []int32

// A chord is a stretch of a seam, between two of its positions, along which a
// part can be cut: both ends lie on the part's border, nothing between does.
type chord struct{ seam, from, to int32 }

// A cut takes a side off a part. It is made along a chord or, where a part has
// holes, along several that follow each other on one seam.
type cut struct {
	chord
	side part // the smaller side; what remains is the other
}

// A work has the marks that the questions about a part are answered with. A
// mark counts if it equals stamp, so that a new question costs no clearing.
type work struct {
	*mesh
	kinds   []int  // of a face, as in Wishes.Alike; may be nil
	walls   *walls // nil where a part is cut as a whole: see walls
	walled  bool   // the part entered has walls inside
	stamp   int32
	in      []int32 // of a face: in the part
	open    []int32 // of a point: on the part's border
	cut     []int32 // of an edge: cut
	seen    []int32 // of a face
	marked  []int32 // of a face: sides, or one more, if it lies on one side of a cut
	sides   int32
	inner   []int32 // of a face: how many of its sides have edges inside the part
	onSide  []int32 // of a side: its edges inside the part
	fanned  []int32 // of a point: fan counts
	fan     []float64
	queue   []int32
	lists   [2]part
	looked  int // parts looked at, for budgets
	visited int // faces looked at
}

func newWork(m *mesh) *work {
	f, v, e := m.faces(), len(m.at), len(m.tail)
	all := make([]int32, 4*f+2*v+e+m.sideCount)
	take := func(n int) []int32 {
		s := all[:n:n]
		all = all[n:]
		return s
	}
	return &work{mesh: m, in: take(f), open: take(v), cut: take(e), seen: take(f), marked: take(f),
		inner: take(f), onSide: take(m.sideCount), fanned: take(v), fan: make([]float64, v)}
}

// all returns the whole block as a part.
func (m *mesh) all() part {
	p := make(part, m.faces())
	for i := range p {
		p[i] = int32(i)
	}
	return p
}

// enter marks the faces of a part and the points of its border.
func (w *work) enter(p part) {
	w.looked++
	w.visited += len(p)
	w.stamp++
	for _, f := range p {
		w.in[f] = w.stamp
	}
	w.walled = false
	for _, f := range p {
		for _, h := range w.halves(f) {
			e := int32(h >> 1)
			switch {
			case w.in[w.other(h)] != w.stamp:
			case w.walls == nil || h&1 != 0 || !w.walls.between(w, e):
				continue
			default:
				w.cut[e], w.walled = w.stamp, true
			}
			w.open[w.tail[e]], w.open[w.head[e]] = w.stamp, w.stamp
		}
	}
}

// isOpen reports whether a point lies on the border of the part entered, or on
// a cut made in it since.
func (w *work) isOpen(v int32) bool { return w.border[v] || w.open[v] == w.stamp }

// isInner reports whether both faces of an edge are in the part entered, and it
// is not cut.
func (w *work) isInner(e int32) bool {
	return w.in[w.left[e]] == w.stamp && w.in[w.right[e]] == w.stamp && w.cut[e] != w.stamp
}

// chords lists the chords of a part, and leaves it entered. The order is that of
// the faces.
func (w *work) chords(p part, list []chord) []chord {
	w.enter(p)
	for _, f := range p {
		for _, h := range w.halves(f) {
			e := int32(h >> 1)
			if h&1 != 0 || !w.isOpen(w.tail[e]) || !w.isInner(e) {
				continue
			}
			s := w.seam[e]
			from := e - w.first[s]
			if to, ok := w.runEnd(s, from); ok {
				list = append(list, chord{s, from, to})
			}
		}
	}
	return list
}

// cuts lists the cuts of a part that no smaller cut is part of.
func (w *work) cuts(p part) []cut {
	chords := w.chords(p, nil)
	if w.walls != nil { // only then are there holes
		slices.SortFunc(chords, func(a, b chord) int {
			return cmp.Or(cmp.Compare(a.seam, b.seam), cmp.Compare(a.from, b.from))
		})
	}
	list := make([]cut, 0, len(chords))
	for i, c := range chords {
		for j := i; j < len(chords) && chords[j].seam == c.seam; j++ {
			c.to = chords[j].to
			if side := w.smaller(c); side != nil {
				list = append(list, cut{c, side})
				break
			}
		}
	}
	return list
}

// smaller returns the smaller side of a cut through the part entered, or nil if
// both its sides hang together. It walks from both and stops when one is done.
func (w *work) smaller(c chord) part {
	w.sides += 2
	e := w.edge(c.seam, c.from)
	last := w.edge(c.seam, c.to-1)
	for k, f := range [2]int32{w.left[e], w.right[e]} {
		w.lists[k] = append(w.lists[k][:0], f)
		w.marked[f] = w.sides + int32(k)
	}
	for i := 0; ; i++ {
		for k := range int32(2) {
			list := w.lists[k]
			if i == len(list) {
				w.visited += 2 * i
				return slices.Clone(list)
			}
			mine, others := w.sides+k, w.sides+1-k
			for _, h := range w.halves(list[i]) {
				g, d := w.other(h), int32(h>>1)
				if w.marked[g] == mine || w.in[g] != w.stamp || w.cut[d] == w.stamp || d >= e && d <= last {
					continue
				}
				if w.marked[g] == others {
					return nil
				}
				w.marked[g] = mine
				list = append(list, g)
			}
			w.lists[k] = list
		}
	}
}

// without returns the faces of a part that are not in another.
func (w *work) without(p, q part) part {
	w.sides += 2
	for _, f := range q {
		w.marked[f] = w.sides
	}
	rest := make(part, 0, len(p)-len(q))
	for _, f := range p {
		if w.marked[f] != w.sides {
			rest = append(rest, f)
		}
	}
	return rest
}

// runEnd follows a seam from a position to the next open point, if there is one.
func (w *work) runEnd(s, from int32) (int32, bool) {
	for i, n := from+1, w.last(s); i <= n; i++ {
		if w.isOpen(w.point(s, i)) {
			return i, true
		}
	}
	return 0, false
}

// split cuts a part along a stretch of a seam. The parts are new; right is empty
// if that leaves the part in one piece, as it may where a part has a hole.
func (w *work) split(p part, c chord) (left, right part) {
	w.enter(p)
	w.mark(c)
	left = w.flood(make(part, 0, len(p)), w.mesh.left[w.edge(c.seam, c.from)])
	rest := left[len(left):cap(left)]
	right = rest[:0:len(rest)]
	for _, f := range p {
		if w.seen[f] != w.stamp {
			right = append(right, f)
		}
	}
	return left[:len(left):len(left)], right
}

// mark cuts the edges of a chord in the part entered.
func (w *work) mark(c chord) {
	for i := c.from; i < c.to; i++ {
		w.cut[w.edge(c.seam, i)] = w.stamp
	}
}

// flood collects the faces of the part entered that can be reached from f
// without crossing a cut.
func (w *work) flood(list part, f int32) part {
	w.seen[f] = w.stamp
	for list, next := append(list, f), len(list); ; next++ {
		if next == len(list) {
			return list
		}
		for _, h := range w.halves(list[next]) {
			g := w.other(h)
			if w.seen[g] != w.stamp && w.in[g] == w.stamp && w.cut[h>>1] != w.stamp {
				w.seen[g] = w.stamp
				list = append(list, g)
			}
		}
	}
}

// countSides counts, for the part entered, the sides of its faces that are not
// on its border.
func (w *work) countSides(p part) {
	for _, f := range p {
		w.inner[f] = 0
		for _, h := range w.halves(f) {
			w.onSide[w.side(h)] = 0
		}
	}
	for _, f := range p {
		for _, h := range w.halves(f) {
			if w.in[w.other(h)] != w.stamp {
				continue
			}
			if s := w.side(h); w.onSide[s] == 0 {
				w.inner[f]++
				w.onSide[s] = 1
			} else {
				w.onSide[s]++
			}
		}
	}
}
