package table

import (
	"strconv"

	"seamwright/compiler/pattern"
)

// CSV writes the cutting table by fabric: a header and one line for each row.
func (c *Cuts) CSV(p *pattern.Pattern, s *pattern.Sized) []byte {
	b := []byte("Fabric,Value,Cut,Count,Reversed,Shape,Size,Metric size,For spaces\r\n")
	var scratch []byte
	field := func(text []byte) { b = AppendCSV(append(b, ','), string(text)) }
	for i := range c.Rows {
		r := &c.Rows[i]
		f := &p.Fabrics[r.Fabric]
		b = AppendCSV(b, f.Words)
		b = AppendCSV(append(b, ','), f.Value)
		b = append(append(b, ','), cutWords(r.Plain)...)
		straight, reversed := r.Cloth()
		b = strconv.AppendInt(append(b, ','), int64(straight), 10)
		b = strconv.AppendInt(append(b, ','), int64(reversed), 10)
		scratch = r.appendShape(scratch[:0])
		field(scratch)
		scratch = appendSize(scratch[:0], r.Size, false)
		field(scratch)
		scratch = appendSize(scratch[:0], r.Size, true)
		field(scratch)
		scratch = appendSpaces(scratch[:0], s, r.Spaces, "reversed")
		field(scratch)
		b = append(b, "\r\n"...)
	}
	return b
}

// SectionsCSV writes the cutting table by section: one line for each space, its
// first measure along the seam.
func SectionsCSV(p *pattern.Pattern, s *pattern.Sized) []byte {
	b := append(forPieces(s), "Section,Make,Space,Fabric,Cut,Shape,Size,Metric size,Lay\r\n"...)
	var scratch []byte
	for d := range s.Drawings {
		drawing := &s.Drawings[d]
		for i := range drawing.Pieces {
			piece := &drawing.Pieces[i]
			b = AppendCSV(b, drawing.Name)
			b = strconv.AppendInt(append(b, ','), int64(drawing.Make), 10)
			scratch = appendLabel(scratch[:0], drawing, i)
			b = AppendCSV(append(b, ','), string(scratch))
			b = AppendCSV(append(b, ','), p.Fabrics[piece.Fabric].Words)
			b = append(append(b, ','), cutWords(piece.Patch.Plain)...)
			b = AppendCSV(append(b, ','), shapeWords(piece.Patch.Shape))
			b = appendSize(append(b, ','), piece.Patch.Size, false)
			b = appendSize(append(b, ','), piece.Patch.Size, true)
			b = append(append(b, ','), layWords(piece, i)...)
			b = append(b, "\r\n"...)
		}
	}
	return b
}

// forPieces returns room for a table with a row of usual length for every piece:
// a large one would else be moved a dozen times while it grows.
func forPieces(s *pattern.Sized) []byte {
	const row, head = 112, 1024
	pieces := 0
	for d := range s.Drawings {
		pieces += len(s.Drawings[d].Pieces)
	}
	return make([]byte, 0, head+row*pieces)
}

func cutWords(plain bool) string {
	if plain {
		return "exact"
	}
	return "larger than its space"
}

// layWords says how a patch is laid on its space, in tables for programs.
func layWords(piece *pattern.Piece, i int) string {
	switch {
	case piece.Patch.Plain:
		return ""
	case piece.Patch.Along:
		if piece.Patch.Shape == pattern.HalfSquare {
			return longAlong
		}
		return along
	case i == 0:
		return over
	}
	return slanting
}

const (
	along     = "along the line"
	longAlong = "long side along the line"
	over      = "over the space"
	slanting  = "at a slant"
)
