package main

import (
	"fmt"

	"seamwright/cmd/internal/files"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// errata writes the page of corrections, and returns an exit code.
func (k *comparing) errata(file, paper string) int {
	if len(k.pairs) != 1 || k.pairs[0].Report == nil || k.loaded[0].pattern == nil {
		if k.code == good || k.code == different {
			fmt.Fprintln(k.stderr, "seamwright: --errata needs two versions of one pattern, the new one as text")
		}
		return trouble
	}
	r := k.pairs[0].Report
	if r.Old.Edition >= r.New.Edition {
		fmt.Fprintf(k.stderr, "seamwright: corrections lead from an edition to a higher one; these are %d and %d\n", r.Old.Edition, r.New.Edition)
		return trouble
	}
	var on *pattern.Sheet
	if paper != "" {
		s, err := sheetOf(paper)
		if err != nil {
			return k.misused("--sheet: %v", err)
		}
		on = &s
	}
	data, ps := emit.Errata(k.loaded[0].pattern, r, on)
	if k.tell(errorsOf(ps)) {
		return trouble
	}
	if fault := files.Put(file, data); fault != nil {
		k.tell([]problem.Problem{*fault})
		return trouble
	}
	fmt.Fprintf(k.stdout, "Written to %s: corrections to edition %d, %s\n", file, r.Old.Edition, r.InShort())
	return good
}

// errorsOf leaves out what does not stop anything.
func errorsOf(ps []problem.Problem) []problem.Problem {
	var out []problem.Problem
	for _, p := range ps {
		if p.Severity == problem.Error {
			out = append(out, p)
		}
	}
	return out
}
