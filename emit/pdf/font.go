package pdf

import (
	"fmt"
	"slices"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/emit/drawing"
)

// codesPerFont is how many characters one simple font can hold: one byte each,
// 0 left out because some viewers treat it as the end of a string.
const codesPerFont = 255

// A subset collects the characters of one weight that a document uses. Each
// gets a code in the order of first use; every 255 begin another font object.
// The glyphs are embedded as outlines (Type 3, ISO 32000-1, 9.6.5): the same
// outlines that the SVG files carry, so both show the same letters, with a
// character map so that text can be searched and copied.
type subset struct {
	bold  bool
	codes map[rune]int // position in runes
	runes []rune
}

func (s *subset) code(r rune) int {
	if c, ok := s.codes[r]; ok {
		return c
	}
	if s.codes == nil {
		s.codes = map[rune]int{}
	}
	s.codes[r] = len(s.runes)
	s.runes = append(s.runes, r)
	return len(s.runes) - 1
}

// fontName names a font resource: "R0", "B1".
func (s *subset) fontName(block int) string {
	if s.bold {
		return fmt.Sprintf("B%d", block)
	}
	return fmt.Sprintf("R%d", block)
}

// resources writes the fonts and returns their entries for a resource dictionary.
func (s *subset) resources(f *file) string {
	entries := ""
	block := 0
	for part := range slices.Chunk(s.runes, codesPerFont) {
		entries += fmt.Sprintf("/%s %s ", s.fontName(block), s.font(f, part))
		block++
	}
	return entries
}

// font writes one font object for up to 255 characters.
func (s *subset) font(f *file, runes []rune) ref {
	var procs, differences, widths []byte
	var box drawing.Box
	for i, r := range runes {
		g := drawing.GlyphOf(r, s.bold)
		box = box.Union(g.Ink)
		proc := f.reserve()
		f.stream(proc, "", outline(g))
		procs = fmt.Appendf(procs, "/g%d %s ", i+1, proc)
		differences = fmt.Appendf(differences, "/g%d ", i+1)
		widths = append(number(widths, g.Advance), ' ')
	}
	toUnicode := f.reserve()
	f.stream(toUnicode, "", unicodeMap(runes))
	return f.add(fmt.Sprintf("<</Type /Font /Subtype /Type3 /Name /%s /FontBBox [%g %g %g %g] /FontMatrix [%.10f 0 0 %.10f 0 0] "+
		"/FirstChar 1 /LastChar %d /Widths [%s] /Encoding <</Type /Encoding /Differences [1 %s]>> /CharProcs <<%s>> /Resources <<>> /ToUnicode %s>>",
		s.fontName(0), box.X0, -box.Y1, box.X1, -box.Y0, 1.0/drawing.EmUnits, 1.0/drawing.EmUnits,
		len(runes), widths, differences, procs, toUnicode))
}

// outline is a glyph's drawing program: its advance, its box, its filled curves.
func outline(g *drawing.Glyph) []byte {
	b := number(nil, g.Advance)
	b = append(b, " 0"...)
	for _, v := range [4]float64{g.Ink.X0, -g.Ink.Y1, g.Ink.X1, -g.Ink.Y0} {
		b = number(append(b, ' '), v)
	}
	b = append(b, " d1\n"...)
	type point struct{ x, y float64 }
	at := func(p fixed.Point26_6) point { return point{float64(p.X) / 64, -float64(p.Y) / 64} }
	put := func(op string, ps ...point) {
		for _, p := range ps {
			b = append(number(append(number(b, p.x), ' '), p.y), ' ')
		}
		b = append(append(b, op...), '\n')
	}
	var now point
	for _, seg := range g.Segments {
		switch seg.Op {
		case sfnt.SegmentOpMoveTo:
			now = at(seg.Args[0])
			put("m", now)
		case sfnt.SegmentOpLineTo:
			now = at(seg.Args[0])
			put("l", now)
		case sfnt.SegmentOpQuadTo: // PDF has cubic curves only; the conversion is exact
			c, end := at(seg.Args[0]), at(seg.Args[1])
			third := func(from point) point { return point{from.x + (c.x-from.x)*2/3, from.y + (c.y-from.y)*2/3} }
			put("c", third(now), third(end), end)
			now = end
		case sfnt.SegmentOpCubeTo:
			now = at(seg.Args[2])
			put("c", at(seg.Args[0]), at(seg.Args[1]), now)
		}
	}
	return append(b, "f\n"...)
}

// unicodeMap tells which character each code stands for (ISO 32000-1, 9.10.3).
func unicodeMap(runes []rune) []byte {
	b := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Seamwright def\n/CMapType 2 def\n1 begincodespacerange\n<00> <FF>\nendcodespacerange\n")
	const most = 100 // entries of one bfchar section
	code := 1
	for part := range slices.Chunk(runes, most) {
		b = fmt.Appendf(b, "%d beginbfchar\n", len(part))
		for _, r := range part {
			t := text(string(r))
			b = fmt.Appendf(b, "<%02X> <%s\n", code, t[len("<FEFF"):])
			code++
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
