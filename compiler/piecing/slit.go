package piecing

import (
	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
)

// A slit is a seam that is sewn in two goes: its first part before the joins that
// run across its end, the rest after those that end on it. Cutting backwards, the
// rest is a slit from the border to a tip inside. A join that ends on it cuts along
// itself and then along the slit; one that runs through its tip makes a border of
// it; and then the partial join cuts along what is left.
type slit struct {
	finish, begin int // indices of joins
	chord         int32
	border, tip   plane.Point
	begun         bool // cut by its partial join
}

// A trouble is what is wrong with a partial join.
type trouble struct {
	kind  troubleKind
	join  int // the partial one
	other int // the one that is in the way, or that is on its line; or -1
	at    plane.Point
}

type troubleKind int8

const (
	notFinished troubleKind = iota // no later join runs on along its line
	notNeeded                      // the join on its line can be sewn in one
	notCrossed                     // nothing sewn between runs across its start
	inTheWay                       // a join ends where it is sewn already
	slitCrossed                    // a join runs across the open part
)

// slitted does what a join has to do with slits at a leaf, where its chord is ch,
// from and to along the join; it reports whether that was all.
func (c *cutter) slitted(i int32, ch plane.Chord, from, to float64) bool {
	if c.joins[c.join].Partial {
		c.begin(i, ch)
		return true
	}
	first, last := from < -plane.Tol, to > c.long+plane.Tol // loose
	end, border := c.line.A, ch.To
	if last {
		end, border = c.line.B, ch.From
	}
	if first != last {
		if k := c.beginning(border.At, end); k >= 0 {
			c.open(k, ch, border.At, end)
			return true
		}
	}
	for s := range c.slits {
		l, ok := c.inside(i, s)
		if !ok {
			continue
		}
		if first != last && l.Nearest(end).Same(end) && !end.Same(c.slits[s].tip) {
			c.bend(i, s, border, end, last)
			return true
		}
		own := plane.Line{A: c.line.At(max(from, 0)), B: c.line.At(min(to, c.long))}
		if at, ok := c.line.Meet(l); ok && strictly(own, at) && strictly(l, at) {
			c.troubles = append(c.troubles, trouble{slitCrossed, c.slits[s].begin, c.join, at})
			return true
		}
	}
	return false
}

// strictly reports whether a point of a line lies between its ends, and is neither.
func strictly(l plane.Line, p plane.Point) bool {
	t := l.Along(p)
	return t > plane.Tol && t < l.Len()-plane.Tol
}

// beginning finds the partial join that begins the one from the border to a tip.
func (c *cutter) beginning(border, tip plane.Point) int {
	l := plane.Line{A: border, B: tip}
	for k := range c.joins[:c.join] {
		if j := &c.joins[k]; j.Partial && stop(j, l, tip) {
			return k
		}
	}
	return -1
}

// stop reports whether a partial join begins at a tip and stops on the way from
// there to the border.
func stop(j *eval.Join, l plane.Line, tip plane.Point) bool {
	a, b := j.Line.A, j.Line.B
	if b.Same(tip) {
		a, b = b, a
	}
	return a.Same(tip) && l.Side(b) == 0 && strictly(l, b)
}

// open notes a slit; it cuts nothing yet.
func (c *cutter) open(begin int, ch plane.Chord, border, tip plane.Point) {
	id := int32(len(c.chords))
	l := plane.Line{A: ch.From.At, B: tip}
	if border.Same(ch.To.At) {
		l = plane.Line{A: tip, B: ch.To.At}
	}
	c.chords = append(c.chords, chord{l, c.join, c.line.Along(l.A), -1})
	c.slits = append(c.slits, slit{c.join, begin, id, border, tip, false})
}

