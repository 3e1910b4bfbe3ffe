package piecing

import (
	"sync/atomic"

	"seamwright/compiler/eval"
	"seamwright/compiler/parallel"
	"seamwright/compiler/plane"
)

// claim gives every region its section or placed unit. It reports false where
// one has none, or two, or does not fit; that has been told.
func (w *work) claim(s *shape, units []*shape) bool {
	b, ok := s.body, true
	taken := make([]int32, len(s.cut.leaves)) // cell+1
	s.cells = make([]cell, 0, len(s.cut.leaves))
	for i := range b.Sections {
		if len(b.Sections[i].Pieces) == 0 || len(b.Sections[i].Pieces[0].Points) == 0 {
			ok = false // evaluation has told
			continue
		}
		anchor := b.Sections[i].Pieces[0].Points[0]
		at := s.cut.locate(anchor)
		if at.leaf < 0 {
			w.tellAnchor(s, i, at)
			ok = false
			continue
		}
		if other := taken[at.leaf]; other > 0 {
			w.tellTwice(s, s.cells[other-1].index, i)
			ok = false
			continue
		}
		s.cells = append(s.cells, cell{face: s.face(at.leaf), leaf: at.leaf, index: i})
		taken[at.leaf] = int32(len(s.cells))
	}
	placed := make([]plane.Polygon, len(b.Places))
	fits := true
	for i := range b.Places {
		placed[i] = units[i].outline.Move(b.Places[i].Motion)
		c := cell{place: &b.Places[i], unit: units[i], index: i}
		leaf := s.cut.locate(placed[i].Interior()).leaf
		if leaf < 0 || taken[leaf] > 0 {
			fits = false
			continue
		}
		c.face, c.leaf = s.face(leaf), leaf
		if c.sideOf = fit(c.face.Corners, placed[i], b.Places[i].Motion.Reversed); c.sideOf == nil {
			fits = false
			continue
		}
		s.cells = append(s.cells, c)
		taken[leaf] = int32(len(s.cells))
	}
	if !fits {
		w.tellMisfit(s, placed, taken)
		return false
	}
	if !ok {
		return false
	}
	empty := 0
	for leaf, c := range taken {
		if c == 0 {
			if empty++; empty <= enough {
				w.tellEmpty(s, s.face(int32(leaf)))
			}
			ok = false
		}
	}
	for i := range s.cells {
		s.cells[i].straight = hasStraight(s.cells[i].face.Corners)
	}
	return w.cutCells(s) && ok
}

// cutCells cuts the regions of sections into their pieces, and reports whether all
// went well.
func (w *work) cutCells(s *shape) bool {
	pieces := 0
	for i := range s.body.Sections {
		pieces += len(s.body.Sections[i].Pieces)
	}
	const some = 16 // cells for one who cuts
	flaws, notes := make([][]flaw, len(s.cells)), make([]notes, len(s.cells))
	var spent atomic.Int64
	parallel.Do((len(s.cells)+some-1)/some, pieces >= parallel.Worth, func(part int) {
		var bench plane.Bench
		left := w.effort - effort(spent.Load())
		before := left
		for i := part * some; i < min((part+1)*some, len(s.cells)); i++ {
			c := &s.cells[i]
			if c.place != nil {
				continue
			}
			c.section, flaws[i] = cutSection(&s.body.Sections[c.index], c.face, 0, false, &left, &bench)
			if len(flaws[i]) == 0 {
				notes[i], c.measure = c.read(), c.section.measure()
			}
		}
		spent.Add(int64(before - left))
	})
	if w.effort -= effort(spent.Load()); w.effort < 0 {
		return false
	}
	ok := true
	for i := range s.cells {
		c := &s.cells[i]
		for k := len(flaws[i]) - 1; k >= 0; k-- {
			w.tellFlaw(s, c, &flaws[i][k])
		}
		ok = w.tellNotes(s, c, &notes[i]) && len(flaws[i]) == 0 && ok
	}
	return ok
}

func (s *shape) face(leaf int32) *plane.Face { return &s.cut.nodes[s.cut.leaves[leaf]].face }

func hasStraight(p plane.Polygon) bool {
	for i := range p {
		if straight(p, i) {
			return true
		}
	}
	return false
}

func straight(p plane.Polygon, i int) bool {
	n := len(p)
	return (plane.Line{A: p[(i+n-1)%n], B: p[(i+1)%n]}).Side(p[i]) == 0
}

// fit returns, for each side of a region, the side of the unit that lies on it,
// in the unit's own numbering; nil where region and placed unit differ. The
// unit's outline has no straight corners, the region may have some.
func fit(region, unit plane.Polygon, reversed bool) []int32 {
	n, m := len(region), len(unit)
	bent := make([]int, 0, n)
	for i := range region {
		if !straight(region, i) {
			bent = append(bent, i)
		}
	}
	if len(bent) != m {
		return nil
	}
next:
	for o := range unit {
		for k, i := range bent {
			if !region[i].Same(unit[(o+k)%m]) {
				continue next
			}
		}
		sides := make([]int32, n)
		for k, from := range bent {
			side := (o + k) % m
			if reversed {
				side = m - 1 - side
			}
			for i := from; i != bent[(k+1)%m]; i = (i + 1) % n {
				sides[i] = int32(side)
			}
		}
		return sides
	}
	return nil
}

// divideFurther cuts along the joins that act from some size too. The regions
// of a section that they divide inherit its seams.
func (w *work) divideFurther(s *shape, acting []eval.Join) bool {
	base, cells := s.cut, s.cells
	if !w.divided(s, acting) {
		return false
	}
	owner := make([]int32, len(base.leaves))
	for i := range cells {
		owner[cells[i].leaf] = int32(i)
	}
	ok := true
	parts := make([][]int32, len(cells))
	for leaf := range s.cut.leaves {
		if at := base.locate(s.face(int32(leaf)).Corners.Interior()); at.leaf >= 0 {
			parts[owner[at.leaf]] = append(parts[owner[at.leaf]], int32(leaf))
		}
	}
	s.cells = nil
	for i := range cells {
		c := cells[i]
		if c.place != nil {
			if len(parts[i]) != 1 {
				w.tellDividesUnit(s, &c)
				ok = false
				continue
			}
			c.face = s.face(parts[i][0])
			c.sideOf = fit(c.face.Corners, c.unit.outline.Move(c.place.Motion), c.place.Motion.Reversed)
			s.cells = append(s.cells, c)
			continue
		}
		anchor, half := s.cut.locate(c.section.src.Pieces[0].Points[0]), 0
		if anchor.leaf < 0 {
			w.tellAnchor(s, c.index, anchor)
			ok = false
			continue
		}
		for _, leaf := range parts[i] {
			part := cell{face: s.face(leaf), index: c.index}
			part.straight = hasStraight(part.face.Corners)
			number := 0
			if leaf != anchor.leaf {
				half++
				number = half
			}
			var flaws []flaw
			part.section, flaws = cutSection(c.section.src, part.face, number, len(parts[i]) > 1, &w.effort, &w.bench)
			part.measure = part.section.measure()
			for k := range flaws {
				w.tellFlaw(s, &part, &flaws[k])
				ok = false
			}
			s.cells = append(s.cells, part)
		}
	}
	return ok
}
