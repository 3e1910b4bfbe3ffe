package lang

func (p *parser) pattern() Decl {
	owner, start := p.at, p.start()
	p.next()
	d := &Pattern{Name: p.str("the name of the pattern")}
	d.Props, d.Braces = p.props(owner, "pattern")
	d.Span = p.since(start)
	return d
}

func (p *parser) quilt() Decl {
	owner, start := p.at, p.start()
	p.next()
	d := new(Quilt)
	if p.is(tString) {
		d.Name = p.str("")
	}
	d.Props, d.Braces = p.props(owner, "quilt")
	d.Span = p.since(start)
	return d
}

func (p *parser) pad() Decl {
	owner, start := p.at, p.start()
	p.next()
	d := new(Pad)
	d.Props, d.Braces = p.props(owner, "pad")
	d.Span = p.since(start)
	return d
}

// props = "{" { prop | ";" } "}" .
func (p *parser) props(owner int, what string) (props []*Prop, braces Span) {
	s, ok := p.open(owner, what, false)
	if !ok {
		return nil, s.open
	}
	p.noPiece = true
	defer func() { p.noPiece = false }()
	for {
		p.panic = false
		if p.take(tSemicolon) {
			continue
		}
		if p.closed(&s) || p.strayDecl(&s) {
			return props, p.since(s.open.Start)
		}
		before, told := p.at, len(p.faults)
		prop := p.prop()
		switch n := len(props); {
		case (prop == nil || p.panic) && n > 0 && p.takenOver(&props):
			p.faults = p.faults[:told]
			p.panic, p.badLine = false, 0
			p.lack(ValueMissing, "a value is missing after "+p.lastWord(), "")
		case prop == nil:
			p.fail(NoStatement, p.found()+" begins no setting; a setting is a name and its value", "")
		default:
			props = append(props, prop)
		}
		if p.panic {
			p.skipLine()
		}
		if p.at == before {
			p.next()
		}
	}
}

// strayDecl ends a scope at a declaration: its closing brace is missing.
func (p *parser) strayDecl(s *scope) bool {
	if topWord(p.kind()) && p.first(p.at) && (p.missing > 0 || p.column(p.at) <= s.column) {
		p.unclosed(s)
		return true
	}
	return false
}

// skipLine goes to the next line or the end of the braces.
func (p *parser) skipLine() {
	line := p.toks[max(p.at-1, 0)].line
	for !p.is(tEOF) && !p.is(tRBrace) && !p.is(tSemicolon) && p.line() == line {
		if p.is(tLBrace) && p.missing > 0 {
			p.missing--
		}
		p.next()
	}
}

// prop = NAME value { "," value } . It is nil if no name stands here.
func (p *parser) prop() *Prop {
	if !p.is(tName) {
		return nil
	}
	start := p.start()
	prop := &Prop{Name: p.ident("")}
	for {
		prop.Values = append(prop.Values, p.propValue())
		if p.panic || !p.take(tComma) && (p.is(tName) || p.tookNextLine(prop, p.at-1) >= 0 || !p.commaMissing(true)) {
			break
		}
	}
	prop.Span = p.since(start)
	return prop
}

func (p *parser) propValue() *PropValue {
	start := p.start()
	v := &PropValue{Value: p.expr()}
	if p.take(tX) {
		v.By = p.expr()
	}
	if p.take(tOf) {
		v.Of = p.expr()
	}
	if p.take(tTurn) {
		v.Turn = p.expr()
	}
	v.Reversed = p.take(tReversed)
	v.Span = p.since(start)
	return v
}

// takenOver reports whether the last settings, for want of a value of the first
// of them, have each taken the name on the next line for a value. If so the
// first is left without, and the others are read again.
func (p *parser) takenOver(props *[]*Prop) bool {
	again, first := p.at, len(*props)
	for first > max(0, len(*props)-maxTakenOver) {
		i := p.tookNextLine((*props)[first-1], again-1)
		if i < 0 {
			break
		}
		again, first = i, first-1
	}
	if first == len(*props) {
		return false
	}
	*props = (*props)[:first+1]
	last := (*props)[first]
	p.at = again
	last.Values[len(last.Values)-1] = &PropValue{node: node{p.behind()}, Value: p.bad()}
	return true
}

// tookNextLine returns the token, up to i, that begins a line and is the name
// taken for the last value of a setting, or -1.
func (p *parser) tookNextLine(prop *Prop, i int) int {
	from := prop.Values[len(prop.Values)-1].Span.Start
	for i > 0 && p.toks[i].start > from {
		i--
	}
	if i > 0 && p.toks[i].start == from && p.toks[i].kind == tName && p.first(i) {
		return i
	}
	return -1
}
