package sheet

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A strip is the seam allowance along one edge. Lengths along it are counted
// from the edge's start.
type strip struct {
	at, dir pos
	len     length
	free    []gap // where nothing is printed yet, in order
}

// A gap is a stretch of a strip.
type gap struct{ from, to length }

// leastStrip is the narrowest allowance in which a line of words stands between
// the outline and the cutting line: 3.1 mm, so an eighth of an inch does.
const leastStrip = inkHeight*small + outlineHalf + cuttingHalf

// Half of what the lines on both sides of the allowance take from it.
const (
	outlineHalf = 0.28 * pattern.Millimetre
	cuttingHalf = 0.15 * pattern.Millimetre
)

// tickRoom is kept free on both sides of a line that crosses the allowance.
const tickRoom = 0.7 * pattern.Millimetre

// usualGaps are as many as most edges have.
const usualGaps = 8

// newStrips opens the allowance along every edge: between the corners, but for
// the match marks and the sewing lines that run on through it.
func (s *section) newStrips() {
	n := len(s.outline)
	s.strips = drawing.Take(&s.pen.strips, n)
	for i, a := range s.outline {
		b := s.outline[(i+1)%n]
		st := &s.strips[i]
		*st = strip{at: a, dir: unit(a, b), len: dist(a, b)}
		// A reflex corner makes the cutting line shorter than the edge.
		ends := s.cut.corner((i + 1) % n)
		from := max(0, dot(sub(s.cut.corner(i)[len(s.cut.corner(i))-1], a), st.dir))
		to := min(st.len, dot(sub(ends[0], a), st.dir))
		if s.allowance < leastStrip {
			continue
		}
		st.free = append(drawing.Take(&s.pen.gaps, usualGaps)[:0], gap{from + tickRoom, to - tickRoom})
		for _, m := range s.d.Edges[i].Marks {
			t := dot(sub(s.move(m.At), a), st.dir)
			if m.Kind == pattern.Stop {
				st.block(t-stopHalf, t+stopHalf)
			} else {
				st.block(t, t)
			}
		}
		s.blockGlue(st, s.allowance)
	}
	s.seams(func(a, b, beyondA, beyondB pos) {
		s.blockRun(a, beyondA)
		s.blockRun(b, beyondB)
	})
}

// blockGlue keeps texts in a strip so deep off joining lines.
func (s *section) blockGlue(st *strip, depth length) {
	for _, j := range s.glue {
		across := pos{Y: 1}
		if j.Upright {
			across = pos{X: 1}
		}
		slope, deep, at := dot(st.dir, across), dot(right(st.dir), across)*depth, dot(sub(j.A, st.at), across)
		lo, hi := at-besideGlue-max(deep, 0), at+besideGlue-min(deep, 0)
		if slope*slope > near {
			lo, hi = min(lo/slope, hi/slope), max(lo/slope, hi/slope)
		} else if lo < 0 && hi > 0 { // it runs along the line
			lo, hi = 0, st.len
		} else {
			continue
		}
		st.block(lo, hi)
	}
}

// blockRun keeps texts off a sewing line that runs on from p to q.
func (s *section) blockRun(p, q pos) {
	if p == q {
		return
	}
	m := mid(p, q)
	for i := range s.strips {
		st := &s.strips[i]
		t, u := dot(sub(p, st.at), st.dir), dot(sub(q, st.at), st.dir)
		depth := dot(sub(m, st.at), right(st.dir))
		if depth > 0 && depth < s.allowance {
			st.block(min(t, u), max(t, u))
		}
	}
}

// block takes a stretch and a little room beside it out of the free gaps.
func (st *strip) block(from, to length) {
	from, to = from-tickRoom, to+tickRoom
	for i := 0; i < len(st.free); i++ {
		g := st.free[i]
		if to <= g.from || from >= g.to {
			continue
		}
		st.free = slices.Delete(st.free, i, i+1)
		if to < g.to {
			st.free = slices.Insert(st.free, i, gap{to, g.to})
		}
		if from > g.from {
			st.free = slices.Insert(st.free, i, gap{g.from, from})
			i++
		}
		i--
	}
}

// find returns where a text of a width goes, its middle as near as may be to a
// wanted place; false where it fits nowhere between from and to.
func (st *strip) find(width, want, from, to length) (length, bool) {
	best, found := length(0), false
	for _, g := range st.free {
		lo, hi := max(g.from, from)+width/2, min(g.to, to)-width/2
		if lo > hi {
			continue
		}
		t := min(max(want, lo), hi)
		if !found || math.Abs(float64(t-want)) < math.Abs(float64(best-want)) {
			best, found = t, true
		}
	}
	return best, found
}

// inkMiddle is the middle of a line's ink above its baseline, from the deepest to
// the highest Latin letter, and inkHeight the whole, as parts of its size.
const (
	inkMiddle = (drawing.Ascent - drawing.Descent) / 2
	inkHeight = drawing.Ascent + drawing.Descent
)

// wide returns the width that words need in the allowance; false where their ink
// is too high for it.
func (s *section) wide(text string) (length, bool) {
	e := drawing.Measure(text, small, false)
	return e.Width + 2*wordRoom, length(e.Ink.Y1-e.Ink.Y0) <= s.allowance-outlineHalf-cuttingHalf
}

// set makes a text in the allowance that reads along the edge, its middle at t,
// in the middle between the depths, and takes its place.
func (st *strip) set(pen *pen, text string, t, inner, outer length) *drawing.Text {
	u := st.dir
	if u.X < -near || u.X < near && u.Y > 0 {
		u = mul(u, -1)
	}
	up := right(u)
	e := drawing.Measure(text, small, false)
	st.block(t-e.Width/2, t+e.Width/2)
	middle := small * inkMiddle
	if ink := e.Ink; length(ink.Y1) > small*drawing.Descent || length(-ink.Y0) > small*drawing.Ascent {
		middle = -length(ink.Y0+ink.Y1) / 2 // an accent or an underscore
	}
	at := along(along(st.at, st.dir, t), right(st.dir), (inner+outlineHalf+outer-cuttingHalf)/2)
	return pen.Text(drawing.Text{
		Text: text, Size: small, Anchor: drawing.Middle,
		At:   along(at, up, -middle),
		Turn: math.Atan2(-float64(u.Y), float64(u.X)) * 180 / math.Pi,
	})
}
