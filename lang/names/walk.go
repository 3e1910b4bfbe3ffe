package names

import "seamwright/lang"

// inside walks what a declaration holds.
func (r *resolver) inside(d lang.Decl) {
	switch d := d.(type) {
	case *lang.Unit:
		r.body(d)
	case *lang.Colorway:
		for _, c := range d.Recolour {
			r.fabric(c.Name)
			r.fabric(c.As)
		}
	case *lang.Pattern:
		for _, p := range d.Props {
			for _, v := range p.Values {
				n, named := v.Of.(*lang.Name)
				if p.Name.Text == "grain" {
					n, named = v.Value.(*lang.Name)
				}
				if named {
					r.fabric(lang.Ident{Span: n.Span, Text: n.Text})
				}
			}
		}
	case *lang.Quilt:
		for _, p := range d.Props {
			r.setting(p)
		}
	case *lang.Pad:
		for _, p := range d.Props {
			r.copies(p)
		}
	}
}

// copies walks a pad's setting, `copies 10 of boat`.
func (r *resolver) copies(p *lang.Prop) {
	for _, v := range p.Values {
		if n, ok := v.Of.(*lang.Name); ok {
			r.unitNamed(n.Text, n.Span)
		}
	}
}

// setting walks a quilt's setting: names of blocks, and of fabrics.
func (r *resolver) setting(p *lang.Prop) {
	for _, v := range p.Values {
		n, named := v.Value.(*lang.Name)
		switch {
		case !named:
			r.expr(v.Value)
		case (p.Name.Text == "blocks" || p.Name.Text == "row") && !r.plainSquare(n.Text):
			r.unitNamed(n.Text, n.Span)
		case isSettingWord(n.Text) && !r.isFabric(n.Text):
		default:
			r.fabric(lang.Ident{Span: n.Span, Text: n.Text})
		}
		r.expr(v.By)
		r.expr(v.Of)
		r.expr(v.Turn)
	}
}

// plainSquare reports whether a name among a quilt's blocks is that of a fabric.
func (r *resolver) plainSquare(name string) bool {
	_, unit := r.units[name]
	return !unit && r.isFabric(name)
}

func (r *resolver) isFabric(name string) bool {
	known := r.values[name]
	return len(known) > 0 && r.t.Decls[known[0]].Kind == Fabric
}

// isSettingWord reports whether a word stands in settings by itself: it says how,
// and names nothing.
func isSettingWord(word string) bool {
	return word == "around" || word == "mitred" || word == "bias"
}

func (r *resolver) body(u *lang.Unit) {
	r.unit = u
	for _, p := range u.Params {
		r.expr(p.Default)
		r.value(Parameter, p.Name, lang.Span{Start: p.Span.End, End: r.end(u.Span)}, p)
		if p.Name.Text != "" {
			if r.params[u] == nil {
				r.params[u] = map[string]int{}
			}
			r.params[u][p.Name.Text] = len(r.t.Decls) - 1
		}
	}
	r.expr(u.Width)
	r.expr(u.Height)
	r.exprs(u.Outline)
	for _, s := range u.Finished {
		r.expr(s.Width)
		r.expr(s.Height)
	}
	r.stmts(u.Body)
	r.close(0)
	r.unit = nil
}

func (r *resolver) stmts(b *lang.Body) {
	if b == nil {
		return
	}
	n := len(r.open)
	for _, s := range b.Stmts {
		r.stmt(s, b)
	}
	r.close(n)
}

func (r *resolver) stmt(s lang.Stmt, in *lang.Body) {
	switch s := s.(type) {
	case *lang.Let:
		r.expr(s.Value)
		r.value(Let, s.Name, lang.Span{Start: s.Span.End, End: r.end(in.Span)}, s)
	case *lang.Join:
		r.exprs(s.Lines)
		r.expr(s.From)
	case *lang.Section:
		r.add(Section, s.Name, s.Span, s)
		r.stmts(s.Body)
	case *lang.Keep:
		r.add(Section, s.Name, s.Span, s)
		r.exprs(s.At)
		r.exprs(s.Along)
	case *lang.Piece:
		r.expr(s.Fabric)
		r.exprs(s.Corners)
		r.expr(s.Along)
		r.exprs(s.At)
	case *lang.Place:
		r.place(s)
	case *lang.Line:
		for _, c := range s.Chains {
			r.exprs(c)
		}
	case *lang.For:
		r.loop(s)
	case *lang.If:
		r.ifs(s)
	case *lang.Check:
		r.expr(s.Cond)
	}
}

func (r *resolver) place(s *lang.Place) {
	unit := r.unitNamed(s.Unit.Text, s.Unit.Span)
	for _, a := range s.Args {
		if a.Name.Text != "" {
			r.args = append(r.args, argument{a.Name, unit})
		}
		r.expr(a.Value)
	}
	r.expr(s.By)
	r.expr(s.At)
	r.expr(s.Turn)
}

func (r *resolver) loop(s *lang.For) {
	r.expr(s.From)
	r.expr(s.To)
	r.exprs(s.Values)
	n := len(r.open)
	if s.Body != nil {
		r.value(Loop, s.Name, lang.Span{Start: s.Body.Span.Start, End: r.end(s.Body.Span)}, s)
		r.stmts(s.Body)
	}
	r.close(n)
}

func (r *resolver) ifs(s *lang.If) {
	r.expr(s.Cond)
	r.stmts(s.Then)
	switch other := s.Else.(type) {
	case *lang.If:
		r.ifs(other)
	case *lang.Body:
		r.stmts(other)
	}
}

func (r *resolver) exprs(es []lang.Expr) {
	for _, e := range es {
		r.expr(e)
	}
}

func (r *resolver) expr(e lang.Expr) {
	switch e := e.(type) {
	case *lang.Name:
		r.lookup(e.Text, e.Span)
	case *lang.Call:
		r.use(Helper, e.Func.Text, e.Func.Span, -1)
		for _, a := range e.Args {
			r.expr(a.Value)
		}
	case *lang.Point:
		r.expr(e.X)
		r.expr(e.Y)
	case *lang.Paren:
		r.expr(e.X)
	case *lang.Unary:
		r.expr(e.X)
	case *lang.Binary:
		r.expr(e.X)
		r.expr(e.Y)
	case *lang.Field:
		r.expr(e.X)
	case *lang.Cond:
		r.expr(e.If)
		r.expr(e.Then)
		r.expr(e.Else)
	}
}
