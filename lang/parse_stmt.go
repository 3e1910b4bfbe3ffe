package lang

import "seamwright/lang/problem"

func stmtWords() []string {
	return []string{"let", "join", "section", "piece", "place", "line", "for", "if", "check", "accept"}
}

// body = "{" { stmt } "}" . The statement it belongs to began at token owner.
// It is nil where nothing like a body is found.
func (p *parser) body(owner int, what string, section bool) *Body {
	s, ok := p.open(owner, what, section)
	if !ok {
		return nil
	}
	b := &Body{node: node{s.open}}
	if p.deeper() {
		b.Stmts = p.stmts(s)
	} else if p.toks[p.at-1].kind == tLBrace {
		p.at--
		p.skipBraces()
	}
	p.depth--
	b.Span = p.since(s.open.Start)
	return b
}

// stmts reads statements up to the end of their scope.
func (p *parser) stmts(s scope) (stmts []Stmt) {
	stmts = p.halves(&s)
	for {
		p.panic = false
		if p.take(tSemicolon) {
			continue
		}
		if p.closed(&s) {
			return stmts
		}
		before := p.at
		if st := p.stmt(&s); st != nil {
			stmts = append(stmts, st)
		}
		if p.at == before && !p.is(tEOF) {
			p.next()
		}
	}
}

// stmt reads one statement and, where that fails, goes on to the next.
func (p *parser) stmt(s *scope) Stmt {
	start := p.start()
	misplaced := s.section && p.misplacedHere()
	st := p.known(s)
	if st == nil {
		p.noStmt(s)
	} else if !p.panic {
		if p.stmtEnd(); p.panic {
			spoil(st)
		}
	}
	if p.panic {
		p.skip()
	}
	if st == nil || misplaced {
		return &BadStmt{node{p.since(start)}}
	}
	return st
}

// spoil makes holes of the values of a statement that ends in the middle, so
// that nothing is said of half of it.
func spoil(st Stmt) {
	hole := func(x Expr) Expr { return &BadExpr{node{x.Where()}} }
	switch st := st.(type) {
	case *Let:
		st.Value = hole(st.Value)
	case *Piece:
		switch {
		case st.Along != nil:
			st.Along = hole(st.Along)
		case st.At == nil:
			st.Along = hole(st.Fabric)
		}
	case *Join:
		last := &st.Lines[len(st.Lines)-1]
		*last = hole(*last)
	case *Place:
		st.At = &BadExpr{st.node}
	}
}

// misplacedHere reports a statement that does not stand in a section.
func (p *parser) misplacedHere() bool {
	switch p.kind() {
	case tJoin, tSection, tPlace, tLine:
		p.fail(WrongPlace, p.found()+" does not stand in a section, which holds only its pieces",
			"is a `}` missing before it?")
		p.panic = false
		return true
	}
	return false
}

// known reads the statement whose word stands here; nil if none does.
func (p *parser) known(s *scope) Stmt {
	switch p.kind() {
	case tNumber, tPiece:
		return p.piece()
	case tLet:
		return p.let()
	case tJoin:
		return p.join()
	case tSection:
		return p.section()
	case tPlace:
		return p.place()
	case tLine:
		return p.drawnLine()
	case tFor:
		return p.loop(s)
	case tIf:
		return p.ifStmt(s)
	case tCheck:
		return p.check()
	case tAccept:
		return p.accept()
	}
	if p.misspelt(stmtWords()...) {
		return p.known(s)
	}
	return nil
}

// noStmt reports what begins no statement.
func (p *parser) noStmt(s *scope) {
	switch k := p.kind(); {
	case k == tDash && (p.first(p.at) || p.prose(p.at, false)):
		p.dashComment(p.at)
	case k == tLBrace:
		p.fail(BraceTooMany, "this `{` opens nothing", "", problem.Edit{At: p.toks[p.at].span()})
		if p.missing > 0 {
			p.missing--
			p.next()
			p.panic = false
		}
	case topWord(k):
		p.fail(WrongPlace, p.found()+" stands at the top of the file, not in a "+s.what, "is a `}` missing before it?")
		p.decl()
	case k == tName && p.ahead(1) == tAssign:
		p.fail(WordMissing, "`let` is missing before a name that is given a value", "", insert(p.start(), "let "))
	default:
		p.fail(NoStatement, p.found()+" begins no statement",
			"a statement begins with let, join, section, piece, place, line, for, if, check or accept, or with the number of a piece")
	}
}

// stmtEnd reports what stands behind a whole statement on its line and begins
// no other.
func (p *parser) stmtEnd() {
	if !p.sameLine() {
		return
	}
	switch p.kind() {
	case tSemicolon, tRBrace, tNumber, tIf, tLBrace: // of a lone { noStmt tells
	default:
		if !p.begins(p.at) {
			p.unexpected()
		}
	}
}

// unexpected reports a token that does not continue what stands before it.
func (p *parser) unexpected() {
	line := p.line()
	for i := p.at; i > 0 && p.toks[i].line == line && line != p.badLine; i-- {
		if p.toks[i].kind == tDash && p.prose(i, false) {
			p.dashComment(i)
			return
		}
	}
	switch p.kind() {
	case tRParen:
		p.fail(ParenTrouble, "there is no `(` for this `)`", "")
	default:
		p.fail(NoStatement, p.found()+" is not expected after "+p.lastWord(), "")
	}
}

// let = "let" name "=" expr .
func (p *parser) let() Stmt {
	start := p.start()
	p.next()
	d := &Let{Name: p.ident("the name of the value")}
	if !p.panic {
		p.assign("the value")
	} else {
		p.take(tAssign)
	}
	d.Value = p.expr()
	d.Span = p.since(start)
	return d
}

