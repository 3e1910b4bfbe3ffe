package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/png"
	"seamwright/lang/problem"
)

// kinds are the outputs that --only chooses from.
func kinds() []string {
	return []string{"sheets", "diagrams", "tables", "booklet", "pads", "report", "json", "together", "tester", "checker", "class"}
}

// forms are the file formats that --format chooses from.
func forms() []string { return []string{"svg", "pdf", "png"} }

// build compiles patterns and writes what is made of them.
func build(c *call) int {
	f := c.flagSet()
	var sizes, only, written []string
	out := f.String("out", "", "the `folder` to write into, instead of NAME-out/ beside the pattern; with several patterns each gets a folder in it")
	f.Func("size", "only this finished `width`, such as 8in or 20cm; may be given several times", words(&sizes))
	sheet := f.String("sheet", "", "the `paper`, instead of the pattern's own: "+list(pattern.SheetNames())+", or a size such as 9inx12in")
	f.StringVar(&c.units, "units", "", "the `system` whose measures come first and to whose rulers patches are cut, instead of the pattern's own: metric or inch")
	f.Func("only", "only some `kinds` of "+strings.Join(kinds(), ", "), words(&only))
	f.Func("format", "the `forms` to write: sheets as svg or pdf, both unless said; png adds pictures of dots for a shop page", words(&written))
	width := f.Int("width", 0, fmt.Sprintf("how wide those are, in `dots`; %d unless said", emit.Width))
	strict := f.Bool("strict", false, "warnings fail too, and nothing is written")
	deps := f.String("deps", "", "a `file` to write what each result was made from into, as make and ninja read it")
	if code, ok := c.parse(); !ok {
		return code
	}
	o, err := options(sizes, *sheet, only, written)
	if err == nil {
		err = pictures(&o, *width)
	}
	if systems := []string{"metric", "inch"}; err == nil && c.units != "" && !slices.Contains(systems, c.units) {
		err = fmt.Errorf("%s", unknownWord("--units", c.units, systems))
	}
	if err != nil {
		return c.misused("%v", err)
	}
	if len(c.args) == 0 {
		return c.misused("build needs the name of a pattern")
	}
	c.memory.light = light(o)
	r := &reporter{call: c, strict: *strict, format: "text"}
	names, ps := files.Find(c.args)
	r.tell(ps)
	folders, err := outFolders(names, *out)
	if err != nil {
		return c.misused("%v", err)
	}
	switch {
	case len(names) > 1:
		c.buildMany(r, names, folders, o)
	case len(names) == 1:
		c.buildOne(r, c.args, names[0], folders[0], o)
	}
	if *deps != "" {
		r.worst(c.writeDeps(*deps, r.made))
	}
	return r.end()
}

// options reads the flags that choose what is made.
func options(sizes []string, sheet string, only, written []string) (emit.Options, error) {
	o := emit.Options{Only: only, Forms: written}
	for _, word := range written {
		if !slices.Contains(forms(), word) {
			return o, fmt.Errorf("%s", unknownWord("--format", word, forms()))
		}
	}
	for _, word := range only {
		if !slices.Contains(kinds(), word) {
			return o, fmt.Errorf("%s", unknownWord("--only", word, kinds()))
		}
	}
	for _, s := range sizes {
		l, err := length(s)
		if err != nil {
			return o, fmt.Errorf("--size: %w", err)
		}
		o.Sizes = append(o.Sizes, l)
	}
	if sheet != "" {
		s, err := sheetOf(sheet)
		if err != nil {
			return o, fmt.Errorf("--sheet: %w", err)
		}
		o.Sheet = &s
	}
	return o, nil
}

// light reports whether only sheets, diagrams and tables are made, and as SVG.
func light(o emit.Options) bool {
	kinds := kinds()[:3]
	other := func(kind string) bool { return !slices.Contains(kinds, kind) }
	return len(o.Only) > 0 && !slices.ContainsFunc(o.Only, other) && slices.Equal(o.Forms, []string{"svg"})
}

// pictures reads the flag that says how wide pictures of dots are.
func pictures(o *emit.Options, width int) error {
	switch {
	case width == 0:
		return nil
	case !slices.Contains(o.Forms, "png"):
		return errors.New("--width is of pictures of dots: add --format png")
	case width < png.Least || width > png.Most:
		return fmt.Errorf("--width takes a number of dots from %d to %d", png.Least, png.Most)
	}
	o.Width = width
	return nil
}

// outFolders says where each pattern's results go.
func outFolders(names []string, out string) ([]string, error) {
	folders := make([]string, len(names))
	taken := map[string]string{}
	for i, name := range names {
		base := strings.TrimSuffix(filepath.Base(name), files.Extension)
		switch {
		case name == files.Stdin && out == "":
			return nil, fmt.Errorf("a pattern from standard input needs --out, the folder to write into")
		case out == "":
			folders[i] = filepath.Join(filepath.Dir(name), base+files.OutSuffix)
		case len(names) == 1:
			folders[i] = out
		case name == files.Stdin:
			folders[i] = filepath.Join(out, "stdin")
		default:
			folders[i] = filepath.Join(out, base)
		}
		if other, ok := taken[folders[i]]; ok {
			return nil, fmt.Errorf("%s and %s would both be written into %s; build them apart", other, name, folders[i])
		}
		taken[folders[i]] = name
	}
	return folders, nil
}

