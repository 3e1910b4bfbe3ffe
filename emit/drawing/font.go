package drawing

import (
	"sync"
	"sync/atomic"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/compiler/pattern"
)

// The embedded font is DejaVu Sans Condensed, so that a sheet looks the same on
// every machine. These are its measures as parts of a text's size.
const (
	CapHeight = 0.729 // of a flat capital letter
	Ascent    = 0.76  // of the highest Latin letter without an accent
	Descent   = 0.208 // of the deepest Latin letter below the baseline
)

// EmUnits is the side of the square on which glyphs are drawn.
const EmUnits = 2048

// SizeForCap returns the text size whose capitals have the given height.
func SizeForCap(cap pattern.Length) pattern.Length { return cap / CapHeight }

// A Glyph is one character's outline, y down, in units of 1/EmUnits of the
// text's size. It is shared: not to be changed.
type Glyph struct {
	ID       uint16 // its number in [FontFile]; 0 where Missing
	Advance  float64
	Ink      Box // empty where nothing is painted
	Segments []sfnt.Segment
	Missing  bool // the font has no such character: this is a box
}

// A Box is a rectangle, y down.
type Box struct{ X0, Y0, X1, Y1 float64 }

// Empty reports whether nothing is in the box.
func (b Box) Empty() bool { return b.X0 >= b.X1 || b.Y0 >= b.Y1 }

// Union returns the least box that holds both.
func (b Box) Union(c Box) Box {
	switch {
	case b.Empty():
		return c
	case c.Empty():
		return b
	}
	return Box{min(b.X0, c.X0), min(b.Y0, c.Y0), max(b.X1, c.X1), max(b.Y1, c.Y1)}
}

// Advance returns how far a character moves on to the next one, in units of
// 1/EmUnits of the text's size.
func Advance(r rune, isBold bool) float64 {
	if m := asciiOf(r, isBold); m != nil {
		return float64(m.advance)
	}
	return GlyphOf(r, isBold).Advance
}

// inkOf returns a character's advance and the box of what it paints.
func inkOf(r rune, isBold bool) (float64, Box) {
	if m := asciiOf(r, isBold); m != nil {
		return float64(m.advance), Box{float64(m.x0), float64(m.y0), float64(m.x1), float64(m.y1)}
	}
	g := GlyphOf(r, isBold)
	return g.Advance, g.Ink
}

// measures are those of a character of ASCII, in units of 1/EmUnits. Most texts
// have no others, and reading the font's file for them would be a good part of a
// small build.
type measures struct{ advance, x0, y0, x1, y1 int16 }

// asciiOf returns the measures of a character, nil where it is not of ASCII.
func asciiOf(r rune, isBold bool) *measures {
	switch {
	case r < ' ' || r > '~':
		return nil
	case isBold:
		return &asciiBold[r-' ']
	}
	return &asciiRegular[r-' ']
}

// A face is one weight of the font with the glyphs used so far: a cache, the
// same whoever fills it. Nothing is read before the first text is measured.
type face struct {
	mu    sync.Mutex
	font  *sfnt.Font
	buf   sfnt.Buffer
	ascii [128]atomic.Pointer[Glyph]
	rest  map[rune]*Glyph
}

var regular, bold face

func weight(isBold bool) *face {
	if isBold {
		return &bold
	}
	return &regular
}

// FontFile is the embedded font as an OpenType file with TrueType outlines. It is
// not to be changed.
func FontFile(isBold bool) []byte {
	if isBold {
		return dejavusanscondensedbold.TTF
	}
	return dejavusanscondensed.TTF
}

// GlyphOf returns a character's outline; a box where the font has none.
func GlyphOf(r rune, isBold bool) *Glyph {
	f := weight(isBold)
	if r >= 0 && r < 128 {
		if g := f.ascii[r].Load(); g != nil {
			return g
		}
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if g := f.rest[r]; g != nil {
		return g
	}
	g := f.load(r, isBold)
	if r >= 0 && r < 128 {
		f.ascii[r].Store(g)
		return g
	}
	if f.rest == nil {
		f.rest = map[rune]*Glyph{}
	}
	f.rest[r] = g
	return g
}

// load reads a glyph from the font file. The font is part of the program, so an
// unreadable one can only mean a damaged program; then texts are empty boxes.
func (f *face) load(r rune, isBold bool) *Glyph {
	if f.font == nil {
		font, err := sfnt.Parse(FontFile(isBold))
		if err != nil {
			return noFont
		}
		f.font = font
	}
	index, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil {
		index = 0
	}
	g := &Glyph{ID: uint16(index), Missing: index == 0}
	ppem := fixed.I(EmUnits)
	if a, err := f.font.GlyphAdvance(&f.buf, index, ppem, font.HintingNone); err == nil {
		g.Advance = units(a)
	}
	segments, err := f.font.LoadGlyph(&f.buf, index, ppem, nil)
	if err != nil {
		return noFont
	}
	g.Segments = append([]sfnt.Segment(nil), segments...)
	if len(segments) > 0 {
		b := segments.Bounds()
		g.Ink = Box{units(b.Min.X), units(b.Min.Y), units(b.Max.X), units(b.Max.Y)}
	}
	return g
}

// noFont stands for every character where no font can be read.
var noFont = &Glyph{Advance: EmUnits / 2, Missing: true}

func units(v fixed.Int26_6) float64 { return float64(v) / 64 }
