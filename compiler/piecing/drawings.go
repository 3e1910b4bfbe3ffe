package piecing

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// A drawing stands for all copies that one print serves.
type drawing struct {
	class  int32
	first  int32 // copy
	make   int
	name   string
	wished string // the name written, if it was taken
	twin   int32  // the drawing that this one reverses, or -1
	edges  []edge
}

// equal sorts the copies into drawings: equal sections whose sides are of the
// same kinds, have equal sections across them, and seams ending at the same
// points. Neighbors count as equal here if they are of one class: one round of
// comparison, or else sections in the middle of a large block would all differ
// by how far they are from its border. Which side of such a neighbor lies across
// does not matter either (four alike around one that is not the same on all sides),
// unless letters on the edges would then be wrong.
func (a *assembly) equal() {
	a.draw()
	if !a.turned {
		return
	}
	if a.findEdges(); !a.lettersTrue() {
		a.bySide, a.drawings = true, nil
		a.draw()
	}
}

// draw gives each copy its drawing.
func (a *assembly) draw() {
	type key struct {
		cell     *cell
		reversed bool
	}
	type found struct{ class, offset int32 }
	cat := catalogue{byKey: map[uint64][]int32{}}
	known := map[key]found{}
	for i := range a.copies {
		c := &a.copies[i]
		k := key{c.cell, c.motion.Reversed}
		f, ok := known[k]
		if !ok {
			f.class, f.offset = cat.find(lookAt(c.cell, c.motion.Reversed))
			known[k] = f
		}
		c.class, c.offset = f.class, f.offset
	}
	a.classes = cat.classes
	for i := range a.sides {
		a.sortSide(&a.sides[i])
	}
	byKey := map[uint64][]int32{}
	for i := range a.copies {
		c := &a.copies[i]
		h := uint64(c.class)
		sum := uint64(0)
		for s := range c.outline {
			sum += mix(a.sideKey(c, s), 0, 0)
		}
		h = mix(h+sum, 1, 1)
		c.drawing = -1
		for _, d := range byKey[h] {
			if a.drawings[d].class == c.class && a.align(c, &a.copies[a.drawings[d].first]) {
				c.drawing = d
				a.drawings[d].make++
				break
			}
		}
		if c.drawing < 0 {
			c.drawing = int32(len(a.drawings))
			byKey[h] = append(byKey[h], c.drawing)
			a.drawings = append(a.drawings, drawing{class: c.class, first: int32(i), make: 1, twin: -1})
		}
	}
	for i := range a.copies {
		a.number(&a.copies[i])
	}
}

// sortSide puts the stretches of a side in order along it.
func (a *assembly) sortSide(s *side) {
	if s.stretch < 0 || a.stretch[s.stretch].next < 0 {
		return
	}
	var list []int32
	for i := s.stretch; i >= 0; i = a.stretch[i].next {
		list = append(list, i)
	}
	slices.SortFunc(list, func(x, y int32) int {
		p, _ := a.extent(x)
		q, _ := a.extent(y)
		return cmp.Compare(p, q)
	})
	s.stretch = list[0]
	for k, i := range list {
		a.stretch[i].next = -1
		if k > 0 {
			a.stretch[list[k-1]].next = i
		}
	}
}

// across tells what lies opposite a stretch: the class, and the side of the
// class, of a peer. Sides that a turn of the class takes to each other count as
// one, so it does not matter that some copies have been turned already to suit
// their drawing.
func (a *assembly) across(peer int32) (class, side int32) {
	st := &a.stretch[peer]
	c := &a.copies[st.copy]
	n := int32(len(c.outline))
	return c.class, a.classes[c.class].same[(st.side-c.offset+n)%n]
}

// sideKey sums up a side without any distance, so that equal sides have equal keys.
func (a *assembly) sideKey(c *copied, side int) uint64 {
	h := uint64(7)
	for i := a.sides[int(c.first)+side].stretch; i >= 0; i = a.stretch[i].next {
		st := &a.stretch[i]
		if st.seam < 0 {
			h = mix(h, -1, -1)
			continue
		}
		h = mix(h, int(st.end-st.group), int(st.last-st.peer))
		for p := st.peer; p < st.last; p++ {
			class, s := a.across(p)
			if !a.bySide {
				s = 0
			}
			h = mix(h, int(class), int(s))
		}
	}
	return h
}

