package main

import (
	"fmt"

	"github.com/rogpeppe/go-internal/diff"

	"seamwright/cmd/internal/files"
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
	if len(c.args) == 0 {
		return c.misused("fmt needs the name of a pattern, or - for standard input")
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
		tree, ps := lang.Parse(src)
		if problem.Failed(ps) {
			r.tell(ps)
			continue
		}
		new := lang.Format(tree)
		switch {
		case *onlyDiff && new != src.Text:
			c.stdout.Write(diff.Diff(name, []byte(src.Text), name+" (laid out)", []byte(new)))
		case *onlyCheck && new != src.Text:
			fmt.Fprintln(c.stdout, name)
		case *onlyDiff || *onlyCheck:
		case name == files.Stdin:
			fmt.Fprint(c.stdout, new)
		case new != src.Text:
			if fault := files.Replace(name, []byte(new)); fault != nil {
				r.tell([]problem.Problem{*fault})
				continue
			}
			fmt.Fprintf(c.stdout, "%s: laid out\n", name)
		}
		if *onlyCheck && new != src.Text {
			r.worst(problems)
		}
	}
	return r.end()
}
