package main

import (
	"seamwright/lang"
	"seamwright/lang/problem"
)

// format lays patterns out anew.
func format(c *call) int {
	f := c.flagSet()
	onlyCheck := f.Bool("check", false, "change nothing; name the files that would change, and fail if there are any")
	onlyDiff := f.Bool("diff", false, "change nothing; show what would change")
	if code, ok := c.parse(); !ok {
		return code
	}
	laidOut := func(src *problem.Source) (text, told string, ps []problem.Problem) {
		tree, ps := lang.Parse(src)
		if problem.Failed(ps) {
			return "", "", ps
		}
		return lang.Format(tree), "laid out", ps
	}
	return c.rewrite(rewriting{new: laidOut, how: "laid out", onlyDiff: *onlyDiff, onlyCheck: *onlyCheck})
}
