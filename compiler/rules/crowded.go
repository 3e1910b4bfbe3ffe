package rules

import (
	"fmt"

	"seamwright/lang/problem"
)

// crowdedAbove is how many pieces one paper bears before the needle holes have
// weakened and distorted it.
const crowdedAbove = 20

// Crowded: a section has not more pieces than its paper bears.
func (catalogue) Crowded() Rule {
	most := count("section_pieces", crowdedAbove)
	return Rule{
		Limits: []Limit{most},
		Info: problem.Info{
			Code:   "R106",
			Title:  "a section has many pieces",
			Rule:   "A section has at most 20 pieces. Every seam perforates the paper; with many it tears and distorts before the last is sewn.",
			Source: "common practice, no source",
			Example: `fabric reef "reef" dark #25525e
fabric foam "foam" light #dfeaf0
block ripples 21 x 21 finished 7in {
  section A {
    1 reef at (10, 0.5)
    for i in 1..20 {
      piece if odd(i) then foam else reef along (0, i) -- (21, i)
    }
  }
}
`,
			Cured: `fabric reef "reef" dark #25525e
fabric foam "foam" light #dfeaf0
block ripples 20 x 20 finished 7in {
  section A {
    1 reef at (10, 0.5)
    for i in 1..19 {
      piece if odd(i) then foam else reef along (0, i) -- (20, i)
    }
  }
}
`,
		},
		Block: func(v *View, report func(Finding)) {
			above := int(v.Limits.number(most))
			for i := range v.Sized.Drawings {
				d := &v.Sized.Drawings[i]
				if len(d.Pieces) > above {
					report(Finding{
						Severity: problem.Warning,
						At:       d.Source,
						Message:  fmt.Sprintf("section %s has %d pieces; paper bears about %d", d.Name, len(d.Pieces), above),
						Help:     "divide it with a join, or accept it here with a reason",
					})
				}
			}
		},
	}
}
