package lsp

import (
	"path"
	"path/filepath"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/lsp/wire"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/names"
)

// complete answers what may be written here.
func (s *server) complete(d *document, at *wire.At) (any, *wire.Error) {
	offset := d.offset(at.Position)
	l := &list{server: s, doc: d, items: []wire.CompletionItem{}}
	if typed, ok := d.inPath(offset); ok {
		l.at = d.rang(typed)
		l.paths()
	} else if c, ok := d.context(offset); ok {
		l.at, l.context, l.offset = d.rang(c.prefix), c, offset
		l.offer()
	}
	return wire.CompletionList{Items: l.items}, nil
}

// A list is filled with what may be written.
type list struct {
	context
	*server
	doc    *document
	at     wire.Range // what it replaces
	offset int32
	items  []wire.CompletionItem
}

func (l *list) add(label string, kind int, detail, does string) *wire.CompletionItem {
	item := wire.CompletionItem{Label: label, Kind: kind, Detail: detail, TextEdit: &wire.TextEdit{Range: l.at, NewText: label}}
	if does != "" {
		item.Documentation = &wire.Markup{Kind: "markdown", Value: does}
	}
	l.items = append(l.items, item)
	return &l.items[len(l.items)-1]
}

func (l *list) words(words ...string) {
	for _, w := range words {
		l.add(w, wire.ItemKeyword, "", meaning(w))
	}
}

func (l *list) values(words ...string) {
	for _, w := range words {
		l.add(w, wire.ItemValue, "", "")
	}
}

// snippet offers a form with places to fill in, where the editor knows how.
func (l *list) snippet(label, detail, form string) {
	if !l.client.Capabilities.TextDocument.Completion.CompletionItem.SnippetSupport {
		return
	}
	item := l.add(label, wire.ItemSnippet, detail, meaning(label))
	item.InsertTextFormat, item.TextEdit.NewText = wire.FormatSnippet, form
	item.SortText = "0" + label
}

func (l *list) offer() {
	switch l.scope {
	case "top":
		l.top()
	case "pattern", "quilt", "pad":
		l.setting()
	case "colorway":
		switch {
		case len(l.stmt) == 0 || l.last() == "as":
			l.ofKind(names.Fabric)
		case l.lastClass() == "String":
			l.values("light", "medium", "dark")
		case len(l.stmt) == 1:
			l.words("as")
			l.values("light", "medium", "dark")
		}
	default:
		l.inUnit()
	}
}

func (l *list) top() {
	switch first := l.first(); {
	case len(l.stmt) == 0:
		l.words("pattern", "use", "fabric", "colorway", "unit", "block", "quilt", "pad", "accept")
		l.snippet("pattern", "name and settings", "pattern \"${1:Name}\" {\n  edition 1\n}\n$0")
		l.snippet("fabric", "a part that cloth plays", "fabric ${1:sky} \"${2:sky}\" ${3|light,medium,dark|} #${4:dfeaf0}$0")
		l.snippet("block", "with finished sizes", "block ${1:name} ${2:8} x ${3:8} finished ${4:8in} {\n  $0\n}")
		l.snippet("unit", "a part of a block", "unit ${1:name} ${2:4} x ${3:4} {\n  $0\n}")
		for _, f := range families.List() {
			l.add("use "+f.Name+` from "std/`+f.Name+`"`, wire.ItemClass, "shipped family", f.Doc)
		}
	case first == "accept":
		l.codes()
	case first == "use" && (l.last() == "use" || l.last() == ","):
		for _, f := range families.List() {
			l.add(f.Name+` from "std/`+f.Name+`"`, wire.ItemClass, "shipped family", f.Doc)
		}
	case first == "use":
		l.words("from", "as")
	case first == "fabric":
		switch {
		case l.last() == "by":
			l.values("piece", "section", "unit", "block")
		case l.last() == "scrappy":
			l.words("by")
		case l.lastClass() == "Colour":
			l.words("scrappy")
		case l.lastClass() == "String" || len(l.stmt) == 2:
			l.values("light", "medium", "dark")
		}
	case l.parens > 0 && l.last() == ":":
		for _, k := range value.KindNames() {
			l.add(k, wire.ItemValue, "kind", "")
		}
	case len(l.stmt) > 1 && l.parens > 0 && l.last() == "=":
		l.expression()
	case len(l.stmt) > 1 && l.parens == 0:
		l.words("finished", "outline")
	}
}

