package piecing

import (
	"math"
	"math/rand/v2"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
)

// A generated block: joins and sections made by cutting, so that what Piece
// ought to find is known from how it was made.
type generated struct {
	rng  *rand.Rand
	body *eval.Body
	want []wanted
}

// A wanted piece, with all half-planes whose common part it is.
type wanted struct {
	section, piece int
	halves         []plane.Line // it lies left of all, if the outline is convex
	polygon        plane.Polygon
}

// generate makes a block with about so many sections.
func generate(seed uint64, sections int) *generated {
	g := &generated{rng: rand.New(rand.NewPCG(seed, 7))}
	g.fill(g.outline(), sections)
	return g
}

// generateInward makes a block whose outline has inward corners.
func generateInward(seed uint64, sections int) *generated {
	g := &generated{rng: rand.New(rand.NewPCG(seed, 8))}
	n := 5 + g.rng.IntN(6)
	p := make(plane.Polygon, n)
	for i := range p {
		a, r := (float64(i)+0.5*g.rng.Float64())*2*math.Pi/float64(n), 2+3*g.rng.Float64()
		p[i] = plane.Point{X: r * math.Cos(a), Y: r * math.Sin(a)}
	}
	if p.Convex() || !p.Simple() {
		return generateInward(seed+1_000_000, sections)
	}
	g.fill(p, sections)
	return g
}

func (g *generated) fill(outline plane.Polygon, sections int) {
	g.body = &eval.Body{Name: "generated", Outline: outline}
	g.divide(plane.Face{Corners: outline, Labels: make([]int32, len(outline)), Convex: outline.Convex()}, nil, sections)
}

// outline returns a convex polygon: a rectangle or one inscribed in a circle.
func (g *generated) outline() plane.Polygon {
	if g.rng.IntN(2) == 0 {
		return box(4+4*g.rng.Float64(), 4+4*g.rng.Float64())
	}
	n := 3 + g.rng.IntN(5)
	p := make(plane.Polygon, n)
	for i := range p {
		a := (float64(i) + 0.6*g.rng.Float64()) * 2 * math.Pi / float64(n)
		p[i] = plane.Point{X: 4 * math.Cos(a), Y: 4 * math.Sin(a)}
	}
	return p
}

// chord returns a line through two sides of a face, clear of its corners, or at
// times through a corner. It divides the face fairly.
func (g *generated) chord(f *plane.Face) (plane.Chord, bool) {
	var chords []plane.Chord
	for range 8 {
		l := plane.Line{A: g.onBorder(f), B: g.onBorder(f)}
		if l.Len() < 0.3 {
			continue
		}
		if chords = f.Chords(l, chords[:0]); len(chords) != 1 {
			continue
		}
		if a, b := f.Split(chords[0], 0, 0); a.Corners.Width() > 0.1 && b.Corners.Width() > 0.1 {
			return chords[0], true
		}
	}
	return plane.Chord{}, false
}

func (g *generated) onBorder(f *plane.Face) plane.Point {
	s := f.Corners.Side(g.rng.IntN(len(f.Corners)))
	t := 0.15 + 0.7*g.rng.Float64()
	switch g.rng.IntN(6) {
	case 0:
		t = 0
	case 1:
		t = 0.5 // often on a place that the other side of a join has too
	}
	return s.A.Mul(1 - t).Add(s.B.Mul(t))
}

// divide makes sections of a face; joins are listed as sewn, so the first cut
// comes last.
func (g *generated) divide(f plane.Face, halves []plane.Line, sections int) {
	if sections > 1 {
		if c, ok := g.chord(&f); ok {
			line := plane.Line{A: c.From.At, B: c.To.At}
			left, right := f.Split(c, 0, 0)
			n := 1 + g.rng.IntN(sections-1)
			g.divide(left, with(halves, line), n)
			g.divide(right, with(halves, plane.Line{A: line.B, B: line.A}), sections-n)
			if g.rng.IntN(2) == 0 {
				line.A, line.B = line.B, line.A
			}
			g.body.Joins = append(g.body.Joins, eval.Join{Line: line})
			return
		}
	}
	g.section(f, halves)
}

func with(halves []plane.Line, l plane.Line) []plane.Line {
	return append(halves[:len(halves):len(halves)], l)
}

// section makes pieces of a face: the last is cut off first.
func (g *generated) section(f plane.Face, halves []plane.Line) {
	index := len(g.body.Sections)
	var pieces []eval.Piece
	var want []wanted
	rest := f
	for n := g.rng.IntN(6); n > 0; n-- {
		c, ok := g.chord(&rest)
		if !ok {
			break
		}
		line := plane.Line{A: c.From.At, B: c.To.At}
		far, near := rest.Split(c, 0, 0)
		away, keep := line, plane.Line{A: line.B, B: line.A}
		if g.rng.IntN(2) == 0 {
			far, near, away, keep = near, far, keep, away
		}
		// Any stretch of the line will do, in either direction.
		s, t := g.rng.Float64()*2-1, g.rng.Float64()+1.5
		written := plane.Line{A: line.At(s * line.Len()), B: line.At(t * line.Len())}
		if g.rng.IntN(2) == 0 {
			written.A, written.B = written.B, written.A
		}
		pieces = append(pieces, eval.Piece{Fabric: g.rng.IntN(3), Line: written})
		want = append(want, wanted{section: index, halves: with(halves, away), polygon: far.Corners})
		halves, rest = with(halves, keep), near
	}
	pieces = append(pieces, eval.Piece{Fabric: g.rng.IntN(3), Points: []plane.Point{rest.Corners.Interior()}})
	want = append(want, wanted{section: index, halves: halves, polygon: rest.Corners})
	for i, j := 0, len(pieces)-1; i < j; i, j = i+1, j-1 {
		pieces[i], pieces[j] = pieces[j], pieces[i]
		want[i], want[j] = want[j], want[i]
	}
	for k := range want {
		want[k].piece = k
	}
	g.body.Sections = append(g.body.Sections, eval.Section{Pieces: pieces})
	g.want = append(g.want, want...)
}

// turned returns the body turned about the origin, and shifted.
func turned(b *eval.Body, m plane.Motion) *eval.Body {
	line := func(l plane.Line) plane.Line { return plane.Line{A: m.Apply(l.A), B: m.Apply(l.B)} }
	t := &eval.Body{Name: b.Name, Outline: b.Outline.Move(m)}
	for _, j := range b.Joins {
		j.Line = line(j.Line)
		t.Joins = append(t.Joins, j)
	}
	for _, s := range b.Sections {
		pieces := append([]eval.Piece(nil), s.Pieces...)
		for k := range pieces {
			pieces[k].Line = line(pieces[k].Line)
			points := append([]plane.Point(nil), pieces[k].Points...)
			for i := range points {
				points[i] = m.Apply(points[i])
			}
			pieces[k].Points = points
		}
		s.Pieces = pieces
		t.Sections = append(t.Sections, s)
	}
	for _, p := range b.Places {
		p.Motion = m.After(p.Motion)
		t.Places = append(t.Places, p)
	}
	return t
}
