package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/contact"
	"seamwright/emit/svg"
	"seamwright/emit/testsew"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// mostVariants is how many are made at once: more can't be compared, and each
// takes some tenths of a second.
const mostVariants = 60

// showVariants draws one block with many values of its parameters.
func showVariants(c *call) int {
	f := c.flagSet()
	out := f.String("out", "", "the `picture` that is written, instead of NAME-variants.svg")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) < 2 {
		return c.misused("variants needs a pattern or the name of a family, and ranges like points=6,8,12")
	}
	name := c.args[0]
	ranges, err := rangesOf(c.args[1:])
	if err != nil {
		return c.misused("%v", err)
	}
	r := &reporter{call: c, format: "text"}
	src, fault := c.variedSource(name)
	if fault != nil {
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	loader := newLoader()
	defer loader.Close()
	v, err := newVaried(src, loader, ranges)
	if err != nil {
		return c.misused("%s: %v", name, err)
	}
	list := v.all()
	var made []contact.Variant
	for _, one := range list {
		made = append(made, sewVariant(v.title(one), &problem.Source{Name: src.Name, Text: v.text(one)}, loader))
	}
	c.tellVariants(made)
	across := 0
	if len(ranges) == 2 {
		across = len(ranges[1].values)
	}
	page := contact.Page(pageTitle+name, withCareNote, made, across)
	picture, err := svg.Render(page)
	if err != nil { // we drew it
		panic(err)
	}
	to := *out
	if to == "" {
		to = strings.TrimSuffix(name, files.Extension) + "-variants.svg"
	}
	if fault := writePage(to, picture); fault != nil {
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	fmt.Fprintf(c.stdout, "%s is written: %s\n", to, many(len(made), "variant"))
	return r.end()
}

// writePage writes a page of variants, over an older one but over nothing else.
func writePage(name string, picture []byte) *problem.Problem {
	if old, err := os.ReadFile(name); err == nil && bytes.Contains(old, []byte(pageTitle)) {
		return files.Replace(name, picture)
	}
	return files.Create(name, picture)
}

// pageTitle begins the title of every page of variants, and tells it from other files.
const pageTitle = "Variants of "

// variedSource is the text of a file, or a family's example.
func (c *call) variedSource(name string) (*problem.Source, *problem.Problem) {
	if one, ok := families.Find(name); ok {
		return &problem.Source{Name: name + " (example)", Text: one.Example}, nil
	}
	return files.Read(name, c.stdin)
}

// sewVariant compiles a variant, builds it at its first size and sews it, to tell
// what it takes.
func sewVariant(name string, src *problem.Source, loader compiler.Loader) contact.Variant {
	v := contact.Variant{Name: name}
	p, ps := compiler.Compile(src, loader)
	if p == nil || problem.Failed(ps) || len(p.Blocks) == 0 || len(p.Blocks[0].Sizes) == 0 {
		v.Fault = "no block"
		for i := range ps {
			if ps[i].Severity == problem.Error {
				v.Fault = ps[i].Message
				break
			}
		}
		return v
	}
	v.Pattern = p
	s := &p.Blocks[0].Sizes[0]
	n := &s.Figures
	v.Facts = []string{
		many(n.Sections, "section") + ", " + many(n.Drawings, "drawing") + ", " + many(n.Pieces, "piece"),
		many(n.Points, "point") + " to match",
		"narrowest piece " + told(p, n.Narrowest, 16) + " at " + told(p, s.Finished.W, 8),
	}
	warnings := 0
	for i := range ps {
		if ps[i].Severity == problem.Warning {
			warnings++
		}
	}
	v.Facts = append(v.Facts, comfortable(p, s))
	if warnings > 0 {
		v.Facts = append(v.Facts, many(warnings, "warning"))
	}
	return v
}

// comfortable says from which size the block comes out well for hands with care.
func comfortable(p *pattern.Pattern, s *pattern.Sized) string {
	outputs, ps := emit.Build(p, emit.Options{Sizes: []pattern.Length{s.Finished.W}, Only: []string{"sheets", "tables", "json"}, Forms: []string{"svg"}})
	if problem.Failed(ps) {
		return "too large for the sheet at " + s.Finished.W.In(8)
	}
	made := make([]testsew.File, len(outputs))
	for i, o := range outputs {
		made[i] = testsew.File{Path: o.Path, Data: o.Data}
	}
	report, err := testsew.Sew(made)
	hands, faulty := testsew.ReadHands([]byte(testsew.Standard()))
	if err != nil || faulty != nil || len(report.Blocks) == 0 { // our own files and table
		return "not sewn"
	}
	for _, t := range report.Blocks[0].Tolerances(hands[:2])[1:] { // with care
		switch {
		case t.Smallest > testsew.NoSize:
			return "comfortable at no size"
		case t.Smallest > 0: // to quarters: finer would say more than the trials know
			step := pattern.Length(1.0 / 4)
			if p.Settings.Metric {
				step = pattern.Centimetre / 2
			}
			return t.Hands + ": comfortable from " + told(p, pattern.RoundUp(pattern.Length(t.Smallest), step), 4)
		}
	}
	return "comfortable at any size"
}

// told writes a length in the pattern's own system: a caption has no room for both.
func told(p *pattern.Pattern, l pattern.Length, to int) string {
	if p.Settings.Metric {
		return l.Cm()
	}
	return l.In(to)
}

// withCareNote explains what is told of sizes.
const withCareNote = "With care: seams and cuts within 1/64 in of their lines. A size is comfortable if 95 of 100 points to match do so, " +
	"tried many times with such hands; testsew tells of other hands, and of the points that fail first."

func many(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// tellVariants writes what is below the pictures as a table.
func (c *call) tellVariants(list []contact.Variant) {
	wide := 0
	for i := range list {
		wide = max(wide, len(list[i].Name))
	}
	for i := range list {
		v := &list[i]
		text := strings.Join(v.Facts, "; ")
		if v.Fault != "" {
			text = "can't be made: " + v.Fault
		}
		fmt.Fprintf(c.stdout, "%-*s  %s\n", wide, v.Name, text)
	}
	fmt.Fprintln(c.stdout, withCareNote)
}