func (l *list) setting() {
	first := l.first()
	switch {
	case len(l.stmt) == 0:
		for _, s := range settings {
			if s.of == l.scope {
				l.add(s.name, wire.ItemProperty, l.scope, s.does)
			}
		}
	case first == "sheet":
		l.values(pattern.SheetNames()...)
	case first == "miniature" || first == "metric" || first == "tint" || first == "placement" || first == "tile" || first == "collated":
		l.values("yes", "no")
	case first == "language":
		l.values("en", "de")
	case first == "limit" && len(l.stmt) == 1 && l.doc.good != nil:
		for _, limit := range l.doc.good.pattern.Limits {
			l.add(limit.Name, wire.ItemValue, limit.Code+", here "+limit.Words(), "")
		}
	case first == "blocks" || first == "row":
		l.ofKind(names.Unit)
		l.ofKind(names.Fabric)
	case l.last() == "of" && first == "copies":
		l.ofKind(names.Unit)
	case l.last() == "of" || first == "cornerstones" || first == "on_point":
		l.ofKind(names.Fabric)
	case first == "binding" && len(l.stmt) == 1:
		l.ofKind(names.Fabric)
	case first == "sashing" || first == "border" || first == "binding" || first == "backing":
		l.words("of")
	}
}

func (l *list) inUnit() {
	first, last := l.first(), l.last()
	piece := first == "piece" || len(l.stmt) > 0 && l.stmt[0].Class == "Number"
	switch {
	case last == ".":
		l.values("x", "y")
	case len(l.stmt) == 0:
		l.statements()
	case piece && len(l.stmt) == 1:
		l.ofKind(names.Fabric)
		l.ofKind(names.Parameter)
		l.ofKind(names.Loop)
		l.ofKind(names.Let)
	case piece && len(l.stmt) == 2 && l.lastClass() == "Name":
		l.words("along", "at")
	case first == "place" && len(l.stmt) == 1:
		l.units()
	case first == "place" && l.parens > 0 && (last == "(" || last == ","):
		l.arguments()
		l.expression()
	case first == "place" && l.parens == 0 && last != "at" && last != "by" && last != "turn":
		l.words("at", "by", "turn", "as", "reversed")
	case first == "let" && len(l.stmt) < 3, first == "section" && len(l.stmt) == 1, first == "for" && len(l.stmt) == 1:
	case first == "for" && len(l.stmt) == 2:
		l.words("in")
	case first == "accept":
		l.codes()
	default:
		l.expression()
		switch {
		case l.parens > 0 || !l.mayEnd():
		case piece:
			l.words("at")
		case first == "join":
			l.words("partial", "from")
		case first == "line":
			l.words("partial")
		}
	}
}

func (l *list) statements() {
	if l.scope == "section" {
		l.words("piece", "let", "for", "if", "check", "accept")
		l.snippet("piece", "the next piece", "piece ${1:fabric} along ${2:w} -- ${3:e}$0")
	} else {
		l.words("let", "join", "section", "place", "line", "piece", "for", "if", "check", "accept")
		l.snippet("section", "what is sewn on one paper", "section ${1:A} {\n  1 ${2:fabric} at ${3:c}\n  $0\n}")
		l.snippet("join", "a seam between sections", "join ${1:w} -- ${2:e}$0")
	}
	l.snippet("for", "repeats", "for ${1:i} in ${2:1}..${3:4} {\n  $0\n}")
}

// ofKind offers the names of one kind that are known here; of units those that are
// blocks, too.
func (l *list) ofKind(kind names.Kind) {
	for _, d := range l.doc.names().Visible(l.offset) {
		if d.Kind == kind || kind == names.Unit && d.Kind == names.Imported {
			l.name(d)
		}
	}
}

func (l *list) name(d *names.Decl) {
	if d.At.Start <= l.offset && l.offset <= d.At.End {
		return // being written
	}
	switch n := d.Node.(type) {
	case *lang.Fabric:
		l.add(d.Name, wire.ItemEnumMember, "fabric", fence(l.doc.at(n.Span))+doc(n.Doc))
	case *lang.Param:
		l.add(d.Name, wire.ItemVariable, n.Kind.Text, "")
	case *lang.Let:
		l.add(d.Name, wire.ItemVariable, "let", fence(l.doc.at(n.Span)))
	case *lang.For:
		l.add(d.Name, wire.ItemVariable, "for", "")
	case *lang.Unit:
		l.add(d.Name, wire.ItemClass, "", doc(n.Doc))
	default:
		l.add(d.Name, wire.ItemClass, "", "")
	}
}

