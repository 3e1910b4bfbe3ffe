package main

import (
	"fmt"
	"io"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit"
)

// summary says what was made, as far as a person acts on it: what to print, and
// in which order to sew.
func summary(w io.Writer, p *pattern.Pattern, outputs []emit.Output, o emit.Options) {
	title := p.Title
	if title == "" {
		title = p.File
	}
	fmt.Fprintf(w, "%s", title)
	if p.About.Edition > 0 {
		fmt.Fprintf(w, ", edition %d", p.About.Edition)
	}
	fmt.Fprintln(w)
	for i := range p.Blocks {
		block(w, &p.Blocks[i], p.Settings.Allowance, o)
	}
	if n := sheetFiles(outputs); n > 0 {
		fmt.Fprintf(w, "Print the %s at 100%%, one side only, and measure the 1-inch square before you sew.\n", count(n, "sheet"))
	}
}

func chosen(s *pattern.Sized, o emit.Options) bool {
	for _, w := range o.Sizes {
		if sameLength(w, s.Finished.W) {
			return true
		}
	}
	return len(o.Sizes) == 0
}

// block tells of one block. Sizes that are made alike are told together.
func block(w io.Writer, b *pattern.Block, allowance pattern.Length, o emit.Options) {
	for i := 0; i < len(b.Sizes); {
		work := steps(&b.Sizes[i])
		var finished, until []string
		figures := b.Sizes[i].Figures
		for ; i < len(b.Sizes) && steps(&b.Sizes[i]) == work; i++ {
			if s := &b.Sizes[i]; chosen(s, o) {
				raw := pattern.Size{W: s.Finished.W + 2*allowance, H: s.Finished.H + 2*allowance}
				finished, until = append(finished, s.Finished.Exact()), append(until, raw.Exact())
			}
		}
		if len(finished) == 0 {
			continue
		}
		fmt.Fprintf(w, "%s, finishes at %s: %s, %s\n", b.Title, list(finished), count(figures.Sections, "section"), count(figures.Pieces, "piece"))
		fmt.Fprintf(w, "  size  %s until it is joined\n%s", list(until), work)
	}
}

// mostJoins is how many joins are told; a longer list scrolls away unread.
const mostJoins = 12

// steps says what is made of paper and in which order it is sewn.
func steps(s *pattern.Sized) string {
	var w strings.Builder
	if made := makes(s); made != "" {
		fmt.Fprintf(&w, "  make  %s\n", made)
	}
	lead := "sew "
	for i := range s.Joins {
		if i == mostJoins {
			fmt.Fprintf(&w, "        ... and %s more, in the report\n", count(len(s.Joins)-i, "join"))
			break
		}
		j := &s.Joins[i]
		fmt.Fprintf(&w, "  %s  %d. %s to %s%s\n", lead, j.Number, side(s, j.Left), side(s, j.Right), matched(j))
		lead = "    "
	}
	return w.String()
}

// makes lists the drawings that are made more than once, and the plain patches.
func makes(s *pattern.Sized) string {
	var once, more, plain []string
	for i := range s.Drawings {
		d := &s.Drawings[i]
		switch {
		case d.Plain:
			plain = append(plain, d.Name)
		case d.Make == 1:
			once = append(once, d.Name)
		default:
			more = append(more, fmt.Sprintf("%d of %s", d.Make, d.Name))
		}
	}
	var parts []string
	if len(once) > 0 {
		parts = append(parts, "one of "+list(once))
	}
	parts = append(parts, more...)
	if len(plain) > 0 {
		parts = append(parts, list(plain)+" cut from plain cloth, no paper")
	}
	return strings.Join(parts, "; ")
}

// side names the sections on one side of a join, told short where they are many.
func side(s *pattern.Sized, copies []int) string {
	const most = 6
	var names []string
	for i := 0; i < len(copies); {
		name, n := s.Drawings[s.Copies[copies[i]].Drawing].Name, 0
		for ; i < len(copies) && s.Drawings[s.Copies[copies[i]].Drawing].Name == name; i++ {
			n++
		}
		if n > 1 {
			name = fmt.Sprintf("%d x %s", n, name)
		}
		names = append(names, name)
		if len(names) == most && i < len(copies) {
			return strings.Join(names, ", ") + fmt.Sprintf(" and %d more", len(copies)-i)
		}
	}
	return list(names)
}

func matched(j *pattern.Join) string {
	if len(j.Points) == 0 {
		return ""
	}
	return fmt.Sprintf(" (match %s)", count(len(j.Points), "point"))
}

// sheetFiles counts the foundation sheets among the outputs.
func sheetFiles(outputs []emit.Output) int {
	n := 0
	for i := range outputs {
		if strings.HasSuffix(outputs[i].Path, ".svg") && strings.Contains(outputs[i].Path, "sheet") {
			n++
		}
	}
	return n
}
