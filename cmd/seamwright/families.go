package main

import (
	"fmt"
	"io"

	"seamwright/cmd/internal/files"
	"seamwright/compiler"
	"seamwright/emit"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// showFamilies lists the shipped families, or tells about some of them.
func showFamilies(c *call) int {
	f := c.flagSet()
	out := f.String("out", "", "a `folder` to draw the examples into")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) == 0 && *out == "" {
		for _, one := range families.List() {
			fmt.Fprintf(c.stdout, "%-24s%s\n", one.Name, one.Summary)
		}
		fmt.Fprint(c.stdout, "\n`seamwright families NAME` tells more of one.\n")
		return good
	}
	names := c.args
	if len(names) == 0 {
		names = families.Names()
	}
	var chosen []families.Family
	for _, name := range names {
		one, ok := families.Find(name)
		if !ok {
			return c.misused("%s", unknownFamily(name))
		}
		chosen = append(chosen, one)
	}
	if *out != "" {
		return c.drawFamilies(chosen, *out)
	}
	for i := range chosen {
		if i > 0 {
			fmt.Fprintln(c.stdout)
		}
		tellFamily(c.stdout, &chosen[i])
	}
	return good
}

func unknownFamily(name string) string {
	if near := problem.Nearest(name, families.Names()); near != "" {
		return fmt.Sprintf("no family is called %q; did you mean %s?", name, near)
	}
	return fmt.Sprintf("no family is called %q; `seamwright families` lists them", name)
}

func tellFamily(w io.Writer, f *families.Family) {
	fmt.Fprintf(w, "%s\n\n%s\n\nParameters:\n", f.Name, f.Doc)
	for _, p := range f.Params {
		fmt.Fprintf(w, "    %s: %s", p.Name, p.Kind)
		if p.Default != "" {
			fmt.Fprintf(w, " = %s", p.Default)
		}
		fmt.Fprintln(w)
	}
	if len(f.Others) > 0 {
		fmt.Fprintf(w, "\nIn the same file: %s\n", list(f.Others))
	}
	fmt.Fprintf(w, "\nExample:\n\n%s", indent(f.Example))
}

// drawFamilies writes the front pictures of each family's example into a folder.
func (c *call) drawFamilies(chosen []families.Family, out string) int {
	r := &reporter{call: c, format: "text"}
	var all []files.Output
	for i := range chosen {
		src := &problem.Source{Name: chosen[i].Name + " (example)", Text: chosen[i].Example}
		loader := newLoader()
		p, ps := compiler.Compile(src, loader)
		if r.tell(ps) || p == nil {
			continue
		}
		outputs, ps := emit.Build(p, emit.Options{Only: []string{"diagrams"}})
		if r.tell(ps) {
			continue
		}
		for _, o := range outputs {
			all = append(all, files.Output{Path: chosen[i].Name + "/" + o.Path, Data: o.Data})
		}
	}
	return c.write(r, false, out, all, false, files.Record{})
}
