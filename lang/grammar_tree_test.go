package lang

import "strconv"

// The tree of the tagged grammar, turned into that of the package, without
// places: what both ways of parsing are compared by.

func (g *gFile) tree() []Decl {
	var decls []Decl
	for _, t := range g.Tops {
		decls = append(decls, t.tree())
	}
	return decls
}

func (g *gTop) tree() Decl {
	switch {
	case g.Pattern != nil:
		return &Pattern{Name: gText(g.Pattern.Name), Props: gProps(g.Pattern.Props)}
	case g.Quilt != nil:
		return &Quilt{Name: gText(g.Quilt.Name), Props: gProps(g.Quilt.Props)}
	case g.Pad != nil:
		return &Pad{Props: gProps(g.Pad.Props)}
	case g.Use != nil:
		d := &Use{Path: gText(g.Use.Path)}
		for _, n := range g.Use.Names {
			d.Names = append(d.Names, UseName{n.Name.ident(), n.As.ident()})
		}
		return d
	case g.Fabric != nil:
		f := g.Fabric
		return &Fabric{Name: f.Name.ident(), Words: gText(f.Words), Value: f.Value.ident(), Colour: *gColour(f.Colour), Scrappy: Ident{Text: f.Scrappy}}
	case g.Colorway != nil:
		d := &Colorway{Name: g.Colorway.Name.ident(), Words: gText(g.Colorway.Words)}
		for _, r := range g.Colorway.Recolour {
			d.Recolour = append(d.Recolour, &Recolour{Name: r.Name.ident(), As: r.As.ident(), Words: gText(r.Words), Value: r.Value.ident(), Colour: gColour(r.Colour)})
		}
		return d
	case g.Unit != nil:
		d := &Unit{Name: g.Unit.Name.ident(), Body: g.Unit.Body.tree()}
		g.Unit.Shape.into(d)
		return d
	case g.Block != nil:
		d := &Unit{Block: true, Name: g.Block.Name.ident(), Body: g.Block.Body.tree()}
		g.Block.Shape.into(d)
		for _, s := range g.Block.Finished {
			d.Finished = append(d.Finished, &Size{Width: s.Width.tree(), Height: s.Height.tree()})
		}
		return d
	}
	return g.Accept.tree()
}

func (g *gAccept) tree() *Accept { return &Accept{Code: g.Code.ident(), Reason: gText(g.Reason)} }

func (g *gShape) into(d *Unit) {
	if g.Params != nil {
		d.Params = []*Param{}
		for _, p := range g.Params.Params {
			d.Params = append(d.Params, &Param{Name: p.Name.ident(), Kind: Ident{Text: p.Kind}, Default: p.Default.tree()})
		}
	}
	d.Outline = append(gExprs(g.Outline), gExprs(g.Corners)...)
	d.Width, d.Height = g.Width.tree(), g.Height.tree()
	if g.Across != "" {
		d.Width, d.Height = gNumber(g.Across), gNumber(g.Up)
	}
}

func (g *gName) ident() Ident {
	if g == nil {
		return Ident{}
	}
	return Ident{Text: g.Text}
}

func gText(token string) *String {
	if token == "" {
		return nil
	}
	return &String{Text: meaning(token)}
}

func gNumber(token string) *Number {
	n := newNumber(Span{}, token)
	return &n
}

func gColour(token string) *Colour {
	if token == "" {
		return nil
	}
	rgb, _ := strconv.ParseUint(token[1:], 16, 32)
	return &Colour{RGB: uint32(rgb)}
}

func gProps(list []*gProp) (props []*Prop) {
	for _, g := range list {
		p := &Prop{Name: Ident{Text: g.Name}}
		for _, v := range g.Values {
			p.Values = append(p.Values, &PropValue{Value: v.Value.tree(), By: v.By.tree(), Of: v.Of.tree(), Turn: v.Turn.tree(), Reversed: v.Reversed})
		}
		props = append(props, p)
	}
	return props
}

