package main

import (
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/compare"
	"seamwright/lang/problem"
)

// held holds a pattern to what was released of it. Where nothing was, that costs
// one look for a file.
func held(name string, p *pattern.Pattern) []problem.Problem {
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
	return placed(compare.Guard(all, now, p), name, p)
}

// placed finds the places of findings in the texts.
func placed(found []compare.Finding, name string, p *pattern.Pattern) []problem.Problem {
	var out []problem.Problem
	for _, f := range found {
		f.Problem.At = p.Place(f.At)
		if f.Problem.At.Source == nil {
			f.Problem.At = problem.Place{Source: &problem.Source{Name: name}} // the file as a whole
		}
		out = append(out, f.Problem)
	}
	problem.Sort(out)
	return out
}
