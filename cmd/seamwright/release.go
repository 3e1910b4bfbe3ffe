package main

import (
	"fmt"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
	"seamwright/lang/problem"
)

// release checks and sews a pattern, then records what its edition prints.
func release(c *call) int {
	f := c.flagSet()
	strict := f.Bool("strict", false, "warnings fail too, and nothing is released")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) == 0 {
		return c.misused("release needs the name of a pattern")
	}
	r := &reporter{call: c, strict: *strict, format: "text"}
	names, ps := files.Find(c.args)
	r.tell(ps)
	for _, name := range names {
		if name == files.Stdin {
			return c.misused("release needs a file, for the record stands beside it")
		}
		c.releaseOne(r, name)
	}
	return r.end()
}

func (c *call) releaseOne(r *reporter, name string) {
	p, _, ps := c.compile(name)
	if r.tell(ps) {
		return
	}
	if len(p.Blocks) == 0 {
		fmt.Fprintf(c.stderr, "seamwright: %s has no block, so there is nothing to release of it\n", name)
		return
	}
	if p.About.Edition == 0 {
		src := problem.Place{Source: &problem.Source{Name: name}}
		r.tell([]problem.Problem{{Code: compare.NoEdition, Severity: problem.Error, At: src,
			Message: "this pattern has no edition, so what is printed of it has no number",
			Help:    "write `edition 1` into `pattern \"...\" { }`"}})
		return
	}
	all, fault := readEditions(name)
	if fault != nil {
		r.tell([]problem.Problem{*fault})
		return
	}
	if all == nil {
		all = &edition.Editions{}
	}
	now, paper := emit.Record(p)
	if r.tell(paper) || r.tell(placed(compare.Guard(all, now, p), name, p)) {
		return
	}
	last := all.Last()
	if last != nil && last.Edition == now.Edition {
		fmt.Fprintf(c.stdout, "%s: edition %d is released, and nothing has changed since\n", name, now.Edition)
		return
	}
	if !c.sewn(r, name, p) {
		return
	}
	all.Add(now)
	if fault := files.Put(editionsOf(name), all.Bytes()); fault != nil {
		r.tell([]problem.Problem{*fault})
		return
	}
	c.announce(name, last, now)
}

// sewn sews the printed sheets on paper, as testsew does, and tells what is wrong.
func (c *call) sewn(r *reporter, name string, p *pattern.Pattern) bool {
	report := c.sewPattern(r, p, emit.Options{Only: []string{"sheets", "tables", "json"}})
	if report == nil {
		return false
	}
	if !report.Failed() {
		return true
	}
	fmt.Fprintf(c.stderr, "seamwright: %s is not released: sewn on paper it has faults, which `seamwright testsew %s` tells\n", name, name)
	r.worst(problems)
	return false
}

// announce tells what was released, by which marks it is known, and what changed.
func (c *call) announce(name string, last, now *edition.Record) {
	fmt.Fprintf(c.stdout, "%s: edition %d is released; %s holds what it prints\n", name, now.Edition, editionsOf(name))
	for i := range now.Blocks {
		b := &now.Blocks[i]
		for k := range b.Sizes {
			var marks []string
			for _, m := range b.Sizes[k].Marks {
				marks = append(marks, m.Text+" on "+m.Name)
			}
			fmt.Fprintf(c.stdout, "  %s, %s: mark %s\n", b.Title, b.Sizes[k].Words(), list(marks))
		}
	}
	if last == nil {
		return
	}
	fmt.Fprint(c.stdout, compare.Compare(last, now).Text(fmt.Sprintf("edition %d", last.Edition), fmt.Sprintf("edition %d", now.Edition)))
	fmt.Fprintf(c.stdout, "For those who hold edition %d: seamwright compare %s@%d %s --errata %s-errata.pdf\n",
		last.Edition, name, last.Edition, name, strings.TrimSuffix(name, files.Extension))
}
