package svg

import (
	"math"
	"strconv"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/emit/drawing"
)

// em is the side of the square on which glyphs are written, in whole steps: at
// the 4 mm of a space's number a step is 0.02 mm, finer than a printer's dot.
const em = 200

// A glyph is one character of one weight.
type glyph struct {
	r    rune
	bold bool
}

// glyphs are those that a document uses, each defined once at its end.
type glyphs struct {
	ascii [2]['~' + 1]bool // by weight and character
	rest  []glyph          // the others, in the order of their first use
}

func (g *glyphs) add(r rune, bold bool) {
	if r >= 0 && r <= '~' {
		g.ascii[weight(bold)][r] = true
		return
	}
	for _, have := range g.rest { // few: most texts are of ASCII, or of one script
		if have == (glyph{r, bold}) {
			return
		}
	}
	g.rest = append(g.rest, glyph{r, bold})
}

// use adds all glyphs of a part of the document.
func (g *glyphs) use(part *glyphs) {
	for w := range part.ascii {
		for r, used := range part.ascii[w] {
			g.ascii[w][r] = g.ascii[w][r] || used
		}
	}
	for _, of := range part.rest {
		g.add(of.r, of.bold)
	}
}

func (g *glyphs) copied() glyphs {
	c := *g
	c.rest = append([]glyph(nil), g.rest...)
	return c
}

func (g *glyphs) reset() { *g = glyphs{rest: g.rest[:0]} }

func weight(bold bool) int {
	if bold {
		return 1
	}
	return 0
}

// define writes the glyphs' outlines.
func (g *glyphs) define(w *writer) {
	for bold := range g.ascii {
		for r, used := range g.ascii[bold] {
			if used {
				w.outline(glyph{rune(r), bold == 1})
			}
		}
	}
	for _, of := range g.rest {
		w.outline(of)
	}
}

func (w *writer) outline(g glyph) {
	w.out = append(appendGlyphID(append(w.out, `<path id="`...), g.r, g.bold), `" d="`...)
	w.put(w.renderer.outlineOf(g))
	w.put("\"/>\n")
}

// outlineOf returns a glyph's path data: from a table if it is of ASCII, else
// worked out once for all pages.
func (r *Renderer) outlineOf(g glyph) string {
	switch {
	case g.r >= ' ' && g.r <= '~' && g.bold:
		return outlinesBold[g.r-' ']
	case g.r >= ' ' && g.r <= '~':
		return outlinesRegular[g.r-' ']
	}
	of := drawing.GlyphOf(g.r, g.bold)
	data, ok := r.outlines.Load(of)
	if !ok {
		data = string(appendOutline(nil, of.Segments))
		r.outlines.Store(of, data)
	}
	return data.(string)
}

// appendGlyphID appends a glyph's identity, which is the same in every document:
// _A and _sA for the strong one, _002c for a comma. Hexadecimal numbers have four
// digits or more and no s, so that no two glyphs share one.
func appendGlyphID(b []byte, r rune, bold bool) []byte {
	b = append(b, '_')
	if bold {
		b = append(b, 's')
	}
	if r < 0x80 && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9') {
		return append(b, byte(r))
	}
	for least := int64(0x1000); int64(r) < least && least > 1; least >>= 4 {
		b = append(b, '0')
	}
	return strconv.AppendInt(b, int64(r), 16)
}

// appendOutline appends a glyph's outline. Every step ends on the grid where its
// point would be if it were rounded alone, so errors do not add up.
func appendOutline(b []byte, segments sfnt.Segments) []byte {
	var last point
	step := func(p fixed.Point26_6) point {
		const k = float64(em) / drawing.EmUnits / 64
		return point{int64(math.Round(float64(p.X) * k)), int64(math.Round(float64(p.Y) * k))}
	}
	for i, s := range segments {
		n := 1
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				b = append(b, 'z')
			}
			last = step(s.Args[0])
			b = appendPoint(append(b, 'M'), last, 0)
			continue
		case sfnt.SegmentOpLineTo:
			q := step(s.Args[0])
			b = appendStep(b, last, q, 0)
			last = q
			continue
		case sfnt.SegmentOpQuadTo:
			b, n = append(b, 'q'), 2
		case sfnt.SegmentOpCubeTo:
			b, n = append(b, 'c'), 3
		}
		for j, p := range s.Args[:n] {
			q := step(p)
			if j > 0 && q.x >= last.x {
				b = append(b, ' ')
			}
			b = appendPoint(b, point{q.x - last.x, q.y - last.y}, 0)
		}
		last = step(s.Args[n-1])
	}
	if len(segments) > 0 {
		b = append(b, 'z')
	}
	return b
}
