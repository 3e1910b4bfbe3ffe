package table

import (
	"strings"
	"unicode"
)

// Clean makes an author's text fit for one line: line breaks and other control
// characters become blanks, and the characters that turn the direction of
// writing are left out, since they would reorder the sizes that follow.
func Clean(s string) string {
	if !strings.ContainsFunc(s, unfit) {
		return s
	}
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case turnsWriting(r):
			return -1
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029':
			return ' '
		case r == unicode.ReplacementChar:
			return '?'
		}
		return r
	}, s))
}

func unfit(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || r == unicode.ReplacementChar || turnsWriting(r)
}

// turnsWriting holds the explicit embeddings, overrides, isolates and marks of
// the Unicode Bidirectional Algorithm (UAX 9).
func turnsWriting(r rune) bool {
	return r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\u200e' || r == '\u200f' || r == '\u061c'
}

// AppendCSV appends one field of a line (RFC 4180). A text that a spreadsheet
// would take for a formula gets an apostrophe before it, which shows it as text
// (OWASP, CSV Injection).
func AppendCSV(b []byte, s string) []byte {
	s = Clean(s)
	if t := strings.TrimLeft(s, " "); t != "" && strings.ContainsRune("=+-@", rune(t[0])) {
		s = "'" + s
	}
	if !strings.ContainsAny(s, "\",\r\n") && s == strings.TrimSpace(s) {
		return append(b, s...)
	}
	b = append(b, '"')
	for i := range len(s) {
		if s[i] == '"' {
			b = append(b, '"')
		}
		b = append(b, s[i])
	}
	return append(b, '"')
}

// AppendMarkdown appends an author's text so that it is shown as it is, within
// a line or a cell of a table (CommonMark, backslash escapes).
func AppendMarkdown(b []byte, s string) []byte {
	s = Clean(s)
	for i := range len(s) {
		switch c := s[i]; c {
		case '<':
			b = append(b, "&lt;"...)
		case '>':
			b = append(b, "&gt;"...)
		case '&':
			b = append(b, "&amp;"...)
		case '\\', '`', '*', '_', '[', ']', '|', '~', '#', '$', '!':
			b = append(b, '\\', c)
		default:
			b = append(b, c)
		}
	}
	return b
}
