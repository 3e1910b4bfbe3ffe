package compiler_test

import (
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/rules"
	"seamwright/lang/problem"
)

// Every rule's example breaks that rule and no other, and its cure breaks none.
func TestRuleExamples(t *testing.T) {
	for _, info := range rules.Codes() {
		t.Run(string(info.Code), func(t *testing.T) {
			_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: info.Example}, nil)
			if len(got) == 0 {
				t.Fatal("the example breaks no rule")
			}
			for _, p := range got {
				if p.Code != info.Code {
					t.Errorf("%s %s: %s", p.Code, p.Severity, p.Message)
				}
				if p.At.Source == nil || p.At.Span.End <= p.At.Span.Start {
					t.Errorf("%s has no place in the text", p.Code)
				}
			}
			if _, got = compiler.Compile(&problem.Source{Name: "cured.seam", Text: info.Cured}, nil); len(got) > 0 {
				t.Errorf("the cured example: %s %s", got[0].Code, got[0].Message)
			}
		})
	}
}
