package lang

import (
	"strings"

	"seamwright/lang/problem"
)

// Recovery. Layout (what is first on its line, how far a line is indented)
// never decides what a sound text means; it is asked only where braces do not
// match, or where a statement has failed and the next one must be found.

// A scope is a pair of braces being read.
type scope struct {
	what    string // "section", "block", ...: what the braces belong to
	section bool   // only pieces and what governs them may stand here
	open    Span   // the opening brace, or where it is missing
	line    int32
	column  int32 // of the first token on the line of the opening statement
}

// indented reports whether at least four of five lines after one that ends in an
// opening brace are indented deeper than the statement.
func (p *parser) indented() bool {
	toks := p.toks
	deeper, all := 0, 0
	column := int32(1)
	for i := range len(toks) - 1 {
		k := toks[i].kind
		begins := isWord(k) && k != tOutline && k != tFinished || k == tRBrace // else it goes on with a head
		if begins && (i == 0 || toks[i-1].line < toks[i].line) {
			column = p.column(i)
		}
		if toks[i].kind == tLBrace && toks[i+1].line > toks[i].line && toks[i+1].kind != tRBrace {
			all++
			if p.column(i+1) > column {
				deeper++
			}
		}
	}
	return all > 0 && deeper*5 >= all*4
}

// open goes past the opening brace of the statement that began at token owner.
// It reports a missing one; ok is false if there is no body to read then.
func (p *parser) open(owner int, what string, section bool) (s scope, ok bool) {
	s = scope{what: what, section: section, line: p.toks[owner].line}
	if s.line != p.margin.line {
		first := owner
		for !p.first(first) {
			first--
		}
		p.margin.line, p.margin.column = s.line, p.column(first)
	}
	s.column = p.margin.column
	if !p.is(tLBrace) || p.panic {
		ok = p.findBrace(owner, what)
	} else {
		ok = true
	}
	s.open = p.toks[p.at].span()
	if p.is(tLBrace) {
		s.line = p.line()
		p.next()
	} else {
		s.open = p.behind()
	}
	return s, ok
}

// findBrace looks for the brace of a head that went wrong. If there is none it
// reports that, and says whether the body seems to follow all the same.
func (p *parser) findBrace(owner int, what string) bool {
	found, line := -1, p.toks[p.at-1].line
	for i := p.at; i < len(p.toks)-1; i++ {
		if p.begins(i) && (i > p.at || p.first(i)) || p.toks[i].kind == tRBrace && found >= 0 {
			break
		}
		if p.toks[i].line > line && !p.panic {
			break
		}
		if p.toks[i].kind == tLBrace {
			if found < 0 {
				found = i
			} else if p.panic && p.missing > 0 && p.toks[i].line == p.toks[found].line {
				found = i
				p.missing--
			}
		}
	}
	if found != p.at {
		if p.is(tDash) && p.sameLine() && p.prose(p.at, false) {
			p.dashComment(p.at)
		} else if p.sameLine() && found > p.at {
			p.fail(NoStatement, p.found()+" is not expected here; the "+what+" begins with `{`", "")
		} else {
			p.lack(BraceMissing, "a `{` is missing: it opens the "+what, "", insert(p.end(), " {"))
		}
	}
	if found >= 0 {
		p.at = found
		return true
	}
	if p.missing < 0 {
		p.missing++
		return true
	}
	return p.laidOutDeeper(owner)
}

// laidOutDeeper reports whether the next line is indented deeper than the
// statement that began at token owner.
func (p *parser) laidOutDeeper(owner int) bool {
	return p.laidOut && p.first(p.at) && !p.is(tEOF) && p.column(p.at) > p.column(owner)
}

