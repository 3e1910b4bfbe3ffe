package problem

import (
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

// A Source is one text as it was read: a file, standard input, or a family
// that is shipped with the program. It is safe for concurrent use.
type Source struct {
	Name string // as the user would write it: a path, "-", or "std/log_cabin"
	Text string // UTF-8; damage is the lexer's business

	once  sync.Once
	lines []int32 // byte offset of the start of each line
}

// A Span is a half-open range of byte offsets in one [Source]. Two numbers,
// so that every node of a tree can afford one.
type Span struct{ Start, End int32 }

// To returns the span from the start of s to the end of t.
func (s Span) To(t Span) Span { return Span{s.Start, t.End} }

// A Place is a span in a named text.
type Place struct {
	Source *Source
	Span   Span
}

// A Position is a place as people count: from 1, columns in characters.
type Position struct {
	Line   int
	Column int // in Unicode code points, from 1
	UTF16  int // the same column in UTF-16 code units, from 0 (editor protocol)
}

// Position returns the line and column of a byte offset. An offset beyond the
// text is taken as its end.
func (s *Source) Position(offset int32) Position {
	s.index()
	offset = max(0, min(offset, int32(len(s.Text))))
	n := sort.Search(len(s.lines), func(i int) bool { return s.lines[i] > offset })
	p := Position{Line: n, Column: 1}
	for rest := s.Text[s.lines[n-1]:offset]; rest != ""; {
		r, size := utf8.DecodeRuneInString(rest)
		p.Column++
		p.UTF16++
		if r > 0xFFFF {
			p.UTF16++
		}
		rest = rest[size:]
	}
	return p
}

// Line returns the text of a line, counted from 1, without its line break,
// and the offset at which it starts. A line outside the text is empty.
func (s *Source) Line(n int) (text string, start int32) {
	s.index()
	if n < 1 || n > len(s.lines) {
		return "", int32(len(s.Text))
	}
	start = s.lines[n-1]
	end := int32(len(s.Text))
	if n < len(s.lines) {
		end = s.lines[n] - 1
	}
	if end > start && s.Text[end-1] == '\r' {
		end--
	}
	return s.Text[start:end], start
}

func (s *Source) index() {
	s.once.Do(func() {
		s.lines = append(make([]int32, 0, 1+strings.Count(s.Text, "\n")), 0)
		for at := 0; ; {
			n := strings.IndexByte(s.Text[at:], '\n')
			if n < 0 {
				break
			}
			at += n + 1
			s.lines = append(s.lines, int32(at))
		}
	})
}
