package main

import (
	"seamwright/cmd/internal/lsp"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// serveEditor speaks with an editor on standard input and output.
func serveEditor(c *call) int {
	f := c.flagSet()
	f.Bool("stdio", true, "speak on standard input and output, as it always does; some editors say so")
	if code, ok := c.parse(); !ok {
		return code
	}
	if len(c.args) > 0 {
		return c.misused("lsp takes no names: the editor sends the texts")
	}
	return lsp.Serve(c.stdin, c.stdout, lsp.Options{
		Check: func(src *problem.Source, load compiler.Loader) (*pattern.Pattern, []problem.Problem) {
			p, ps := compiler.Compile(src, load)
			if p != nil {
				ps = append(ps, emit.Check(p, emit.Options{})...)
			}
			return p, ps
		},
		Loader: func(held func(path string) (string, bool)) lsp.Loader {
			loader := newLoader()
			loader.Held = held
			return loader
		},
		Codes: codes, Version: version(), Log: c.stderr,
	})
}
