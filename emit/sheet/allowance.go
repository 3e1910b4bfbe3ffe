package sheet

import "seamwright/compiler/pattern"

// The cutting line runs one allowance outside the outline. Where two of its
// sides meet at a sharp corner they run on to a long tip, and the tip of the
// neighbour, sewn to the first of the two edges, is cut otherwise: laid right
// sides together, the raw edges would not show where the seam begins. So the
// tip is blunted to what the neighbour's raw edge will be.
//
//	          f, sewn later (a longer join, or the block's border)
//	          /
//	         /  inside           e is the edge sewn first, V the corner, a the
//	    e   /                    allowance. The neighbour beyond e has f's
//	-------V                     straight continuation as its own next edge, so
//	         \ blunted           its raw edge, laid over e, is the mirror image
//	          \                  of f's cutting line in e: the line T.
//
// T passes V at the distance a, as f's cutting line does, and crosses it on e
// run on beyond V. Cutting along T therefore takes off only cloth beyond e, in
// e's own seam allowance, and never leaves less than a around V. Where copies of
// one drawing are joined in different order both sides are blunted so. Corners
// of 90 degrees and more have no tip to blunt: there T is outside the mitre.
//
// The geometry follows from the requirement; that tips are cut to match is
// common practice, no source.

// A contour is an outline moved outwards. The points that answer corner i are
// at[first[i]:first[i+1]].
type contour struct {
	at    []pos
	first []int
}

func (c *contour) corner(i int) []pos { return c.at[c.first[i]:c.first[i+1]] }

// A blunt says which sides of a corner's tip are cut.
type blunt struct{ before, after bool }

// offset moves each side of an outline outwards by its own distance. blunts[i]
// tells of corner i; nil for none.
func offset(outline []pos, by func(side int) length, blunts []blunt) contour {
	n := len(outline)
	c := contour{at: make([]pos, 0, n+4), first: make([]int, 0, n+1)}
	for i, v := range outline {
		c.first = append(c.first, len(c.at))
		e := unit(outline[(i+n-1)%n], v)
		f := unit(v, outline[(i+1)%n])
		de, df := by((i+n-1)%n), by(i)
		first := ray{along(v, right(e), de), e}
		last := ray{along(v, right(f), df), f}
		chain := [4]ray{first}
		k := 1
		if blunts != nil && blunts[i].before {
			chain[k] = ray{along(v, mirror(right(f), e), df), mirror(f, e)}
			k++
		}
		if blunts != nil && blunts[i].after {
			chain[k] = ray{along(v, mirror(right(e), f), de), mirror(e, f)}
			k++
		}
		chain[k] = last
		for j := range k {
			if p, ok := meet(chain[j], chain[j+1]); ok {
				c.at = append(c.at, p)
				continue
			}
			c.at = append(c.at, chain[j].at)
			if dist(chain[j].at, chain[j+1].at) > near {
				c.at = append(c.at, chain[j+1].at)
			}
		}
	}
	c.first = append(c.first, len(c.at))
	return c
}

// never is the place of the border in the order of sewing: after every join.
const never = 1 << 30

// sewn tells when each edge is sewn. It is built for the few drawings that have
// sharp corners.
type sewn struct {
	sized *pattern.Sized
	joins [][]int32 // for each copy, the joins that it takes part in
	of    [][]int32 // for each drawing, its copies
}

func newSewn(s *pattern.Sized) *sewn {
	w := &sewn{s, make([][]int32, len(s.Copies)), make([][]int32, len(s.Drawings))}
	for i := range s.Joins {
		for _, side := range [2][]int{s.Joins[i].Left, s.Joins[i].Right} {
			for _, c := range side {
				w.joins[c] = append(w.joins[c], int32(i))
			}
		}
	}
	for i := range s.Copies {
		d := s.Copies[i].Drawing
		w.of[d] = append(w.of[d], int32(i))
	}
	return w
}

// when returns the number of the join that sews an edge of a copy at one of its
// corners, or never.
func (w *sewn) when(copy int32, edge int, corner pos) int {
	c := &w.sized.Copies[copy]
	d := &w.sized.Drawings[c.Drawing]
	if d.Edges[edge].Kind == pattern.Border {
		return never
	}
	move := c.Motion()
	m := move(mid(d.Outline[edge], d.Outline[(edge+1)%len(d.Outline)]))
	best, gap := never, length(1)/64 // nearer points count as one in a block
	for _, j := range w.joins[copy] {
		join := &w.sized.Joins[j]
		if join.Begins > 0 { // of a partial seam, at the end where it begins
			if dist(move(corner), join.A) > gap {
				continue
			}
			join = &w.sized.Joins[join.Begins-1]
			if segmentDist(m, join.A, join.B) < gap {
				return int(j) + 1
			}
			continue
		}
		if g := segmentDist(m, join.A, join.B); g < gap {
			best, gap = join.Number, g
		}
	}
	return best
}

// blunts decides for each corner of a drawing which sides of its tip are cut;
// nil where it has no sharp corner.
func blunts(d *pattern.Drawing, index int, order func() *sewn) []blunt {
	var out []blunt
	n := len(d.Outline)
	for i, v := range d.Outline {
		e, f := unit(d.Outline[(i+n-1)%n], v), unit(v, d.Outline[(i+1)%n])
		if dot(e, f) > -near || cross(e, f) <= 0 { // 90 degrees and more
			continue
		}
		if out == nil {
			out = make([]blunt, n)
		}
		w := order()
		for _, c := range w.of[index] {
			before, after := w.when(c, (i+n-1)%n, v), w.when(c, i, v)
			out[i].before = out[i].before || before <= after
			out[i].after = out[i].after || after <= before
		}
	}
	return out
}
