package lang

import (
	"strings"

	"seamwright/lang/problem"
)

// Layout. No line is laid out by its neighbors: columns are fixed, and a name
// too long for its column moves only what stands behind it. So changing one
// seam changes one line, in every version control.
const (
	indent      = "  "
	continuedBy = "    " // a statement that a comment has broken
	maxWidth    = 100    // beyond it a unit's head and braces on one line are broken up

	settingColumn = len("allowance") // pattern, quilt and pad: the values
	fabricColumn  = len("shallows")  // fabric: the name,
	wordsColumn   = len(`"shallows"`)
	valueColumn   = len("medium")
	pieceColumn   = len("water") // pieces: the fabric
)

// Format returns the file in canonical layout, idempotent, with every comment
// kept. It must not be called on a file with syntax errors.
//
// One statement stands on a line, indented by two blanks for each pair of
// braces; braces that hold one statement may stay on one line. Empty lines are
// kept, several as one.
func Format(f *File) string {
	p := printer{src: f.Source, comments: f.Comments}
	p.text.grow(len(f.Source.Text) + len(f.Source.Text)/8)
	for i, d := range f.Decls {
		p.item(d, limit(f.Decls, i+1, int32(len(f.Source.Text))), func() { p.decl(d) })
	}
	p.ownLines(int32(len(f.Source.Text)))
	return p.text.String()
}

// limit is where the next item begins, before which a comment belongs to the
// last one.
func limit[T Node](items []T, next int, end int32) int32 {
	if next < len(items) {
		return items[next].Where().Start
	}
	return end
}

// A printer writes the tree and, as it comes past their places, the comments.
type printer struct {
	src      *problem.Source
	comments []Comment // still to be written

	text   buffer
	level  int
	last   int32 // where in the source the last item ended
	fresh  bool  // nothing stands in these braces yet: no empty line
	inLine bool  // within braces on one line
}

// item writes a declaration, statement or setting on lines of its own, with
// the comments before and behind it. Comments from next on are others'.
func (p *printer) item(n Node, next int32, write func()) {
	at := n.Where()
	p.ownLines(at.Start)
	p.gap(at.Start)
	p.startLine()
	write()
	p.last = at.End
	p.trailing(at.End, next)
	p.text.addByte('\n')
	p.fresh = false
	p.ownLines(at.End) // comments from within that found no place
}

// ownLines writes the comments before a place, each on a line.
func (p *printer) ownLines(before int32) {
	for len(p.comments) > 0 && p.comments[0].Span.Start < before {
		c := p.comments[0]
		p.comments = p.comments[1:]
		p.gap(c.Span.Start)
		p.startLine()
		p.text.add(c.Text)
		p.text.addByte('\n')
		p.last, p.fresh = max(p.last, c.Span.End), false
	}
}

// gap keeps one empty line where the source has some.
func (p *printer) gap(before int32) {
	if p.last < before && !p.fresh && p.text.len() > 0 && strings.Count(p.src.Text[p.last:before], "\n") > 1 {
		p.text.addByte('\n')
	}
}

// trailing writes a comment behind an item that ends at end: one from within
// it, or one on its line.
func (p *printer) trailing(end, next int32) {
	if len(p.comments) == 0 {
		return
	}
	c := p.comments[0]
	if c.Span.Start >= end && (c.Span.Start >= next || strings.Contains(p.src.Text[end:c.Span.Start], "\n")) {
		return
	}
	p.comments = p.comments[1:]
	p.text.trim()
	p.text.add("  " + c.Text)
	p.last = max(p.last, c.Span.End)
}

func (p *printer) startLine() {
	for range p.level {
		p.text.add(indent)
	}
}

// put writes words that have no place of their own in the tree.
func (p *printer) put(words string) { p.text.add(words) }

// atom writes a word that stands at a place. Comments from before it, within
// its statement, are written first, each ending a line.
func (p *printer) atom(at int32, word string) {
	for len(p.comments) > 0 && p.comments[0].Span.Start < at {
		p.text.trim()
		p.text.add("  " + p.comments[0].Text + "\n")
		p.comments = p.comments[1:]
		p.startLine()
		p.text.add(continuedBy)
	}
	p.text.add(word)
}

// padded writes a word and fills its column.
func (p *printer) padded(at int32, word string, column int) {
	p.atom(at, word)
	if !p.inLine {
		for n := len([]rune(word)); n < column; n++ {
			p.text.addByte(' ')
		}
	}
}

// source writes what stands at a span.
func (p *printer) source(at Span) { p.atom(at.Start, p.src.Text[at.Start:at.End]) }

func (p *printer) ident(id Ident) { p.atom(id.Span.Start, id.Text) }

// words writes a text with its quotes, and a blank before it.
func (p *printer) words(s *String) {
	if s != nil {
		p.put(" ")
		p.source(s.Span)
	}
}

// braces writes a body: on one line if it was written so, holds a single item
// and has room, or each item on its own.
func (p *printer) braces(at Span, single bool, items func()) {
	if p.inLine || single && !p.commentBefore(at.End) && !strings.Contains(p.src.Text[at.Start:at.End], "\n") {
		undo, was := p.text.len(), p.inLine
		p.inLine = true
		p.put("{ ")
		inside := p.text.len()
		items()
		if p.text.len() > inside {
			p.put(" ")
		}
		p.put("}")
		p.inLine = was
		if was || p.text.column() <= maxWidth {
			return
		}
		p.text.cut(undo)
		p.inLine = false
	}
	p.put("{")
	p.last = at.Start
	p.trailing(at.Start+1, int32(skipBlanks(p.src.Text, int(at.Start)+1))+1)
	p.put("\n")
	p.level++
	p.fresh = true
	items()
	p.ownLines(at.End)
	p.level--
	p.startLine()
	p.put("}")
	p.fresh = false
}

func (p *printer) commentBefore(end int32) bool {
	return len(p.comments) > 0 && p.comments[0].Span.Start < end
}

// inBraces writes an item of a body on its own line, or as it is where the
// braces are on one line.
func (p *printer) inBraces(n Node, next int32, write func()) {
	if p.inLine {
		write()
		return
	}
	p.item(n, next, write)
}

// A buffer is a text that can be cut back.
type buffer struct{ b []byte }

func (b *buffer) grow(n int)     { b.b = make([]byte, 0, n) }
func (b *buffer) add(s string)   { b.b = append(b.b, s...) }
func (b *buffer) addByte(c byte) { b.b = append(b.b, c) }
func (b *buffer) len() int       { return len(b.b) }
func (b *buffer) cut(n int)      { b.b = b.b[:n] }
func (b *buffer) String() string { return string(b.b) }

// trim drops blanks at the end.
func (b *buffer) trim() {
	for len(b.b) > 0 && b.b[len(b.b)-1] == ' ' {
		b.b = b.b[:len(b.b)-1]
	}
}

// column is the width of the last line in characters.
func (b *buffer) column() int {
	n := 0
	for i := len(b.b) - 1; i >= 0 && b.b[i] != '\n'; i-- {
		if b.b[i]&0xC0 != 0x80 {
			n++
		}
	}
	return n
}
