package lang

import "slices"

// piece = ( NUMBER | "piece" ) expr ( corners | [ "along" expr ] [ "at" expr { "," expr } ] ) .
// corners = or "," or "," or { "," or } , the first beginning with a name or with a
// parenthesis that is not right behind the fabric's name.
func (p *parser) piece() Stmt {
	start := p.start()
	d := p.pieces.new()
	if p.is(tNumber) {
		d.Number = p.number()
	} else {
		p.next()
	}
	p.inPiece = true
	d.Fabric = p.expr()
	p.inPiece = false
	if !p.panic {
		p.pieceClauses(d)
	}
	if p.panic && d.Along == nil && d.At == nil {
		d.Along = p.bad()
	}
	d.Span = p.since(start)
	return d
}

func (p *parser) pieceClauses(d *Piece) {
	if p.is(tName) && p.sameLine() {
		p.misspelt("along", "at")
	}
	switch {
	case p.take(tAlong):
		d.Along = p.seam()
	case p.is(tLParen), p.cornerAt(p.at):
		p.corners(d)
		return
	case p.sameLine() && p.valueHere() && !p.is(tNumber):
		p.withoutWord(d)
	}
	if p.panic {
		return
	}
	if p.is(tName) && p.sameLine() {
		p.misspelt("at")
	}
	if p.take(tAt) {
		d.At = p.list(false)
	}
	if !p.is(tAlong) || !p.sameLine() || p.panic {
		return
	}
	if d.Along != nil {
		p.fail(ClauseOrder, "a piece has one line, after one `along`", "")
		return
	}
	t := &p.toks[p.at]
	p.mend(ClauseOrder, t.span(), t.line, "`along` and its line stand before `at`", "")
	p.next()
	d.Along = p.seam()
}

// withoutWord reads a seam, or a point, that lacks its word.
func (p *parser) withoutWord(d *Piece) {
	after, line := p.end(), p.line()
	at := p.here()
	value := p.seam()
	if p.panic {
		return
	}
	if isLine(value) {
		p.mend(WordMissing, at, line, "`along` is missing before the line that the piece is sewn along", "", insert(after, " along"))
		d.Along = value
		return
	}
	p.stop(WordMissing, at, line, "a fabric is followed by `along` and a line, or by `at` and a point", "", nil)
}

// cornerAt reports whether token i, behind a fabric, is a name that begins the
// first corner of a drawn piece.
func (p *parser) cornerAt(i int) bool {
	if k := p.toks[i].kind; k != tName && k != tX {
		return false
	}
	switch p.toks[min(i+1, len(p.toks)-1)].kind {
	case tComma, tDot, tCall, tPlus, tMinus, tStar, tSlash:
		return true
	}
	return false
}

func isLine(x Expr) bool {
	b, ok := x.(*Binary)
	return ok && b.Op == "--"
}

// corners reads the corners of a drawn piece, or finds that `along` or `at` is
// missing before a line or point.
func (p *parser) corners(d *Piece) {
	after, line := p.end(), p.line()
	at := p.here()
	list := p.list(false)
	if p.panic {
		return
	}
	switch {
	case isLine(list[0]):
		p.mend(WordMissing, at, line, "`along` is missing before the line that the piece is sewn along", "", insert(after, " along"))
		d.Along = list[0]
		if p.take(tAt) {
			d.At = p.list(false)
		}
	case len(list) == 1:
		p.mend(WordMissing, at, line, "`at` is missing before the point that says where the piece is", "", insert(after, " at"))
		d.At = list
	case len(list) == 2:
		p.mend(CornersFew, at, line, "a piece has three corners at least; or is `at` missing before two points, or `--` between them?", "")
		d.Along, d.At = p.bad(), list
	default:
		d.Corners = list
		for _, corner := range list {
			if isLine(corner) {
				p.mend(CornersFew, corner.Where(), line, "the corners of a piece are points, with commas between them", "")
				break
			}
		}
	}
}

// place = "place" name [ args ] { "as" name | "by" expr | "at" expr | "turn" expr | "reversed" } .
func (p *parser) place() Stmt {
	start := p.start()
	p.next()
	d := &Place{Unit: p.ident("the unit that is placed")}
	if p.is(tLParen) || p.is(tCall) {
		d.HasArgs = true
		d.Args = p.args()
	}
	for !p.panic && p.placeClause(d) {
	}
	if p.panic && d.At == nil {
		d.At = p.bad()
	}
	d.Span = p.since(start)
	return d
}

// placeClause reads one clause; it is false if none stands here.
func (p *parser) placeClause(d *Place) bool {
	if p.is(tName) && p.sameLine() {
		p.misspelt("turn", "reversed", "as", "by", "at")
	}
	var into *Expr
	word := ""
	switch p.kind() {
	case tAs:
		word = "as"
	case tBy:
		word, into = "by", &d.By
	case tAt:
		word, into = "at", &d.At
	case tTurn:
		word, into = "turn", &d.Turn
	case tReversed:
		word, d.Reversed = "reversed", true
	default:
		if d.At == nil && p.sameLine() && p.valueHere() && !p.is(tNumber) {
			p.mend(WordMissing, p.here(), p.line(), "`at` is missing before the point where the unit is placed", "", insert(p.end(), " at"))
			d.Clauses = append(d.Clauses, "at")
			d.At = p.expr()
			return true
		}
		return false
	}
	if slices.Contains(d.Clauses, word) {
		p.fail(ClauseOrder, "`"+word+"` is written twice for one unit", "")
		return false
	}
	d.Clauses = append(d.Clauses, word)
	p.next()
	if word == "as" {
		d.As = p.ident("the letters after `as`")
	} else if into != nil {
		*into = p.expr()
	}
	return true
}
