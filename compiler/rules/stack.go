package rules

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// A stack is all the cloth that lies near one point of a block.
type stack struct {
	v         *View
	at        plane.Point
	allowance float64
	parts     []part
}

// A yard is where the sections of a block lie, and by which joins.
type yard struct {
	boxes []box   // by copy
	joins [][]int // by copy: indices into Joins, in the order of joining
}

func yardOf(v *View) *yard {
	y := &yard{make([]box, len(v.Sized.Copies)), make([][]int, len(v.Sized.Copies))}
	for c := range v.Sized.Copies {
		inf := math.Inf(1)
		b := box{plane.Point{X: inf, Y: inf}, plane.Point{X: -inf, Y: -inf}}
		of := v.Of(c)
		for i := range of {
			for _, q := range of[i].Polygon {
				b.low = plane.Point{X: min(b.low.X, q.X), Y: min(b.low.Y, q.Y)}
				b.high = plane.Point{X: max(b.high.X, q.X), Y: max(b.high.Y, q.Y)}
			}
		}
		y.boxes[c] = b
	}
	for k := range v.Sized.Joins {
		for _, side := range [2][]int{v.Sized.Joins[k].Left, v.Sized.Joins[k].Right} {
			for _, c := range side {
				y.joins[c] = append(y.joins[c], k)
			}
		}
	}
	return y
}

// A part is the cloth of one section near the point.
type part struct {
	sides []plane.Ray // of the section, it lies left of them
	seams []plane.Ray // in the order of sewing, the newer piece left of them
	folds []fold      // in the order of joining
}

// A fold is a join that a section lies along.
type fold struct {
	line  plane.Ray // the section lies left of it
	under bool      // its allowance is folded under it; else it lies flat, under the neighbor
}

// stackAt gathers the sections that reach a point, with an allowance round them.
func (y *yard) stackAt(v *View, at plane.Point) *stack {
	s := &stack{v: v, at: at, allowance: float64(v.Pattern.Settings.Allowance)}
	for c := range y.boxes {
		if y.boxes[c].near(at, s.allowance) {
			s.add(c, y.joins[c])
		}
	}
	return s
}

// add gathers one section, with its joins.
func (s *stack) add(c int, joins []int) {
	at := &s.v.Sized.Copies[c]
	d := &s.v.Sized.Drawings[at.Drawing]
	move := plane.Motion{Turn: at.Turn, Shift: point(at.Shift)}.Matrix()
	ray := func(a, b pattern.Pos) plane.Ray {
		return plane.Line{A: move.Apply(point(a)), B: move.Apply(point(b))}.Ray()
	}
	var p part
	for i := range d.Outline {
		p.sides = append(p.sides, ray(d.Outline[i], d.Outline[(i+1)%len(d.Outline)]))
	}
	// Beyond a seam so far away nothing is left of what was sewn before; short of
	// one, nothing is added. Folds take a place no farther than that.
	far := 4 * s.allowance
	for i := 1; i < len(d.Pieces); i++ {
		seam := ray(d.Pieces[i].Seam[0], d.Pieces[i].Seam[1])
		switch off := seam.Offset(s.at); {
		case off > far:
			p.seams = p.seams[:0]
		case off > -far:
			p.seams = append(p.seams, seam)
		}
	}
	for _, k := range joins {
		j := &s.v.Sized.Joins[k]
		line, press := segment(j.A, j.B).Ray(), pattern.PressLeft
		if !slices.Contains(j.Left, c) {
			line, press = segment(j.B, j.A).Ray(), pattern.PressRight
		}
		if math.Abs(line.Offset(s.at)) < far {
			p.folds = append(p.folds, fold{line, j.Press == press || j.Press == pattern.PressOpen})
		}
	}
	s.parts = append(s.parts, p)
}

// most counts the layers all round the point: just beside it, where every seam that
// runs into it lies, and half an allowance away, where tips lie over each other.
func (s *stack) most() int {
	const ways, offset = 16, 0.1 // radians; seams at simple angles lie between
	layers := 0
	for _, r := range [2]float64{s.allowance / 16, s.allowance / 2} {
		for i := range ways {
			sin, cos := math.Sincos(2*math.Pi/ways*float64(i) + offset)
			q := plane.Point{X: s.at.X + r*cos, Y: s.at.Y + r*sin}
			if s.outside(q) {
				continue
			}
			n := 0
			for k := range s.parts {
				n += s.folded(&s.parts[k], len(s.parts[k].folds), q)
			}
			layers = max(layers, n)
		}
	}
	return layers
}

// outside reports whether a place is outside the block.
func (s *stack) outside(q plane.Point) bool {
	for i := range s.v.border {
		if s.v.border[i].Offset(q) < 0 {
			return true
		}
	}
	return false
}

// folded counts a section's layers at a place when the first joins of its list are
// pressed. Cloth that is folded under comes from the mirror image of the place.
func (s *stack) folded(p *part, joins int, q plane.Point) int {
	if joins == 0 {
		return s.sewn(p, q)
	}
	f := &p.folds[joins-1]
	if !f.under {
		return s.folded(p, joins-1, q)
	}
	off := f.line.Offset(q)
	if off < 0 {
		return 0
	}
	n := s.folded(p, joins-1, q)
	if off <= s.allowance {
		across := plane.Point{X: -f.line.Dir.Y, Y: f.line.Dir.X}
		n += s.folded(p, joins-1, q.Sub(across.Mul(2*off)))
	}
	return n
}

// sewn counts a section's layers at a place before it is joined. Seam by seam: short
// of a seam nothing changes; beyond it lie the new piece, for an allowance its own
// raw edge and what was there before, and farther the new piece alone.
func (s *stack) sewn(p *part, q plane.Point) int {
	for i := range p.sides {
		if p.sides[i].Offset(q) < -s.allowance {
			return 0
		}
	}
	layers := 1
	for i := range p.seams {
		switch off := p.seams[i].Offset(q); {
		case off > s.allowance:
			layers = 1
		case off >= 0:
			layers += 2
		}
	}
	return layers
}

// A box is where a section lies.
type box struct{ low, high plane.Point }

func (b *box) near(p plane.Point, by float64) bool {
	return p.X > b.low.X-by && p.X < b.high.X+by && p.Y > b.low.Y-by && p.Y < b.high.Y+by
}
