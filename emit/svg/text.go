package svg

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/emit/drawing"
)

// em is the side of the square on which glyphs are written, in whole steps: at
// the 4 mm of a space's number a step is 0.02 mm, finer than a printer's dot.
const em = 200

// scaleDecimals makes a text's scale exact enough: at 4 mm an error of 0.0003.
const scaleDecimals = 5

// inline is the number of glyphs from which a text that holds a word used only
// once is written as a group of its own instead of glyph by glyph.
const inline = 5

// A word is a run of glyphs without blanks, at one size.
type word struct {
	text string
	size int64 // in hundredths of a millimetre; 0: on the em square
	bold bool
}

// texts are the glyphs and words of one document, defined once at its end.
type texts struct {
	prefix  string          // of identities
	uses    map[word]int    // how often each word is used
	ids     map[word]string // of words and glyphs
	lent    map[word]string // glyphs defined in the page's first shared group
	defined []word          // in the order of their identities
}

// count counts the words, so that those used twice or more are defined once.
func (t *texts) count(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			if !item.Shared {
				t.count(item.Items)
			}
		case *drawing.Text:
			size, _ := fix(item.Size)
			for rest, w := drawing.Visual(item.Text), ""; rest != ""; {
				w, rest = cut(rest)
				if w != " " {
					t.uses[word{w, size, item.Bold}]++
				}
			}
		}
	}
}

