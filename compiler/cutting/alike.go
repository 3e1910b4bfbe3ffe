package cutting

import (
	"math"

	"seamwright/compiler/pattern"
)

// alikeWorth is how much cloth is given for cutting equal triangles alike: a maker
// who finds two sizes for one shape looks for the difference, and mixes up her
// patches. Common practice, no source.
const alikeWorth = 1.1

// A look is what a triangle looks like to who cuts for it: its fabric, its seam, and
// its extent along the seam and square to it, in thousandths of an inch. Turned and
// reversed copies look the same.
type look struct{ fabric, seam, wide, high int }

// lookOf returns the look of a space whose patch is laid along its seam.
func lookOf(p *pattern.Piece) look {
	const same = 1e-3
	axis, _ := direction(p.Seam[0], p.Seam[1])
	b := bounds(axis, p.Polygon)
	in := func(l pattern.Length) int { return int(math.Round(float64(l) / same)) }
	return look{p.Fabric, in(distance(p.Seam[0], p.Seam[1])), in(b.max.X - b.min.X), in(b.max.Y - b.min.Y)}
}

// A kind is all triangles of one look: what they are cut from now.
type kind struct {
	size   pattern.Size // that would do for all
	cloth  pattern.Length
	n      int
	differ bool
}

// cutAlike cuts a size's equal triangles of one fabric alike. Where one of them is half
// a square for its grain, the others are too; where a tip makes the rectangle of one
// larger, the others are cut like it, if that costs little cloth.
func (c cutter) cutAlike(size *pattern.Sized) {
	c.alike, c.even, c.firsts = map[triangle]bool{}, map[look]pattern.Size{}, map[triangle]bool{}
	again := map[int]bool{}
	firsts := map[triangle]int{}
	for i := range size.Drawings {
		if t, ok := firstTriangle(&size.Drawings[i]); ok {
			firsts[t] += size.Drawings[i].Make
		}
	}
	for i := range size.Drawings {
		if t, ok := firstTriangle(&size.Drawings[i]); ok && firsts[t] > 1 {
			c.firsts[t], again[i] = true, true
		}
	}
	for i := range size.Drawings {
		for k := range size.Drawings[i].Pieces {
			p := &size.Drawings[i].Pieces[k]
			if !p.Patch.Plain && p.Patch.Shape == pattern.HalfSquare {
				if t, ok := triangleOf(p); ok {
					c.alike[t] = true
				}
			}
		}
	}
	kinds := map[look]kind{}
	eachTriangle(size, func(i int, p *pattern.Piece) {
		if t, ok := triangleOf(p); ok && c.alike[t] {
			again[i] = true
		} else if l := lookOf(p); c.tipped(p, &l) {
			kinds[l] = kind{}
		}
	})
	if len(kinds) > 0 {
		eachTriangle(size, func(i int, p *pattern.Piece) {
			l := lookOf(p)
			if k, ok := kinds[l]; ok {
				kinds[l] = k.with(p.Patch.Size, size.Drawings[i].Make)
			}
		})
	}
	for l, k := range kinds {
		if k.differ && k.size.W*k.size.H*pattern.Length(k.n) <= alikeWorth*k.cloth+noLength {
			c.even[l] = k.size
		}
	}
	if len(c.even) > 0 {
		eachTriangle(size, func(i int, p *pattern.Piece) {
			if s, ok := c.even[lookOf(p)]; ok && s != p.Patch.Size {
				again[i] = true
			}
		})
	}
	for i := range size.Drawings { // in order, though each stands by itself
		if again[i] {
			c.drawing(&size.Drawings[i])
		}
	}
}

// with counts in patches of a size.
func (k kind) with(s pattern.Size, n int) kind {
	k.differ = k.differ || k.n > 0 && s != k.size
	k.size = pattern.Size{W: max(k.size.W, s.W), H: max(k.size.H, s.H)}
	k.cloth += s.W * s.H * pattern.Length(n)
	k.n += n
	return k
}

// tipped reports whether a patch is larger than its space and the ease ask for: a tip
// of the cutting line makes it so.
func (c *cutter) tipped(p *pattern.Piece, l *look) bool {
	least := func(thousandths int) pattern.Length {
		return pattern.RoundUp(pattern.Length(thousandths-1)/1000+2*c.ease, c.foundation)
	}
	return p.Patch.Size.W > least(l.wide) || p.Patch.Size.H > least(l.high)
}

// eachTriangle calls do for the rectangles that are laid along the seams of triangles.
// Sharp tips are theirs, and triangles are what is met in one block turned all ways.
func eachTriangle(size *pattern.Sized, do func(drawing int, p *pattern.Piece)) {
	for i := range size.Drawings {
		for k := range size.Drawings[i].Pieces {
			p := &size.Drawings[i].Pieces[k]
			if len(p.Polygon) == 3 && p.Patch.Along && (p.Patch.Shape == pattern.Rectangle || p.Patch.Shape == pattern.Square) {
				do(i, p)
			}
		}
	}
}
