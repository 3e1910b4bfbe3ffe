package lang

import "seamwright/lang/problem"

// primary = NUMBER | STRING | "true" | "false" | name [ args ] | "(" expr [ "," expr ] ")" .
func (p *parser) primary() Expr {
	t := &p.toks[p.at]
	p.height = 1
	switch t.kind {
	case tNumber:
		if p.pieceHere() {
			break // the number of the next piece
		}
		n := p.number()
		p.spelledUnit(n)
		return n
	case tName, tX:
		return p.name()
	case tLParen, tCall:
		return p.paren()
	case tString:
		p.next()
		return &String{node{t.span()}, meaning(p.text(t))}
	case tTrue, tFalse:
		p.next()
		return &Bool{node{t.span()}, t.kind == tTrue}
	}
	p.noValue()
	return p.bad()
}

func (p *parser) bad() Expr { return &BadExpr{node{p.behind()}} }

func (p *parser) number() *Number {
	t := &p.toks[p.at]
	p.next()
	n := p.numbers.new()
	n.read(t.span(), p.text(t))
	return n
}

// spelledUnit reports a unit in words behind a number, as in 6 inches.
func (p *parser) spelledUnit(n *Number) {
	t := &p.toks[p.at]
	if t.kind != tName || !p.sameLine() || n.Unit != Plain {
		return
	}
	if unit := unitOf(p.text(t)); unit != "" {
		p.mend(UnitSpelling, n.Span.To(t.span()), t.line, "the unit is written `"+unit+"`, right behind its number", "",
			problem.Edit{At: Span{Start: n.Span.End, End: t.span().End}, New: unit})
		n.Unit = measureOf(unit)
		p.next()
	}
}

// pieceHere reports whether the number here is that of a piece: it is the first
// on its line and a fabric follows, as no value can.
func (p *parser) pieceHere() bool {
	return !p.noPiece && p.first(p.at) && p.fabricAt(p.at+1) && !(p.inPiece && p.cornerAt(p.at+1))
}

// fabricAt reports whether token i, behind a number, is the fabric of a piece.
func (p *parser) fabricAt(i int) bool {
	switch t := p.toks[min(i, len(p.toks)-1)]; t.kind {
	case tName:
		return unitOf(p.text(&t)) == ""
	case tIf:
		return p.thenFollows(i)
	case tX: // a fabric called x; else the size of a unit, on a line of its own
		next := p.toks[min(i+1, len(p.toks)-1)].kind
		return next == tAlong || next == tAt
	}
	return false
}

// noValue reports that a value is missing.
func (p *parser) noValue() {
	switch {
	case p.is(tNot):
		p.lack(ValueMissing, "a value is missing before `not`; a condition within a comparison stands in parentheses", "")
	case p.at > 0 && (!p.sameLine() || p.is(tRBrace) || p.is(tSemicolon) || p.is(tLBrace)):
		p.lack(ValueMissing, "a value is missing after "+p.lastWord(), "")
	default:
		p.lack(ValueMissing, "a value is missing before "+p.found(), "")
	}
}

// name reads a name, or the call of a helper if a parenthesis stands right
// behind it.
func (p *parser) name() Expr {
	t := &p.toks[p.at]
	p.next()
	if p.is(tLParen) && p.sameLine() && !p.inPiece && isHelper(p.text(t)) {
		p.mend(ParenTrouble, Span{Start: t.span().Start, End: p.toks[p.at].span().End}, t.line,
			"the parenthesis stands right behind the helper's name, `"+p.text(t)+"(`", "",
			problem.Edit{At: Span{Start: p.end(), End: p.start()}})
	} else if !p.is(tCall) {
		n := p.names.new()
		*n = Name{node{t.span()}, p.text(t)}
		return n
	}
	d := &Call{Func: Ident{t.span(), p.text(t)}, Args: p.args()}
	d.Span = p.since(t.span().Start)
	return d
}

// isHelper knows the helpers' names for the sake of a message alone.
func isHelper(name string) bool {
	switch name {
	case "mid", "between", "meet", "inset", "parallel", "foot", "polar", "rotate", "reflect", "direction",
		"distance", "pick", "mod", "sqrt", "sin", "cos", "tan", "abs", "min", "max", "floor", "ceil", "even", "odd":
		return true
	}
	return false
}

