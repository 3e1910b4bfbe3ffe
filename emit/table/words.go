package table

import (
	"strconv"
	"strings"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

// shapeWords says how a patch is cut, in tables for programs: these are in English.
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

// Shape says how a patch is cut, in the words of a catalogue.
func Shape(said *words.Catalogue, s pattern.Shape, template string) string {
	switch s {
	case pattern.Rectangle:
		return said.Say("shape_rectangle")
	case pattern.Square:
		return said.Say("shape_square")
	case pattern.HalfSquare:
		return said.Say("shape_half_square")
	case pattern.QuarterSquare:
		return said.Say("shape_quarter_square")
	case pattern.HalfRectangle:
		return said.Say("shape_half_rectangle")
	case pattern.TemplatePatch:
		return said.Say("shape_template", "name", template)
	}
	return said.Say("shape_unknown")
}

// Cut says how the patches of a row are cut, and how many of the triangles are
// needed: "square, cut once on the diagonal, for 3 triangles".
func (r *Row) Cut(said *words.Catalogue) string {
	text := Shape(said, r.Shape, r.Template)
	if r.Shape.Yield() > 1 {
		text += ", " + said.Count("triangles", r.Patches+r.Reversed)
	}
	return text
}

// Lay says how the patch of a drawing's piece i is laid on its space, "" for one
// without paper.
func Lay(said *words.Catalogue, piece *pattern.Piece, i int) string {
	switch layWords(piece, i) {
	case along:
		return said.Say("lay_along")
	case longAlong:
		return said.Say("lay_long")
	case over:
		return said.Say("lay_over")
	case slanting:
		return said.Say("lay_slant")
	}
	return ""
}

// BlockTitle is the title of a block in the words of a catalogue: one that was made
// because a quilt has it reversed is named after the block that it reverses.
func BlockTitle(said *words.Catalogue, p *pattern.Pattern, b *pattern.Block) string {
	for i := range p.Blocks {
		if of := &p.Blocks[i]; b.Reverses != "" && of.Name == b.Reverses {
			return said.Say("block_reversed", "title", of.Title)
		}
	}
	return b.Title
}

// Part is the name of what is cut beside the blocks of a quilt, in the words of a
// catalogue; one that it has not stays as the model has it.
func Part(said *words.Catalogue, name string) string {
	if of, ok := strings.CutSuffix(name, cutting.OnBias); ok {
		return said.Say("part_bias", "what", Part(said, of))
	}
	return numbered(said, "part_", name)
}

// numbered says a name of the model, which may end in a number: "border 2". One that
// a catalogue has not stays as it is.
func numbered(said *words.Catalogue, before, name string) string {
	key, n := before+strings.ReplaceAll(name, " ", "_"), ""
	if i := strings.LastIndexByte(key, '_'); i >= 0 {
		if _, err := strconv.Atoi(key[i+1:]); err == nil {
			key, n = key[:i]+"_n", key[i+1:]
		}
	}
	if !said.Has(key) {
		return name
	}
	return said.Say(key, "n", n)
}

// local writes a measure's decimals as a language does.
func local(said *words.Catalogue, measure string) string {
	return strings.ReplaceAll(measure, ".", said.Say("decimal_mark"))
}

// appendShape says how the patches of a row are cut, and how many of the
// triangles are needed, as [shapeWords] does.
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
