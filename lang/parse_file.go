package lang

import (
	"strconv"

	"seamwright/lang/problem"
)

func topWords() []string {
	return []string{"pattern", "use", "fabric", "colorway", "unit", "block", "quilt", "pad", "accept"}
}

// file = { top } EOF .
func (p *parser) file() {
	misplaced := false // one message for a run of them
	for !p.is(tEOF) {
		p.panic = false
		start, at := p.start(), p.at
		switch {
		case p.take(tSemicolon):
			continue
		case p.is(tRBrace):
			p.missing++
			p.fail(BraceTooMany, "this `}` closes nothing", "", problem.Edit{At: p.toks[p.at].span()})
			p.next()
			continue
		}
		d := p.decl()
		if d == nil {
			if p.begins(p.at) && !topWord(p.kind()) || p.is(tNumber) {
				p.misplaced(&misplaced)
			} else {
				p.noDecl()
			}
			p.skipDecl()
			d = &BadDecl{node{p.since(start)}}
		} else {
			misplaced = false
			if p.panic {
				p.skipDecl()
			} else {
				p.lineEnd()
			}
		}
		p.decls = append(p.decls, d)
		if p.at == at {
			p.next()
		}
	}
}

// decl reads one declaration; nil if none begins here.
func (p *parser) decl() Decl {
	switch p.kind() {
	case tPattern:
		return p.pattern()
	case tQuilt:
		return p.quilt()
	case tPad:
		return p.pad()
	case tUse:
		return p.use()
	case tFabric:
		return p.fabric()
	case tColorway:
		return p.colorway()
	case tUnit, tBlock:
		return p.unit()
	case tAccept:
		return p.accept()
	}
	if p.misspelt(topWords()...) {
		return p.decl()
	}
	return nil
}

// misplaced reads statements that stand outside of every unit.
func (p *parser) misplaced(told *bool) {
	if !*told {
		p.fail(WrongPlace, p.found()+" stands in the braces of a unit or block, not at the top of the file", "")
	}
	*told = true
	p.stmt(&scope{what: "file"})
}

func (p *parser) noDecl() {
	if p.is(tDash) {
		p.dashComment(p.at)
		return
	}
	p.fail(NoStatement, p.found()+" begins nothing that stands at the top of a file",
		"there stand pattern, use, fabric, colorway, unit, block, quilt, pad and accept")
}

// skipDecl goes to where the next declaration or statement begins.
func (p *parser) skipDecl() {
	for !p.is(tEOF) && !p.is(tRBrace) && !p.is(tSemicolon) && !(p.first(p.at) && p.begins(p.at)) {
		if p.is(tLBrace) {
			p.skipBraces()
			return
		}
		p.next()
	}
}

// lineEnd reports what stands behind a whole declaration on its line and
// begins none.
func (p *parser) lineEnd() {
	if !p.sameLine() || topWord(p.kind()) || p.is(tAccept) || p.is(tSemicolon) || p.is(tRBrace) {
		return
	}
	if p.misspelt(topWords()...) {
		return
	}
	p.unexpected()
	p.skipDecl()
}

// use = "use" usename { "," usename } "from" STRING .
func (p *parser) use() Decl {
	start := p.start()
	p.next()
	d := new(Use)
	for {
		n := UseName{Name: p.ident("the unit that is used")}
		if p.take(tAs) {
			n.As = p.ident("its name in this file")
		}
		d.Names = append(d.Names, n)
		if p.panic || !p.take(tComma) {
			break
		}
	}
	p.word(tFrom, "from", " and the file that has the unit")
	d.Path = p.str("the file")
	d.Span = p.since(start)
	return d
}

// fabric = "fabric" name [ STRING ] NAME COLOUR [ scrappy ] .
func (p *parser) fabric() Decl {
	start := p.start()
	p.next()
	d := &Fabric{Name: p.ident("the fabric's name")}
	if p.is(tString) {
		d.Words = p.str("")
	}
	if p.is(tColour) {
		p.lack(NameMissing, "the value of the fabric is missing: light, medium or dark", "")
	} else {
		d.Value = p.ident("the fabric's value: light, medium or dark")
	}
	d.Colour = p.colour()
	if p.sameLine() && !p.panic {
		p.misspelt("scrappy")
	}
	if p.take(tScrappy) {
		p.word(tBy, "by", " and piece, section, unit or block")
		switch p.kind() {
		case tPiece, tSection, tUnit, tBlock:
			t := &p.toks[p.at]
			d.Scrappy = Ident{t.span(), p.text(t)}
			p.next()
		default:
			if !p.sameLine() || !p.misspelt("piece", "section", "unit", "block") {
				p.lack(WordMissing, "a fabric is scrappy by piece, section, unit or block", "")
			} else {
				p.next()
			}
		}
	}
	d.Span = p.since(start)
	return d
}

