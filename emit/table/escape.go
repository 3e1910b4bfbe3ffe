package table

import (
	"strings"

	"seamwright/emit/drawing"
)

// AppendCSV appends one field of a line (RFC 4180). A text that a spreadsheet
// would take for a formula gets an apostrophe before it, which shows it as text
// (OWASP, CSV Injection).
func AppendCSV(b []byte, s string) []byte {
	s = drawing.Clean(s)
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
	s = drawing.Clean(s)
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
