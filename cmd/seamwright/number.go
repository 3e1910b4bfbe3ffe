package main

import (
	"fmt"

	"seamwright/compiler"
	"seamwright/lang/problem"
)

// number rewrites drawn units as joins and sections.
func number(c *call) int {
	f := c.flagSet()
	onlyDiff := f.Bool("diff", false, "change nothing; show what would change")
	if code, ok := c.parse(); !ok {
		return code
	}
	numbered := func(src *problem.Source) (text, told string, ps []problem.Problem) {
		loader := newLoader()
		defer loader.Close()
		made, ps := compiler.Number(src, loader)
		if problem.Failed(ps) {
			return "", "", ps
		}
		for _, k := range made.Kept {
			fmt.Fprintf(c.stderr, "%s: %s stays as it is drawn: %s\n", src.Name, k.Unit, k.Why)
		}
		return made.Text, "numbered " + list(made.Units), ps
	}
	return c.rewrite(rewriting{new: numbered, how: "numbered", same: "nothing to number", onlyDiff: *onlyDiff})
}