// align turns a copy's offset so that its sides answer those of the drawing's
// first copy; false where they do not, however it is turned.
func (a *assembly) align(c, first *copied) bool {
	n := int32(len(c.outline))
	for _, turn := range a.classes[c.class].turns {
		offset, ok := (c.offset+turn)%n, true
		for s := int32(0); s < n && ok; s++ {
			ok = a.sameSide(a.sides[c.first+(offset+s)%n].stretch, a.sides[first.first+(first.offset+s)%n].stretch)
		}
		if ok {
			c.offset = offset
			return true
		}
	}
	return false
}

// sameSide compares two sides, stretch by stretch.
func (a *assembly) sameSide(i, j int32) bool {
	for i >= 0 && j >= 0 {
		s, t := &a.stretch[i], &a.stretch[j]
		if (s.seam < 0) != (t.seam < 0) || s.end-s.group != t.end-t.group || s.last-s.peer != t.last-t.peer {
			return false
		}
		sf, st := a.extent(i)
		tf, tt := a.extent(j)
		if math.Abs(sf-tf) > near || math.Abs(st-tt) > near {
			return false
		}
		right, other := a.onRight(i), a.onRight(j)
		for k := range s.last - s.peer {
			sc, ss := a.across(walk(s.peer, s.last, k, right))
			tc, ts := a.across(walk(t.peer, t.last, k, other))
			if sc != tc || ss != ts && a.bySide {
				return false
			}
			a.turned = a.turned || ss != ts
		}
		p, stops := a.stopOn(i)
		q, stopsToo := a.stopOn(j)
		if stops != stopsToo || stops && math.Abs(a.along(i, p)-a.along(j, q)) > near {
			return false
		}
		for k := range s.end - s.group {
			g, h := &a.groups[walk(s.group, s.end, k, right)], &a.groups[walk(t.group, t.end, k, other)]
			// At its ends it depends on the order of sewing alone whether the
			// seam that is sewn here has something to match.
			inner := k > 0 && k < s.end-s.group-1
			if inner && g.match() != h.match() || math.Abs(a.along(i, g.at)-a.along(j, h.at)) > near {
				return false
			}
		}
		i, j = s.next, t.next
	}
	return i < 0 && j < 0
}

// onRight reports whether a stretch lies on the right of its seam: its side
// then runs against the seam.
func (a *assembly) onRight(i int32) bool {
	return a.stretch[i].seam >= 0 && i >= a.seams[a.stretch[i].seam].r
}

// walk returns the kth of [from, to), counted from the end where back is set.
func walk(from, to, k int32, back bool) int32 {
	if back {
		return to - 1 - k
	}
	return from + k
}

// A run is an edge in the making: neighboring stretches of one kind in one line.
type run struct {
	start   plane.Point
	border  bool
	stretch []int32
}

// runs returns the edges of a copy, in the order of its drawing.
func (a *assembly) runs(c *copied) []run {
	n := int32(len(c.outline))
	runs := make([]run, 0, n)
	firstBent := true
	for k := range n {
		s := (c.offset + k) % n
		bent := !c.straight || !straight(c.outline, int(s))
		side := c.outline.Side(int(s))
		for i := a.sides[c.first+s].stretch; i >= 0; i = a.stretch[i].next {
			border := a.stretch[i].seam < 0
			if len(runs) == 0 {
				firstBent = bent
			}
			if last := len(runs) - 1; last >= 0 && !bent && runs[last].border == border {
				runs[last].stretch = append(runs[last].stretch, i)
				continue
			}
			from, _ := a.extent(i)
			start := side.A
			if from > plane.Tol {
				start = side.At(from)
			}
			runs = append(runs, run{start, border, []int32{i}})
			bent = false
		}
	}
	if last := len(runs) - 1; last > 0 && !firstBent && runs[last].border == runs[0].border {
		runs[last].stretch = append(runs[last].stretch, runs[0].stretch...)
		runs = runs[1:]
	}
	return runs
}

// number tells each stretch of a copy which edge of the drawing it is part of.
func (a *assembly) number(c *copied) {
	if !c.straight && a.plainSides(c) {
		n := int32(len(c.outline))
		for k := range n {
			a.stretch[a.sides[c.first+(c.offset+k)%n].stretch].edge = k
		}
		return
	}
	for e, r := range a.runs(c) {
		for _, i := range r.stretch {
			a.stretch[i].edge = int32(e)
		}
	}
}

// plainSides reports whether every side of a copy is one stretch.
func (a *assembly) plainSides(c *copied) bool {
	for k := range c.outline {
		if i := a.sides[int(c.first)+k].stretch; i < 0 || a.stretch[i].next >= 0 {
			return false
		}
	}
	return true
}
