package piecing

import (
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// An assembly is a block with all its units in place, in grid squares, the
// lower left corner of its box at the origin.
type assembly struct {
	block    *eval.Block
	top      *shape
	low      plane.Point // what was taken from the block's own coordinates
	copies   []copied
	sides    []side // of all copies, one after another
	seams    []seam // in sewing order
	stretch  []stretch
	groups   []group
	used     []*shape // every shape, once, as first met
	drawings []drawing
	classes  []class
	bySide   bool // neighbors across count as equal only if they turn the same side here
	turned   bool // some drawing has neighbors that turn another side to it
	scratch  []stretch
	order    []int32 // drawings in the order of their names
	proof    proof
}

// A copied is one section in its place.
type copied struct {
	*cell
	shape   *shape // that it was written in
	motion  plane.Motion
	origin  uint64 // tells it from all others, and is the same in every size
	outline plane.Polygon
	first   int32 // its sides are sides[first:first+len(outline)]
	unit    int32 // which placing of its unit; 0 is the block itself
	of      *within
	as      string        // letters in front of its own
	source  problem.Place // its own, or where its unit was placed
	class   int32
	offset  int32 // the outline's side that is side 0 of its class, then of its drawing
	drawing int32
}

// A within is a placed unit on the way down to a copy.
type within struct {
	up     *within
	name   string
	number int // the how many-eth of its name in its parent
	of     int // how many there are
	text   string
}

// A side of a copy: where its stretches begin.
type side struct{ stretch int32 }

// A leaf is a side of a copy, on the way up to the seam or border it lies on.
type leaf struct{ copy, side int32 }

// assemble places everything; nil where there are faults.
func (w *work) assemble(b *eval.Block, size pattern.Length, scale float64) *assembly {
	top := w.shape(b.Body, size)
	if top.failed {
		return nil
	}
	a := &assembly{block: b, top: top}
	a.low, _ = top.outline.Box()
	a.copies, a.sides = make([]copied, 0, top.sections), make([]side, 0, top.sides)
	a.seams, a.stretch = make([]seam, 0, top.seams), make([]stretch, 0, top.sides)
	a.groups = make([]group, 0, top.sides)
	motion := plane.Motion{Shift: a.low.Mul(-1)}
	p := placer{assembly: a, seen: map[*shape]bool{}}
	borders := p.place(top, motion, nil, "", 0, problem.Place{})
	for i := range a.sides {
		a.sides[i].stretch = -1
	}
	moved := top.outline.Move(motion)
	for i, leaves := range borders {
		a.border(moved.Side(i), leaves)
	}
	for i := range a.seams {
		a.meet(int32(i))
	}
	proven := false
	parallel.Do(2, top.pieces >= parallel.Worth, func(i int) {
		if i == 0 {
			proven = w.prove(a, scale)
		} else {
			a.equal()
			a.findEdges()
		}
	})
	if !proven {
		return nil
	}
	w.warnAnchors(a, scale)
	return a
}

// A placer walks down the units.
type placer struct {
	*assembly
	seen  map[*shape]bool
	units int32
}

// place adds the copies and seams of a shape and returns, for each side of its
// outline (in the shape's own numbering), what lies along it.
func (p *placer) place(s *shape, m plane.Motion, of *within, as string, origin uint64, at problem.Place) [][]leaf {
	unit := p.units
	p.units++
	if !p.seen[s] {
		p.seen[s] = true
		p.used = append(p.used, s)
	}
	number, total := numbered(s)
	cells := make([]cellSides, len(s.cells))
	for i := range s.cells {
		c := &s.cells[i]
		if c.place == nil {
			cells[i].copy = int32(len(p.copies))
			p.section(s, c, m, of, as, mix(origin, c.index, c.section.half), at, unit)
			continue
		}
		inner := &within{up: of, name: c.place.Body.Name, number: number[c.index], of: total[c.index]}
		where := at
		if where.Source == nil {
			where = c.place.At
		}
		cells[i].placed = p.place(c.unit, m.After(c.place.Motion), inner, as+c.place.As, mix(origin, -1-c.index, 0), where)
	}
	gather := func(label int32) []leaf {
		refs := s.byLabel[label]
		if len(refs) == 1 {
			if c := &cells[refs[0].cell]; c.placed != nil {
				return c.placed[s.cells[refs[0].cell].sideOf[refs[0].side]]
			}
		}
		leaves := make([]leaf, 0, len(refs))
		for _, r := range refs {
			if c := &cells[r.cell]; c.placed != nil {
				leaves = append(leaves, c.placed[s.cells[r.cell].sideOf[r.side]]...)
			} else {
				leaves = append(leaves, leaf{c.copy, p.copies[c.copy].sideOf(r.side)})
			}
		}
		return leaves
	}
	x := m.Matrix()
	base := int32(len(p.seams))
	for _, id := range s.sewn {
		ch := &s.cut.chords[id]
		line := plane.Line{A: x.Apply(ch.A), B: x.Apply(ch.B)}
		if ch.slit >= 0 { // sewn from A, however it is turned
			p.seams = append(p.seams, seam{Line: line, source: s.joins[ch.join].At, finish: base + s.place(s.cut.slits[ch.slit].chord)})
			continue
		}
		if m.Reversed { // left stays left
			line.A, line.B = line.B, line.A
		}
		p.seams = append(p.seams, seam{Line: line, source: s.joins[ch.join].At,
			left: gather(s.cut.leftOf(id)), right: gather(s.cut.rightOf(id))})
	}
	for i := base; i < int32(len(p.seams)); i++ {
		if f := p.seams[i].finish; f > 0 {
			p.seams[f].begin = i + 1
		}
	}
	borders := make([][]leaf, len(s.outline))
	for i := range borders {
		borders[i] = gather(int32(i))
	}
	return borders
}

// place returns when a chord is sewn.
func (s *shape) place(chord int32) int32 { return int32(slices.Index(s.sewn, chord)) }

type cellSides struct {
	copy   int32
	placed [][]leaf
}

// section adds one copy.
func (p *placer) section(s *shape, c *cell, m plane.Motion, of *within, as string, origin uint64, at problem.Place, unit int32) {
	if at.Source == nil {
		at = c.section.src.At
	}
	outline := c.face.Corners.Move(m)
	p.copies = append(p.copies, copied{cell: c, shape: s, motion: m, origin: origin, outline: outline,
		first: int32(len(p.sides)), unit: unit, of: of, as: as, source: at})
	p.sides = append(p.sides, make([]side, len(outline))...)
}

// sideOf returns which side of the copy's outline a side of its region is:
// reversed copies count backwards.
func (c *copied) sideOf(region int32) int32 {
	if c.motion.Reversed {
		return int32(len(c.outline)) - 1 - region
	}
	return region
}

// numbered counts the places of each unit in a shape.
func numbered(s *shape) (number, total []int) {
	number, total = make([]int, len(s.body.Places)), make([]int, len(s.body.Places))
	count := map[*eval.Body]int{}
	for i := range s.body.Places {
		count[s.body.Places[i].Body]++
		number[i] = count[s.body.Places[i].Body]
	}
	for i := range s.body.Places {
		total[i] = count[s.body.Places[i].Body]
	}
	return number, total
}

// mix makes a new identity of one and two numbers.
func mix(h uint64, a, b int) uint64 {
	h ^= uint64(a)*0x9e3779b97f4a7c15 + uint64(b)*0xc2b2ae3d27d4eb4f + 0x165667b19e3779f9
	h ^= h >> 29
	h *= 0xbf58476d1ce4e5b9
	return h ^ h>>32
}
