package compiler

import (
	"seamwright/compiler/eval"
	"seamwright/lang/problem"
)

// Sew pieces and presses what was evaluated, as [Compile] and [Number] do.
func Sew(r *eval.Result) []problem.Problem {
	_, problems := sew(r)
	return problems
}
