package main

import (
	"fmt"
	"slices"

	"seamwright/cmd/internal/files"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// check compiles and checks without writing. The sheets are laid out too, for
// a section may be too large for them.
func check(c *call) int {
	f := c.flagSet()
	form := f.String("format", "text", "the `form` of problems: text, json or sarif")
	strict := f.Bool("strict", false, "warnings fail too")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) == 0 {
		return c.misused("check needs the name of a pattern")
	}
	formats := []string{"text", "json", "sarif"}
	if !slices.Contains(formats, *form) {
		return c.misused("%s", unknownWord("--format", *form, formats))
	}
	r := &reporter{call: c, strict: *strict, format: *form}
	names, ps := files.Find(c.args)
	r.tell(ps)
	c.memory.tune(len(names) * usualText)
	type checked struct {
		pattern *pattern.Pattern
		ps      []problem.Problem
	}
	inOrder(len(names), func(i int) checked {
		p, _, ps := c.compile(names[i])
		if p != nil && !stops(ps, r.strict) {
			ps = append(ps, emit.Check(p, emit.Options{})...)
			ps = append(ps, held(names[i], p)...)
		}
		return checked{p, ps}
	}, func(i int, d checked) {
		if !r.tell(d.ps) && *form == "text" {
			fmt.Fprintf(c.stdout, "%s: good%s\n", names[i], inShort(d.pattern))
		}
	})
	return r.end()
}

// inShort says what a pattern holds, in a few words.
func inShort(p *pattern.Pattern) string {
	s := ""
	for i := range p.Blocks {
		if b := &p.Blocks[i]; len(b.Sizes) > 0 {
			f := b.Sizes[0].Figures
			s += fmt.Sprintf("; %s: %s, %s", b.Name, count(f.Sections, "section"), count(f.Pieces, "piece"))
		}
	}
	return s
}
