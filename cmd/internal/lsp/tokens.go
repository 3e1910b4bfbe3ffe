package lsp

import (
	"slices"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/names"
)

// tokenTypes is the legend: what kinds of word there are, by the protocol's names,
// which every color scheme knows.
var tokenTypes = [...]string{"keyword", "comment", "string", "number", "operator", "class", "enumMember", "parameter", "variable", "function", "property", "type"}

const (
	isKeyword = iota
	isComment
	isString
	isNumber
	isOperator
	isUnit
	isFabric
	isParameter
	isVariable
	isHelper
	isProperty
	isType
)

var tokenModifiers = [...]string{"declaration", "documentation", "defaultLibrary"}

const (
	declares = 1 << iota
	documents
	ofLanguage
)

// A colored is one word with its kind.
type colored struct {
	at       lang.Span
	kind     int
	modifier int
}

// colors answers what kind of word stands where, for the whole text.
func (s *server) colors(d *document, _ *wire.At) (any, *wire.Error) {
	data := []uint32{}
	var before wire.Position
	for _, c := range d.colored() {
		p, end := d.position(c.at.Start), d.position(c.at.End)
		if end.Line != p.Line || end.Character <= p.Character {
			continue
		}
		from := p.Character
		if p.Line == before.Line {
			from -= before.Character
		}
		data = append(data, uint32(p.Line-before.Line), uint32(from), uint32(end.Character-p.Character), uint32(c.kind), uint32(c.modifier))
		before = p
	}
	return wire.SemanticTokens{Data: data}, nil
}

// colored lists the words of a text that have a color, in order.
func (t *text) colored() []colored {
	var all []colored
	for _, c := range t.tree().Comments {
		m := 0
		if c.Doc {
			m = documents
		}
		all = append(all, colored{c.Span, isComment, m})
	}
	words := map[lang.Span]colored{}
	for _, r := range t.names().Refs {
		words[r.At] = colored{r.At, kindOf(r.Kind), 0}
		if r.Kind == names.Compass || r.Kind == names.Helper {
			words[r.At] = colored{r.At, kindOf(r.Kind), ofLanguage}
		}
	}
	for _, d := range t.names().Decls {
		words[d.At] = colored{d.At, kindOf(d.Kind), declares}
	}
	for _, decl := range t.tree().Decls {
		_, props := propsOf(decl)
		for _, p := range props {
			words[p.Name.Span] = colored{p.Name.Span, isProperty, 0}
		}
		switch n := decl.(type) {
		case *lang.Unit:
			for _, p := range n.Params {
				words[p.Kind.Span] = colored{p.Kind.Span, isType, ofLanguage}
			}
		case *lang.Fabric:
			words[n.Value.Span] = colored{n.Value.Span, isType, ofLanguage}
		}
	}
	for _, w := range t.words() {
		c, known := words[w.At]
		switch {
		case known:
		case w.Class == "String":
			c = colored{w.At, isString, 0}
		case w.Class == "Number", w.Class == "Colour":
			c = colored{w.At, isNumber, 0}
		case w.Class == "Name":
			continue // the name of an unknown thing, or a label
		case w.Text != "" && isLetter(w.Text[0]):
			c = colored{w.At, isKeyword, 0}
		case w.Text == "--" || w.Text == "..":
			c = colored{w.At, isOperator, 0}
		default:
			continue
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b colored) int { return int(a.at.Start - b.at.Start) })
	return all
}

func kindOf(k names.Kind) int {
	switch k {
	case names.Fabric:
		return isFabric
	case names.Unit, names.Imported, names.Exported:
		return isUnit
	case names.Parameter:
		return isParameter
	case names.Helper:
		return isHelper
	case names.Section, names.Colorway:
		return isProperty
	}
	return isVariable
}
