package svg

import (
	"math"
	"unicode/utf8"

	"seamwright/emit/drawing"
)

// scaleDecimals makes a text's scale exact enough: at 4 mm an error of 0.0003.
const scaleDecimals = 5

// inline is the number of glyphs from which a text that holds a word used only
// once is written as a group of its own instead of glyph by glyph.
const inline = 5

// A word is a run of glyphs without blanks, at one size.
type word struct {
	text string
	size int64 // in hundredths of a millimetre
	bold bool
}

// texts are the words of one document. Those that are used twice or more are
// defined once, at its end.
type texts struct {
	index   map[word]int32
	words   []counted
	queue   []int32 // the words of all level texts in the order in which they are written
	written int     // how many of the queue are written
	defined []int32 // those that have an identity
}

// A counted word is one of the document's, with how often it is used.
type counted struct {
	word
	uses int
	id   int // its number in an identity; 0 for none
}

func (t *texts) reset() {
	clear(t.index)
	clear(t.words) // lets go of the texts
	t.words, t.queue, t.written, t.defined = t.words[:0], t.queue[:0], 0, t.defined[:0]
}

// level reports whether a text may be written as uses of words: it is neither
// turned nor coloured.
func level(t *drawing.Text) bool { return t.Level() && t.Colour == drawing.Black }

// count looks up the words of all level texts.
func (t *texts) count(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			if !item.Shared {
				t.count(item.Items)
			}
		case *drawing.Text:
			if !level(item) {
				continue
			}
			size, _ := fix(item.Size)
			for part, rest := "", drawing.Visual(item.Text); rest != ""; {
				if part, rest = cut(rest); part != " " {
					k := t.find(word{part, size, item.Bold})
					t.words[k].uses++
					t.queue = append(t.queue, k)
				}
			}
		}
	}
}

// find returns the index of a word, which it gets when it is first looked up.
func (t *texts) find(w word) int32 {
	k, ok := t.index[w]
	if !ok {
		k = int32(len(t.words))
		t.index[w] = k
		t.words = append(t.words, counted{word: w})
	}
	return k
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

// define writes the words that were used and, of a whole page, the glyphs.
// References go forward, which SVG allows; so a document is written in one go.
func (w *writer) define(page bool) {
	t := &w.texts
	if len(t.defined) == 0 && !page {
		return
	}
	w.canvas.Def()
	for _, k := range t.defined {
		d := &t.words[k]
		w.out = append(w.appendIdentity(append(w.out, `<g id="`...), d.id), `" transform="scale(`...)
		w.out = append(appendScale(w.out, d.size), `)">`...)
		w.set(d.text, d.bold)
		w.put("</g>\n")
	}
	if page {
		w.glyphs.define(w)
	}
	w.canvas.DefEnd()
}

// appendScale appends what turns glyphs on the em square into a text of a size.
func appendScale(b []byte, size int64) []byte {
	return appendFixed(b, int64(math.Round(float64(size)/perMM/em*1e5)), scaleDecimals)
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
	start := 0.0 // of the first glyph from the anchor, in hundredths of a millimetre
	if t.Anchor != drawing.Start {
		start = -width(visual, t.Bold) * float64(size) / drawing.EmUnits
		if t.Anchor == drawing.Middle {
			start /= 2
		}
	}
	at := point{x, y}
	if level(t) {
		if words, reuses := w.texts.next(visual); reuses {
			w.placed(visual, words, size, t.Bold, at, start)
			return
		}
	}
	w.put("<g")
	if t.Colour != drawing.Black {
		w.attribute("fill", colour(t.Colour))
	}
	w.out = append(appendPoint(append(w.out, ` transform="translate(`...), at, 2), ')')
	if !t.Level() {
		w.out = append(appendFixed(append(w.out, "rotate("...), int64(math.Round(math.Mod(-t.Turn, 360)*1e4)), 4), ')')
	}
	if dx := round(start); dx != 0 {
		w.out = append(appendFixed(append(w.out, "translate("...), dx, 2), ')')
	}
	w.out = append(appendScale(append(w.out, "scale("...), size), `)">`...)
	w.set(visual, t.Bold)
	w.put("</g>\n")
}

// next takes a text's words from the queue, and tells whether it is best written
// as uses of them: it is short, or each of its words is used elsewhere too.
func (t *texts) next(visual string) (words []int32, reuses bool) {
	first := t.written
	reuses = true
	for part, rest := "", visual; rest != ""; {
		if part, rest = cut(rest); part != " " {
			reuses = reuses && t.words[t.queue[t.written]].uses >= 2
			t.written++
		}
	}
	return t.queue[first:t.written], reuses || len(visual) < inline
}

// placed writes a text as uses of sized words and glyphs, starting so many
// hundredths of a millimetre to the right of at.
func (w *writer) placed(visual string, words []int32, size int64, bold bool, at point, start float64) {
	k := float64(size) / drawing.EmUnits // hundredths of a millimetre to a unit of the font
	x := float64(at.x) + start
	for part, rest := "", visual; rest != ""; {
		if part, rest = cut(rest); part == " " {
			x += drawing.Advance(' ', bold) * k
			continue
		}
		if w.texts.words[words[0]].uses >= 2 {
			w.use(words[0], point{round(x), at.y})
			x += width(part, bold) * k
		} else {
			for i, r := range part {
				one := w.texts.find(word{part[i : i+utf8.RuneLen(r)], size, bold})
				w.use(one, point{round(x), at.y})
				x += drawing.Advance(r, bold) * k
			}
		}
		words = words[1:]
	}
}

// use places a word, which gets its identity when it is first used.
func (w *writer) use(k int32, at point) {
	c := &w.texts.words[k]
	if c.id == 0 {
		w.defined++
		c.id = w.defined
		w.texts.defined = append(w.texts.defined, k)
	}
	w.out = append(appendFixed(append(w.out, `<use x="`...), at.x, 2), `" y="`...)
	w.out = append(appendFixed(w.out, at.y, 2), `" xlink:href="#`...)
	w.out = append(w.appendIdentity(w.out, c.id), "\"/>\n"...)
}

// set writes a text's glyphs on the em square, from the origin.
func (w *writer) set(visual string, bold bool) {
	x := 0.0
	for _, r := range visual {
		if r != ' ' && (r <= '~' || !drawing.GlyphOf(r, bold).Ink.Empty()) {
			w.put("<use")
			if at := int64(math.Round(x * em / drawing.EmUnits)); at != 0 {
				w.out = append(appendFixed(append(w.out, ` x="`...), at, 0), '"')
			}
			w.glyphs.add(r, bold)
			w.out = append(appendGlyphID(append(w.out, ` xlink:href="#`...), r, bold), `"/>`...)
		}
		x += drawing.Advance(r, bold)
	}
}

// width is what a text advances, in units of the font.
func width(visual string, bold bool) float64 {
	x := 0.0
	for _, r := range visual {
		x += drawing.Advance(r, bold)
	}
	return x
}
