package piecing

import (
	"math"
	"slices"

	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// markEvery is the longest stretch of a joined edge without a mark: pins are set
// every three to four inches. Common practice, no source.
const markEvery pattern.Length = 4

// sizes turns a block's assemblies into lengths, one for each finished size.
func (b *block) sizes(p *pattern.Pattern) []pattern.Sized {
	sizes := make([]pattern.Sized, len(b.Finished))
	for i, f := range b.Finished {
		z := sizer{assembly: b.bySize[i], scale: b.scale[i], sheet: p.Settings.Sheet.Name}
		sizes[i] = z.sized(f)
	}
	return sizes
}

// A sizer turns squares into lengths.
type sizer struct {
	*assembly
	scale float64
	sheet string
	index []int         // of drawings, in the order of their names
	room  []pattern.Pos // for the polygons of pieces
}

func (z *sizer) pos(p plane.Point) pattern.Pos {
	return pattern.Pos{X: pattern.Length(p.X * z.scale), Y: pattern.Length(p.Y * z.scale)}
}

func (z *sizer) polygon(p plane.Polygon) []pattern.Pos {
	q := make([]pattern.Pos, len(p))
	for i := range p {
		q[i] = z.pos(p[i])
	}
	return q
}

func (z *sizer) sized(finished pattern.Size) pattern.Sized {
	z.index = make([]int, len(z.drawings))
	for i, d := range z.order {
		z.index[d] = i
	}
	s := pattern.Sized{
		Finished: finished,
		Outline:  z.polygon(z.top.outline.Move(plane.Motion{Shift: z.low.Mul(-1)})),
		Drawings: make([]pattern.Drawing, len(z.drawings)),
		Copies:   make([]pattern.Copy, len(z.copies)),
		Joins:    make([]pattern.Join, len(z.seams)),
		Figures:  z.figures(z.scale),
	}
	z.eachDrawing(s.Drawings)
	for i := range z.copies {
		s.Copies[i] = z.copy(&z.copies[i])
	}
	for i := range z.seams {
		s.Joins[i] = z.join(i)
	}
	return s
}

func (z *sizer) drawing(d *drawing) pattern.Drawing {
	c := &z.copies[d.first]
	out := pattern.Drawing{
		Name: d.name, Unit: c.shape.body.Name, Make: d.make, Reversed: -1,
		Plain: len(c.section.pieces) == 1, First: int(d.first),
		Outline: make([]pattern.Pos, len(d.edges)), Edges: make([]pattern.Edge, len(d.edges)),
		Pieces: make([]pattern.Piece, len(c.section.pieces)), Source: source(c.section.src.At),
	}
	if c.section.src.Found {
		out.Found = z.sheet
	}
	if d.twin >= 0 {
		out.Reversed = z.index[d.twin]
	}
	for i := range d.edges {
		out.Outline[i] = z.pos(d.edges[i].start)
		out.Edges[i] = z.edge(&d.edges[i])
	}
	x := c.motion.Matrix()
	for k := range c.section.pieces {
		p := &c.section.pieces[k]
		piece := &out.Pieces[k]
		*piece = pattern.Piece{Number: k + 1, Fabric: p.src.Fabric,
			Polygon: z.moved(p.face.Corners, &x, c.motion.Reversed), Source: source(p.src.At)}
		if k > 0 {
			a, b := x.Apply(p.seam.A), x.Apply(p.seam.B)
			if c.motion.Reversed { // the new piece stays on the left
				a, b = b, a
			}
			piece.Seam = [2]pattern.Pos{z.pos(a), z.pos(b)}
		}
	}
	return out
}

// eachDrawing fills in the drawings, some at a time.
func (z *sizer) eachDrawing(out []pattern.Drawing) {
	const some = 16
	parallel.Do((len(out)+some-1)/some, z.top.pieces >= parallel.Worth, func(part int) {
		own, n := *z, 0
		from, to := part*some, min((part+1)*some, len(out))
		for i := from; i < to; i++ {
			n += z.copies[z.drawings[z.order[i]].first].measure.corners
		}
		own.room = make([]pattern.Pos, n)
		for i := from; i < to; i++ {
			out[i] = own.drawing(&z.drawings[z.order[i]])
		}
	})
}

// moved returns a piece's polygon where its copy lies: see [plane.Polygon.Move].
func (z *sizer) moved(p plane.Polygon, x *plane.Matrix, reversed bool) []pattern.Pos {
	n := len(p)
	q := z.room[:n:n]
	z.room = z.room[n:]
	for i := range p {
		if k := (n - i) % n; reversed {
			q[k] = z.pos(x.Apply(p[i]))
		} else {
			q[i] = z.pos(x.Apply(p[i]))
		}
	}
	return q
}

func (z *sizer) edge(e *edge) pattern.Edge {
	if e.border {
		return pattern.Edge{Kind: pattern.Border}
	}
	out := pattern.Edge{Letter: e.letter, Partners: make([]pattern.Partner, len(e.partners))}
	for i, p := range e.partners {
		st := &z.stretch[p]
		d := z.copies[st.copy].drawing
		out.Partners[i] = pattern.Partner{Drawing: z.index[d], Edge: int(st.edge), Letter: z.drawings[d].edges[st.edge].letter}
	}
	last := len(e.marks) - 1
	if last >= 0 {
		out.Marks = make([]pattern.Mark, 0, len(e.marks))
	}
	for i, m := range e.marks {
		if i > 0 {
			out.Marks = z.between(out.Marks, e.marks[i-1].at, m.at)
		}
		kind := pattern.SeamEnd
		switch {
		case i == 0 || i == last:
			kind = pattern.JoinEnd
		case m.stop:
			kind = pattern.Stop
		}
		out.Marks = append(out.Marks, pattern.Mark{At: z.pos(m.at), Kind: kind, Match: m.match, Letter: m.letter})
	}
	return out
}

// between adds marks to a long plain stretch. They are as far apart from either
// end, so both edges of a join have them at the same places.
func (z *sizer) between(marks []pattern.Mark, from, to plane.Point) []pattern.Mark {
	long := pattern.Length(from.Dist(to) * z.scale)
	parts := int(math.Ceil(float64((long - sizeSlack) / markEvery)))
	for k := 1; k < parts; k++ {
		t := float64(k) / float64(parts)
		at := from.Mul(1 - t).Add(to.Mul(t))
		marks = append(marks, pattern.Mark{At: z.pos(at), Kind: pattern.Between})
	}
	return marks
}

func (z *sizer) copy(c *copied) pattern.Copy {
	out := pattern.Copy{Drawing: z.index[c.drawing], Of: c.of.path(), Source: source(c.source)}
	first := &z.copies[z.drawings[c.drawing].first]
	if c == first {
		return out
	}
	if own, known := c.section.pieces, first.section.pieces; !slices.EqualFunc(own, known, sameSource) {
		out.Pieces = make([]pattern.Source, len(own))
		for k := range own {
			out.Pieces[k] = source(own[k].src.At)
		}
	}
	from, to := first.outline.Side(int(first.offset)), c.outline.Side(int(c.offset))
	if c.cell == first.cell && c.motion.Reversed == first.motion.Reversed && c.offset == first.offset {
		out.Turn = plane.Turn(c.motion.Turn - first.motion.Turn)
	} else {
		u, v := from.Dir(), to.Dir()
		out.Turn = roundTurn(math.Atan2(u.Cross(v), u.Dot(v)) * (180 / math.Pi))
	}
	turned := plane.Motion{Turn: out.Turn}.Apply(from.A)
	out.Shift = z.pos(to.A.Sub(turned))
	return out
}

func sameSource(a, b piece) bool { return a.src == b.src || a.src.At == b.src.At }

// turnNoise is what an angle computed from two sides may be off by, in degrees:
// far more than doubles make of it, far less than moves any point by a Tol.
const turnNoise = 1e-10

// roundTurn returns the angle in [0, 360), without the noise of computing it.
func roundTurn(deg float64) float64 {
	const steps = 1e6
	if r := math.Round(deg*steps) / steps; math.Abs(r-deg) < turnNoise {
		deg = r
	}
	return plane.Turn(deg)
}

func (z *sizer) join(i int) pattern.Join {
	m := &z.seams[i]
	j := pattern.Join{Number: i + 1, A: z.pos(m.A), B: z.pos(m.B), Source: source(m.source), Begun: int(m.begin)}
	if m.finish > 0 {
		z.first(&j, m)
		return j
	}
	j.Left, j.Right = z.along(m.l, m.r), z.along(m.r, m.e)
	for g := m.groups; g < m.last; g++ {
		if at := m.At(z.groups[g].at); z.groups[g].match() && (m.begin == 0 || !z.seams[m.begin-1].holds(at)) {
			j.Points = append(j.Points, z.pos(at))
		}
	}
	return j
}

// holds reports whether a point of a seam's line lies between its ends.
func (m *seam) holds(p plane.Point) bool { return strictly(m.Line, p) }

// first fills in the first part of a partial seam: what lies along it is some of
// what lies along all of it.
func (z *sizer) first(j *pattern.Join, m *seam) {
	all := &z.seams[m.finish]
	j.Begins = int(m.finish) + 1
	from, to := all.Along(m.A), all.Along(m.B)
	turned := from > to
	if turned {
		from, to = to, from
	}
	touching := func(list []int, first, last int32) []int {
		for i := first; i < last; i++ {
			if st := &z.stretch[i]; min(st.to, to)-max(st.from, from) > plane.Tol {
				list = append(list, int(st.copy))
			}
		}
		return list
	}
	j.Left, j.Right = touching(nil, all.l, all.r), touching(nil, all.r, all.e)
	for g := all.groups; g < all.last; g++ {
		if at := all.At(z.groups[g].at); z.groups[g].match() && m.holds(at) {
			j.Points = append(j.Points, z.pos(at))
		}
	}
	if turned {
		slices.Reverse(j.Points)
		slices.Reverse(j.Left)
		slices.Reverse(j.Right)
		j.Left, j.Right = j.Right, j.Left
	}
}

// along lists the copies of some stretches.
func (z *sizer) along(from, to int32) []int {
	list := make([]int, 0, to-from)
	for i := from; i < to; i++ {
		if c := int(z.stretch[i].copy); len(list) == 0 || list[len(list)-1] != c {
			list = append(list, c)
		}
	}
	return list
}

// source is a place as the model keeps it.
func source(at problem.Place) pattern.Source {
	if at.Source == nil {
		return pattern.Source{}
	}
	p := at.Source.Position(at.Span.Start)
	return pattern.Source{File: at.Source.Name, Line: p.Line, Column: p.Column}
}