// join = "join" expr { "," expr } [ "partial" ] [ "from" expr ] .
func (p *parser) join() Stmt {
	start := p.start()
	p.next()
	d := &Join{Lines: p.lines()}
	if !p.panic && p.is(tName) && p.sameLine() {
		p.misspelt("from", "partial")
	}
	d.Partial = !p.panic && p.take(tPartial)
	if d.Partial && p.is(tName) && p.sameLine() {
		p.misspelt("from")
	}
	if p.take(tFrom) {
		d.From = p.expr()
	}
	d.Span = p.since(start)
	return d
}

// lines = expr { "," expr } , the -- of each mended.
func (p *parser) lines() (list []Expr) {
	for {
		list = append(list, p.seam())
		if p.panic || !p.take(tComma) && !p.commaMissing(false) {
			return list
		}
	}
}

// section = "section" ( "along" list | [ name ] ( "at" list | body ) ) .
func (p *parser) section() Stmt {
	owner, start := p.at, p.start()
	p.next()
	if p.take(tAlong) {
		return &Keep{Along: p.lines(), node: node{p.since(start)}}
	}
	var name Ident
	if word := p.sameLine() && isWord(p.kind()) && !p.is(tAt); p.is(tName) || p.is(tX) || word && !p.begins(p.at) {
		name = p.ident("the section's name")
	}
	if !p.panic && name.Text != "" && p.is(tAlong) {
		p.mend(ClauseOrder, name.Span, p.line(), "`section along` says where no join is, and names no section", "write `section "+name.Text+
			" at` and a point to name the section", problem.Edit{At: Span{Start: name.Span.Start, End: p.start()}})
		p.next()
		return &Keep{Along: p.lines(), node: node{p.since(start)}}
	}
	if !p.panic && p.take(tAt) {
		return &Keep{Name: name, At: p.list(false), node: node{p.since(start)}}
	}
	d := &Section{Name: name}
	d.Body = p.body(owner, "section", true)
	d.Span = p.since(start)
	return d
}

// line = "line" chain { "," chain } [ "partial" ] . chain = or "--" or { "--" or } .
func (p *parser) drawnLine() Stmt {
	start := p.start()
	p.next()
	d := new(Line)
	for {
		d.Chains = append(d.Chains, p.chain())
		if p.panic || !p.take(tComma) && !p.commaMissing(false) {
			break
		}
	}
	if !p.panic && p.is(tName) && p.sameLine() {
		p.misspelt("partial")
	}
	d.Partial = !p.panic && p.take(tPartial)
	d.Span = p.since(start)
	return d
}

func (p *parser) chain() []Expr {
	points := []Expr{p.binary(precOr)}
	for !p.panic {
		switch {
		case p.take(tDash):
		case p.sameLine() && p.valueHere() && !p.is(tNumber):
			p.mend(JoinsTwo, p.behind(), p.toks[p.at-1].line, "two points are joined with `--`, as in `w -- e`", "",
				insert(p.end(), " --"))
		case len(points) == 1:
			p.lack(JoinsTwo, "a line needs a second point, joined with `--`", "")
		default:
			return points
		}
		if !p.panic {
			points = append(points, p.binary(precOr))
		}
	}
	return points
}

// loop = "for" name "in" expr ( ".." expr | { "," expr } ) body .
func (p *parser) loop(s *scope) Stmt {
	owner, start := p.at, p.start()
	p.next()
	d := &For{Name: p.ident("a name for what changes in the loop")}
	p.word(tIn, "in", " and what the loop runs through, like `in 1..4`")
	first := p.expr()
	if p.take(tRange) {
		d.From, d.To = first, p.expr()
	} else {
		d.Values = append(d.Values, first)
		for !p.panic && (p.take(tComma) || p.commaMissing(true)) {
			d.Values = append(d.Values, p.expr())
		}
	}
	d.Body = p.body(owner, "loop", s.section)
	d.Span = p.since(start)
	return d
}

// if = "if" expr body [ "else" ( if | body ) ] .
func (p *parser) ifStmt(s *scope) *If {
	owner, start := p.at, p.start()
	p.next()
	d := &If{Cond: p.condition()}
	if p.is(tThen) {
		p.fail(WrongPlace, "`then` stands in a value; as a statement `if` has braces, `if ... { }`", "")
	}
	d.Then = p.body(owner, "condition", s.section)
	if p.is(tElse) && !p.panic {
		other := p.at
		p.next()
		elif := p.is(tIf)
		if !elif && !p.is(tLBrace) && p.sameLine() {
			if !p.misspelt("if") {
				p.fail(NoStatement, p.found()+" is not expected here; `else` is followed by `{` or by `if`", "")
			}
			elif = true
		}
		switch {
		case !elif:
			if b := p.body(other, "other case", s.section); b != nil {
				d.Else = b
			}
		case p.deeper():
			d.Else = p.ifStmt(s)
			p.depth--
		default:
			p.depth--
		}
	}
	d.Span = p.since(start)
	return d
}

// check = "check" expr STRING .
func (p *parser) check() Stmt {
	start := p.start()
	p.next()
	d := &Check{Cond: p.condition()}
	if !p.is(tString) && !p.panic {
		p.unexpectedBefore("the message of the check")
	} else {
		d.Message = p.str("the message")
	}
	d.Span = p.since(start)
	return d
}

func (p *parser) unexpectedBefore(what string) {
	if p.sameLine() && !p.begins(p.at) && !p.is(tRBrace) && !p.is(tSemicolon) {
		p.fail(NoStatement, p.found()+" is not expected after "+p.lastWord()+"; here stands "+what+", a text in quotes", "")
		return
	}
	p.lack(ValueMissing, what+" is missing; it is a text in quotes, `\"...\"`", "")
}
