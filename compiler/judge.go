package compiler

import (
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/rules"
	"seamwright/lang/problem"
)

// judge asks the rules of the trade and tells what they find, but for what the
// author has answered for with `accept`: that is kept for the report.
func judge(root *problem.Source, r *eval.Result) []problem.Problem {
	texts := map[string]*problem.Source{root.Name: root}
	var scopes []scope
	for _, a := range r.Accepts {
		scopes = append(scopes, scope{accept: a, everywhere: true})
	}
	seen := map[*eval.Body]bool{}
	for _, b := range r.Blocks {
		scopes = collect(b.Body, seen, texts, scopes)
	}
	r.Pattern.Sources = texts
	var problems []problem.Problem
	for _, f := range rules.Check(&r.Pattern) {
		at := r.Pattern.Place(f.At)
		if f.Severity != problem.Error || f.Acceptable {
			if a := answered(scopes, &f, at); a != nil {
				r.Pattern.Accepted = append(r.Pattern.Accepted, pattern.Accepted{
					Code: string(f.Code), Message: f.Message, Reason: a.Reason, Source: f.At,
				})
				continue
			}
		}
		p := problem.Problem{Code: f.Code, Severity: f.Severity, At: at, Message: f.Message, Help: f.Help}
		if len(f.Points) > 0 {
			p.Drawn = &problem.Drawn{Unit: f.Block, Points: squares(&r.Pattern, &f)}
		}
		problems = append(problems, p)
	}
	return problems
}

// A scope is where an `accept` holds: everywhere, or in the braces it stands in
// and, in a block, in all that the block is made of.
type scope struct {
	accept     eval.Accept
	everywhere bool
	in         problem.Place
	block      string
}

// collect gathers the accepts of a body and of the bodies placed in it, and the
// texts they stand in.
func collect(b *eval.Body, seen map[*eval.Body]bool, texts map[string]*problem.Source, scopes []scope) []scope {
	if b == nil || seen[b] {
		return scopes
	}
	seen[b] = true
	if b.Source.Source != nil {
		texts[b.Source.Source.Name] = b.Source.Source
	}
	whole := b.Source
	for i := range b.Sections {
		in := extent(&b.Sections[i])
		whole.Span.End = max(whole.Span.End, in.Span.End)
		for _, a := range b.Sections[i].Accepts {
			scopes = append(scopes, scope{accept: a, in: in})
		}
	}
	for _, a := range b.Accepts {
		scopes = append(scopes, scope{accept: a, in: whole, block: b.Name})
	}
	for i := range b.Places {
		scopes = collect(b.Places[i].Body, seen, texts, scopes)
	}
	return scopes
}

// extent is a section's text, from its name to the end of its last piece.
func extent(s *eval.Section) problem.Place {
	in := s.At
	for i := range s.Pieces {
		in.Span.End = max(in.Span.End, s.Pieces[i].At.Span.End)
	}
	return in
}

// answered returns the accept that covers a finding.
func answered(scopes []scope, f *rules.Finding, at problem.Place) *eval.Accept {
	for i := range scopes {
		s := &scopes[i]
		if s.accept.Code != f.Code {
			continue
		}
		within := at.Source != nil && at.Source == s.in.Source && at.Span.Start >= s.in.Span.Start && at.Span.End <= s.in.Span.End
		if s.everywhere || within || s.block != "" && s.block == f.Block {
			return &s.accept
		}
	}
	return nil
}

// squares turns a finding's points from inches into the block's grid squares.
func squares(p *pattern.Pattern, f *rules.Finding) [][2]float64 {
	for i := range p.Blocks {
		if b := &p.Blocks[i]; b.Name == f.Block && f.Finished > 0 {
			k := b.Grid[0] / float64(f.Finished)
			var points [][2]float64
			for _, q := range f.Points {
				points = append(points, [2]float64{float64(q.X) * k, float64(q.Y) * k})
			}
			return points
		}
	}
	return nil
}