// args = "(" [ arg { "," arg } ] ")" . arg = [ name ":" ] expr .
func (p *parser) args() []*Arg {
	open := p.at
	p.next()
	args := []*Arg{}
	height, piece, testing := 0, p.inPiece, p.testing
	p.inPiece, p.testing = false, false
	for !p.is(tRParen) {
		args = append(args, p.arg())
		height = max(height, p.height)
		if p.panic || !p.take(tComma) && !p.commaMissing(true) {
			break
		}
	}
	p.height, p.inPiece, p.testing = height+1, piece, testing
	p.close(open)
	return args
}

func (p *parser) arg() *Arg {
	start := p.start()
	a := new(Arg)
	if p.is(tName) || p.is(tX) {
		switch p.ahead(1) {
		case tColon:
			a.Name = p.ident("")
			p.next()
		case tAssign:
			a.Name = p.ident("")
			t := &p.toks[p.at]
			p.mend(SignMissing, t.span(), t.line, "a named value is given with `:`, as in `rows: 4`", "",
				problem.Edit{At: Span{Start: p.end(), End: t.span().End}, New: ":"})
			p.next()
		}
	}
	a.Value = p.expr()
	a.Span = p.since(start)
	return a
}

// paren reads ( expr ) or the point ( expr , expr ).
func (p *parser) paren() Expr {
	open, start := p.at, p.start()
	p.next()
	piece := p.inPiece
	p.inPiece = false
	x := p.expr()
	height := p.height
	comma := p.take(tComma) || !p.panic && p.commaMissing(true)
	if !comma {
		p.inPiece = piece
		p.close(open)
		p.height = height + 1
		return &Paren{node{p.since(start)}, x}
	}
	y := p.expr()
	p.height = max(height, p.height) + 1
	p.inPiece = piece
	if p.is(tComma) && !p.panic {
		p.fail(PointNumbers, "a point has two numbers, `(across, up)`", "a decimal fraction is written with a point, as in 3.5")
	}
	p.close(open)
	d := p.points.new()
	*d = Point{node{p.since(start)}, x, y}
	return d
}

// close goes past the ) for the ( at token open.
func (p *parser) close(open int) {
	if p.take(tRParen) {
		return
	}
	if !p.sameLine() || isWord(p.kind()) || p.is(tLBrace) || p.is(tRBrace) || p.is(tSemicolon) {
		f := p.lack(ParenTrouble, "a `)` is missing", "", insert(p.end(), ")"))
		f.label(p.toks[open].span(), "it closes this one")
		return
	}
	f := p.lack(ParenTrouble, "a `)` or a comma is missing before "+p.found(), "")
	f.label(p.toks[open].span(), "for this parenthesis")
}

// seam reads a line: an expression between two points, whose -- may be missing.
func (p *parser) seam() Expr {
	x := p.expr()
	if p.panic || isLine(x) || !p.sameLine() || !p.valueHere() || p.is(tNumber) {
		return x
	}
	if p.is(tName) && p.misspelt("from", "along", "at") {
		return x
	}
	t := &p.toks[p.at]
	p.mend(JoinsTwo, Span{Start: x.Where().Start, End: t.span().End}, t.line,
		"two points are joined with `--`, as in `w -- e`", "", insert(p.end(), " --"))
	height := p.height
	dash := token{start: p.end(), end: p.end()}
	return p.pair("--", &dash, x, height, p.binary(precOr))
}

// list = expr { "," expr } .
func (p *parser) list(numbers bool) []Expr {
	list := []Expr{p.expr()}
	for !p.panic && (p.take(tComma) || p.commaMissing(numbers)) {
		list = append(list, p.expr())
	}
	return list
}

// valueHere reports whether a value begins here.
func (p *parser) valueHere() bool {
	switch p.kind() {
	case tName, tX, tNumber, tLParen, tCall, tString, tTrue, tFalse:
		return true
	}
	return false
}

// commaMissing reports that two values stand side by side, and reads on as if
// the comma were there. A number may also begin the next piece, unless numbers
// says that no piece can stand here.
func (p *parser) commaMissing(numbers bool) bool {
	if !p.sameLine() || !p.valueHere() || p.panic || p.is(tString) || p.is(tX) || p.is(tNumber) && !numbers {
		return false
	}
	t := &p.toks[p.at-1]
	p.mend(CommaMissing, t.span().To(p.toks[p.at].span()), t.line,
		"a comma is missing between "+p.lastWord()+" and "+p.found(), "", insert(p.end(), ","))
	return true
}
