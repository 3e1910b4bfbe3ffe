package lang

import "seamwright/lang/problem"

// How tightly operators bind; what binds tighter has the greater number.
const (
	precOr = iota + 1
	precAnd
	precNot
	precCompare
	precSum
	precProduct
)

func operator(kind tokenKind) (op string, prec int) {
	switch kind {
	case tOr:
		return "or", precOr
	case tAnd:
		return "and", precAnd
	case tEqual:
		return "==", precCompare
	case tUnequal:
		return "!=", precCompare
	case tLess:
		return "<", precCompare
	case tLessEqual:
		return "<=", precCompare
	case tGreater:
		return ">", precCompare
	case tGreaterEqual:
		return ">=", precCompare
	case tPlus:
		return "+", precSum
	case tMinus:
		return "-", precSum
	case tStar:
		return "*", precProduct
	case tSlash:
		return "/", precProduct
	}
	return "", 0
}

// deeper counts one level of nesting; whoever calls it takes it back.
func (p *parser) deeper() bool {
	p.depth++
	if p.depth <= maxDepth {
		return true
	}
	p.fail(TooDeep, "this is nested more than 200 deep", "")
	return false
}

// expr = "if" expr "then" expr "else" expr | or [ "--" or ] .
func (p *parser) expr() Expr {
	start, failed := p.start(), p.panic
	if !p.deeper() {
		p.depth--
		return p.bad()
	}
	x := p.whole()
	p.depth--
	if p.panic && !failed {
		return &BadExpr{node{p.since(start)}} // so that nothing is said of half a value
	}
	return x
}

func (p *parser) whole() Expr {
	if p.is(tIf) && (!p.first(p.at) || p.thenFollows(p.at)) {
		return p.cond()
	}
	x := p.binary(precOr)
	if p.is(tDash) && (p.noPiece || !p.prose(p.at, true)) {
		t := &p.toks[p.at]
		p.next()
		height := p.height
		x = p.pair("--", t, x, height, p.binary(precOr))
		if p.is(tDash) && !p.panic {
			p.thirdPoint()
		}
	}
	return x
}

// thirdPoint reports a -- b -- c, or a comment that begins with --.
func (p *parser) thirdPoint() {
	if p.prose(p.at, false) {
		return // the end of the statement tells it
	}
	p.fail(JoinsTwo, "`--` joins two points; a further line stands behind a comma", "")
}

// thenFollows reports whether the if at token i begins a value and no
// statement: it has its `then` before any brace.
func (p *parser) thenFollows(i int) bool {
	open := 0
	for _, t := range p.toks[i:min(len(p.toks), i+maxLookAhead)] {
		switch t.kind {
		case tIf:
			open++
		case tThen:
			if open--; open == 0 {
				return true
			}
		case tLBrace, tRBrace:
			return false
		}
	}
	return false
}

func (p *parser) cond() Expr {
	start := p.start()
	p.next()
	d := &Cond{If: p.condition()}
	height := p.height
	p.word(tThen, "then", " and the value if the condition holds")
	d.Then = p.expr()
	height = max(height, p.height)
	p.word(tElse, "else", " and the value if it does not")
	d.Else = p.expr()
	p.height = max(height, p.height) + 1
	d.Span = p.since(start)
	return d
}

// condition reads an expression in which a lone = is meant to compare.
func (p *parser) condition() Expr {
	before := p.testing
	p.testing = true
	x := p.expr()
	p.testing = before
	return x
}

// binary reads operators that bind at least as tightly as prec.
func (p *parser) binary(prec int) Expr {
	var x Expr
	if prec <= precNot && p.is(tNot) {
		x = p.not()
	} else {
		x = p.unary()
	}
	for !p.panic {
		op, binds := operator(p.kind())
		if p.is(tAssign) && p.testing && p.sameLine() && prec <= precCompare {
			t := &p.toks[p.at]
			p.mend(SignMissing, t.span(), t.line, "two values are compared with `==`", "", problem.Edit{At: t.span(), New: "=="})
			op, binds = "==", precCompare
		}
		if binds == 0 || binds < prec {
			break
		}
		t := &p.toks[p.at]
		p.next()
		height := p.height
		x = p.pair(op, t, x, height, p.binary(binds+1))
		if _, again := operator(p.kind()); binds == precCompare && again == precCompare && !p.panic {
			p.fail(ChainedTest, "a comparison has two sides; a third value needs `and`, as in `a < b and b < c`", "")
		}
	}
	return x
}

// not = "not" not | compare .
func (p *parser) not() Expr {
	defer func() { p.depth-- }()
	start := p.start()
	if !p.deeper() {
		return p.bad()
	}
	p.next()
	d := &Unary{Op: "not"}
	if p.is(tNot) {
		d.X = p.not()
	} else {
		d.X = p.binary(precCompare)
	}
	p.height++
	d.Span = p.since(start)
	return d
}

// pair makes a binary node, unless the tree has become too high.
func (p *parser) pair(op string, t *token, x Expr, height int, y Expr) Expr {
	p.height = max(height, p.height) + 1
	if p.height > maxDepth {
		p.fail(TooDeep, "this expression has more than 200 operators in a row", "")
		return p.bad()
	}
	b := p.pairs.new()
	*b = Binary{node: node{x.Where().To(y.Where())}, Op: op, At: t.span(), X: x, Y: y}
	return b
}

// unary = "-" unary | postfix .
func (p *parser) unary() Expr {
	if !p.is(tMinus) {
		return p.postfix()
	}
	defer func() { p.depth-- }()
	start := p.start()
	if !p.deeper() {
		return p.bad()
	}
	p.next()
	d := &Unary{Op: "-", X: p.unary()}
	p.height++
	d.Span = p.since(start)
	return d
}

// postfix = primary { "." name } .
func (p *parser) postfix() Expr {
	start := p.start()
	x := p.primary()
	for p.is(tDot) && !p.panic {
		p.next()
		f := &Field{X: x, Name: p.ident("what is wanted of the point, x or y,")}
		f.Span = p.since(start)
		if p.height++; p.height > maxDepth {
			p.fail(TooDeep, "this expression has more than 200 points in a row", "")
		}
		x = f
	}
	return x
}