func (g *gBody) tree() *Body {
	b := new(Body)
	for _, s := range g.Stmts {
		b.Stmts = append(b.Stmts, s.tree())
	}
	return b
}

func (g *gSectionBody) tree() *Body {
	b := new(Body)
	for _, s := range g.Stmts {
		switch {
		case s.For != nil:
			b.Stmts = append(b.Stmts, s.For.Loop.tree(s.For.Body.tree()))
		case s.If != nil:
			b.Stmts = append(b.Stmts, s.If.tree())
		default:
			b.Stmts = append(b.Stmts, s.Common.tree())
		}
	}
	return b
}

func (g *gStmt) tree() Stmt {
	switch {
	case g.Join != nil:
		return &Join{Lines: gExprs(g.Join.Lines), Partial: g.Join.Partial, From: g.Join.From.tree()}
	case g.Section != nil && g.Section.Body == nil:
		return &Keep{Name: g.Section.Name.ident(), At: gExprs(g.Section.At), Along: gExprs(g.Section.Along)}
	case g.Section != nil:
		return &Section{Name: g.Section.Name.ident(), Body: g.Section.Body.tree()}
	case g.Place != nil:
		return g.Place.tree()
	case g.Line != nil:
		d := &Line{Partial: g.Line.Partial}
		for _, c := range g.Line.Chains {
			d.Chains = append(d.Chains, gOrs(c.Points))
		}
		return d
	case g.For != nil:
		return g.For.Loop.tree(g.For.Body.tree())
	case g.If != nil:
		return g.If.tree()
	}
	return g.Common.tree()
}

func (g *gCommonStmt) tree() Stmt {
	switch {
	case g.Piece != nil:
		p := g.Piece
		d := &Piece{Fabric: p.Fabric.tree(), Along: p.Along.tree(), At: append(gExprs(p.At), gExprs(p.Only)...)}
		if p.Number != "" {
			d.Number = gNumber(p.Number)
		}
		if p.Corner != nil {
			d.Corners = append([]Expr{p.Corner.tree()}, gOrs(p.Others)...)
		}
		return d
	case g.Let != nil:
		return &Let{Name: g.Let.Name.ident(), Value: g.Let.Value.tree()}
	case g.Check != nil:
		return &Check{Cond: g.Check.Cond.tree(), Message: gText(g.Check.Message)}
	}
	return g.Accept.tree()
}

func (g *gLoop) tree(body *Body) Stmt {
	d := &For{Name: g.Name.ident(), Body: body}
	if g.To != nil {
		d.From, d.To = g.First.tree(), g.To.tree()
	} else {
		d.Values = append([]Expr{g.First.tree()}, gExprs(g.More)...)
	}
	return d
}

func (g *gIf) tree() *If {
	d := &If{Cond: g.Cond.tree(), Then: g.Then.tree()}
	if g.Elif != nil {
		d.Else = g.Elif.tree()
	} else if g.Else != nil {
		d.Else = g.Else.tree()
	}
	return d
}

func (g *gSectionIf) tree() *If {
	d := &If{Cond: g.Cond.tree(), Then: g.Then.tree()}
	if g.Elif != nil {
		d.Else = g.Elif.tree()
	} else if g.Else != nil {
		d.Else = g.Else.tree()
	}
	return d
}

func (g *gPlace) tree() Stmt {
	d := &Place{Unit: g.Unit.ident()}
	if g.Args != nil {
		d.HasArgs, d.Args = true, gArgTrees(g.Args.Args)
	}
	for _, c := range g.Clauses {
		switch {
		case c.As != nil:
			d.As, d.Clauses = c.As.ident(), append(d.Clauses, "as")
		case c.By != nil:
			d.By, d.Clauses = c.By.tree(), append(d.Clauses, "by")
		case c.At != nil:
			d.At, d.Clauses = c.At.tree(), append(d.Clauses, "at")
		case c.Turn != nil:
			d.Turn, d.Clauses = c.Turn.tree(), append(d.Clauses, "turn")
		default:
			d.Reversed, d.Clauses = true, append(d.Clauses, "reversed")
		}
	}
	return d
}

