package lsp

import (
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/compiler/eval"
	"seamwright/lang"
	"seamwright/lang/names"
)

// signature answers what the parentheses around the cursor take: those of a helper,
// or of a unit that is placed.
func (s *server) signature(d *document, at *wire.At) (any, *wire.Error) {
	offset := d.offset(at.Position)
	type open struct {
		name  lang.Token
		comma int
	}
	var stack []open
	var before lang.Token
	for _, w := range d.words() {
		if w.At.End > offset {
			break
		}
		switch w.Text {
		case "(":
			stack = append(stack, open{name: before})
		case ")":
			if len(stack) > 0 {
				stack = stack[:len(stack)-1]
			}
		case ",":
			if len(stack) > 0 {
				stack[len(stack)-1].comma++
			}
		case "{", "}":
			stack = nil
		}
		before = w
	}
	if len(stack) == 0 || stack[len(stack)-1].name.Class != "Name" {
		return nil, nil
	}
	call := stack[len(stack)-1]
	for _, h := range eval.Signatures() {
		if h.Name != call.name.Text {
			continue
		}
		help := wire.SignatureHelp{ActiveParameter: call.comma}
		for i, form := range h.Forms {
			sig := wire.SignatureInformation{Label: form, Documentation: h.Does, Parameters: parameters(form)}
			help.Signatures = append(help.Signatures, sig)
			if len(sig.Parameters) <= call.comma && i == help.ActiveSignature && i+1 < len(h.Forms) {
				help.ActiveSignature++
			}
		}
		return help, nil
	}
	y, ok := s.symbolAt(d, call.name.At.Start, true)
	if !ok || y.what().Kind != names.Unit {
		return nil, nil
	}
	u := y.what().Node.(*lang.Unit)
	var takes []string
	for _, p := range u.Params {
		takes = append(takes, y.at(p.Span))
	}
	label := u.Name.Text + "(" + strings.Join(takes, ", ") + ")"
	sig := wire.SignatureInformation{Label: label, Documentation: u.Doc, Parameters: []wire.Parameter{}}
	for _, t := range takes {
		sig.Parameters = append(sig.Parameters, wire.Parameter{Label: t})
	}
	return wire.SignatureHelp{Signatures: []wire.SignatureInformation{sig}, ActiveParameter: call.comma}, nil
}

// parameters cuts "mid(p: point, q: point) -> point" into its parameters.
func parameters(form string) []wire.Parameter {
	_, inside, _ := strings.Cut(form, "(")
	inside, _, _ = strings.Cut(inside, ")")
	list := []wire.Parameter{}
	for _, p := range strings.Split(inside, ", ") {
		list = append(list, wire.Parameter{Label: p})
	}
	return list
}