// cut splits the next part off a text: a blank, or a word up to a blank or to
// where digits follow letters, for "A12" and "B12" share the 12.
func cut(text string) (part, rest string) {
	for i := 1; i < len(text); i++ {
		if text[0] == ' ' || text[i] == ' ' || digit(text[i]) && !digit(text[i-1]) {
			return text[:i], text[i:]
		}
	}
	return text, ""
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// id returns a word's identity, which it gets when it is first asked for.
func (t *texts) id(w word) string {
	if id, ok := t.lent[w]; ok {
		return id
	}
	id, ok := t.ids[w]
	if !ok {
		id = t.prefix + strings.ToUpper(strconv.FormatInt(int64(len(t.defined)), 36))
		t.ids[w] = id
		t.defined = append(t.defined, w)
	}
	return id
}

// define writes the glyphs and words that were used. References go forward,
// which SVG allows; so a document is written in one go.
func (t *texts) define(w *writer) {
	if len(t.defined) == 0 {
		return
	}
	w.canvas.Def()
	for i := 0; i < len(t.defined); i++ { // grows: words define glyphs
		d := t.defined[i]
		id := t.ids[d]
		if d.size == 0 {
			w.outline(id, d)
			continue
		}
		w.out = append(append(append(w.out, `<g id="`...), id...), `" transform="scale(`...)
		w.out = append(appendScale(w.out, d.size), `)">`...)
		w.glyphs(d.text, d.bold)
		w.out = append(w.out, "</g>\n"...)
	}
	w.canvas.DefEnd()
}

// appendScale appends what turns glyphs on the em square into a text of a size.
func appendScale(b []byte, size int64) []byte {
	return appendFixed(b, int64(math.Round(float64(size)/perMM/em*1e5)), scaleDecimals)
}

// outline writes a glyph's definition. Its path is worked out once for all pages.
func (w *writer) outline(id string, d word) {
	r, _ := utf8.DecodeRuneInString(d.text)
	g := drawing.GlyphOf(r, d.bold)
	data, ok := w.renderer.glyphs.Load(g)
	if !ok {
		data = string(appendOutline(nil, g.Segments))
		w.renderer.glyphs.Store(g, data)
	}
	w.canvas.Path(data.(string), `id="`+id+`"`)
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

// text writes one line of text.
func (w *writer) text(t *drawing.Text) {
	x, okX := fix(t.At.X)
	y, okY := fix(t.At.Y)
	size, okS := fix(t.Size)
	if !okX || !okY || !okS || size <= 0 || math.IsNaN(t.Turn) || math.IsInf(t.Turn, 0) {
		w.fail("the text %q has no place, size or direction", t.Text)
		return
	}
	visual := drawing.Visual(t.Text)
	if visual == "" {
		return
	}
	at := point{x, y}
	mm := float64(size) / perMM / drawing.EmUnits
	start := 0.0
	if t.Anchor != drawing.Start {
		start = -width(visual, t.Bold) * mm
		if t.Anchor == drawing.Middle {
			start /= 2
		}
	}
	if t.Turn == 0 && t.Colour == drawing.Black && w.texts.reuses(visual, size, t.Bold) {
		w.placed(visual, size, t.Bold, at, start)
		return
	}
	w.out = append(w.out, `<g`...)
	if t.Colour != drawing.Black {
		w.out = append(append(append(w.out, ` fill="`...), colour(t.Colour)...), '"')
	}
	w.out = append(appendPoint(append(w.out, ` transform="translate(`...), at, 2), ')')
	if t.Turn != 0 {
		w.out = append(appendFixed(append(w.out, "rotate("...), int64(math.Round(math.Mod(-t.Turn, 360)*1e4)), 4), ')')
	}
	if dx := int64(math.Round(start * perMM)); dx != 0 {
		w.out = append(appendFixed(append(w.out, "translate("...), dx, 2), ')')
	}
	w.out = append(appendScale(append(w.out, "scale("...), size), `)">`...)
	w.glyphs(visual, t.Bold)
	w.out = append(w.out, "</g>\n"...)
}

// reuses reports whether a text is best written as uses of sized words and
// glyphs: it is short, or each of its words is used elsewhere too.
func (t *texts) reuses(visual string, size int64, bold bool) bool {
	if len(visual) < inline {
		return true
	}
	for rest, w := visual, ""; rest != ""; {
		w, rest = cut(rest)
		if w != " " && t.uses[word{w, size, bold}] < 2 {
			return false
		}
	}
	return true
}

// placed writes a text as uses of sized words and glyphs, start millimetres to
// the right of at.
func (w *writer) placed(visual string, size int64, bold bool, at point, start float64) {
	k := float64(size) / drawing.EmUnits // hundredths of a millimetre to a unit of the font
	x := float64(at.x) + start*perMM
	for rest, part := visual, ""; rest != ""; {
		part, rest = cut(rest)
		whole := word{part, size, bold}
		switch {
		case part == " ":
			x += drawing.GlyphOf(' ', bold).Advance * k
		case w.texts.uses[whole] >= 2:
			w.use(w.texts.id(whole), point{int64(math.Round(x)), at.y})
			x += width(part, bold) * k
		default:
			for i, r := range part {
				w.use(w.texts.id(word{part[i : i+utf8.RuneLen(r)], size, bold}), point{int64(math.Round(x)), at.y})
				x += drawing.GlyphOf(r, bold).Advance * k
			}
		}
	}
}

// use places a definition.
func (w *writer) use(id string, at point) {
	w.out = append(appendFixed(append(w.out, `<use x="`...), at.x, 2), `" y="`...)
	w.out = append(append(appendFixed(w.out, at.y, 2), `" xlink:href="#`...), id...)
	w.out = append(w.out, "\"/>\n"...)
}

// glyphs writes a text's glyphs on the em square, from the origin.
func (w *writer) glyphs(visual string, bold bool) {
	x := 0.0
	for _, r := range visual {
		g := drawing.GlyphOf(r, bold)
		if !g.Ink.Empty() {
			w.out = append(w.out, `<use`...)
			if at := int64(math.Round(x * em / drawing.EmUnits)); at != 0 {
				w.out = append(appendFixed(append(w.out, ` x="`...), at, 0), '"')
			}
			id := w.texts.id(word{text: string(r), bold: bold})
			w.out = append(append(append(w.out, ` xlink:href="#`...), id...), `"/>`...)
		}
		x += g.Advance
	}
}

// width is what a text advances, in units of the font.
func width(visual string, bold bool) float64 {
	x := 0.0
	for _, r := range visual {
		x += drawing.GlyphOf(r, bold).Advance
	}
	return x
}