func gArgTrees(list []*gArg) []*Arg {
	args := []*Arg{}
	for _, a := range list {
		args = append(args, &Arg{Name: a.Name.ident(), Value: a.Value.tree()})
	}
	return args
}

func gExprs(list []*gExpr) (all []Expr) {
	for _, x := range list {
		all = append(all, x.tree())
	}
	return all
}

func gOrs(list []*gOr) (all []Expr) {
	for _, x := range list {
		all = append(all, x.tree())
	}
	return all
}

// tree is nil for what is not written.
func (g *gExpr) tree() Expr {
	switch {
	case g == nil:
		return nil
	case g.If != nil:
		return &Cond{If: g.If.tree(), Then: g.Then.tree(), Else: g.Else.tree()}
	case g.To != nil:
		return &Binary{Op: "--", X: g.From.tree(), Y: g.To.tree()}
	}
	return g.From.tree()
}

func (g *gOr) tree() Expr {
	x := g.Terms[0].tree()
	for _, t := range g.Terms[1:] {
		x = &Binary{Op: "or", X: x, Y: t.tree()}
	}
	return x
}

func (g *gAnd) tree() Expr {
	x := g.Terms[0].tree()
	for _, t := range g.Terms[1:] {
		x = &Binary{Op: "and", X: x, Y: t.tree()}
	}
	return x
}

func (g *gNot) tree() Expr {
	if g.Not != nil {
		return &Unary{Op: "not", X: g.Not.tree()}
	}
	if g.Compare.Right != nil {
		return &Binary{Op: g.Compare.Op, X: g.Compare.Left.tree(), Y: g.Compare.Right.tree()}
	}
	return g.Compare.Left.tree()
}

func (g *gCorner) tree() Expr {
	var x Expr
	if g.Point != nil {
		x = &Point{X: g.Point.X.tree(), Y: g.Point.Y.tree()}
	} else {
		x = (&gPrimary{Name: g.Name}).tree()
	}
	for _, f := range g.Fields {
		x = &Field{X: x, Name: f.ident()}
	}
	for _, t := range g.Times {
		x = &Binary{Op: t.Op, X: x, Y: t.Term.tree()}
	}
	for _, t := range g.Plus {
		x = &Binary{Op: t.Op, X: x, Y: t.Term.tree()}
	}
	return x
}

func (g *gSum) tree() Expr {
	x := g.First.tree()
	for _, t := range g.Rest {
		x = &Binary{Op: t.Op, X: x, Y: t.Term.tree()}
	}
	return x
}

func (g *gProduct) tree() Expr {
	x := g.First.tree()
	for _, t := range g.Rest {
		x = &Binary{Op: t.Op, X: x, Y: t.Term.tree()}
	}
	return x
}

func (g *gUnary) tree() Expr {
	if g.Minus != nil {
		return &Unary{Op: "-", X: g.Minus.tree()}
	}
	x := g.Postfix.Value.tree()
	for _, f := range g.Postfix.Fields {
		x = &Field{X: x, Name: f.ident()}
	}
	return x
}

func (g *gPrimary) tree() Expr {
	switch {
	case g.Number != "":
		return gNumber(g.Number)
	case g.Text != "":
		return gText(g.Text)
	case g.Bool != "":
		return &Bool{Value: g.Bool == "true"}
	case g.Name != nil && g.Name.Args != nil:
		return &Call{Func: g.Name.Name.ident(), Args: gArgTrees(g.Name.Args.Args)}
	case g.Name != nil:
		return &Name{Text: g.Name.Name.Text}
	case g.Paren.Y != nil:
		return &Point{X: g.Paren.X.tree(), Y: g.Paren.Y.tree()}
	}
	return &Paren{X: g.Paren.X.tree()}
}
