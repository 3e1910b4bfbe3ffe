package main

import (
	"encoding/json"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// A recorded is a problem as it is remembered: texts by their names.
type recorded struct {
	Code     problem.Code
	Severity problem.Severity
	At       recordedAt
	Message  string
	Labels   []recordedLabel `json:",omitempty"`
	Help     string          `json:",omitempty"`
	Edits    []problem.Edit  `json:",omitempty"`
	Drawn    *problem.Drawn  `json:",omitempty"`
}

type recordedAt struct {
	In   string // the text's name; "" for none
	Span problem.Span
}

type recordedLabel struct {
	At   recordedAt
	Text string
}

// remember writes problems as one line; "" where there is none.
func remember(ps []problem.Problem) string {
	if len(ps) == 0 {
		return ""
	}
	at := func(p problem.Place) recordedAt {
		if p.Source == nil {
			return recordedAt{}
		}
		return recordedAt{p.Source.Name, p.Span}
	}
	all := make([]recorded, len(ps))
	for i, p := range ps {
		all[i] = recorded{p.Code, p.Severity, at(p.At), p.Message, nil, p.Help, p.Edits, p.Drawn}
		for _, l := range p.Labels {
			all[i].Labels = append(all[i].Labels, recordedLabel{at(l.At), l.Text})
		}
	}
	line, err := json.Marshal(all)
	if err != nil { // a number that is none
		return ""
	}
	return string(line)
}

// recall reads what remember wrote, for texts that are as they were. It is not ok
// where that is damaged or a text has gone.
func recall(line string) (ps []problem.Problem, ok bool) {
	if line == "" {
		return nil, true
	}
	var all []recorded
	if json.Unmarshal([]byte(line), &all) != nil {
		return nil, false
	}
	ok = true
	texts := map[string]*problem.Source{}
	at := func(t recordedAt) problem.Place {
		if t.In == "" {
			return problem.Place{}
		}
		src := texts[t.In]
		if src == nil {
			src = textOf(t.In)
			texts[t.In] = src
		}
		if src == nil || t.Span.Start < 0 || t.Span.End < t.Span.Start || int(t.Span.End) > len(src.Text) {
			ok = false
		}
		return problem.Place{Source: src, Span: t.Span}
	}
	for _, t := range all {
		if t.Severity < problem.Error || t.Severity > problem.Note {
			return nil, false
		}
		p := problem.Problem{Code: t.Code, Severity: t.Severity, At: at(t.At), Message: t.Message, Help: t.Help, Edits: t.Edits, Drawn: t.Drawn}
		for _, l := range t.Labels {
			p.Labels = append(p.Labels, problem.Label{At: at(l.At), Text: l.Text})
		}
		ps = append(ps, p)
	}
	return ps, ok
}

// textOf reads a text again that is of a pattern or shipped; nil where it can't be.
func textOf(name string) *problem.Source {
	if shipped, ok := strings.CutPrefix(name, files.Shipped); ok {
		if text, ok := families.Source(shipped); ok {
			return &problem.Source{Name: name, Text: text}
		}
		return nil
	}
	src, _ := files.Read(name, nil)
	return src
}