// closed goes past the closing brace if the scope ends here, with or without
// one. What is not closed is reported.
func (p *parser) closed(s *scope) bool {
	for p.is(tRBrace) && p.stray(s) {
		t := &p.toks[p.at]
		p.panic = false
		p.mend(BraceTooMany, t.span(), t.line, "this `}` closes nothing", "", problem.Edit{At: t.span()})
		p.badLine = t.line
		p.missing++
		p.next()
	}
	t := &p.toks[p.at]
	switch {
	case t.kind == tEOF:
		p.unclosed(s)
		return true
	case p.missing > 0 && p.laidOut && t.line > s.line && p.first(p.at) &&
		(p.column(p.at) < s.column || p.column(p.at) == s.column && t.kind != tRBrace && t.kind != tLBrace):
		p.unclosed(s)
		return true
	case t.kind == tRBrace:
		p.next()
		return true
	case p.missing > 0 && s.section && (t.kind == tJoin || t.kind == tSection || t.kind == tPlace || t.kind == tLine),
		p.missing > 0 && topWord(t.kind) && p.topAhead(),
		topWord(t.kind) && p.first(p.at) && p.column(p.at) <= s.column && p.topAhead():
		p.unclosed(s)
		return true
	}
	return false
}

// unclosed reports a missing closing brace.
func (p *parser) unclosed(s *scope) {
	p.missing--
	p.panic = false
	line := p.hereLine()
	fix := " }"
	if p.at > 0 && s.line < p.toks[p.at-1].line {
		line = p.toks[p.at-1].line
		fix = "\n" + strings.Repeat(" ", int(s.column)-1) + "}"
	}
	message := "a `}` is missing: it closes the " + s.what
	if !p.is(tEOF) && !p.is(tRBrace) {
		message += " before " + p.found()
	}
	at := p.behind()
	if p.sameLine() {
		at = p.toks[p.at].span()
	}
	f := p.tell(BraceMissing, at, line, message, "", []problem.Edit{insert(p.end(), fix)})
	f.label(s.open, "the "+s.what+" is opened here")
	f.ownLine = !p.sameLine() && !p.is(tEOF) && p.line() > line+1 || p.is(tEOF)
	p.badLine = line
}

// stray reports whether the closing brace here closes nothing: the text has
// one too many, and the lines go on as if it were not there.
func (p *parser) stray(s *scope) bool {
	t, after := &p.toks[p.at], &p.toks[min(p.at+1, len(p.toks)-1)]
	if p.missing >= 0 || !p.laidOut || t.line == s.line || after.kind == tEOF {
		return false
	}
	if p.first(p.at) && p.column(p.at) == s.column {
		return false
	}
	if after.kind == tRBrace && p.first(p.at+1) {
		return p.column(p.at+1) == s.column
	}
	return p.column(p.at+1) > s.column
}

// begins reports whether a token surely begins a statement or declaration, so
// that what was wrong before it ends there.
func (p *parser) begins(i int) bool {
	switch p.toks[i].kind {
	case tLet, tJoin, tSection, tPlace, tLine, tFor, tCheck, tAccept, tPiece:
		return i == 0 || p.toks[i-1].kind != tBy && p.toks[i-1].kind != tColon
	case tIf:
		return p.first(i)
	case tNumber:
		return p.first(i) && p.fabricAt(i+1)
	}
	return topWord(p.toks[i].kind) && p.first(i)
}

// topWord reports whether a word begins a declaration and no statement.
func topWord(kind tokenKind) bool {
	switch kind {
	case tPattern, tUse, tFabric, tColorway, tUnit, tBlock, tQuilt, tPad:
		return true
	}
	return false
}

// topAhead reports whether the word here is followed as in a declaration.
func (p *parser) topAhead() bool {
	switch next := p.ahead(1); next {
	case tName, tX, tString, tLBrace:
		return true
	default:
		return isWord(next)
	}
}

// skip goes to where the next statement begins. Statements within braces on
// the way are read for their mistakes.
func (p *parser) skip() {
	for {
		switch k := p.kind(); {
		case k == tEOF || k == tSemicolon || k == tRBrace:
			return
		case k == tLBrace && p.missing > 0:
			p.missing--
			p.next()
		case k == tLBrace:
			p.foreign()
		case p.begins(p.at):
			return
		default:
			p.next()
		}
	}
}

// foreign reads braces that belong to nothing known. Whatever stands in them
// is read as statements.
func (p *parser) foreign() {
	p.panic = false
	p.body(p.at, "part", false)
}

// skipBraces goes past balanced braces without a look at what they hold.
func (p *parser) skipBraces() {
	depth := 0
	for !p.is(tEOF) {
		switch p.kind() {
		case tLBrace:
			depth++
		case tRBrace:
			depth--
		}
		p.next()
		if depth <= 0 {
			return
		}
	}
}
