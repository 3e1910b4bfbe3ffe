package lsp

import (
	"sort"
	"strings"
	"unicode/utf8"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/names"
	"seamwright/lang/problem"
)

// A text is one state of a document, and what is known of it without compiling.
// It is made once and not changed.
type text struct {
	source *problem.Source
	lines  []int32 // where each begins; lines end as the protocol says: \n, \r\n or \r
	utf8   bool    // characters are counted in bytes, else in UTF-16 code units

	file   *lang.File
	faults []problem.Problem
	table  *names.Table
	tokens []lang.Token
}

func newText(name, content string, inBytes bool) *text {
	t := &text{source: &problem.Source{Name: name, Text: content}, utf8: inBytes, lines: []int32{0}}
	for i := 0; i < len(content); i++ {
		if content[i] == '\n' || content[i] == '\r' && (i+1 == len(content) || content[i+1] != '\n') {
			t.lines = append(t.lines, int32(i+1))
		}
	}
	return t
}

// tree returns the parsed text.
func (t *text) tree() *lang.File {
	if t.file == nil {
		t.file, t.faults = lang.Parse(t.source)
	}
	return t.file
}

func (t *text) names() *names.Table {
	if t.table == nil {
		t.table = names.Resolve(t.tree())
	}
	return t.table
}

func (t *text) words() []lang.Token {
	if t.tokens == nil && len(t.source.Text) <= maxTokenized {
		t.tokens, _ = lang.Tokens(t.source.Text)
	}
	return t.tokens
}

// maxTokenized is the longest text, in bytes, that the parser reads.
const maxTokenized = 1 << 20

// line returns a line's start and its end without the line break.
func (t *text) line(n int) (start, end int32) {
	start, end = t.lines[n], int32(len(t.source.Text))
	if n+1 < len(t.lines) {
		end = t.lines[n+1] - 1
		if end > start && t.source.Text[end] == '\n' && t.source.Text[end-1] == '\r' {
			end--
		}
	}
	return start, end
}

// position returns the place of a byte offset as the editor counts.
func (t *text) position(offset int32) wire.Position {
	offset = max(0, min(offset, int32(len(t.source.Text))))
	n := sort.Search(len(t.lines), func(i int) bool { return t.lines[i] > offset }) - 1
	start, end := t.line(n)
	before := t.source.Text[start:min(offset, end)]
	if t.utf8 {
		return wire.Position{Line: n, Character: len(before)}
	}
	units := 0
	for _, r := range before {
		units += unitsOf(r)
	}
	return wire.Position{Line: n, Character: units}
}

// unitsOf is how many UTF-16 code units a character takes.
func unitsOf(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
}

// offset returns the byte offset of an editor's place. A place beyond its line is
// the line's end, one within a character that character's start.
func (t *text) offset(p wire.Position) int32 {
	if p.Line < 0 {
		return 0
	}
	if p.Line >= len(t.lines) {
		return int32(len(t.source.Text))
	}
	start, end := t.line(p.Line)
	line := t.source.Text[start:end]
	units := 0
	for i, r := range line {
		size := utf8.RuneLen(r)
		if r == utf8.RuneError {
			_, size = utf8.DecodeRuneInString(line[i:])
		}
		if !t.utf8 {
			size = unitsOf(r)
		}
		if units += size; units > p.Character {
			return start + int32(i)
		}
	}
	return end
}

func (t *text) rang(s lang.Span) wire.Range {
	return wire.Range{Start: t.position(s.Start), End: t.position(s.End)}
}

// span returns the bytes of an editor's range, the right way round.
func (t *text) span(r wire.Range) lang.Span {
	a, b := t.offset(r.Start), t.offset(r.End)
	return lang.Span{Start: min(a, b), End: max(a, b)}
}

// at returns the words at a span.
func (t *text) at(s lang.Span) string {
	if s.Start < 0 || s.End > int32(len(t.source.Text)) || s.Start > s.End {
		return ""
	}
	return t.source.Text[s.Start:s.End]
}

// followed returns where an offset of one text stands in a later one, and whether
// it is known. What both texts begin and end with has not changed. Between, as after
// a renaming, lines of equally many are taken for each other as far as they begin
// alike.
func followed(from, to string) func(offset int32) (int32, bool) {
	head := 0
	for head < len(from) && head < len(to) && from[head] == to[head] {
		head++
	}
	tail := 0
	for tail < len(from)-head && tail < len(to)-head && from[len(from)-1-tail] == to[len(to)-1-tail] {
		tail++
	}
	moved := int32(len(to) - len(from))
	return func(offset int32) (int32, bool) {
		switch {
		case int(offset) < head:
			return offset, true
		case int(offset) >= len(from)-tail && (tail > 0 || from == to):
			return offset + moved, true
		case int(offset) >= len(from):
			return 0, false
		}
		return sameLine(from[:len(from)-tail], to[:len(to)-tail], int(offset))
	}
}

// sameLine finds an offset of one text in another of as many lines, where its line
// begins alike.
func sameLine(from, to string, offset int) (int32, bool) {
	if strings.Count(from, "\n") != strings.Count(to, "\n") {
		return 0, false
	}
	start := strings.LastIndexByte(from[:offset], '\n') + 1
	there := 0
	for range strings.Count(from[:start], "\n") {
		there += strings.IndexByte(to[there:], '\n') + 1
	}
	if !strings.HasPrefix(to[there:], from[start:min(offset+1, len(from))]) {
		return 0, false
	}
	return int32(there + offset - start), true
}

// crlf reports whether a text's lines end as on Windows.
func crlf(s string) bool {
	i := strings.IndexByte(s, '\n')
	return i > 0 && s[i-1] == '\r'
}
