package rules

import (
	"fmt"
	"unicode/utf8"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// ShortWords: a fabric's printed name cannot be taken for a section's letter.
func (catalogue) ShortWords() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R111",
			Title:  "a fabric is printed as one letter",
			Rule:   "A fabric's printed name has more than one letter. Sections are lettered A, B, C; a space that reads A1 with a B under it is sewn to the wrong section.",
			Source: "common practice, no source",
			Example: `fabric hull "H" dark #25525e
block dinghy 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
			Cured: `fabric hull "hull" dark #25525e
block dinghy 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
		},
		Pattern: func(p *pattern.Pattern, _ Limits, report func(Finding)) {
			for i := range p.Fabrics {
				if f := &p.Fabrics[i]; utf8.RuneCountInString(f.Words) == 1 {
					report(Finding{
						Severity: problem.Warning,
						At:       f.Source,
						Message:  fmt.Sprintf("the fabric %s is printed as %q, which reads like a section's letter", f.Name, f.Words),
						Help:     "give it a word, such as \"hull\"",
					})
				}
			}
		},
	}
}
