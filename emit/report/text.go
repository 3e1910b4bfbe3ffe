package report

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

// lineWidth is how wide the report is, in characters: it stands in a terminal
// and prints on any paper.
const lineWidth = 78

// Text writes the report as plain text, in the pattern's language. Made is as for [JSON].
func Text(p *pattern.Pattern, made [][]Made) []byte {
	w := &writer{p: p, said: words.InReport(p.Settings.Language)}
	w.head()
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			w.block(&p.Blocks[b], &p.Blocks[b].Sizes[s], &made[b][s])
		}
	}
	w.parts(Whole(p, w.said))
	return w.b
}

type writer struct {
	b    []byte
	p    *pattern.Pattern
	said *words.Catalogue
}

// parts writes each part below its heading.
func (w *writer) parts(all []Part) {
	for _, part := range all {
		if part.Title != "" {
			w.line()
			w.line(part.Title)
		}
		for _, i := range part.Items {
			w.item(i.Name, i.Words)
		}
	}
}

func (w *writer) line(parts ...string) {
	for _, s := range parts {
		w.b = append(w.b, s...)
	}
	w.b = append(w.b, '\n')
}

// item writes a name and its words, which are broken at blanks.
func (w *writer) item(name, words string) {
	const indent = 28
	w.b = append(w.b, "  "...)
	w.b = append(w.b, name...)
	at := 2 + utf8.RuneCountInString(name)
	for first, rest := true, words; rest != ""; first = false {
		pad := indent - at
		if first && pad < 1 {
			pad = 1
		}
		w.b = append(w.b, strings.Repeat(" ", max(pad, 1))...)
		var next string
		next, rest = breakLine(rest, lineWidth-indent)
		w.line(next)
		at = 0
	}
}

// breakLine returns as much of a text as fits, in characters, and the rest.
func breakLine(s string, width int) (line, rest string) {
	at, n := -1, 0
	for i, r := range s {
		if r == ' ' && (n <= width || at < 0) {
			at = i
		}
		n++
	}
	if n <= width || at < 0 {
		return s, ""
	}
	return s[:at], strings.TrimLeft(s[at:], " ")
}

func (w *writer) head() {
	a := &w.p.About
	title := drawing.Clean(w.p.Title)
	if title == "" {
		title = drawing.Clean(w.p.File)
	}
	if a.Edition > 0 {
		title = w.said.Say("edition", "title", title, "n", strconv.Itoa(a.Edition))
	}
	w.line(title)
	for _, s := range []string{a.Author, a.Year, a.Rights, a.Contact, a.Corrections} {
		if s != "" {
			w.line(drawing.Clean(s))
		}
	}
	for _, n := range a.Notes {
		w.line("", drawing.Clean(n))
	}
}

func (w *writer) block(b *pattern.Block, s *pattern.Sized, m *Made) {
	title := w.said.Say("finishes", "title", drawing.Clean(b.Title), "size", Finished(w.p, s, w.said))
	w.line()
	w.line(title)
	w.line(strings.Repeat("-", len([]rune(title))))
	w.parts(Size(w.p, s, m, w.said))
}

// Finished tells a finished size in both systems, as the catalogue's language writes it.
func Finished(p *pattern.Pattern, s *pattern.Sized, said *words.Catalogue) string {
	return strings.ReplaceAll(s.Finished.Words(p.Settings.Metric), ".", said.Say("decimal_mark"))
}
