// Package sample makes patterns by hand, so that outputs are tested by
// themselves, without a compiler.
package sample

import (
	"math"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

type pos = pattern.Pos

// Settings are the language's defaults.
func Settings() pattern.Settings {
	s := pattern.Settings{Allowance: 0.25, Ease: 0.5}
	s.Sheet, _ = pattern.SheetNamed("letter")
	return s
}

// A Seam is a line and the fabric of the piece to its left.
type Seam struct {
	A, B   pos
	Fabric int
}

// Section makes a drawing: from the last seam back, each piece is what lies left
// of its line. Edges named in border lie on the block's edge.
func Section(name string, outline []pos, first int, border []int, seams ...Seam) pattern.Drawing {
	d := pattern.Drawing{Name: name, Make: 1, Reversed: -1, Outline: outline, Edges: make([]pattern.Edge, len(outline)), Plain: len(seams) == 0}
	for _, i := range border {
		d.Edges[i].Kind = pattern.Border
	}
	d.Pieces = make([]pattern.Piece, len(seams)+1)
	rest := outline
	for k := len(seams); k > 0; k-- {
		s := seams[k-1]
		left := cut(rest, s.A, s.B)
		d.Pieces[k] = pattern.Piece{Number: k + 1, Fabric: s.Fabric, Polygon: left, Seam: chord(left, s)}
		rest = cut(rest, s.B, s.A)
	}
	d.Pieces[0] = pattern.Piece{Number: 1, Fabric: first, Polygon: rest}
	return d
}

// cut returns the part of a convex polygon left of the line from a to b.
func cut(polygon []pos, a, b pos) []pos {
	side := func(p pos) pattern.Length { return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X) }
	var out []pos
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		sp, sq := side(p), side(q)
		if sp > -1e-9 {
			out = append(out, p)
		}
		if sp > 1e-9 && sq < -1e-9 || sp < -1e-9 && sq > 1e-9 {
			t := sp / (sp - sq)
			out = append(out, pos{X: p.X + (q.X-p.X)*t, Y: p.Y + (q.Y-p.Y)*t})
		}
	}
	return out
}

// chord returns the side of a piece that lies on its seam.
func chord(polygon []pos, s Seam) [2]pos {
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		far := func(r pos) float64 { return math.Abs(float64((s.B.X-s.A.X)*(r.Y-s.A.Y) - (s.B.Y-s.A.Y)*(r.X-s.A.X))) }
		if far(p) < 1e-6 && far(q) < 1e-6 && math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) > 1e-6 {
			return [2]pos{p, q}
		}
	}
	return [2]pos{}
}

// Boat is the harbour boat at 8 in: three sections, two joins.
func Boat() *pattern.Pattern {
	const sky, jib, sail, mast, hull, sea, deep = 0, 1, 2, 3, 4, 5, 6
	a := Section("A", []pos{{X: 0, Y: 2.5}, {X: 3.75, Y: 2.5}, {X: 3.75, Y: 8}, {X: 0, Y: 8}}, jib, []int{2, 3},
		Seam{pos{X: 1, Y: 2.5}, pos{X: 3.75, Y: 6.5}, sky})
	b := Section("B", []pos{{X: 3.75, Y: 2.5}, {X: 8, Y: 2.5}, {X: 8, Y: 8}, {X: 3.75, Y: 8}}, sail, []int{1, 2},
		Seam{pos{X: 7, Y: 2.5}, pos{X: 4.25, Y: 7}, sky}.flip(), Seam{pos{X: 4.25, Y: 2.5}, pos{X: 4.25, Y: 8}, mast})
	c := Section("C", []pos{{}, {X: 8}, {X: 8, Y: 2.5}, {Y: 2.5}}, hull, []int{0, 1, 3},
		Seam{pos{X: 2.5, Y: 1}, pos{X: 1, Y: 2.5}, sky}, Seam{pos{X: 5.5, Y: 1}, pos{X: 7, Y: 2.5}, sky}.flip(),
		Seam{pos{X: 8, Y: 1.25}, pos{Y: 1.25}, sea}, Seam{pos{X: 8, Y: .75}, pos{Y: .5}, deep})
	s := pattern.Sized{
		Finished: pattern.Size{W: 8, H: 8},
		Outline:  []pos{{}, {X: 8}, {X: 8, Y: 8}, {Y: 8}},
		Drawings: []pattern.Drawing{a, b, c},
		Copies:   []pattern.Copy{{Drawing: 0}, {Drawing: 1}, {Drawing: 2}},
		Joins: []pattern.Join{
			{Number: 1, A: pos{X: 3.75, Y: 2.5}, B: pos{X: 3.75, Y: 8}, Left: []int{0}, Right: []int{1}},
			{Number: 2, A: pos{Y: 2.5}, B: pos{X: 8, Y: 2.5}, Left: []int{0, 1}, Right: []int{2}, Points: []pos{{X: 1, Y: 2.5}, {X: 7, Y: 2.5}}},
		},
		Figures: pattern.Figures{Sections: 3, Pieces: 10, Seams: 9, Drawings: 3, Points: 2, MostSeams: 4, MostLayers: 7, Narrowest: .5,
			NarrowestPiece: "B3", AreaError: 1e-16, NearestPoints: .25},
	}
	p := &pattern.Pattern{
		Title: "Harbour Boat", File: "harbour_boat", Settings: Settings(),
		About: pattern.About{Edition: 1, Author: "Harbour Sheets"},
		Fabrics: []pattern.Fabric{
			{Name: "sky", Words: "sky", Value: "light", Colour: 0xdfeaf0}, {Name: "jib", Words: "jib", Value: "medium", Colour: 0xb8432f},
			{Name: "sail", Words: "sail", Value: "light", Colour: 0xf3ecdd}, {Name: "mast", Words: "mast", Value: "dark", Colour: 0x6b4a2f},
			{Name: "hull", Words: "hull", Value: "dark", Colour: 0x33312e},
			{Name: "sea", Words: "shallows", Value: "medium", Colour: 0x3c7d8c, Scrappy: "block"},
			{Name: "deep", Words: "deep sea", Value: "dark", Colour: 0x25525e, Scrappy: "block"},
		},
		Blocks: []pattern.Block{{Name: "boat", Title: "Boat", Grid: [2]float64{8, 8}, Sizes: []pattern.Sized{s}}},
	}
	cutting.Cut(p)
	return p
}

