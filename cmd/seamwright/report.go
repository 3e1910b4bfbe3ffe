package main

import (
	"fmt"
	"io"
	"os"
	"slices"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/render"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// A reporter tells problems as they come, or keeps them for a machine format,
// and remembers what exit code they amount to.
type reporter struct {
	*call
	strict bool
	format string // text, json or sarif
	kept   []problem.Problem
	told   map[string]bool // so that a fault of a shared text is told once
	code   int
	made   []made
}

// tell takes the problems of one file. It reports whether they stop its build.
func (r *reporter) tell(ps []problem.Problem) (stop bool) {
	if len(ps) == 0 {
		return false
	}
	for i := range ps {
		if stops(ps[i:i+1], r.strict) {
			stop = true
			r.worst(exitOf(ps[i].Code))
		}
	}
	fresh := r.fresh(ps)
	if r.format != "text" {
		r.kept = append(r.kept, fresh...)
		return stop
	}
	render.Text(r.stderr, fresh, render.Style{Colour: r.colour()})
	return stop
}

// fresh leaves out what was told before: two patterns may use one text.
func (r *reporter) fresh(ps []problem.Problem) []problem.Problem {
	if r.told == nil {
		r.told = map[string]bool{}
	}
	var fresh []problem.Problem
	for i := range ps {
		key := string(ps[i].Code) + ps[i].Message
		if src := ps[i].At.Source; src != nil {
			key = fmt.Sprint(src.Name, ps[i].At.Span, key)
		}
		if !r.told[key] {
			r.told[key] = true
			fresh = append(fresh, ps[i])
		}
	}
	return fresh
}

// exitOf tells a file that can't be used from a pattern that is wrong.
func exitOf(code problem.Code) int {
	if code[0] == 'F' && code != files.Empty {
		return misuse
	}
	return problems
}

func (r *reporter) worst(code int) { r.code = max(r.code, code) }

// end writes what was kept and returns the exit code.
func (r *reporter) end() int {
	var err error
	switch r.format {
	case "json":
		err = render.JSON(r.stdout, r.kept)
	case "sarif":
		err = render.SARIF(r.stdout, r.kept, codes())
	}
	if err != nil {
		fmt.Fprintf(r.stderr, "seamwright: the list of problems can't be written: %v\n", err)
		r.worst(misuse)
	}
	return r.code
}

// colour reports whether problems are told in colours: on a terminal that has
// them, unless NO_COLOR is set to anything at all.
func (c *call) colour() bool {
	return c.getenv("NO_COLOR") == "" && c.getenv("TERM") != "dumb" && terminal(c.stderr)
}

func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// stops reports whether a pattern with these problems is not built.
func stops(ps []problem.Problem, strict bool) bool {
	for i := range ps {
		if ps[i].Severity == problem.Error || strict && ps[i].Severity == problem.Warning {
			return true
		}
	}
	return false
}

// compile reads and compiles one file and tells its problems. The pattern is
// nil where they stop it.
func (r *reporter) compile(name string) *pattern.Pattern {
	p, _, ps := r.call.compile(name)
	if r.tell(ps) {
		return nil
	}
	return p
}

// compile reads and compiles one file. The texts are all that it was made from,
// its own first, pictures last.
func (c *call) compile(name string) (*pattern.Pattern, []*problem.Source, []problem.Problem) {
	src, fault := files.Read(name, c.stdin)
	if fault != nil {
		return nil, nil, []problem.Problem{*fault}
	}
	c.memory.tune(len(src.Text))
	loader := newLoader()
	defer loader.Close()
	p, ps := compiler.Compile(src, loader)
	return p, slices.Concat([]*problem.Source{src}, loader.Texts(), loader.Pictures()), ps
}

func newLoader() *files.Loader {
	return &files.Loader{Family: families.Source, Families: families.Names}
}
