package solver

import "math"

// peel reports whether a part is one section: whether it is convex and its faces
// can be cut off one at a time. Any order will do (THEORY.md 4), so it takes what
// it finds. If last is a face, that one must remain until the end. Of a convex
// part a face can be cut off if just one of its sides has edges inside the part.
func (w *work) peel(p part, last int32) bool {
	if len(p) == 1 {
		return true
	}
	if !w.convex {
		return w.peelBent(p, last)
	}
	w.enter(p)
	if w.walls != nil && (w.walled || !w.bulging(p)) {
		return false
	}
	w.countSides(p)
	todo := w.queue[:0]
	for _, f := range p {
		if w.inner[f] == 1 && f != last {
			todo = append(todo, f)
		}
	}
	left := len(p)
	for left > 1 && len(todo) > 0 {
		f := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		left--
		w.in[f] = 0
		for _, h := range w.halves(f) {
			g := w.other(h)
			if w.in[g] != w.stamp {
				continue
			}
			if w.uncover(h^1) && w.inner[g] == 1 && g != last {
				todo = append(todo, g)
			}
		}
	}
	w.queue = todo
	return left == 1
}

// bulging reports whether the part entered, which is connected and has no walls,
// is convex: nowhere on its border do its faces take up more than a straight
// angle. Parts that were made by cutting a convex block are so in any case.
func (w *work) bulging(p part) bool {
	for _, f := range p {
		for _, h := range w.halves(f) {
			v := w.begin(h)
			if w.border[v] || w.open[v] != w.stamp {
				continue
			}
			if w.fanned[v] != w.stamp {
				w.fanned[v], w.fan[v] = w.stamp, 0
			}
			if w.fan[v] += w.corner[h]; w.fan[v] > math.Pi+angleTol {
				return false
			}
		}
	}
	return true
}

// uncover notes that the face across a half has gone, and reports whether the
// half's side is now on the border.
func (w *work) uncover(h half) bool {
	s := w.side(h)
	if w.onSide[s]--; w.onSide[s] > 0 {
		return false
	}
	w.inner[w.face(h)]--
	return true
}

// peelBent is peel for parts that may not be convex: a face can be cut off if
// its edges inside the part are one chord, and all the rest lies on one side
// of the chord's line, as the paper must fold along it.
func (w *work) peelBent(p part, last int32) bool {
	for _, f := range p {
		if w.bent[f] {
			return false
		}
	}
	_, _, ok := w.order(p, last)
	return ok
}

// cutsOff reports whether a face of the part entered can be cut off.
func (w *work) cutsOff(p part, f int32) bool {
	c, ok := w.chordOf(f)
	if !ok {
		return false
	}
	l := w.seams[c.seam]
	length := l.dir.Len()
	mine := l.side(w.centre[f]) > 0
	for _, g := range p {
		if g == f || w.in[g] != w.stamp {
			continue
		}
		for _, v := range w.corners[g] {
			// The farther a point lies beyond the seam, the less exactly the
			// seam's ends tell where the line runs there.
			far := 1 + w.at[v].Dist(l.from)/length
			d := l.side(w.at[v]) / length / far
			if mine && d > straightTol || !mine && d < -straightTol {
				return false
			}
		}
	}
	return true
}

// chordOf returns the chord that cuts off a face of the part entered, if one does.
// countSides must have been called.
func (w *work) chordOf(f int32) (c chord, ok bool) {
	if w.inner[f] != 1 {
		return c, false
	}
	first, last, n := int32(-1), int32(-1), int32(0)
	for _, h := range w.halves(f) {
		if e := int32(h >> 1); w.in[w.other(h)] == w.stamp {
			if n == 0 || e < first {
				first = e
			}
			last = max(last, e)
			n++
		}
	}
	s := w.seam[first]
	c = chord{s, first - w.first[s], last - w.first[s] + 1}
	if last-first+1 != n || !w.isOpen(w.tail[first]) || !w.isOpen(w.head[last]) {
		return c, false
	}
	for e := first; e < last; e++ {
		if w.isOpen(w.head[e]) {
			return c, false
		}
	}
	return c, true
}
