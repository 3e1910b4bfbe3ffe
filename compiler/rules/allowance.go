package rules

import (
	"fmt"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

const (
	// allowanceWarn is 1/4 in as it is charted in metric (Imperial to metric
	// guide, echidnasewing.com.au, 2022): 6 mm, 0.236 in.
	allowanceWarn = 6 * pattern.Millimetre

	// allowanceStop is what miniatures are cut to (How small can you go,
	// nightquilter.com, 2016); less frays out of the seam.
	allowanceStop pattern.Length = 1.0 / 8
)

// Allowance: seams have enough cloth behind them to hold.
func (catalogue) Allowance() Rule {
	usual, least := inches("allowance_usual", allowanceWarn), inches("allowance_least", allowanceStop)
	return Rule{
		Limits: []Limit{usual, least},
		Info: problem.Info{
			Code:   "R108",
			Title:  "the seam allowance is narrow",
			Rule:   "The seam allowance is at least 1/4 in, or 6 mm; patterns that say `miniature yes` may have less. Under 1/8 in a seam frays and opens: that is an error, which only `accept` answers for.",
			Source: "1/4 in: Lesson 1: Allowing for Seam Allowances, docslib.org/doc/4718373; 1/8 in for miniatures: How small can you go, nightquilter.com, 2016",
			Example: `pattern "Tender" {
  allowance 3/16in
}
fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
			Cured: `pattern "Tender" {
  allowance 1/4in
}
fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
		},
		Pattern: func(p *pattern.Pattern, ls Limits, report func(Finding)) {
			set := &p.Settings
			f := Finding{
				Severity: problem.Warning,
				At:       set.AllowanceAt,
				Message:  fmt.Sprintf("a seam allowance of %s is narrower than the usual 1/4 in, which makers expect and machines are set to", told(p, set.Allowance)),
				Help:     "write allowance 1/4in, say `miniature yes` if small pieces are meant, or accept it with a reason",
			}
			switch {
			case set.Allowance < ls.length(least)-slack:
				f.Severity, f.Acceptable = problem.Error, true
				f.Message = fmt.Sprintf("a seam allowance of %s does not hold: the cloth frays out of the seam", told(p, set.Allowance))
				f.Help = "write allowance 1/4in, or 1/8in and `miniature yes`"
			case set.Miniature || set.Allowance >= ls.length(usual)-slack:
				return
			}
			report(f)
		},
	}
}
