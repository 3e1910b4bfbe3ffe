package rules

import (
	"fmt"
	"strings"
	"unicode"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// colourWords are the plain color names of everyday English. A word that is
// also a thing (sand, sky, rose, orange the fruit) is a name for what a cloth
// does and is left alone, all but orange, which nobody sews as a fruit.
var colourWords = [...]string{
	"red", "orange", "yellow", "green", "blue", "purple", "violet", "pink",
	"brown", "black", "white", "grey", "gray", "beige", "turquoise", "crimson",
	"scarlet", "maroon", "teal", "magenta", "cyan",
}

// ColourWords: printed names say what a cloth does, not what color it is.
func (catalogue) ColourWords() Rule {
	return Rule{
		Info: problem.Info{
			Code:   "R110",
			Title:  "a printed name holds a color",
			Rule:   "What is printed in a space says what the cloth does (hull, sky, lamp), not its color. A maker who chooses other cloths, or another colorway of the pattern, would read the wrong word in every space.",
			Source: "common practice, no source",
			Example: `fabric hull "blue hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
			Cured: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`,
		},
		Pattern: func(p *pattern.Pattern, _ Limits, report func(Finding)) {
			for i := range p.Fabrics {
				f := &p.Fabrics[i]
				for _, w := range strings.FieldsFunc(strings.ToLower(f.Words), func(r rune) bool { return !unicode.IsLetter(r) }) {
					for _, c := range colourWords {
						if w == c {
							report(Finding{
								Severity: problem.Warning,
								At:       f.Source,
								Message:  fmt.Sprintf("%q names a color; the sheets would be wrong in any other cloth", f.Words),
								Help:     "say what the cloth does in the block, such as \"sky\" or \"hull\"",
							})
						}
					}
				}
			}
		},
	}
}
