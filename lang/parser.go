package lang

import (
	"slices"
	"strings"

	"seamwright/lang/problem"
)

// A parser walks over the tokens. Its methods are the rules of the grammar,
// named as there; recovery is in recover.go.
type parser struct {
	source string
	toks   []token // without error tokens; EOF is the last
	at     int     // the next token
	decls  []Decl
	faults []fault

	panic    bool  // a mistake in this statement is told; say nothing more of it
	badLine  int32 // neither of this line
	mended   int32 // the line on which a mistake was mended last, and how
	mendCode problem.Code
	missing  int  // closing braces that the text lacks; below 0, has too many
	laidOut  bool // the text is indented, so that columns tell about braces

	margin struct{ line, column int32 } // where the line of the last brace begins

	depth   int  // of what is being read
	height  int  // of the expression just read
	testing bool // in a condition, where = is meant to compare
	noPiece bool // in settings and heads, where a number begins no piece
	inPiece bool // the fabric of a piece, behind which a parenthesis begins a corner

	numbers slab[Number]
	names   slab[Name]
	points  slab[Point]
	pairs   slab[Binary]
	pieces  slab[Piece]
}

// A slab hands out nodes of one kind, many to an allocation.
type slab[T any] struct{ free []T }

func (s *slab[T]) new() *T {
	if len(s.free) == cap(s.free) {
		s.free = make([]T, 0, min(max(8, 2*cap(s.free)), 256))
	}
	s.free = s.free[:len(s.free)+1]
	return &s.free[len(s.free)-1]
}

// prepare drops error tokens and counts braces.
func (p *parser) prepare() {
	errors := 0
	for i := range p.toks {
		switch p.toks[i].kind {
		case tLBrace:
			p.missing++
		case tRBrace:
			p.missing--
		case tError:
			errors++
		}
	}
	if errors > 0 {
		p.toks = readable(p.toks)
	}
	if p.missing != 0 {
		p.laidOut = p.indented()
	}
}

// readable returns the tokens without errors.
func readable(toks []token) []token {
	return slices.DeleteFunc(toks, func(t token) bool { return t.kind == tError })
}

// column returns the column of a token, from 1, in bytes. It is seldom asked for.
func (p *parser) column(i int) int32 {
	start := p.toks[i].start
	return start - int32(strings.LastIndexByte(p.source[:start], '\n'))
}

// text is what was written for a token.
func (p *parser) text(t *token) string { return p.source[t.start:t.end] }

func (p *parser) kind() tokenKind { return p.toks[p.at].kind }

func (p *parser) is(kind tokenKind) bool { return p.toks[p.at].kind == kind }

// ahead returns the kind of the token n after the next one.
func (p *parser) ahead(n int) tokenKind {
	return p.toks[min(p.at+n, len(p.toks)-1)].kind
}

func (p *parser) next() {
	if p.at < len(p.toks)-1 {
		p.at++
	}
}

// take goes past the next token if it is of this kind.
func (p *parser) take(kind tokenKind) bool {
	if p.toks[p.at].kind != kind {
		return false
	}
	p.next()
	return true
}

// first reports whether a token is the first on its line.
func (p *parser) first(i int) bool {
	return i == 0 || p.toks[i-1].line < p.toks[i].line
}

// sameLine reports whether the next token stands on the line of the last.
func (p *parser) sameLine() bool { return !p.first(p.at) && !p.is(tEOF) }

func (p *parser) line() int32 { return p.toks[p.at].line }

// start returns the offset of the next token, from which a node's span begins.
func (p *parser) start() int32 { return p.toks[p.at].start }

// since returns the span from an offset to the end of the last token.
func (p *parser) since(start int32) Span {
	return Span{Start: start, End: max(start, p.end())}
}

// end returns the offset of the end of the last token.
func (p *parser) end() int32 {
	if p.at == 0 {
		return p.start()
	}
	return p.toks[p.at-1].span().End
}

// here is where something is missing: at the next token, or behind the last
// one if that ends its line.
func (p *parser) here() Span {
	if p.lineEnded() {
		return p.behind()
	}
	return p.toks[p.at].span()
}

// lineEnded reports whether the last token ends its line and the next is sound.
// A sign that begins a line is not: it is more likely to be wrong itself.
func (p *parser) lineEnded() bool {
	k := p.kind()
	return p.at > 0 && p.first(p.at) && (k < tCall || k >= tX) || k == tEOF && p.at > 0 ||
		p.at > 0 && p.first(p.at) && k == tLParen
}

// behind is the place right behind the last token.
func (p *parser) behind() Span { return Span{Start: p.end(), End: p.end()} }

// hereLine is the line of here.
func (p *parser) hereLine() int32 {
	if p.lineEnded() {
		return p.toks[p.at-1].line
	}
	return p.line()
}

// found is the next token in words.
func (p *parser) found() string {
	switch t := &p.toks[p.at]; t.kind {
	case tEOF:
		return "the end of the file"
	case tString:
		return "a text"
	default:
		return "`" + p.text(t) + "`"
	}
}

// lastWord is the last token in words, for "after ...".
func (p *parser) lastWord() string {
	if p.at == 0 {
		return "the beginning"
	}
	if t := &p.toks[p.at-1]; t.kind != tString {
		return "`" + p.text(t) + "`"
	}
	return "the text"
}

// fail reports that the next token is a mistake. Until the statement ends
// nothing more is said.
func (p *parser) fail(code problem.Code, message, help string, edits ...problem.Edit) *fault {
	return p.stop(code, p.toks[p.at].span(), p.line(), message, help, edits)
}

// lack reports that something is missing before the next token. Until the
// statement ends nothing more is said.
func (p *parser) lack(code problem.Code, message, help string, edits ...problem.Edit) *fault {
	return p.stop(code, p.here(), p.hereLine(), message, help, edits)
}

// stop reports a mistake after which the statement is given up. On a line that
// was mended before, the mending was most likely wrong, and is enough said.
func (p *parser) stop(code problem.Code, at Span, line int32, message, help string, edits []problem.Edit) *fault {
	if line == p.mended {
		p.badLine = line
	}
	f := p.tell(code, at, line, message, help, edits)
	p.panic, p.badLine = true, line
	return f
}

// mend reports a mistake that the parser has read as what was meant. Behind a
// misspelt word nothing but another one is told.
func (p *parser) mend(code problem.Code, at Span, line int32, message, help string, edits ...problem.Edit) {
	if line == p.mended && p.mendCode == Misspelt && code != Misspelt {
		return
	}
	p.tell(code, at, line, message, help, edits).Cured = true
	p.mended, p.mendCode = line, code
}

// tell returns the fault, for labels to be added; a scratch one if it is not
// to be told.
func (p *parser) tell(code problem.Code, at Span, line int32, message, help string, edits []problem.Edit) *fault {
	f := fault{Line: line, Problem: problem.Problem{
		Code: code, Message: message, Help: help, Edits: edits, At: problem.Place{Span: at},
	}}
	if p.panic || line == p.badLine || len(p.faults) > maxProblems {
		return &f
	}
	p.faults = append(p.faults, f)
	return &p.faults[len(p.faults)-1]
}

// label adds a second place to a fault.
func (f *fault) label(at Span, text string) {
	f.Labels = append(f.Labels, problem.Label{At: problem.Place{Span: at}, Text: text})
}

func insert(at int32, text string) problem.Edit {
	return problem.Edit{At: Span{Start: at, End: at}, New: text}
}
