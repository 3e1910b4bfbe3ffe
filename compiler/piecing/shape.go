package piecing

import (
	"math"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// A shape is a body cut into regions, each with what it holds.
type shape struct {
	body    *eval.Body
	outline plane.Polygon // without straight corners
	joins   []eval.Join   // those that act: written or found
	cut     *division
	sewn    []int32 // chords in sewing order
	cells   []cell  // in the order of the text: sections, then places
	byLabel [][]ref // sides of cells, by the label of their division

	sections, pieces, seams, sides int // with those of placed units
	failed                         bool
	drawn                          bool // its sections were found, not written
}

// A ref is one side of a cell's region.
type ref struct{ cell, side int32 }

// A cell is a region and what fills it: a section or a placed unit.
type cell struct {
	face     *plane.Face
	leaf     int32 // of the division that was claimed
	straight bool  // some corner of the region is straight
	section  *section
	place    *eval.Place
	index    int     // of the section or place in the body
	unit     *shape  // what is placed
	sideOf   []int32 // the unit's outline side under each side of the region
	measure  measure
}

// A measure sums up the pieces of a section.
type measure struct {
	area, edges, shortest float64 // shortest is the shortest side of any piece
	corners               int
}

func (s *section) measure() measure {
	m := measure{shortest: math.Inf(1)}
	for i := range s.pieces {
		p := s.pieces[i].face.Corners
		m.area += p.Area()
		m.corners += len(p)
		for k := range p {
			n := p.Side(k).Len()
			m.edges += n
			m.shortest = min(m.shortest, n)
		}
	}
	return m
}

// shape cuts a body, once. A body with faults gives a failed shape; the faults
// have been told.
func (w *work) shape(b *eval.Body, size pattern.Length) *shape {
	key := shapeKey{b, size}
	if s := w.shapes[key]; s != nil {
		return s
	}
	s := &shape{body: b, outline: b.Outline.Corners(), failed: true}
	w.shapes[key] = s
	if w.effort >= 0 {
		s.failed = !w.fill(s, size)
		if w.effort < 0 {
			w.tellTooMany(s, "the lines of "+b.Name+" cross each other too often to be worked out")
		}
	}
	return s
}

// fill does the work of shape; false where there are faults.
func (w *work) fill(s *shape, size pattern.Length) bool {
	b := s.body
	if len(b.Lines)+len(b.Drawn) > 0 {
		if b = w.sewn(b); b == nil {
			return false
		}
		s.body, s.drawn = b, true
	}
	units, ok := make([]*shape, len(b.Places)), true
	for i := range b.Places {
		units[i] = w.shape(b.Places[i].Body, size)
		ok = ok && !units[i].failed
	}
	if !ok {
		return false
	}
	var always, acting []eval.Join
	for _, j := range b.Joins {
		if j.From == 0 {
			always = append(always, j)
		}
		if j.From <= size {
			acting = append(acting, j)
		}
	}
	if len(b.Joins) == 0 && len(b.Places) > 1 && len(b.Sections) == 0 {
		if always = w.find(s, units); always == nil {
			return false
		}
		acting = always
	}
	if !w.divided(s, always) || !w.claim(s, units) {
		return false
	}
	if len(acting) > len(always) && !w.divideFurther(s, acting) {
		return false
	}
	s.finish()
	return w.effort >= 0
}

// divided cuts along joins; it reports false where a join is at fault.
func (w *work) divided(s *shape, joins []eval.Join) bool {
	cut, ends, idle := divide(s.outline, joins, &w.effort)
	s.joins, s.cut = joins, cut
	if len(cut.chords) >= maxRegions {
		w.tellTooMany(s, "the joins of "+s.body.Name+" make more than "+num(maxRegions)+" regions")
	}
	if cut.tooMany() {
		return false
	}
	for i := range ends {
		w.tellLoose(s, &ends[i])
	}
	for _, j := range idle {
		w.tellIdle(s, j)
	}
	for i := range cut.troubles {
		w.tellTrouble(s, &cut.troubles[i])
	}
	return len(ends)+len(idle)+len(cut.troubles) == 0
}

// finish sorts the cells' sides by label and counts.
func (s *shape) finish() {
	s.sewn = s.cut.sewn()
	s.seams = len(s.sewn)
	s.byLabel = make([][]ref, len(s.outline)+2*len(s.cut.chords))
	count := make([]int32, len(s.byLabel))
	total := 0
	for i := range s.cells {
		for _, l := range s.cells[i].face.Labels {
			count[l]++
			total++
		}
	}
	room := make([]ref, total)
	for l, n := range count {
		s.byLabel[l], room = room[:0:n], room[n:]
	}
	for i := range s.cells {
		c := &s.cells[i]
		for side, l := range c.face.Labels {
			s.byLabel[l] = append(s.byLabel[l], ref{int32(i), int32(side)})
		}
		if c.section != nil {
			s.sections++
			s.pieces += len(c.section.pieces)
			s.sides += len(c.face.Corners)
		} else {
			s.sections += c.unit.sections
			s.pieces += c.unit.pieces
			s.seams += c.unit.seams
			s.sides += c.unit.sides
		}
	}
}