func (p *parser) colour() Colour {
	t := &p.toks[p.at]
	digits := p.text(t)
	switch {
	case t.kind == tColour:
		digits = trimHash(digits)
	case p.sameLine() && len(digits) == 6 && isHex(digits):
		p.mend(BadColour, t.span(), t.line, "a color begins with `#`", "", insert(t.span().Start, "#"))
	default:
		p.lack(BadColour, "a color is missing, like `#3c7d8c`",
			"write the color that pictures show the cloth in: `#` and six of 0 to 9 and a to f; until it is chosen a gray does, such as `#d8d8d8` for light, `#909090` for medium, `#404040` for dark")
		return Colour{Span: p.behind()}
	}
	rgb, _ := strconv.ParseUint(digits, 16, 24) // a damaged one is black
	p.next()
	return Colour{Span: t.span(), RGB: uint32(rgb)}
}

func trimHash(s string) string {
	if s != "" && s[0] == '#' {
		return s[1:]
	}
	return s
}

// colorway = "colorway" name [ STRING ] "{" { recolour | ";" } "}" .
func (p *parser) colorway() Decl {
	owner, start := p.at, p.start()
	p.next()
	d := &Colorway{Name: p.ident("the colorway's name")}
	if p.is(tString) {
		d.Words = p.str("")
	}
	s, ok := p.open(owner, "colorway", false)
	for ok {
		p.panic = false
		if p.take(tSemicolon) {
			continue
		}
		if p.closed(&s) || p.strayDecl(&s) {
			break
		}
		before := p.at
		if p.is(tName) || p.is(tX) {
			d.Recolour = append(d.Recolour, p.recolour())
		} else {
			p.fail(NoStatement, p.found()+" is not expected here; a colorway lists `fabric as fabric`, or a fabric with words, value and color", "")
		}
		if p.panic {
			p.skipLine()
		}
		if p.at == before {
			p.next()
		}
	}
	d.Braces = p.since(s.open.Start)
	d.Span = p.since(start)
	return d
}

// recolour = name ( "as" name | [ STRING ] [ NAME ] COLOUR ) .
func (p *parser) recolour() *Recolour {
	start := p.start()
	r := &Recolour{Name: p.ident("")}
	if p.take(tAs) {
		next := p.ahead(1)
		if p.first(p.at) && (next == tAs || next == tString || next == tColour) {
			p.lack(NameMissing, "a fabric is missing after `as`", "") // the next line is its own
		} else {
			r.As = p.ident("the fabric to take instead")
		}
	} else {
		if p.is(tString) {
			r.Words = p.str("")
		}
		if p.is(tName) && p.ahead(1) == tColour {
			r.Value = p.ident("")
		}
		if !p.is(tColour) && r.Words == nil {
			p.lack(WordMissing, "`as` and a fabric, or a color, is missing", "")
		} else {
			c := p.colour()
			r.Colour = &c
		}
	}
	r.Span = p.since(start)
	return r
}

// accept = "accept" NAME STRING .
func (p *parser) accept() *Accept {
	start := p.start()
	p.next()
	a := &Accept{Code: p.ident("the code of the warning, like R101,")}
	a.Reason = p.str("the reason")
	a.Span = p.since(start)
	return a
}

// str reads a text that must stand here; what says what it is.
func (p *parser) str(what string) *String {
	t := &p.toks[p.at]
	if t.kind != tString {
		p.lack(ValueMissing, what+" is missing; it is a text in quotes, `\"...\"`", "")
		return nil
	}
	p.next()
	return &String{node{t.span()}, meaning(p.text(t))}
}

// ident reads a name that must stand here; what says whose it is.
func (p *parser) ident(what string) Ident {
	t := &p.toks[p.at]
	switch {
	case t.kind == tName || t.kind == tX:
		p.next()
		return Ident{t.span(), p.text(t)}
	case isWord(t.kind) && p.sameLine() && !p.clauseHere():
		p.fail(NameMissing, what+" cannot be `"+p.text(t)+"`, which is a word of the language", "")
		p.next()
	default:
		p.lack(NameMissing, what+" is missing", "")
	}
	return Ident{Span: p.behind()}
}

// clauseHere reports whether the word here goes on with the statement, so that
// it was not meant as a name.
func (p *parser) clauseHere() bool {
	switch p.kind() {
	case tIn, tFrom, tFinished, tOutline, tAs, tAt, tBy, tTurn, tAlong, tReversed:
		next := p.ahead(1)
		return next != tAssign && next != tColon
	}
	return false
}
