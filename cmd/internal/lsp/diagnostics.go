package lsp

import (
	"encoding/json"
	"slices"
	"strings"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/compiler/eval"
	"seamwright/lang/problem"
)

// publish tells the editor the problems of every text that has any, and of those
// that have none any more, where that is news.
func (s *server) publish() {
	found := map[string][]wire.Diagnostic{}
	versions := map[string]*int32{}
	for uri, d := range s.docs {
		switch {
		case d.last == nil:
		case d.last.text == d.text:
			found[uri] = nil
			versions[uri] = &d.last.version
		}
	}
	for _, d := range s.docs {
		if d.last == nil {
			continue
		}
		for i := range d.last.problems {
			p := &d.last.problems[i]
			uri, diagnostic := s.diagnostic(d, p)
			open := s.docs[uri]
			if uri == "" || open != nil && (versions[uri] == nil || open != d && open.source.Text != p.At.Source.Text) {
				continue // of a text that has changed since: it is being checked
			}
			if !slices.ContainsFunc(found[uri], func(o wire.Diagnostic) bool {
				return o.Range == diagnostic.Range && o.Message == diagnostic.Message
			}) {
				found[uri] = append(found[uri], diagnostic)
			}
		}
	}
	for uri := range s.told {
		if _, still := found[uri]; !still && (s.docs[uri] == nil || s.docs[uri].last == nil) {
			found[uri] = nil
		}
	}
	uris := make([]string, 0, len(found))
	for uri := range found {
		uris = append(uris, uri)
	}
	slices.Sort(uris)
	for _, uri := range uris {
		s.tell(uri, versions[uri], found[uri])
	}
}

func (s *server) tell(uri string, version *int32, list []wire.Diagnostic) {
	slices.SortStableFunc(list, func(a, b wire.Diagnostic) int {
		if a.Range.Start.Line != b.Range.Start.Line {
			return a.Range.Start.Line - b.Range.Start.Line
		}
		return a.Range.Start.Character - b.Range.Start.Character
	})
	if list == nil {
		list = []wire.Diagnostic{} // the protocol wants a list
	}
	params := wire.PublishDiagnostics{URI: uri, Version: version, Diagnostics: list}
	body, err := json.Marshal(params)
	if err != nil || s.told[uri] == string(body) {
		return
	}
	s.told[uri] = string(body)
	if len(list) == 0 && s.docs[uri] == nil {
		delete(s.told, uri)
	}
	s.notify("textDocument/publishDiagnostics", params)
}

// diagnostic words a problem of a document for the editor. One that lies in a
// shipped family is told where the document leads to it.
func (s *server) diagnostic(d *document, p *problem.Problem) (string, wire.Diagnostic) {
	out := wire.Diagnostic{Code: string(p.Code), Source: "seamwright", Message: p.Message, Severity: severity(p.Severity)}
	if p.Help != "" {
		out.Message += "\nhelp: " + p.Help
	}
	if p.Code == eval.Unused {
		out.Tags = []int{wire.TagUnnecessary}
	}
	uri := d.uri
	switch at := p.At; {
	case at.Source == nil:
	case isFamily(at.Source.Name) && at.Source != d.last.text.source:
		out.Message = at.Source.Name + ": " + out.Message
		for _, l := range p.Labels {
			if l.At.Source == d.last.text.source {
				out.Range = d.last.text.rang(l.At.Span)
			}
		}
	default:
		uri, out.Range = s.locate(d, at)
	}
	for _, l := range p.Labels {
		if l.At.Source == nil {
			continue
		}
		if where, r := s.locate(d, l.At); where != "" {
			out.RelatedInformation = append(out.RelatedInformation, wire.Related{Location: wire.Location{URI: where, Range: r}, Message: l.Text})
		}
	}
	return uri, out
}

// locate returns where a place of a document's compiled text, or of a text that it
// used, stands for the editor.
func (s *server) locate(d *document, at problem.Place) (string, wire.Range) {
	if at.Source == d.last.text.source {
		return d.uri, d.last.text.rang(at.Span)
	}
	return s.uriOf(at.Source.Name), newText(at.Source.Name, at.Source.Text, s.utf8).rang(at.Span)
}

func severity(s problem.Severity) int {
	switch s {
	case problem.Error:
		return wire.SeverityError
	case problem.Warning:
		return wire.SeverityWarning
	}
	return wire.SeverityInformation
}

func spaceless(s string) string { return strings.ReplaceAll(s, " ", "") }
