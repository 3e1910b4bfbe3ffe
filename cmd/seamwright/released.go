package main

import (
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/compare"
	"seamwright/lang/problem"
)

// held holds a pattern to what was released of it. Where nothing was, that costs
// one look for a file.
func held(name string, p *pattern.Pattern, texts []*problem.Source) []problem.Problem {
	if len(p.Blocks) == 0 {
		return nil
	}
	all, fault := readEditions(name)
	if fault != nil {
		return []problem.Problem{*fault}
	}
	if all == nil {
		return nil
	}
	now, ps := emit.Record(p)
	if now == nil {
		return ps
	}
	return placed(compare.Guard(all, now, p), texts)
}

// placed finds the places of findings in the texts.
func placed(found []compare.Finding, texts []*problem.Source) []problem.Problem {
	var out []problem.Problem
	for _, f := range found {
		f.Problem.At = compiler.Place(texts, f.At)
		if f.Problem.At.Source == nil && len(texts) > 0 {
			f.Problem.At = problem.Place{Source: &problem.Source{Name: texts[0].Name}} // the file as a whole
		}
		out = append(out, f.Problem)
	}
	problem.Sort(out)
	return out
}