func (l *list) expression() {
	for _, d := range l.doc.names().Visible(l.offset) {
		if d.Kind != names.Unit && d.Kind != names.Imported {
			l.name(d)
		}
	}
	for _, p := range strings.Fields("nw n ne e se s sw w c north east south west") {
		l.add(p, wire.ItemConstant, "", compass(p))
	}
	for _, h := range eval.Signatures() {
		item := l.add(h.Name, wire.ItemFunction, h.Forms[0], h.Does)
		if l.client.Capabilities.TextDocument.Completion.CompletionItem.SnippetSupport {
			item.InsertTextFormat, item.TextEdit.NewText = wire.FormatSnippet, h.Name+"($0)"
		}
	}
	l.words("if", "true", "false", "not")
}

// units offers what can be placed: units that are known here with what they take,
// and shipped families, whose `use` is written along.
func (l *list) units() {
	known := map[string]bool{}
	for _, d := range l.doc.names().Visible(l.offset) {
		if d.Kind != names.Unit && d.Kind != names.Imported {
			continue
		}
		known[d.Name] = true
		if y, ok := l.imported(l.doc, l.indexOf(d), true); ok && y.what().Kind == names.Unit {
			u := y.what().Node.(*lang.Unit)
			l.unit(d.Name, u.Params, "unit", fence(y.at(u.Name.Span))+doc(u.Doc))
		}
	}
	top := wire.Range{} // before all else
	for _, name := range families.Names() {
		if known[name] {
			continue
		}
		f, _ := families.Find(name)
		var params []*lang.Param
		for _, p := range f.Params {
			params = append(params, &lang.Param{Name: lang.Ident{Text: p.Name}, Default: optional(p.Default)})
		}
		item := l.unit(name, params, "shipped family", f.Doc)
		item.AdditionalTextEdits = []wire.TextEdit{{Range: top, NewText: "use " + name + ` from "std/` + name + "\"\n"}}
		item.SortText = "z" + name
	}
}

func optional(text string) lang.Expr {
	if text == "" {
		return nil
	}
	return &lang.Name{Text: text}
}

func (l *list) indexOf(d *names.Decl) int { return l.doc.names().Decl(d.At.Start) }

// unit offers a unit, with the arguments that it can't do without.
func (l *list) unit(name string, params []*lang.Param, detail, does string) *wire.CompletionItem {
	var must []string
	for _, p := range params {
		if p.Default == nil {
			must = append(must, p.Name.Text+": ${"+itoa(len(must)+1)+":"+p.Name.Text+"}")
		}
	}
	item := l.add(name, wire.ItemClass, detail, does)
	if l.client.Capabilities.TextDocument.Completion.CompletionItem.SnippetSupport && len(must) > 0 {
		item.InsertTextFormat = wire.FormatSnippet
		item.TextEdit.NewText = name + "(" + strings.Join(must, ", ") + ")$0"
	}
	return item
}

// arguments offers the parameters of the unit that is being placed.
func (l *list) arguments() {
	if len(l.stmt) < 2 {
		return
	}
	y, ok := l.symbolAt(l.doc, l.stmt[1].At.Start, true)
	if !ok || y.what().Kind != names.Unit {
		return
	}
	for _, p := range y.what().Node.(*lang.Unit).Params {
		item := l.add(p.Name.Text+": ", wire.ItemProperty, y.at(p.Span), "")
		item.SortText = "0" + p.Name.Text
	}
}

// codes offers what may be accepted: the warnings that the text raises, then rules.
func (l *list) codes() {
	if len(l.stmt) > 1 {
		return
	}
	for _, info := range l.Codes() {
		if info.Code[0] == 'R' {
			l.add(string(info.Code), wire.ItemValue, info.Title, info.Rule)
		}
	}
}

// paths offers the files that a `use` may name.
func (l *list) paths() {
	for _, name := range families.Names() {
		l.add(files.Shipped+name, wire.ItemFile, "shipped family", "")
	}
	folder := filepath.Dir(l.doc.source.Name)
	found := patternsBelow(folder)
	for _, p := range found[:min(len(found), maxPaths)] {
		rel, err := filepath.Rel(folder, p)
		if err == nil && p != l.doc.source.Name {
			l.add(strings.TrimSuffix(path.Clean(filepath.ToSlash(rel)), files.Extension), wire.ItemFile, "", "")
		}
	}
}

// maxPaths is how many files are offered: nobody reads through more.
const maxPaths = 500
