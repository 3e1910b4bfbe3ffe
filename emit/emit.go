package emit

import (
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// An Output is one file to be written.
type Output struct {
	Path string // relative to the output folder, with forward slashes
	Data []byte
}

// Options choose what is made.
type Options struct {
	Sizes []pattern.Length // finished widths; empty: all
	Sheet *pattern.Sheet   // instead of the pattern's own
	Only  []string         // sheets, diagrams, tables, report, json; empty: all
}

// Build makes every output of a pattern. Problems are those of paper: a section
// too large for the sheet. Where one is an error there are no outputs.
func Build(p *pattern.Pattern, o Options) ([]Output, []problem.Problem) { panic("being written") }
