package pattern

import (
	"strings"

	"seamwright/lang/problem"
)

// A Text is one that the author wrote and that is printed, with its place.
type Text struct {
	Words string
	At    problem.Place
}

// Place finds a line and column again in the texts that the pattern was made
// from. What is marked is the rest of that line; the place is empty where it is in
// none of them.
func (p *Pattern) Place(at Source) problem.Place {
	src := p.Sources[at.File]
	if src == nil {
		return problem.Place{}
	}
	line, start := src.Line(at.Line)
	column := min(offset(line, at.Column), len(line))
	rest := line[column:]
	if cut := strings.Index(rest, "//"); cut >= 0 {
		rest = rest[:cut]
	}
	rest = strings.TrimRight(rest, " \t{")
	return problem.Place{Source: src, Span: problem.Span{
		Start: start + int32(column), End: start + int32(column+len(rest)),
	}}
}

// offset is the byte at which a column, counted in characters from 1, begins.
func offset(line string, column int) int {
	n := 1
	for i := range line {
		if n == column {
			return i
		}
		n++
	}
	return len(line)
}
