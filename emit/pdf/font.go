package pdf

import (
	"fmt"
	"hash/crc32"
	"slices"

	"seamwright/emit/drawing"
)

// fontNames are the resources of both weights.
var fontNames = [2]string{"R", "B"}

// Glyphs are the characters that a page uses of one weight.
type glyphs struct {
	latin [4]uint64 // a bit for each of the first 256
	rest  map[rune]bool
}

func (g *glyphs) add(r rune) {
	if r >= 0 && r < 256 {
		g.latin[r>>6] |= 1 << (r & 63)
		return
	}
	if g.rest == nil {
		g.rest = map[rune]bool{}
	}
	g.rest[r] = true
}

func (g *glyphs) join(h *glyphs) {
	for i, bits := range h.latin {
		g.latin[i] |= bits
	}
	for r := range h.rest {
		g.add(r)
	}
}

// runes lists the characters in order.
func (g *glyphs) runes() []rune {
	var all []rune
	for r := range rune(256) {
		if g.latin[r>>6]&(1<<(r&63)) != 0 {
			all = append(all, r)
		}
	}
	n := len(all)
	for r := range g.rest {
		all = append(all, r)
	}
	slices.Sort(all[n:])
	return all
}

// A used is a glyph of the font with the first character that it stands for.
type usedGlyph struct {
	id      uint16
	char    rune
	advance float64
}

// byID lists the glyphs of characters by their number in the font, each once.
func byID(runes []rune, bold bool) []usedGlyph {
	all := make([]usedGlyph, 0, len(runes))
	for _, r := range runes {
		g := drawing.GlyphOf(r, bold)
		u := usedGlyph{g.ID, r, g.Advance}
		if g.ID == 0 {
			u.char = '\uFFFD'
		}
		all = append(all, u)
	}
	slices.SortStableFunc(all, func(a, b usedGlyph) int { return int(a.id) - int(b.id) })
	return slices.CompactFunc(all, func(a, b usedGlyph) bool { return a.id == b.id })
}

// font writes the objects of one weight (ISO 32000-1, 9.7) and returns the
// font's reference. Glyphs keep the numbers that they have in the font, and a
// character's code is its glyph's number in two bytes. So a page's operators are
// the same in every file.
func (f *file) font(g *glyphs, bold bool) ref {
	used := byID(g.runes(), bold)
	cut := subset(drawing.FontFile(bold), used)
	name := "DejaVuSansCondensed"
	weight := 80
	if bold {
		name, weight = name+"-Bold", 140
	}
	name = tag(cut) + "+" + name
	program, unicode, descriptor, descendant := f.reserve(), f.reserve(), f.reserve(), f.reserve()
	f.stream(program, fmt.Sprintf(" /Length1 %d", len(cut)), cut)
	f.stream(unicode, "", unicodeMap(used))
	const k = 1000.0 / drawing.EmUnits
	box := fontBox(drawing.FontFile(bold))
	f.put(descriptor, fmt.Sprintf("<</Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%.0f %.0f %.0f %.0f] /ItalicAngle 0 "+
		"/Ascent %.0f /Descent %.0f /CapHeight %.0f /StemV %d /FontFile2 %s>>",
		name, box[0]*k, box[1]*k, box[2]*k, box[3]*k, drawing.Ascent*1000, -drawing.Descent*1000, drawing.CapHeight*1000, weight, program))
	widths := []byte{}
	for _, u := range used {
		widths = fmt.Appendf(widths, "%d [", u.id)
		widths = append(number(widths, u.advance*k), "] "...)
	}
	f.put(descendant, fmt.Sprintf("<</Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>> "+
		"/FontDescriptor %s /DW 0 /W [%s] /CIDToGIDMap /Identity>>", name, descriptor, widths))
	return f.add(fmt.Sprintf("<</Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%s] /ToUnicode %s>>",
		name, descendant, unicode))
}

// tag is the six letters that mark a subset (ISO 32000-1, 9.6.4): others for
// other glyphs.
func tag(data []byte) string {
	sum := crc32.ChecksumIEEE(data)
	b := make([]byte, 6)
	for i := range b {
		b[i] = byte('A' + sum%26)
		sum /= 26
	}
	return string(b)
}

// unicodeMap tells which character each code stands for (ISO 32000-1, 9.10.3).
func unicodeMap(used []usedGlyph) []byte {
	b := []byte("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Seamwright def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	const most = 100 // entries of one bfchar section
	for part := range slices.Chunk(used, most) {
		b = fmt.Appendf(b, "%d beginbfchar\n", len(part))
		for _, u := range part {
			t := text(string(u.char))
			b = fmt.Appendf(b, "<%04X> <%s\n", u.id, t[len("<FEFF"):])
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"...)
}
