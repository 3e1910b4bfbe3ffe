package compiler_test

import (
	"fmt"
	"slices"
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

// An accept holds for the section or unit that it stands in, and nowhere else.
func TestAcceptHoldsWhereItStands(t *testing.T) {
	const slender = `fabric beam "beam" light #f3ecdd
fabric night "night" dark #25304a
unit ray 8 x 8 {
  %s
  section {
    %s
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 2.6)
  }
}
block beacon 8 x 8 finished 8in { place ray at sw }
block other 8 x 8 finished 8in {
  section {
    %s
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 2.7)
  }
}
`
	const accept = `accept R102 "it is meant"`
	for _, c := range []struct {
		unit, section, other string
		lines                []int // of the warnings that are left
	}{
		{"", "", "", []int{7, 15}},
		{accept, "", "", []int{15}},
		{"", accept, "", []int{15}},
		{"", "", accept, []int{7}},
		{accept, "", accept, nil},
	} {
		text := fmt.Sprintf(slender, c.unit, c.section, c.other)
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: text}, nil)
		var lines []int
		for _, p := range got {
			if p.Code == "R102" {
				lines = append(lines, p.At.Source.Position(p.At.Span.Start).Line)
			}
		}
		if !slices.Equal(lines, c.lines) {
			t.Errorf("accepted in the unit %q, its section %q, the other %q: warnings on lines %v, want %v", c.unit, c.section, c.other, lines, c.lines)
		}
	}
}
