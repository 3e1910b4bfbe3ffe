package lsp

import (
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
)

// symbols lists what a text declares, as a tree where the editor takes one.
func (s *server) symbols(d *document, _ *wire.At) (any, *wire.Error) {
	tree := []wire.DocumentSymbol{}
	for _, decl := range d.tree().Decls {
		if sym, ok := d.symbol(decl); ok {
			tree = append(tree, sym)
		}
	}
	if s.client.Capabilities.TextDocument.DocumentSymbol.HierarchicalDocumentSymbolSupport {
		return tree, nil
	}
	flat := []wire.SymbolInformation{}
	var flatten func([]wire.DocumentSymbol)
	flatten = func(list []wire.DocumentSymbol) {
		for _, sym := range list {
			flat = append(flat, wire.SymbolInformation{Name: sym.Name, Kind: sym.Kind, Location: wire.Location{URI: d.uri, Range: sym.Range}})
			flatten(sym.Children)
		}
	}
	flatten(tree)
	return flat, nil
}

func (t *text) symbol(decl lang.Decl) (wire.DocumentSymbol, bool) {
	switch n := decl.(type) {
	case *lang.Pattern:
		return t.named(n.Span, n.Name, "pattern", wire.SymbolNamespace), true
	case *lang.Quilt:
		return t.named(n.Span, n.Name, "quilt", wire.SymbolObject), true
	case *lang.Fabric:
		return t.one(n.Span, n.Name, "fabric", wire.SymbolConstant), n.Name.Text != ""
	case *lang.Colorway:
		return t.one(n.Span, n.Name, "colorway", wire.SymbolObject), n.Name.Text != ""
	case *lang.Unit:
		word := "unit"
		if n.Block {
			word = "block"
		}
		sym := t.one(n.Span, n.Name, word, wire.SymbolClass)
		sym.Children = t.sections(n.Body, nil)
		return sym, n.Name.Text != ""
	}
	return wire.DocumentSymbol{}, false
}

// sections lists the sections of a body and what is named in it.
func (t *text) sections(b *lang.Body, list []wire.DocumentSymbol) []wire.DocumentSymbol {
	if b == nil {
		return list
	}
	for _, st := range b.Stmts {
		switch st := st.(type) {
		case *lang.Section:
			name := st.Name
			if name.Text == "" {
				name = lang.Ident{Text: "section", Span: lang.Span{Start: st.Span.Start, End: st.Span.Start + int32(len("section"))}}
			}
			list = append(list, t.one(st.Span, name, "section", wire.SymbolProperty))
		case *lang.Place:
			if st.Unit.Text != "" {
				list = append(list, t.one(st.Span, st.Unit, "placed", wire.SymbolObject))
			}
		case *lang.Let:
			if st.Name.Text != "" {
				list = append(list, t.one(st.Span, st.Name, "", wire.SymbolVariable))
			}
		case *lang.For:
			list = t.sections(st.Body, list)
		case *lang.If:
			list = t.sections(st.Then, list)
			for other := st.Else; other != nil; {
				switch o := other.(type) {
				case *lang.If:
					list = t.sections(o.Then, list)
					other = o.Else
				case *lang.Body:
					list = t.sections(o, list)
					other = nil
				default:
					other = nil
				}
			}
		}
	}
	return list
}

func (t *text) named(at lang.Span, name *lang.String, word string, kind int) wire.DocumentSymbol {
	id := lang.Ident{Text: word, Span: lang.Span{Start: at.Start, End: at.Start + int32(len(word))}}
	if name != nil && strings.TrimSpace(name.Text) != "" {
		id = lang.Ident{Text: name.Text, Span: name.Span}
	}
	return t.one(at, id, word, kind)
}

func (t *text) one(at lang.Span, name lang.Ident, detail string, kind int) wire.DocumentSymbol {
	at.End = max(at.End, name.Span.End) // the protocol wants the name inside
	return wire.DocumentSymbol{Name: name.Text, Detail: detail, Kind: kind, Range: t.rang(at), SelectionRange: t.rang(name.Span)}
}

// folds lists what can be folded: braces, and comments of several lines.
func (s *server) folds(d *document, _ *wire.At) (any, *wire.Error) {
	folds := []wire.FoldingRange{}
	var open []int32
	for _, w := range d.words() {
		switch w.Text {
		case "{":
			open = append(open, w.At.Start)
		case "}":
			if len(open) == 0 {
				continue
			}
			from, to := d.position(open[len(open)-1]).Line, d.position(w.At.Start).Line
			open = open[:len(open)-1]
			if to-1 > from {
				folds = append(folds, wire.FoldingRange{StartLine: from, EndLine: to - 1}) // the } stays in sight
			}
		}
	}
	comments := d.tree().Comments
	for i := 0; i < len(comments); {
		first := d.position(comments[i].Span.Start).Line
		last := first
		for i++; i < len(comments) && d.position(comments[i].Span.Start).Line == last+1; i++ {
			last++
		}
		if last > first {
			folds = append(folds, wire.FoldingRange{StartLine: first, EndLine: last, Kind: "comment"})
		}
	}
	return folds, nil
}
