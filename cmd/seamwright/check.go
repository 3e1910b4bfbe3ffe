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
	var remembered *memo
	if len(names) > 1 {
		remembered = newMemo()
	}
	var more []passed
	inOrder(len(names), func(i int) (d checked) {
		if remembered != nil {
			if d, ok := remembered.asBefore(names[i]); ok {
				return d
			}
		}
		c.memory.tune(len(names) * usualText)
		p, texts, ps := c.compile(names[i])
		if p != nil && !stops(ps, false) {
			ps = append(ps, emit.Check(p, emit.Options{})...)
			ps = append(ps, held(names[i], p)...)
			d.inShort = inShort(p)
		}
		if d.ps = ps; remembered != nil {
			d.passed = remembered.pass(texts, d)
		}
		return d
	}, func(i int, d checked) {
		if !r.tell(d.ps) && *form == "text" {
			fmt.Fprintf(c.stdout, "%s: good%s\n", names[i], d.inShort)
		}
		if len(d.passed.sources) > 0 {
			more = append(more, d.passed)
		}
	})
	if remembered != nil {
		remembered.keep(more, names) // not sooner: others look things up while some are told
	}
	return r.end()
}

// A checked is what is told of a pattern.
type checked struct {
	ps      []problem.Problem
	inShort string
	passed  passed // if it is to be remembered
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
