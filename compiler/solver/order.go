package solver

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// quantum is what lengths are rounded to before they are compared, so that equal
// sections, turned or moved, are ordered alike.
const quantum = 10 * plane.Tol

func rounded(x float64) float64 { return math.Round(x / quantum) }

// order returns a section's faces in sewing order, with the chord along which
// each is sewn (the first has none): of the faces that can be cut off, the one
// with the longest seam is cut off first, and so sewn last. If first is a face,
// sewing starts there. It reports false if that can't be.
func (w *work) order(p part, first int32) (faces []int32, chords []chord, ok bool) {
	faces, chords = make([]int32, len(p)), make([]chord, len(p))
	w.enter(p)
	w.countSides(p)
	middle := w.middle(p)
	var todo []int32
	for _, f := range p {
		if w.inner[f] == 1 {
			todo = append(todo, f)
		}
	}
	for left := len(p); left > 1; left-- {
		best, chosen, cut := -1, rank{}, chord{}
		for i, f := range todo {
			if f == first || !w.convex && !w.cutsOff(p, f) {
				continue
			}
			c := w.sideChord(f)
			r := rank{rounded(w.length(c)), rounded(w.centre[f].Dist(middle)), w.centre[f].Sub(middle), c, f}
			if best < 0 || w.before(r, chosen, middle) {
				best, chosen, cut = i, r, c
			}
		}
		if best < 0 {
			return nil, nil, false
		}
		f := todo[best]
		todo[best] = todo[len(todo)-1]
		faces[left-1], chords[left-1] = f, cut
		todo = w.take(todo[:len(todo)-1], f)
	}
	for _, f := range p {
		if w.in[f] == w.stamp {
			faces[0] = f
		}
	}
	return faces, chords, true
}

// take removes a face from the part entered, and adds to todo the neighbours
// that now have one inner side.
func (w *work) take(todo []int32, f int32) []int32 {
	w.in[f] = 0
	for _, h := range w.halves(f) {
		w.open[w.tail[h>>1]], w.open[w.head[h>>1]] = w.stamp, w.stamp
		if g := w.other(h); w.in[g] == w.stamp && w.uncover(h^1) && w.inner[g] == 1 {
			todo = append(todo, g)
		}
	}
	return todo
}

// A rank orders the faces that can be cut off next. Of two that are alike the one is
// taken that follows the other anticlockwise about the middle, so that a section that
// has a left and a right like it is sewn in the same order however it is turned. Two
// opposite each other have no such order: then it is the smaller one, or the one on the
// left of its seam as seen towards the middle, or the fabric that decides.
type rank struct {
	length, far float64
	from        plane.Point // the middle
	cut         chord
	face        int32
}

func (w *work) before(r, s rank, middle plane.Point) bool {
	switch {
	case r.length != s.length:
		return r.length > s.length
	case r.far != s.far:
		return r.far > s.far
	}
	if turn := rounded(s.from.Cross(r.from)); turn != 0 {
		return turn > 0
	}
	if d := rounded(w.area[s.face] - w.area[r.face]); d != 0 {
		return d > 0
	}
	if d := w.leaning(r, middle) - w.leaning(s, middle); d != 0 {
		return d > 0
	}
	if w.kinds != nil && w.kinds[r.face] != w.kinds[s.face] {
		return w.kinds[r.face] > w.kinds[s.face]
	}
	return r.face > s.face
}

// sideChord returns the stretch of its only inner side that a face shares with
// the part entered.
func (w *work) sideChord(f int32) chord {
	low, high := int32(math.MaxInt32), int32(0)
	for _, h := range w.halves(f) {
		if e := int32(h >> 1); w.in[w.other(h)] == w.stamp {
			low, high = min(low, e), max(high, e+1)
		}
	}
	s := w.seam[low]
	return chord{s, low - w.first[s], high - w.first[s]}
}

// leaning tells on which side of its seam a face lies, as seen from that end which is
// farther from the middle: 1 left, -1 right, 0 if both are as far.
func (w *work) leaning(r rank, middle plane.Point) int {
	l := w.line(r.cut, r.face) // with the face on its left
	return cmp.Compare(rounded(l.A.Dist(middle)-l.B.Dist(middle)), 0)
}

// length returns how long a chord is.
func (w *work) length(c chord) float64 {
	return w.at[w.point(c.seam, c.from)].Dist(w.at[w.point(c.seam, c.to)])
}

// middle returns the mean of the faces' centres.
func (w *work) middle(p part) plane.Point {
	sum := plane.Point{}
	for _, g := range p {
		sum = sum.Add(w.centre[g])
	}
	return sum.Mul(1 / float64(len(p)))
}

// line returns a chord with a face on its left.
func (w *work) line(c chord, f int32) plane.Line {
	l := plane.Line{A: w.at[w.point(c.seam, c.from)], B: w.at[w.point(c.seam, c.to)]}
	if w.seams[c.seam].side(w.centre[f]) < 0 {
		l.A, l.B = l.B, l.A
	}
	return l
}

// Firsts lists the patches of a section that can be its first piece. It returns
// nil if the patches are no section.
func (p *Partition) Firsts(section []int) []int {
	if p.mesh == nil {
		return nil
	}
	w, s := newWork(p.mesh), faces(section)
	var list []int
	for _, f := range s {
		if w.peel(s, f) {
			list = append(list, int(f))
		}
	}
	return list
}

// Begin returns sections of a plan in sewing order, some of them with another first
// piece: first holds the patch, by the section's index. Where that is not possible a
// section stays as it was.
func (p *Partition) Begin(sections []Section, first map[int]int) []Section {
	if p.mesh == nil || len(first) == 0 {
		return sections
	}
	w, t, begun := newWork(p.mesh), newTracer(p), slices.Clone(sections)
	for i := range begun {
		if f, ok := first[i]; ok {
			if s := faces(begun[i].Patches); w.peel(s, int32(f)) {
				begun[i] = p.ordered(w, t, s, int32(f))
			}
		}
	}
	return begun
}

func faces(patches []int) part {
	out := make(part, len(patches))
	for i, f := range patches {
		out[i] = int32(f)
	}
	return out
}

// ordered makes a section of its patches.
func (p *Partition) ordered(w *work, t *tracer, s part, first int32) Section {
	list, chords, ok := w.order(s, first)
	if !ok {
		return Section{}
	}
	out := Section{Patches: ints(list), Seams: make([]plane.Line, len(list)), Outline: t.polygon(ints(s))}
	for i := 1; i < len(list); i++ {
		out.Seams[i] = w.line(chords[i], list[i])
	}
	return out
}
