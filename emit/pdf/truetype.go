package pdf

import (
	"encoding/binary"
	"maps"
	"slices"
)

// A font file is a list of tables (ISO/IEC 14496-22, Open Font Format). These
// are the places of what is read in them.
const (
	headLocFormat  = 50 // 1: loca has 32 bits an entry
	headBox        = 36 // xMin, yMin, xMax, yMax
	maxpGlyphs     = 4
	maxpZones      = 14 // from here on, maxp tells of hinting
	maxpHintsEnd   = 28
	hheaMetrics    = 34
	compositeWords = 1 << 0 // flags of a part of a composed glyph
	compositeScale = 1 << 3
	compositeMore  = 1 << 5
	compositeXY    = 1 << 6
	composite2x2   = 1 << 7
	compositeHints = 1 << 8
)

// tables finds the tables of a font file. The font is part of the program.
func tables(font []byte) map[string][]byte {
	found := map[string][]byte{}
	for i := range int(binary.BigEndian.Uint16(font[4:])) {
		record := font[12+16*i:]
		at, size := binary.BigEndian.Uint32(record[8:]), binary.BigEndian.Uint32(record[12:])
		found[string(record[:4])] = font[at : at+size]
	}
	return found
}

// fontBox is the box that holds every glyph, in units of the em square.
func fontBox(font []byte) (box [4]float64) {
	head := tables(font)["head"]
	for i := range box {
		box[i] = float64(int16(binary.BigEndian.Uint16(head[headBox+2*i:])))
	}
	return box
}

// subset returns a font file with the outlines of some glyphs, which keep their
// numbers, and of the parts that they are composed of. Instructions for coarse
// screens are left out: a quarter of the bytes, and no printer follows them.
func subset(font []byte, used []usedGlyph) []byte {
	t := tables(font)
	long := binary.BigEndian.Uint16(t["head"][headLocFormat:]) == 1
	outline := func(id int) []byte {
		if long {
			return t["glyf"][binary.BigEndian.Uint32(t["loca"][4*id:]):binary.BigEndian.Uint32(t["loca"][4*id+4:])]
		}
		return t["glyf"][2*int(binary.BigEndian.Uint16(t["loca"][2*id:])) : 2*int(binary.BigEndian.Uint16(t["loca"][2*id+2:]))]
	}
	keep := map[int][]byte{0: bare(outline(0), func(int) {})} // glyph 0 is the box for what the font lacks
	var add func(id int)
	add = func(id int) {
		if _, ok := keep[id]; !ok {
			keep[id] = nil
			keep[id] = bare(outline(id), add)
		}
	}
	for _, u := range used {
		add(int(u.id))
	}
	count := slices.Max(slices.Collect(maps.Keys(keep))) + 1
	var glyf, loca []byte
	for id := range count {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, keep[id]...)
		for len(glyf)%4 != 0 {
			glyf = append(glyf, 0)
		}
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
	return assemble([]table{
		{"glyf", glyf},
		{"head", patched(t["head"], headLocFormat, 1)},
		{"hhea", patched(t["hhea"], hheaMetrics, count)},
		{"hmtx", metrics(t, count, keep)},
		{"loca", loca},
		{"maxp", unhinted(patched(t["maxp"], maxpGlyphs, count))},
	})
}

// patched returns a table with another number at a place.
func patched(table []byte, at, value int) []byte {
	table = slices.Clone(table)
	binary.BigEndian.PutUint16(table[at:], uint16(value))
	return table
}

// unhinted says that no glyph has instructions.
func unhinted(maxp []byte) []byte {
	clear(maxp[maxpZones:maxpHintsEnd])
	maxp[maxpZones+1] = 1 // one zone: none for instructions
	return maxp
}

// metrics returns the widths and left bearings of the first glyphs; those that
// are not kept are 0.
func metrics(t map[string][]byte, count int, keep map[int][]byte) []byte {
	last := int(binary.BigEndian.Uint16(t["hhea"][hheaMetrics:])) - 1
	out := make([]byte, 4*count)
	for id := range keep {
		from := t["hmtx"]
		if id <= last {
			copy(out[4*id:4*id+4], from[4*id:])
			continue
		}
		copy(out[4*id:4*id+2], from[4*last:]) // the rest are as wide as the last
		copy(out[4*id+2:4*id+4], from[4*(last+1)+2*(id-last-1):])
	}
	return out
}

// bare returns an outline without instructions, and tells the glyphs that it is
// composed of.
func bare(outline []byte, part func(id int)) []byte {
	if len(outline) == 0 {
		return nil
	}
	const header = 10
	contours := int16(binary.BigEndian.Uint16(outline))
	if contours >= 0 {
		at := header + 2*int(contours)
		n := int(binary.BigEndian.Uint16(outline[at:]))
		out := append(slices.Clone(outline[:at]), 0, 0)
		return append(out, outline[at+2+n:]...)
	}
	out := slices.Clone(outline)
	for at, more := header, true; more; {
		flags := binary.BigEndian.Uint16(out[at:])
		part(int(binary.BigEndian.Uint16(out[at+2:])))
		binary.BigEndian.PutUint16(out[at:], flags&^compositeHints)
		at += 6
		if flags&compositeWords != 0 {
			at += 2
		}
		switch {
		case flags&composite2x2 != 0:
			at += 8
		case flags&compositeXY != 0:
			at += 4
		case flags&compositeScale != 0:
			at += 2
		}
		if more = flags&compositeMore != 0; !more {
			out = out[:at]
		}
	}
	return out
}

type table struct {
	tag  string
	data []byte
}

// assemble writes tables, in order of their tags, as a font file.
func assemble(all []table) []byte {
	const magic = 0xB1B0AFBA // what the whole file's sum must come to
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	power, exponent := 1, 0
	for 2*power <= len(all) {
		power, exponent = 2*power, exponent+1
	}
	for _, v := range []int{len(all), 16 * power, exponent, 16 * (len(all) - power)} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	at, head := len(out)+16*len(all), 0
	for _, t := range all {
		if t.tag == "head" {
			clear(t.data[8:12]) // the sum of the whole
			head = at
		}
		out = append(out, t.tag...)
		for _, v := range []uint32{sum(t.data), uint32(at), uint32(len(t.data))} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
		at += (len(t.data) + 3) &^ 3
	}
	for _, t := range all {
		out = append(out, t.data...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	binary.BigEndian.PutUint32(out[head+8:], magic-sum(out))
	return out
}

// sum adds up a table as numbers of 32 bits.
func sum(data []byte) (total uint32) {
	for len(data) >= 4 {
		total += binary.BigEndian.Uint32(data)
		data = data[4:]
	}
	var rest [4]byte
	copy(rest[:], data)
	return total + binary.BigEndian.Uint32(rest[:])
}
