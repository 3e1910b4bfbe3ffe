package main

import (
	"fmt"

	"github.com/rogpeppe/go-internal/diff"

	"seamwright/cmd/internal/files"
	"seamwright/lang/problem"
)

// A rewriting is what a verb that rewrites patterns in place does to each.
type rewriting struct {
	new       func(src *problem.Source) (text, told string, ps []problem.Problem) // told: what was done, for a person
	how       string                                                              // "laid out", for the head of a difference
	same      string                                                              // told where nothing is done; "" for nothing
	onlyDiff  bool                                                                // show what would change
	onlyCheck bool                                                                // name what would change, and fail
}

// rewrite rewrites the patterns that the command line names.
func (c *call) rewrite(w rewriting) int {
	if len(c.args) == 0 {
		return c.misused("%s needs the name of a pattern, or - for standard input", c.verb.name)
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
		text, told, ps := w.new(src)
		if problem.Failed(ps) {
			r.tell(ps)
			continue
		}
		c.rewriteOne(r, w, src, text, told)
	}
	return r.end()
}

// rewriteOne puts a new text in place of an old one, or only tells of it.
func (c *call) rewriteOne(r *reporter, w rewriting, src *problem.Source, text, told string) {
	name, changed := src.Name, text != src.Text
	switch {
	case w.onlyDiff && changed:
		c.stdout.Write(diff.Diff(name, []byte(src.Text), name+" ("+w.how+")", []byte(text)))
	case w.onlyCheck && changed:
		fmt.Fprintln(c.stdout, name)
	case w.onlyDiff || w.onlyCheck:
	case name == files.Stdin:
		fmt.Fprint(c.stdout, text)
	case changed:
		if fault := files.Replace(name, []byte(text)); fault != nil {
			r.tell([]problem.Problem{*fault})
			return
		}
		fmt.Fprintf(c.stdout, "%s: %s\n", name, told)
	case w.same != "":
		fmt.Fprintf(c.stdout, "%s: %s\n", name, w.same)
	}
	if w.onlyCheck && changed {
		r.worst(problems)
	}
}
