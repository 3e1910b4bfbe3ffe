package drawing

import (
	"strings"
	"unicode"

	"seamwright/compiler/pattern"
)

// An Extent is the room one line of text takes, set at the origin, y down.
type Extent struct {
	Width pattern.Length // what it advances
	Ink   Box            // what it paints, in inches
}

// Measure returns the room a text takes in the embedded font.
func Measure(text string, size pattern.Length, isBold bool) Extent {
	var e Extent
	x := 0.0
	for _, r := range Visual(text) {
		advance, ink := inkOf(r, isBold)
		if !ink.Empty() {
			e.Ink = e.Ink.Union(Box{x + ink.X0, ink.Y0, x + ink.X1, ink.Y1})
		}
		x += advance
	}
	k := float64(size) / EmUnits
	e.Width = pattern.Length(x * k)
	e.Ink = Box{e.Ink.X0 * k, e.Ink.Y0 * k, e.Ink.X1 * k, e.Ink.Y1 * k}
	return e
}

// Extent returns the room this text takes, before it is put in its place and
// turned, with its anchor at the origin.
func (t *Text) Extent() Extent {
	e := Measure(t.Text, t.Size, t.Bold)
	if s := float64(t.shift(e.Width)); s != 0 {
		e.Ink.X0, e.Ink.X1 = e.Ink.X0+s, e.Ink.X1+s
	}
	return e
}

// shift is how far the text's start is from its anchor.
func (t *Text) shift(width pattern.Length) pattern.Length {
	switch t.Anchor {
	case Middle:
		return -width / 2
	case End:
		return -width
	}
	return 0
}

// Missing returns the characters of a text that the font cannot show, each
// once. They are printed as boxes.
func Missing(text string) []rune {
	var out []rune
	for _, r := range Clean(text) {
		if r >= 128 && GlyphOf(r, false).Missing && !strings.ContainsRune(string(out), r) {
			out = append(out, r)
		}
	}
	return out
}

// Clean returns a text as one harmless line: control characters and line breaks
// become single blanks; invisible characters and those that change the
// direction of what follows are dropped; damaged ones become U+FFFD.
func Clean(text string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	blank := true // leading blanks are dropped
	for _, r := range text {
		switch {
		case r == ' ' || unicode.IsSpace(r) || unicode.IsControl(r):
			if !blank {
				b.WriteByte(' ')
			}
			blank = true
			continue
		case unicode.Is(unicode.Cf, r), r&0xFFFE == 0xFFFE, // not allowed in XML
			r >= 0xFE00 && r <= 0xFE0F: // variation selectors
			continue
		}
		blank = false
		b.WriteRune(r)
	}
	return strings.TrimRight(b.String(), " ")
}

// plain reports whether a text is printable ASCII that needs no cleaning.
func plain(text string) bool {
	last := byte(' ')
	for i := 0; i < len(text); i++ {
		c := text[i]
		if c < ' ' || c >= 0x7F || c == ' ' && last == ' ' {
			return false
		}
		last = c
	}
	return last != ' ' || text == ""
}

// Visual returns a text cleaned and in the order in which its characters stand
// on paper from left to right: runs of a script that is written from right to
// left are turned round. Letters are not joined as such scripts would have them.
func Visual(text string) string {
	if plain(text) {
		return text
	}
	rs := []rune(Clean(text))
	for i := 0; i < len(rs); i++ {
		if !leftward(rs[i]) {
			continue
		}
		end := i + 1 // after the last leftward character of the run
		for j := end; j < len(rs) && (leftward(rs[j]) || neutral(rs[j])); j++ {
			if leftward(rs[j]) {
				end = j + 1
			}
		}
		for a, b := i, end-1; a < b; a, b = a+1, b-1 {
			rs[a], rs[b] = rs[b], rs[a]
		}
		i = end - 1
	}
	return string(rs)
}

// leftward reports whether a character is of a script written from right to
// left (Unicode Standard Annex 9, classes R and AL, by block).
func leftward(r rune) bool {
	return r >= 0x590 && r <= 0x8FF || r >= 0xFB1D && r <= 0xFDFF || r >= 0xFE70 && r <= 0xFEFF ||
		r >= 0x10800 && r <= 0x10FFF || r >= 0x1E800 && r <= 0x1EFFF
}

func neutral(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }

// Shorten returns the text, or as much of it as fits the width with three full
// stops after it.
func Shorten(text string, size pattern.Length, isBold bool, width pattern.Length) string {
	const dots = "..."
	text = Clean(text)
	if Measure(text, size, isBold).Width <= width {
		return text
	}
	x := Measure(dots, size, isBold).Width
	for i, r := range text {
		x += pattern.Length(Advance(r, isBold)) * size / EmUnits
		if x > width {
			return strings.TrimRight(text[:i], " ") + dots
		}
	}
	return text
}

// Wrap breaks a text at its blanks into lines that fit the width. A word wider
// than that is shortened.
func Wrap(text string, size pattern.Length, isBold bool, width pattern.Length) []string {
	text = Clean(text)
	space := Measure("i i", size, isBold).Width - Measure("ii", size, isBold).Width
	var lines []string
	start, x := 0, pattern.Length(0) // of the line being filled
	for i := 0; i <= len(text); {
		end := strings.IndexByte(text[i:], ' ')
		if end < 0 {
			end = len(text) - i
		}
		w := Measure(text[i:i+end], size, isBold).Width
		if i > start && x+space+w > width {
			lines = append(lines, text[start:i-1])
			start, x = i, w
		} else if i > start {
			x += space + w
		} else {
			x = w
		}
		i += end + 1
	}
	if start < len(text) {
		lines = append(lines, text[start:])
	}
	for i, l := range lines {
		if !strings.Contains(l, " ") {
			lines[i] = Shorten(l, size, isBold, width)
		}
	}
	return lines
}
