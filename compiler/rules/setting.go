package rules

import (
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// Setting: a quilt can be laid out from its blocks.
func (catalogue) Setting() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R116",
			Title:  "a quilt cannot be laid out",
			Rule:   "The blocks of a quilt are finished in one size, its rows are of one length (on point, of one block less by turns), and whatever is set between and around them has a width and a fabric. Until then nothing of the quilt is drawn, cut or bought; the blocks themselves are made all the same.",
			Source: "follows from what a quilt is",
			Example: `fabric sky "sky" light #dfeaf0
block cloud 4 x 4 finished 4in {
  section A { 1 sky at c }
}
quilt "Overcast" {
  blocks cloud, 2 x 2, 5in
}
`,
			Cured: `fabric sky "sky" light #dfeaf0
block cloud 4 x 4 finished 4in {
  section A { 1 sky at c }
}
quilt "Overcast" {
  blocks cloud, 2 x 2, 4in
}
`,
		},
		Pattern: func(p *pattern.Pattern, _ Limits, report func(Finding)) {
			for i := range p.Quilts {
				q := &p.Quilts[i]
				if q.Why == "" {
					continue
				}
				report(Finding{
					Severity: problem.Warning,
					At:       q.Source,
					Message:  "the quilt `" + q.Title + "` is not laid out: " + q.Why,
					Help:     "mend it, and the quilt is drawn, with all that is cut and bought for it",
				})
			}
		},
	}
}