// inside returns the stretch of a slit that lies in a leaf, toward its tip; false
// where none does.
func (c *cutter) inside(i int32, s int) (plane.Line, bool) {
	t := &c.slits[s]
	if t.begun {
		return plane.Line{}, false
	}
	l := plane.Line{A: t.border, B: t.tip}
	for _, ch := range c.nodes[i].face.Chords(l, nil) {
		from, to := l.Along(ch.From.At), min(l.Along(ch.To.At), l.Len())
		if to-from > plane.Tol && to > l.Len()-plane.Tol {
			return plane.Line{A: ch.From.At, B: t.tip}, true
		}
	}
	return plane.Line{}, false
}

// bend cuts a leaf along a join that ends on a slit, and on along the slit.
func (c *cutter) bend(i int32, s int, border plane.Hit, end plane.Point, last bool) {
	t, face := &c.slits[s], &c.nodes[i].face
	l := plane.Line{A: t.border, B: t.tip}
	var rim plane.Hit
	for _, ch := range face.Chords(l, nil) {
		if l.Along(ch.From.At) < l.Along(end) && l.Along(ch.To.At) > l.Along(end) {
			rim = ch.From
		}
	}
	id := int32(len(c.chords))
	made := plane.Line{A: border.At, B: end}
	left, right := [2]int32{c.leftOf(id), c.rightOf(t.chord)}, [2]int32{c.rightOf(id), c.leftOf(t.chord)}
	if !last {
		made = plane.Line{A: end, B: border.At}
		left[0], right[0] = right[0], left[0]
	}
	if t.tip.Same(c.chords[t.chord].A) { // the slit runs from its tip
		left[1], right[1] = right[1], left[1]
	}
	c.effort.spend(effortOfCut)
	c.chords = append(c.chords, chord{made, c.join, c.line.Along(made.A), -1})
	a, b := face.Bend(border, end, rim, left, right)
	c.parted(i, id, a, b)
	c.nodes[i].bent = true
}

// begin cuts a leaf along a slit, the whole way though it is sewn only in part.
func (c *cutter) begin(i int32, ch plane.Chord) {
	s := -1
	for k := range c.slits {
		if c.slits[k].begin == c.join {
			s = k
		}
	}
	if s < 0 {
		return
	}
	t := &c.slits[s]
	l := plane.Line{A: t.tip, B: c.line.B}
	if t.tip.Same(c.line.B) {
		l.B = c.line.A
	}
	near, far := ch.From.At, ch.To.At
	if l.Along(near) > l.Along(far) {
		near, far = far, near
	}
	switch {
	case !near.Same(t.tip):
		c.troubles = append(c.troubles, trouble{notCrossed, c.join, -1, t.tip})
		return
	case l.Along(far) < l.Len()+plane.Tol:
		c.troubles = append(c.troubles, trouble{inTheWay, c.join, c.endingAt(far), far})
		return
	}
	if along := c.chords[t.chord]; along.Dir().Dot(c.line.Dir()) < 0 { // the seam's own way
		ch.From, ch.To = ch.To, ch.From
	}
	left, right := c.nodes[i].face.Split(ch, c.leftOf(t.chord), c.rightOf(t.chord))
	left.Straighten()
	right.Straighten()
	c.effort.spend(effortOfCut)
	c.parted(i, t.chord, left, right)
	c.chords = append(c.chords, chord{l, c.join, 0, int32(s)})
	t.begun = true
}

// endingAt finds the join that ends at a point, sewn after this one; or -1.
func (c *cutter) endingAt(p plane.Point) int {
	for k := c.join + 1; k < len(c.joins); k++ {
		if l := &c.joins[k].Line; l.A.Same(p) || l.B.Same(p) {
			return k
		}
	}
	return -1
}

// unbegun tells why a partial join has no slit to begin.
func (c *cutter) unbegun() {
	t := trouble{notFinished, c.join, -1, c.line.B}
	for k := c.join + 1; k < len(c.joins); k++ {
		o := &c.joins[k]
		if !o.Partial && c.line.Side(o.Line.A) == 0 && c.line.Side(o.Line.B) == 0 && overlap(o.Line, c.line) {
			t.kind, t.other = notNeeded, k
		}
	}
	c.troubles = append(c.troubles, t)
}
