package lsp

import (
	"strconv"
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/names"
)

// hover tells of what stands under the cursor: what a name is, what a piece
// becomes, what a word means.
func (s *server) hover(d *document, at *wire.At) (any, *wire.Error) {
	offset := d.offset(at.Position)
	word, ok := d.wordAt(offset)
	if !ok {
		return nil, nil
	}
	var parts []string
	add := func(p string) {
		if p != "" {
			parts = append(parts, p)
		}
	}
	add(s.nameFacts(d, offset))
	stmt := d.statement(offset)
	if p, ok := stmt.(*lang.Piece); ok && p.Fabric != nil && (word.Class == "Number" && p.Number != nil && word.At == p.Number.Span || word.Class == "" || word.At == p.Fabric.Where()) {
		add(s.pieceFacts(d, p))
	}
	if j, ok := stmt.(*lang.Join); ok && word.Text == "join" {
		add(s.joinFacts(d, j))
	}
	if d.names().Ref(offset) < 0 && d.names().Decl(offset) < 0 {
		if m := meaning(word.Text); m != "" && word.Class == "" {
			add("**" + word.Text + "**: " + m)
		} else {
			add(d.settingFacts(offset))
		}
	}
	if len(parts) == 0 {
		return nil, nil
	}
	r := d.rang(word.At)
	return wire.Hover{Contents: wire.Markup{Kind: "markdown", Value: strings.Join(parts, "\n\n---\n\n")}, Range: &r}, nil
}

// wordAt returns the token at an offset; of two that touch there, the word.
func (t *text) wordAt(offset int32) (found lang.Token, ok bool) {
	for _, w := range t.words() {
		if w.At.Start > offset {
			break
		}
		if offset <= w.At.End && (!ok || w.Text != "" && (isLetter(w.Text[0]) || w.Class == "Number")) {
			found, ok = w, true
		}
	}
	return found, ok
}

func isLetter(c byte) bool {
	return c == '_' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80
}

// nameFacts tells what a name stands for.
func (s *server) nameFacts(d *document, offset int32) string {
	t := d.names()
	if i := t.Ref(offset); i >= 0 {
		switch r := &t.Refs[i]; r.Kind {
		case names.Compass:
			return "`" + r.Name + "`: " + compass(r.Name)
		case names.Helper:
			return helper(r.Name)
		}
	}
	y, ok := s.symbolAt(d, offset, true)
	if !ok {
		return ""
	}
	what := y.what()
	switch n := what.Node.(type) {
	case *lang.Fabric:
		return fence(y.at(n.Span)) + doc(n.Doc)
	case *lang.Colorway:
		return fence("colorway "+n.Name.Text) + doc(n.Doc)
	case *lang.Unit:
		return s.unitFacts(d, y, n)
	case *lang.Param:
		return fence(y.at(n.Span)) + "\n\nparameter of `" + what.Unit.Name.Text + "`" + s.worth(d, y)
	case *lang.Let:
		return fence(y.at(n.Span)) + s.worth(d, y)
	case *lang.For:
		return fence("for "+n.Name.Text) + s.worth(d, y)
	case *lang.Section:
		return "section `" + n.Name.Text + "`"
	}
	return ""
}

func (s *server) unitFacts(d *document, y symbol, n *lang.Unit) string {
	head := lang.Span{Start: n.Span.Start, End: n.Span.End}
	if n.Body != nil {
		head.End = n.Body.Span.Start
	}
	text := fence(strings.TrimSpace(y.at(head))) + doc(n.Doc)
	if d.good == nil || y.text != d.text {
		return text
	}
	for i := range d.good.pattern.Blocks {
		b := &d.good.pattern.Blocks[i]
		z := s.shown(b)
		if b.Name != n.Name.Text || z == nil {
			continue
		}
		f := z.Figures
		text += "\n\nAt " + z.Finished.Exact() + " finished: " + count(f.Sections, "section") + ", " + count(f.Pieces, "piece") + ", " +
			count(len(z.Joins), "join") + ", " + count(f.Points, "point") + " to match."
	}
	return text
}

// worth tells what a name came to when the text was compiled last.
func (s *server) worth(d *document, y symbol) string {
	if d.last == nil || y.text != d.text {
		return ""
	}
	at, ok := followed(d.source.Text, d.last.text.source.Text)(y.what().At.Start)
	v := d.last.values[at]
	if !ok || v == nil {
		return ""
	}
	switch {
	case !v.worked:
		return "\n\n" + v.first.Kind.Phrase()
	case v.times == 1 || v.first == v.last:
		return "\n\n" + v.first.Kind.Phrase() + ": `" + shownValue(v.first) + "`"
	}
	return "\n\n" + v.first.Kind.Phrase() + ": `" + shownValue(v.first) + "`, ... `" + shownValue(v.last) + "`, " + strconv.Itoa(v.times) + " times"
}

func shownValue(v value.Value) string {
	point := func(x, y float64) string { return "(" + square(x) + ", " + square(y) + ")" }
	switch v.Kind {
	case value.LengthKind:
		return pattern.Length(v.Num.Float64()).Exact()
	case value.AngleKind:
		return v.Num.String() + "deg"
	case value.PointKind:
		return point(v.X, v.Y)
	case value.LineKind:
		return point(v.X, v.Y) + " -- " + point(v.X2, v.Y2)
	case value.FabricKind:
		return v.Text
	case value.TextKind:
		return strconv.Quote(v.Text)
	case value.BoolKind:
		return strconv.FormatBool(v.True())
	}
	return v.Num.String()
}

// square writes a number of grid squares to the thousandth.
func square(f float64) string {
	s := strconv.FormatFloat(f, 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func compass(name string) string {
	switch name {
	case "north", "east", "south", "west":
		return "the " + name + " side of the unit, a line"
	case "c":
		return "the middle of the unit, a point"
	}
	side := strings.NewReplacer("n", "north", "s", "south", "e", "east", "w", "west").Replace(name)
	if len(name) == 1 {
		return "the middle of the " + side + " side, a point"
	}
	return "the " + side + " corner of the unit, a point"
}

func helper(name string) string {
	for _, h := range eval.Signatures() {
		if h.Name == name {
			return fence(strings.Join(h.Forms, "\n")) + "\n\n" + h.Does
		}
	}
	return ""
}

// settingFacts tells of the setting whose name stands at an offset.
func (t *text) settingFacts(offset int32) string {
	for _, decl := range t.tree().Decls {
		of, props := propsOf(decl)
		for _, p := range props {
			if p.Name.Span.Start <= offset && offset <= p.Name.Span.End {
				for _, s := range settings {
					if s.of == of && s.name == p.Name.Text {
						return "**" + s.name + "**: " + s.does
					}
				}
			}
		}
	}
	return ""
}

func propsOf(d lang.Decl) (of string, props []*lang.Prop) {
	switch d := d.(type) {
	case *lang.Pattern:
		return "pattern", d.Props
	case *lang.Quilt:
		return "quilt", d.Props
	case *lang.Pad:
		return "pad", d.Props
	}
	return "", nil
}

func fence(code string) string { return "```seam\n" + code + "\n```" }

func doc(s string) string {
	if s = strings.TrimSpace(s); s == "" {
		return ""
	}
	return "\n\n" + s
}

func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}