// A product is what came of one pattern, before any of it is told.
type product struct {
	name, folder string
	problems     []problem.Problem
	stopped      bool   // by the problems: nothing is written
	misuse       string // what is wrong with the command line, for this pattern
	pattern      *pattern.Pattern
	outputs      []emit.Output
	record       files.Record
}

// make compiles a pattern and makes everything of it, without writing or telling.
func (c *call) make(name, folder, asked string, o emit.Options, strict bool) *product {
	b := &product{name: name, folder: folder}
	p, texts, ps := c.compile(name)
	b.problems = ps
	if b.stopped = p == nil || stops(ps, strict); b.stopped {
		return b
	}
	b.pattern = p
	if b.misuse = missingSize(p, o.Sizes); b.misuse != "" || len(p.Blocks) == 0 {
		return b
	}
	o.Late = true // they are made as they are written
	made := p
	if c.units != "" {
		made = compiler.Measured(p, c.units == "metric")
	}
	outputs, paper := emit.Build(made, o)
	b.problems = append(b.problems, paper...)
	sold := held(name, p)
	b.problems = append(b.problems, sold...)
	if b.stopped = stops(paper, strict) || stops(sold, strict); b.stopped {
		return b
	}
	b.outputs = outputs
	b.record = recordOf(asked, texts, b.problems)
	return b
}

func (b *product) files() []files.Output {
	all := make([]files.Output, len(b.outputs))
	for i, o := range b.outputs {
		all[i] = files.Output{Path: o.Path, Give: o.Give}
	}
	return all
}

// empty reports whether there is nothing to print, and says so where the pattern
// was asked for by name: in a folder, texts of units are to be expected.
func (c *call) empty(b *product, names []string) bool {
	if len(b.pattern.Blocks) > 0 {
		return false
	}
	if slices.Contains(names, b.name) {
		fmt.Fprintf(c.stderr, "seamwright: %s has no block, so there is nothing to print from it\n", b.name)
	}
	return true
}

func (c *call) buildOne(r *reporter, names []string, name, folder string, o emit.Options) {
	b := c.make(name, folder, c.asked(o, r.strict), o, r.strict)
	r.tell(b.problems)
	switch {
	case b.stopped:
		c.kept(folder)
	case b.misuse != "":
		fmt.Fprintf(c.stderr, "seamwright: %s: %s\n", name, b.misuse)
		r.worst(misuse)
	case !c.empty(b, names):
		summary(c.stdout, b.pattern, b.outputs, o)
		code := c.write(r, light(o) && b.pattern.Pieces() <= emit.Few, folder, b.files(), whole(o), b.record)
		if r.worst(code); code == good {
			r.made = append(r.made, made{folder, b.record.Sources})
		}
	}
}

// whole reports whether everything is made that there is of a pattern.
func whole(o emit.Options) bool { return len(o.Only) == 0 && len(o.Forms) == 0 && len(o.Sizes) == 0 }

// kept says that a failed build has changed nothing, where there is something.
func (c *call) kept(folder string) {
	if files.IsOut(folder) {
		fmt.Fprintf(c.stderr, "seamwright: nothing was written; %s still holds what the last good build made\n", folder)
	} else {
		fmt.Fprintln(c.stderr, "seamwright: nothing was written")
	}
}

// missingSize says which of the sizes asked for no block is published in.
func missingSize(p *pattern.Pattern, sizes []pattern.Length) string {
	for _, want := range sizes {
		found := false
		var have []string
		for i := range p.Blocks {
			for j := range p.Blocks[i].Sizes {
				w := p.Blocks[i].Sizes[j].Finished.W
				found = found || sameLength(w, want)
				if s := w.Exact(); !slices.Contains(have, s) {
					have = append(have, s)
				}
			}
		}
		if !found {
			return fmt.Sprintf("no block finishes at %s; there is %s. A size is added after `finished` in the pattern", want.Exact(), list(have))
		}
	}
	return ""
}

// write puts outputs into place, guarding them from Ctrl-C, and says where. It is the
// last that a program does. Brief says that it takes a millisecond or so.
func (c *call) write(r *reporter, brief bool, folder string, outputs []files.Output, whole bool, record files.Record) int {
	interrupted, done := onInterrupt(brief)
	defer done()
	workers := runtime.GOMAXPROCS(0)
	if brief {
		workers = 1
	}
	written, fault := files.Write(folder, outputs, whole, workers, interrupted, record)
	if fault != nil {
		r.tell([]problem.Problem{*fault})
		if interrupted() {
			return stopped
		}
		return misuse
	}
	fmt.Fprintf(c.stdout, "Written to %s: %s (%s)\n", folder, count(len(outputs), "file"), did(written))
	return good
}

// did says what writing has changed, "3 new and 2 as before".
func did(w files.Written) string {
	var parts []string
	for _, part := range []struct {
		n    int
		what string
	}{{w.New, "new"}, {w.Changed, "changed"}, {w.Same, "as before"}, {w.Removed, "no longer made and removed"}} {
		if part.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", part.n, part.what))
		}
	}
	if len(parts) == 0 {
		return "nothing to write"
	}
	return list(parts)
}
