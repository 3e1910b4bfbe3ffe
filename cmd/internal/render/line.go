package render

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/lang/problem"
)

const (
	// tab is how far a tab moves on in a shown line; terminals differ, so tabs
	// are shown as blanks.
	tab = 4
	// widest is how many columns of a long line are shown: a usual terminal
	// less the line number.
	widest = 110
	// longestMessage is how many bytes of a message are shown: a dozen lines.
	longestMessage = 1000
	// before is how much of a long line is shown before the place at fault.
	before = 40
)

// glyph returns what is shown for one character and how many columns it takes.
// Control characters, broken bytes and marks that turn the reading direction
// are shown as a substitute, so that no pattern can write on a terminal.
func glyph(r rune) (string, int) {
	switch {
	case r == '\t':
		return strings.Repeat(" ", tab), tab
	case r == utf8.RuneError || unicode.Is(unicode.C, r):
		return "\uFFFD", 1
	case r < 0x300:
		return string(r), 1
	case unicode.In(r, unicode.Mn, unicode.Me):
		return string(r), 0
	case wide(r):
		return string(r), 2
	}
	return string(r), 1
}

// wide reports whether terminals give a character two columns: East Asian
// scripts and emoji (Unicode Standard Annex 11, the large blocks only).
func wide(r rune) bool {
	return r >= 0x1100 && r <= 0x115F || r >= 0x2E80 && r <= 0xA4CF || r >= 0xAC00 && r <= 0xD7A3 ||
		r >= 0xF900 && r <= 0xFAFF || r >= 0xFE30 && r <= 0xFE6F || r >= 0xFF00 && r <= 0xFF60 ||
		r >= 0xFFE0 && r <= 0xFFE6 || r >= 0x1F300 && r <= 0x1FAFF || r >= 0x20000 && r <= 0x3FFFD
}

// clean returns text with every character made safe to show.
func clean(s string) string {
	safe := func(r rune) bool { return r >= ' ' && r < 0x7F }
	if strings.IndexFunc(s, func(r rune) bool { return !safe(r) }) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		g, _ := glyph(r)
		b.WriteString(g)
	}
	return b.String()
}

// oneLine is clean text without line breaks, cut off where it is far too long: a
// message may quote a name that has no end.
func oneLine(s string) string {
	if len(s) > longestMessage {
		s = s[:longestMessage] + "..."
	}
	return clean(strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' }), " "))
}

// window returns a line as it is shown, cut to the columns about the bytes
// from..to where it is long, the column at which they begin, and how many
// columns they take.
func window(line string, from, to int) (shown string, column, width int) {
	begin := from
	for used := 0; begin > 0 && used < before; {
		r, size := utf8.DecodeLastRuneInString(line[:begin])
		_, w := glyph(r)
		begin -= size
		used += w
	}
	if begin > 0 && utf8.RuneCountInString(line[begin:]) < widest {
		// the line ends soon: show more of what stands before
		for used := utf8.RuneCountInString(line[begin:]); begin > 0 && used < widest; used++ {
			_, size := utf8.DecodeLastRuneInString(line[:begin])
			begin -= size
		}
	}
	var b strings.Builder
	total := 0
	if begin > 0 {
		b.WriteString("...")
		total = 3
	}
	for i := begin; i < len(line); {
		if i == from {
			column = total
		}
		if total >= widest {
			b.WriteString("...")
			break
		}
		r, size := utf8.DecodeRuneInString(line[i:])
		g, w := glyph(r)
		if i >= from && i < to {
			width += w
		}
		b.WriteString(g)
		total += w
		i += size
	}
	if from >= len(line) {
		column = total
	}
	return strings.TrimRight(b.String(), " "), column, width
}

// Apply makes edits, whose spans are bytes of text, in any order. It reports
// false where they overlap or lie outside the text.
func Apply(text string, edits []problem.Edit) (string, bool) {
	sorted := append([]problem.Edit(nil), edits...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].At.Start < sorted[j].At.Start })
	var b strings.Builder
	done := 0
	for _, e := range sorted {
		from, to := int(e.At.Start), int(e.At.End)
		if from < done || to < from || to > len(text) {
			return text, false
		}
		b.WriteString(text[done:from])
		b.WriteString(e.New)
		done = to
	}
	b.WriteString(text[done:])
	return b.String(), true
}
