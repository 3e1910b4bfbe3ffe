package table

import (
	"strconv"

	"seamwright/compiler/pattern"
)

// shapeWords says how a patch is cut.
func shapeWords(s pattern.Shape) string {
	switch s {
	case pattern.Rectangle:
		return "rectangle"
	case pattern.Square:
		return "square"
	case pattern.HalfSquare:
		return "square, cut once on the diagonal"
	case pattern.QuarterSquare:
		return "square, cut twice on the diagonals"
	case pattern.HalfRectangle:
		return "rectangle, cut once on the diagonal"
	case pattern.TemplatePatch:
		return "round the template"
	}
	return "not worked out"
}

// appendShape says how the patches of a row are cut, and how many of the
// triangles are needed.
func (r *Row) appendShape(b []byte) []byte {
	b = append(b, shapeWords(r.Shape)...)
	if r.Template != "" {
		b = append(append(b, " of "...), r.Template...)
	}
	if r.Shape.Yield() > 1 {
		b = strconv.AppendInt(append(b, ", for "...), int64(r.Patches+r.Reversed), 10)
		b = append(b, " triangle"...)
		if r.Patches+r.Reversed != 1 {
			b = append(b, 's')
		}
	}
	return b
}

// Cut says how the patches of a row are cut: "square, cut once on the diagonal,
// for 3 triangles".
func (r *Row) Cut() string { return string(r.appendShape(nil)) }

// Size returns a size in inches or centimetres, one figure for a square.
func Size(s pattern.Size, metric bool) string { return string(appendSize(nil, s, metric)) }

// SpaceList lists where patches go, "A2 (4), B3, C2-C5"; reversed is the word
// for a patch of the other hand.
func SpaceList(s *pattern.Sized, spaces []Space, reversed string) string {
	return string(appendSpaces(nil, s, spaces, reversed))
}

// appendSize appends a size in inches or centimetres, one figure for a square.
// Inches beside centimetres are rounded up, so that no patch gets too small.
func appendSize(b []byte, s pattern.Size, metric bool) []byte {
	one := func(b []byte, l pattern.Length) []byte {
		if metric {
			return l.AppendCm(b)
		}
		return pattern.RoundUp(l, 0.125).AppendIn(b, 8)
	}
	b = one(b, s.W)
	if thousandths(s.W) != thousandths(s.H) {
		b = one(append(b, " x "...), s.H)
	}
	return b
}

// appendSpaces lists where patches go, "A2 (4), B3, C2-C5": in brackets how
// often, where a section is made more than once.
func appendSpaces(b []byte, s *pattern.Sized, spaces []Space, reversed string) []byte {
	for i := 0; i < len(spaces); i++ {
		first := spaces[i]
		drawing := &s.Drawings[first.Drawing]
		run := i
		for run+1 < len(spaces) && spaces[run+1].Drawing == first.Drawing && spaces[run+1].Piece == spaces[run].Piece+1 {
			run++
		}
		if i > 0 {
			b = append(b, ", "...)
		}
		b = appendLabel(b, drawing, first.Piece)
		if run-i >= 2 { // at least three in a row
			b = appendLabel(append(b, '-'), drawing, spaces[run].Piece)
			i = run
		}
		if drawing.Pieces[first.Piece].Patch.Reversed {
			b = append(append(b, ' '), reversed...)
		}
		if first.Times != 1 {
			b = strconv.AppendInt(append(b, " ("...), int64(first.Times), 10)
			b = append(b, ')')
		}
	}
	return b
}

func appendLabel(b []byte, d *pattern.Drawing, piece int) []byte {
	return strconv.AppendInt(append(b, d.Name...), int64(d.Pieces[piece].Number), 10)
}
