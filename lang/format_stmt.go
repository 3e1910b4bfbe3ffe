package lang

import "strings"

// body writes braces and what stands in them.
func (p *printer) body(b *Body) {
	if b == nil {
		return
	}
	p.braces(b.Span, single(b), func() {
		for i, s := range b.Stmts {
			p.inBraces(s, limit(b.Stmts, i+1, b.Span.End), func() { p.stmt(s) })
		}
	})
}

// single reports whether a body holds one statement or none, and so does every
// body in it.
func single(b *Body) bool {
	if b == nil || len(b.Stmts) == 0 {
		return true
	}
	if len(b.Stmts) > 1 {
		return false
	}
	switch s := b.Stmts[0].(type) {
	case *Section:
		return single(s.Body)
	case *For:
		return single(s.Body)
	case *If:
		for {
			if !single(s.Then) {
				return false
			}
			switch other := s.Else.(type) {
			case *If:
				s = other
				continue
			case *Body:
				return single(other)
			}
			return true
		}
	}
	return true
}

func (p *printer) stmt(s Stmt) {
	switch s := s.(type) {
	case *Piece:
		p.piece(s)
	case *Let:
		p.put("let ")
		p.ident(s.Name)
		p.after(" = ", s.Value)
	case *Join:
		p.put("join ")
		p.exprs(s.Lines)
		p.partial(s.Partial)
		p.after(" from ", s.From)
	case *Section:
		p.put("section ")
		if s.Name.Text != "" {
			p.ident(s.Name)
			p.put(" ")
		}
		p.body(s.Body)
	case *Keep:
		p.put("section")
		if s.Name.Text != "" {
			p.put(" ")
			p.ident(s.Name)
		}
		p.lists(s.At, s.Along)
	case *Place:
		p.place(s)
	case *Line:
		p.put("line ")
		for i, chain := range s.Chains {
			if i > 0 {
				p.put(", ")
			}
			for j, point := range chain {
				if j > 0 {
					p.put(" -- ")
				}
				p.expr(point)
			}
		}
		p.partial(s.Partial)
	case *For:
		p.put("for ")
		p.ident(s.Name)
		p.put(" in ")
		if s.To != nil {
			p.expr(s.From)
			p.after("..", s.To)
		} else {
			p.exprs(s.Values)
		}
		p.put(" ")
		p.body(s.Body)
	case *If:
		p.ifStmt(s)
	case *Check:
		p.put("check ")
		p.expr(s.Cond)
		p.words(s.Message)
	case *Accept:
		p.accept(s)
	default:
		p.source(s.Where())
	}
}

func (p *printer) partial(written bool) {
	if written {
		p.put(" partial")
	}
}

func (p *printer) piece(s *Piece) {
	if s.Number != nil {
		p.expr(s.Number)
	} else {
		p.put("piece")
	}
	if s.Number != nil && p.beginsFraction(s.Fabric) {
		p.put("\n" + continuedBy) // on one line they would be one number
	} else {
		p.put(" ")
	}
	if name, ok := s.Fabric.(*Name); ok && (s.Along != nil || s.At != nil || s.Corners != nil) {
		p.padded(name.Span.Start, name.Text, pieceColumn)
	} else {
		p.expr(s.Fabric)
	}
	p.after(" along ", s.Along)
	p.lists(s.At, nil)
	if s.Corners != nil {
		p.put(" ")
		p.exprs(s.Corners)
	}
}

// lists writes points after `at`, lines after `along`.
func (p *printer) lists(at, along []Expr) {
	if at != nil {
		p.put(" at ")
		p.exprs(at)
	}
	if along != nil {
		p.put(" along ")
		p.exprs(along)
	}
}

// beginsFraction reports whether a number like 1/4in stands first in a value. As
// a fabric it means nothing, but it is for others to say so.
func (p *printer) beginsFraction(x Expr) bool {
	switch x := x.(type) {
	case *Number:
		return strings.Contains(p.src.Text[x.Span.Start:x.Span.End], "/")
	case *Binary:
		return p.beginsFraction(x.X)
	case *Field:
		return p.beginsFraction(x.X)
	}
	return false
}

func (p *printer) place(s *Place) {
	p.put("place ")
	p.ident(s.Unit)
	if s.HasArgs {
		p.args(s.Args)
	}
	for _, clause := range s.Clauses {
		switch clause {
		case "as":
			p.put(" as ")
			p.ident(s.As)
		case "by":
			p.after(" by ", s.By)
		case "at":
			p.after(" at ", s.At)
		case "turn":
			p.after(" turn ", s.Turn)
		case "reversed":
			p.put(" reversed")
		}
	}
}

func (p *printer) ifStmt(s *If) {
	for {
		p.put("if ")
		p.expr(s.Cond)
		p.put(" ")
		p.body(s.Then)
		switch other := s.Else.(type) {
		case *If:
			p.put(" else ")
			s = other
			continue
		case *Body:
			p.put(" else ")
			p.body(other)
		}
		return
	}
}

func (p *printer) exprs(list []Expr) {
	for i, x := range list {
		if i > 0 {
			p.put(", ")
		}
		p.expr(x)
	}
}

func (p *printer) expr(x Expr) {
	switch x := x.(type) {
	case *Number:
		p.atom(x.Span.Start, strings.Join(strings.Fields(p.src.Text[x.Span.Start:x.Span.End]), " "))
	case *Name:
		p.atom(x.Span.Start, x.Text)
	case *String:
		p.source(x.Span)
	case *Bool:
		p.source(x.Span)
	case *Call:
		p.ident(x.Func)
		p.args(x.Args)
	case *Point:
		p.atom(x.Span.Start, "(")
		p.expr(x.X)
		p.put(", ")
		p.expr(x.Y)
		p.put(")")
	case *Paren:
		p.atom(x.Span.Start, "(")
		p.expr(x.X)
		p.put(")")
	case *Unary:
		p.atom(x.Span.Start, x.Op)
		if inner, ok := x.X.(*Unary); x.Op == "not" || ok && inner.Op == "-" {
			p.put(" ") // two signs together would be `--`
		}
		p.expr(x.X)
	case *Binary:
		p.expr(x.X)
		p.put(" ")
		p.atom(x.At.Start, x.Op)
		p.put(" ")
		p.expr(x.Y)
	case *Field:
		p.expr(x.X)
		p.atom(x.Name.Span.Start-1, ".")
		p.ident(x.Name)
	case *Cond:
		p.atom(x.Span.Start, "if ")
		p.expr(x.If)
		p.after(" then ", x.Then)
		p.after(" else ", x.Else)
	case nil:
	default:
		p.source(x.Where())
	}
}

func (p *printer) args(args []*Arg) {
	p.put("(")
	for i, a := range args {
		if i > 0 {
			p.put(", ")
		}
		if a.Name.Text != "" {
			p.ident(a.Name)
			p.put(": ")
		}
		p.expr(a.Value)
	}
	p.put(")")
}
