package lang

// oneWay reports a unit that gives its lines to be solved and its sections too.
// The way that comes second is taken out of the tree.
func (p *parser) oneWay(d *Unit) {
	first, second := Stmt(nil), Stmt(nil)
	eachStmt(d.Body, func(s *Stmt) {
		way := wayOf(*s)
		switch {
		case way == 0:
		case first == nil:
			first = *s
		case way != wayOf(first):
			if second == nil {
				second = *s
			}
			*s = &BadStmt{node{(*s).Where()}}
		}
	})
	if second == nil {
		return
	}
	p.panic = false
	f := p.tell(MixedUnit, head(second), -1, "a unit is either drawn, with `line` and `piece`, or sewn, with `join`, `section` and `place`", "", nil)
	f.label(head(first), "this is the other way")
	f.within = d.Span
}

// wayOf is 1 for what draws a unit, 2 for what says how it is sewn, 0 for what
// may stand beside both.
func wayOf(s Stmt) int {
	switch s.(type) {
	case *Line, *Piece, *Keep:
		return 1
	case *Join, *Section, *Place:
		return 2
	}
	return 0
}

// eachStmt visits the statements of a body in order, in loops and conditions
// too, but not in sections.
func eachStmt(b *Body, visit func(*Stmt)) {
	if b == nil {
		return
	}
	for i := range b.Stmts {
		switch s := b.Stmts[i].(type) {
		case *For:
			eachStmt(s.Body, visit)
		case *If:
			for s != nil {
				eachStmt(s.Then, visit)
				other, _ := s.Else.(*Body)
				eachStmt(other, visit)
				s, _ = s.Else.(*If)
			}
		default:
			visit(&b.Stmts[i])
		}
	}
}

// head is the word that a statement begins with.
func head(s Stmt) Span {
	at, word := s.Where(), ""
	switch s := s.(type) {
	case *Line:
		word = "line"
	case *Piece:
		if s.Number != nil {
			return s.Number.Span
		}
		word = "piece"
	case *Join:
		word = "join"
	case *Section, *Keep:
		word = "section"
	case *Place:
		word = "place"
	}
	return Span{Start: at.Start, End: min(at.End, at.Start+int32(len(word)))}
}
