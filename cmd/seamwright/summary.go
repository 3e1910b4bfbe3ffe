package main

import (
	"fmt"
	"io"
	"slices"
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
	prints(w, outputs)
	for i := range outputs {
		if o := &outputs[i]; o.Holds != "" {
			fmt.Fprintf(w, "pad   %s: %s\n", o.Path, o.Holds)
		}
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
		fmt.Fprintf(&w, "  %s  %d. %s to %s%s\n", lead, j.Number, side(s, j.Left), side(s, j.Right), matched(j)+partial(j)+pressed(s, j))
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

// partial says that a seam is sewn in two goes.
func partial(j *pattern.Join) string {
	switch {
	case j.Begins > 0:
		return fmt.Sprintf(", part of the way: the rest is join %d", j.Begins)
	case j.Begun > 0:
		return fmt.Sprintf(", the rest of the seam begun as join %d", j.Begun)
	}
	return ""
}

// pressed says which way a join is pressed; why is in the report.
func pressed(s *pattern.Sized, j *pattern.Join) string {
	switch j.Press {
	case pattern.PressLeft:
		return ", press toward " + side(s, j.Left)
	case pattern.PressRight:
		return ", press toward " + side(s, j.Right)
	case pattern.PressOpen:
		return ", press open"
	}
	return ""
}

// mostFiles is how many files to print are told of.
const mostFiles = 12

// prints lists what goes to the printer, and how often: the PDF of each block and
// size, or the single sheets where there is none.
func prints(w io.Writer, outputs []emit.Output) {
	pdf := slices.ContainsFunc(outputs, func(o emit.Output) bool { return isPDF(&o) })
	told := 0
	for i := range outputs {
		o := &outputs[i]
		if len(o.Prints) == 0 || isPDF(o) != pdf {
			continue
		}
		if told++; told <= mostFiles {
			fmt.Fprintf(w, "print %s: %s\n", o.Path, pages(o.Prints, pdf))
		}
	}
	if told > mostFiles {
		fmt.Fprintf(w, "print ... and %s more, as the report says\n", count(told-mostFiles, "file"))
	}
	if told > 0 {
		fmt.Fprintln(w, "      at 100%, on one side; the 1-inch square must measure 1 inch before you sew")
	}
}

func isPDF(o *emit.Output) bool { return strings.HasSuffix(o.Path, ".pdf") }

// pages says how often each page is printed for one block, runs of equals as one:
// "pages 1 to 3 once, page 4 twice".
func pages(times []int, numbered bool) string {
	var parts []string
	for i := 0; i < len(times); {
		from := i
		for i < len(times) && times[i] == times[from] {
			i++
		}
		s := often(times[from])
		switch {
		case !numbered:
		case i-from == 1:
			s = fmt.Sprintf("page %d %s", i, s)
		default:
			s = fmt.Sprintf("pages %d to %d %s", from+1, i, s)
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, ", ") + " for each block"
}

func often(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}
