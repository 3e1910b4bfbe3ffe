package main

import (
	"fmt"
	"os"

	"seamwright/cmd/internal/files"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/testsew"
)

// sewOnPaper builds patterns without writing anything, and sews what was built.
func sewOnPaper(c *call) int {
	f := c.flagSet()
	var sizes []string
	f.Func("size", "only this finished `width`, such as 8in or 20cm; may be given several times", words(&sizes))
	sheet := f.String("sheet", "", "the `paper`, instead of the pattern's own")
	errors := f.String("errors", "", "a `file` with your own table of errors; without it, the table that is printed")
	if code, ok := c.parse(); !ok {
		return code
	}
	o, err := options(sizes, *sheet, []string{"sheets", "tables", "json"}, nil)
	if err != nil {
		return c.misused("%v", err)
	}
	if len(c.args) == 0 {
		return c.misused("testsew needs the name of a pattern")
	}
	table := testsew.Standard()
	if *errors != "" {
		data, err := os.ReadFile(*errors)
		if err == nil {
			_, err = testsew.ReadHands(data)
		}
		if err != nil {
			return c.misused("--errors: %v", err)
		}
		table = string(data)
	}
	r := &reporter{call: c, format: "text"}
	names, ps := files.Find(c.args)
	r.tell(ps)
	first := true
	for _, name := range names {
		report := c.sewOne(r, name, o)
		if report == nil {
			continue
		}
		if !first {
			fmt.Fprintln(c.stdout)
		}
		first = false
		text, err := report.Text(table)
		if err != nil { // it was read above
			panic(err)
		}
		fmt.Fprint(c.stdout, text)
		if report.Failed() {
			r.worst(problems)
		}
	}
	return r.end()
}

// sewOne builds one pattern and sews it; nil where there is nothing to sew.
func (c *call) sewOne(r *reporter, name string, o emit.Options) *testsew.Report {
	p := r.compile(name)
	if p == nil || len(p.Blocks) == 0 {
		return nil
	}
	if wrong := missingSize(p, o.Sizes); wrong != "" {
		fmt.Fprintf(c.stderr, "seamwright: %s: %s\n", name, wrong)
		r.worst(misuse)
		return nil
	}
	return c.sewPattern(r, p, o)
}

// sewPattern builds what was compiled and sews it; nil where paper stops it.
func (c *call) sewPattern(r *reporter, p *pattern.Pattern, o emit.Options) *testsew.Report {
	outputs, ps := emit.Build(p, o)
	if r.tell(ps) {
		return nil
	}
	made := make([]testsew.File, len(outputs))
	for i, o := range outputs {
		made[i] = testsew.File{Path: o.Path, Data: o.Data}
	}
	report, err := testsew.Sew(made)
	if err != nil { // we wrote these files ourselves
		panic(err)
	}
	return report
}