func (s Seam) flip() Seam { s.A, s.B = s.B, s.A; return s }

// Star is four turned copies of one wedge at 8 in.
func Star() *pattern.Pattern {
	const lit, shaded, night = 0, 1, 2
	outline := []pos{{X: 4, Y: 4}, {X: 8, Y: 0}, {X: 8, Y: 8}}
	wedge := Section("A", outline, lit, []int{1},
		Seam{pos{X: 4, Y: 4}, pos{X: 8, Y: 4}, shaded},
		Seam{pos{X: 5.2, Y: 5.2}, pos{X: 8, Y: 4}, night},
		Seam{pos{X: 8, Y: 4}, pos{X: 5.2, Y: 2.8}, night})
	wedge.Make = 4
	wedge.Unit = "wedge"
	s := pattern.Sized{
		Finished: pattern.Size{W: 8, H: 8},
		Outline:  []pos{{}, {X: 8}, {X: 8, Y: 8}, {Y: 8}},
		Drawings: []pattern.Drawing{wedge},
		Copies: []pattern.Copy{{}, {Turn: 90, Shift: pos{X: 8}, Of: "wedge 2"},
			{Turn: 180, Shift: pos{X: 8, Y: 8}, Of: "wedge 3"}, {Turn: 270, Shift: pos{Y: 8}, Of: "wedge 4"}},
		Joins: []pattern.Join{
			{Number: 1, A: pos{X: 4, Y: 4}, B: pos{X: 8, Y: 8}, Left: []int{1}, Right: []int{0}, Points: []pos{{X: 5.2, Y: 5.2}}},
			{Number: 2, A: pos{X: 4, Y: 4}, B: pos{}, Left: []int{3}, Right: []int{2}, Points: []pos{{X: 2.8, Y: 2.8}}},
			{Number: 3, A: pos{Y: 8}, B: pos{X: 8}, Left: []int{0, 1}, Right: []int{2, 3}, Points: []pos{{X: 2.8, Y: 5.2}, {X: 4, Y: 4}, {X: 5.2, Y: 2.8}}},
		},
		Figures: pattern.Figures{Sections: 4, Pieces: 16, Seams: 15, Drawings: 1, Points: 5, MostSeams: 8, Narrowest: .9, NarrowestPiece: "A1", NearestPoints: 1.2},
	}
	p := &pattern.Pattern{
		Title: "Guiding Star", File: "star", Settings: Settings(), About: pattern.About{Edition: 1},
		Fabrics: []pattern.Fabric{{Name: "lit", Words: "lit side", Value: "light", Colour: 0xf0d48a},
			{Name: "shaded", Words: "shaded side", Value: "medium", Colour: 0xb5742a}, {Name: "night", Words: "night sky", Value: "dark", Colour: 0x1f2f47}},
		Blocks: []pattern.Block{{Name: "star", Title: "A star with four long points", Grid: [2]float64{8, 8}, Sizes: []pattern.Sized{s}}},
	}
	cutting.Cut(p)
	return p
}
