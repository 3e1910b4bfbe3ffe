package compiler

import (
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// A Loader finds the text that a `use` names. From is the file that says so;
// path is as written, without ".seam". It returns nil and a message for people
// where there is none to be had.
type Loader interface {
	Load(from *problem.Source, path string) (*problem.Source, string)
}

// Compile turns a text into a checked pattern. The pattern is nil where any
// problem is an error. Problems are sorted.
func Compile(src *problem.Source, load Loader) (*pattern.Pattern, []problem.Problem) {
	panic("being written")
}
