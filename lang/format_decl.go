package lang

import "strconv"

func (p *printer) decl(d Decl) {
	switch d := d.(type) {
	case *Pattern:
		p.put("pattern")
		p.words(d.Name)
		p.props(d.Braces, d.Props)
	case *Quilt:
		p.put("quilt")
		p.words(d.Name)
		p.props(d.Braces, d.Props)
	case *Pad:
		p.put("pad")
		p.props(d.Braces, d.Props)
	case *Use:
		p.use(d)
	case *Fabric:
		p.fabric(d)
	case *Colorway:
		p.colorway(d)
	case *Unit:
		p.unit(d)
	case *Accept:
		p.accept(d)
	default:
		p.source(d.Where())
	}
}

func (p *printer) props(braces Span, props []*Prop) {
	p.put(" ")
	p.braces(braces, len(props) <= 1, func() {
		for i, prop := range props {
			p.inBraces(prop, limit(props, i+1, braces.End), func() { p.prop(prop) })
		}
	})
}

func (p *printer) prop(d *Prop) {
	p.padded(d.Name.Span.Start, d.Name.Text, settingColumn)
	for i, v := range d.Values {
		if i > 0 {
			p.put(",")
		}
		p.put(" ")
		p.expr(v.Value)
		p.after(" x ", v.By)
		p.after(" of ", v.Of)
		p.after(" turn ", v.Turn)
		if v.Reversed {
			p.put(" reversed")
		}
	}
}

// after writes a word and an expression, if that is written.
func (p *printer) after(word string, x Expr) {
	if x != nil {
		p.put(word)
		p.expr(x)
	}
}

func (p *printer) use(d *Use) {
	p.put("use ")
	for i, n := range d.Names {
		if i > 0 {
			p.put(", ")
		}
		p.ident(n.Name)
		if n.As.Text != "" {
			p.put(" as ")
			p.ident(n.As)
		}
	}
	p.put(" from")
	p.words(d.Path)
}

func (p *printer) fabric(d *Fabric) {
	p.put("fabric ")
	p.padded(d.Name.Span.Start, d.Name.Text, fabricColumn)
	p.put(" ")
	if d.Words != nil {
		at := d.Words.Span
		p.padded(at.Start, p.src.Text[at.Start:at.End], wordsColumn)
		p.put(" ")
	}
	p.padded(d.Value.Span.Start, d.Value.Text, valueColumn)
	p.put(" ")
	p.colour(d.Colour)
	if d.Scrappy.Text != "" {
		p.put(" scrappy by ")
		p.ident(d.Scrappy)
	}
}

func (p *printer) colour(c Colour) {
	digits := strconv.FormatUint(uint64(c.RGB), 16)
	p.atom(c.Span.Start, "#"+"000000"[min(len(digits), 6):]+digits)
}

func (p *printer) colorway(d *Colorway) {
	p.put("colorway ")
	p.ident(d.Name)
	p.words(d.Words)
	p.put(" ")
	p.braces(d.Braces, len(d.Recolour) <= 1, func() {
		for i, r := range d.Recolour {
			p.inBraces(r, limit(d.Recolour, i+1, d.Braces.End), func() { p.recolour(r) })
		}
	})
}

func (p *printer) recolour(r *Recolour) {
	p.ident(r.Name)
	if r.As.Text != "" {
		p.put(" as ")
		p.ident(r.As)
		return
	}
	p.words(r.Words)
	if r.Value.Text != "" {
		p.put(" ")
		p.ident(r.Value)
	}
	if r.Colour != nil {
		p.put(" ")
		p.colour(*r.Colour)
	}
}

func (p *printer) accept(d *Accept) {
	p.put("accept ")
	p.ident(d.Code)
	p.words(d.Reason)
}

func (p *printer) unit(d *Unit) {
	undo, comments := p.text.len(), p.comments
	p.head(d, " ")
	if p.text.column() > maxWidth && len(p.comments) == len(comments) {
		p.text.cut(undo)
		p.head(d, "\n"+continuedBy)
	}
	p.body(d.Body)
}

// head writes what stands before a unit's body; gap stands before its shape.
func (p *printer) head(d *Unit, gap string) {
	if d.Block {
		p.put("block ")
	} else {
		p.put("unit ")
	}
	p.ident(d.Name)
	if d.Params != nil {
		p.put("(")
		for i, param := range d.Params {
			if i > 0 {
				p.put(", ")
			}
			p.ident(param.Name)
			p.put(": ")
			p.ident(param.Kind)
			p.after(" = ", param.Default)
		}
		p.put(")")
	}
	p.put(gap)
	if d.Outline != nil {
		p.put("outline ")
		p.exprs(d.Outline)
	} else {
		p.expr(d.Width)
		p.after(" x ", d.Height)
	}
	for i, size := range d.Finished {
		if i == 0 {
			p.put(" finished ")
		} else {
			p.put(", ")
		}
		p.expr(size.Width)
		p.after(" x ", size.Height)
	}
	p.put(" ")
}
