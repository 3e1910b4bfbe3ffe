package main

import (
	"sort"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/trace"
	"seamwright/compiler/eval"
	"seamwright/compiler/piecing"
	"seamwright/compiler/rules"
	"seamwright/emit/booklet"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
	"seamwright/emit/sheet"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// codes lists every code that any part of the program raises, in order.
func codes() []problem.Info {
	var all []problem.Info
	for _, of := range []func() []problem.Info{files.Codes, trace.Codes, lang.Codes, eval.Codes, piecing.Codes, rules.Codes, sheet.Codes, booklet.Codes, edition.Codes, compare.Codes} {
		all = append(all, of()...)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Code < all[j].Code })
	return all
}
