package lang

import "seamwright/lang/problem"

// unit = "unit" name shape body .
// block = "block" name shape "finished" size { "," size } body .
func (p *parser) unit() Decl {
	owner, start := p.at, p.start()
	d := &Unit{Block: p.is(tBlock)}
	what := "unit"
	if d.Block {
		what = "block"
	}
	p.next()
	d.Name = p.ident("the " + what + "'s name")
	hasParams := p.is(tLParen) || p.is(tCall)
	if hasParams {
		d.Params = p.params()
	}
	p.noPiece = true
	p.shape(d, hasParams)
	if d.Block {
		p.word(tFinished, "finished", " and the size, like `finished 6in`")
		d.Finished = p.sizes()
	} else if p.is(tFinished) {
		p.fail(WrongPlace, "a unit has no finished size; only a block has one", "write `block` instead of `unit`",
			problem.Edit{At: p.toks[owner].span(), New: "block"})
	}
	p.noPiece = false
	d.Body = p.body(owner, what, false)
	d.Span = p.since(start)
	p.oneWay(d)
	return d
}

// params = "(" [ param { "," param } ] ")" .
func (p *parser) params() []*Param {
	open := p.at
	p.next()
	params := []*Param{}
	for !p.is(tRParen) {
		params = append(params, p.param())
		if p.panic || !p.take(tComma) && !p.commaMissing(true) {
			break
		}
	}
	p.close(open)
	return params
}

// param = name ":" kind [ "=" expr ] .
func (p *parser) param() *Param {
	start := p.start()
	d := &Param{Name: p.ident("the name of a parameter")}
	if !p.take(tColon) {
		p.lack(SignMissing, "a `:` and the kind of the parameter are missing, as in `rows: count`", "")
	}
	switch p.kind() {
	case tFabric, tLine:
		d.Kind = Ident{p.toks[p.at].span(), p.text(&p.toks[p.at])}
		p.next()
	default:
		d.Kind = p.ident("the kind of the parameter")
	}
	if p.take(tAssign) {
		d.Default = p.expr()
	} else if !p.panic && (p.is(tNumber) || p.is(tEqual)) && p.sameLine() {
		p.assign("the value that the parameter has when none is given")
		d.Default = p.expr()
	}
	d.Span = p.since(start)
	return d
}

// assign goes past the = that must stand here, or mends a missing one.
func (p *parser) assign(what string) {
	t := &p.toks[p.at]
	switch {
	case p.take(tAssign):
	case t.kind == tEqual:
		p.mend(SignMissing, t.span(), t.line, "`==` compares; here a single `=` is written", "",
			problem.Edit{At: t.span(), New: "="})
		p.next()
	case p.sameLine() && p.valueHere():
		p.mend(SignMissing, t.span(), t.line, "a `=` is missing before "+what, "", insert(p.end(), " ="))
	default:
		p.lack(SignMissing, "a `=` is missing before "+what, "")
	}
}

// shape = params outline | outline1 . Without parameters a size is two plain
// numbers, so that a parenthesis behind the name is never a number's.
func (p *parser) shape(d *Unit, hasParams bool) {
	if p.sameLine() && !p.panic && p.is(tName) && !hasParams {
		p.misspelt("outline")
	}
	switch {
	case p.take(tOutline):
		d.Outline = p.list(true)
	case hasParams:
		d.Width = p.expr()
		p.times()
		d.Height = p.expr()
	default:
		d.Width = p.plainNumber()
		p.times()
		d.Height = p.plainNumber()
	}
}

func (p *parser) plainNumber() Expr {
	if p.is(tNumber) {
		return p.number()
	}
	p.lack(BadSize, "a size is two plain numbers, like `8 x 8`", "a unit with parameters may compute its size")
	return &BadExpr{node{p.behind()}}
}

// times goes past the x in 8 x 8.
func (p *parser) times() {
	t := &p.toks[p.at]
	switch {
	case p.take(tX):
	case p.panic:
	case p.sameLine() && (t.kind == tStar || t.kind == tBy || t.kind == tName && p.text(t) == "X"):
		p.mend(BadSize, t.span(), t.line, "an `x` stands between width and height, as in `8 x 8`", "",
			problem.Edit{At: t.span(), New: "x"})
		p.next()
	case p.sameLine() && t.kind == tNumber:
		p.mend(BadSize, t.span(), t.line, "an `x` stands between width and height, as in `8 x 8`", "", insert(p.end(), " x"))
	default:
		p.lack(BadSize, "an `x` stands between width and height, as in `8 x 8`", "")
	}
}

// sizes = size { "," size } .
func (p *parser) sizes() (sizes []*Size) {
	for {
		start := p.start()
		d := &Size{Width: p.expr()}
		if p.take(tX) {
			d.Height = p.expr()
		}
		d.Span = p.since(start)
		sizes = append(sizes, d)
		if p.panic || !p.take(tComma) && !p.commaMissing(true) {
			return sizes
		}
	}
}
