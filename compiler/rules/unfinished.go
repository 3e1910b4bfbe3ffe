package rules

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// Unfinished: a finished size is not the size before joining, by mistake.
func (catalogue) Unfinished() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R115",
			Title:  "a finished size reads like an unfinished one",
			Rule:   "`finished` is the size of the block in the quilt. Sizes of a whole number of inches and two allowances, such as 8 1/2 in, are what blocks measure before they are joined; written as finished they come out half an inch too large.",
			Source: "finished and unfinished: Lesson 1: Allowing for Seam Allowances, docslib.org/doc/4718373",
			Example: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 8 1/2in {
  section A { 1 hull at c }
}
`,
			Cured: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 8in {
  section A { 1 hull at c }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			both := 2 * v.Pattern.Settings.Allowance
			s := v.Sized.Finished
			if v.Pattern.Settings.Metric || !whole(s.W-both) || !whole(s.H-both) || whole(both) {
				return
			}
			report(Finding{
				Severity: problem.Note,
				At:       v.Block.Source,
				Message:  fmt.Sprintf("finished at %s the block measures %s until it is joined", s.W.In(32), (s.W + both).In(32)),
				Help:     fmt.Sprintf("if %s is what it measures before it is joined, write finished %sin", s.W.In(32), trimmed(s.W-both)),
			})
		},
	}
}

func whole(l pattern.Length) bool {
	return math.Abs(math.Remainder(float64(l), 1)) <= float64(slack)
}

// trimmed writes a whole number of inches.
func trimmed(l pattern.Length) string { return fmt.Sprintf("%.0f", l.Inches()) }
