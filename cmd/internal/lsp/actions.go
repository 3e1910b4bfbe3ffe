package lsp

import (
	"slices"
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// actions answers how the problems here are mended: with the edits that the
// problems themselves come with; a rule's warning also by saying that it is meant.
func (s *server) actions(d *document, at *wire.At) (any, *wire.Error) {
	list := []wire.CodeAction{}
	if only := at.Context.Only; len(only) > 0 && !slices.ContainsFunc(only, func(k string) bool { return k == "" || k == "quickfix" }) {
		return list, nil
	}
	if d.last == nil {
		return list, nil
	}
	here := d.span(at.Range)
	follow := followed(d.last.text.source.Text, d.source.Text)
	moved := func(sp lang.Span) (lang.Span, bool) {
		a, ok1 := follow(sp.Start)
		b, ok2 := follow(sp.End)
		if sp.End > sp.Start { // the end belongs to what stands before it
			b, ok2 = follow(sp.End - 1)
			b++
		}
		return lang.Span{Start: a, End: b}, ok1 && ok2
	}
	for i := range d.last.problems {
		p := &d.last.problems[i]
		if p.At.Source != d.last.text.source {
			continue
		}
		span, ok := moved(p.At.Span)
		if !ok || span.End < here.Start || span.Start > here.End {
			continue
		}
		_, diagnostic := s.diagnostic(d, p)
		diagnostic.Range = d.rang(span)
		fix := func(title string, edits []wire.TextEdit, preferred bool) {
			list = append(list, wire.CodeAction{Title: title, Kind: "quickfix", Diagnostics: []wire.Diagnostic{diagnostic}, IsPreferred: preferred,
				Edit: &wire.WorkspaceEdit{Changes: map[string][]wire.TextEdit{d.uri: edits}}})
		}
		var edits []wire.TextEdit
		for _, e := range p.Edits {
			to, ok := moved(e.At)
			if !ok {
				edits = nil
				break
			}
			edits = append(edits, wire.TextEdit{Range: d.rang(to), NewText: e.New})
		}
		if len(edits) > 0 {
			fix(title(d.last.text, p), edits, true)
		}
		if p.Severity == problem.Warning && p.Code[0] == 'R' {
			if edit, ok := d.accepting(p.Code, span.Start); ok {
				fix("Accept "+string(p.Code)+", with a reason", []wire.TextEdit{edit}, false)
			}
		}
	}
	return list, nil
}

// title says what a problem's edits do.
func title(t *text, p *problem.Problem) string {
	if len(p.Edits) > 1 {
		return "Mend it: " + p.Message
	}
	e := p.Edits[0]
	was, now := strings.TrimSpace(t.at(e.At)), strings.TrimSpace(e.New)
	switch {
	case e.At.Start == e.At.End:
		return "Write `" + now + "`"
	case now == "":
		return "Take `" + was + "` away"
	}
	return "Write `" + now + "` for `" + was + "`"
}

// accepting is an `accept` on a line of its own before the statement at an offset.
func (t *text) accepting(code problem.Code, offset int32) (wire.TextEdit, bool) {
	s := t.statement(offset)
	if s == nil {
		return wire.TextEdit{}, false
	}
	start, _ := t.line(t.position(s.Where().Start).Line)
	indent := t.at(lang.Span{Start: start, End: s.Where().Start})
	if strings.TrimSpace(indent) != "" {
		return wire.TextEdit{}, false
	}
	end := "\n"
	if crlf(t.source.Text) {
		end = "\r\n"
	}
	at := t.position(start)
	return wire.TextEdit{Range: wire.Range{Start: at, End: at}, NewText: indent + "accept " + string(code) + ` "say why"` + end}, true
}
