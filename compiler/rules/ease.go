package rules

import (
	"fmt"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// easeLeast is what every teacher's rule comes to at the least, 1/4 in on every
// side, as it is charted in metric.
const easeLeast = allowanceWarn

// Ease: patches for paper are cut larger than their spaces by a seam at least.
func (catalogue) Ease() Rule {
	least := inches("ease_least", easeLeast)
	return Rule{
		Limits: []Limit{least},
		Info: problem.Info{
			Code:   "R118",
			Title:  "patches for paper are cut too scant",
			Rule:   "Patches for paper are cut at least 1/4 in larger than their spaces, or 6 mm, on every side; most are cut 1/2 in larger. With less than the seam allowance a patch that is laid a thread off leaves its seam without cloth, or its space bare: that is an error, which only `accept` answers for. Patterns that say `miniature yes` may have less than 1/4 in, but not less than their allowance.",
			Source: "at least 1/4 in on all sides: Foundation piecing directions, sewkaren-lycreated.blogspot.com; What is paper piecing, ajpadilla.com; 1/4 to 1/2 in: Quilter's World, Nov 2017; 1/2 in: Cutting rules, gailgarber.com",
			Example: `pattern "Tender" {
  ease 1/8in
}
fabric hull "hull" dark #25525e
fabric sky "sky" light #dfeaf0
block tender 4 x 4 finished 4in {
  section A {
    1 hull at (2, 1)
    2 sky along w -- e
  }
}
`,
			Cured: `pattern "Tender" {
  ease 3/8in
}
fabric hull "hull" dark #25525e
fabric sky "sky" light #dfeaf0
block tender 4 x 4 finished 4in {
  section A {
    1 hull at (2, 1)
    2 sky along w -- e
  }
}
`,
		},
		Pattern: func(p *pattern.Pattern, ls Limits, report func(Finding)) {
			set := &p.Settings
			usual := ls.length(least)
			if set.Ease >= usual-slack || set.Miniature && set.Ease >= set.Allowance-slack {
				return
			}
			f := Finding{
				Severity: problem.Warning,
				At:       set.EaseAt,
				Message:  fmt.Sprintf("patches are cut %s larger than their spaces, and teachers ask for %s at least", told(p, set.Ease), told(p, usual)),
				Help:     "write ease 1/2in, or accept it with a reason",
			}
			if set.Ease < set.Allowance-slack {
				f.Severity, f.Acceptable = problem.Error, true
				f.Message = fmt.Sprintf("patches are cut %s larger than their spaces, less than the seam allowance of %s: a patch laid a thread off leaves its seam without cloth",
					told(p, set.Ease), told(p, set.Allowance))
				f.Help = "write ease 1/2in, or at least " + max(usual, set.Allowance).In(8)
			}
			report(f)
		},
	}
}
