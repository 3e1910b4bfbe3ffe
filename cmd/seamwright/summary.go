package main

import (
	"fmt"
	"io"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit"
)

// mostSizes is how many finished sizes of a block the summary tells of; a
// pattern with more has its report for the rest.
const mostSizes = 12

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
		b := &p.Blocks[i]
		told := 0
		for j := range b.Sizes {
			s := &b.Sizes[j]
			if !chosen(s, o) {
				continue
			}
			if told++; told > mostSizes {
				continue
			}
			sized(w, b, s, p.Settings.Allowance)
		}
		if told > mostSizes {
			fmt.Fprintf(w, "  and %s more\n", count(told-mostSizes, "finished size"))
		}
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

// sized tells of one block at one finished size.
func sized(w io.Writer, b *pattern.Block, s *pattern.Sized, allowance pattern.Length) {
	until := pattern.Size{W: s.Finished.W + 2*allowance, H: s.Finished.H + 2*allowance}
	fmt.Fprintf(w, "%s, finishes at %s (%s until it is joined): %s, %s\n", b.Title, s.Finished.Exact(), until.Exact(),
		count(s.Figures.Sections, "section"), count(s.Figures.Pieces, "piece"))
	if made := makes(s); made != "" {
		fmt.Fprintf(w, "  make  %s\n", made)
	}
	lead := "sew "
	for i := range s.Joins {
		if i == mostJoins {
			fmt.Fprintf(w, "        ... and %s more, in the report\n", count(len(s.Joins)-i, "join"))
			break
		}
		j := &s.Joins[i]
		fmt.Fprintf(w, "  %s  %d. %s to %s%s\n", lead, j.Number, side(s, j.Left), side(s, j.Right), matched(j))
		lead = "    "
	}
}

// mostJoins is how many joins are told; a longer list scrolls away unread.
const mostJoins = 12

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
	for _, c := range copies {
		names = append(names, s.Drawings[s.Copies[c].Drawing].Name)
		if len(names) == most && len(copies) > most {
			return strings.Join(names, "+") + fmt.Sprintf("+%d more", len(copies)-most)
		}
	}
	return strings.Join(names, "+")
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
