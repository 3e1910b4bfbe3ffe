package main

import (
	"fmt"

	"github.com/rogpeppe/go-internal/diff"

	"seamwright/cmd/internal/files"
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
	if len(c.args) == 0 {
		return c.misused("number needs the name of a pattern, or - for standard input")
	}
	r := &reporter{call: c, format: "text"}
	names, ps := files.Find(c.args)
	r.tell(ps)
	for _, name := range names {
		src, fault := files.Read(name, c.stdin)
		if fault != nil {
			r.tell([]problem.Problem{*fault})
			continue
		}
		loader := newLoader()
		made, ps := compiler.Number(src, loader)
		loader.Close()
		if problem.Failed(ps) {
			r.tell(ps)
			continue
		}
		for _, k := range made.Kept {
			fmt.Fprintf(c.stderr, "%s: %s stays as it is drawn: %s\n", name, k.Unit, k.Why)
		}
		switch {
		case *onlyDiff && made.Text != src.Text:
			c.stdout.Write(diff.Diff(name, []byte(src.Text), name+" (numbered)", []byte(made.Text)))
		case *onlyDiff:
		case name == files.Stdin:
			fmt.Fprint(c.stdout, made.Text)
		case made.Text == src.Text:
			fmt.Fprintf(c.stdout, "%s: nothing to number\n", name)
		default:
			if fault := files.Replace(name, []byte(made.Text)); fault != nil {
				r.tell([]problem.Problem{*fault})
				continue
			}
			fmt.Fprintf(c.stdout, "%s: numbered %s\n", name, list(made.Units))
		}
	}
	return r.end()
}
