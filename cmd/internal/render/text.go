package render

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamwright/lang/problem"
)

// MaxShown is how many problems are told as text in one run. More than that
// scroll off any screen, and nearly always come from one cause; the machine
// formats list all of them.
const MaxShown = 100

// Style chooses how text is shown.
type Style struct {
	Colour bool // with ANSI colours
}

// Text writes problems for people: for each a line
//
//	file:line:column: severity CODE: message
//
// (only the file's name where it could not be read) with lines and columns counted from 1, columns in characters; then the line
// of the text with the place marked, the other places that matter, and the help.
func Text(w io.Writer, ps []problem.Problem, style Style) error {
	b := bufio.NewWriter(w)
	p := printer{w: b, paint: paint(style.Colour)}
	for i := range ps {
		if i == MaxShown {
			fmt.Fprintf(b, "... and %d more problems; mend these first, or use `check --format json` to list them all\n", len(ps)-i)
			break
		}
		p.problem(&ps[i])
	}
	return b.Flush()
}

// paint is whether to colour; its methods wrap text in an ANSI colour.
type paint bool

func (p paint) in(code, s string) string {
	if !p {
		return s
	}
	return "\x1b[" + code + "m" + s + "\x1b[0m"
}

func (p paint) severity(s problem.Severity) string {
	code := map[problem.Severity]string{problem.Error: "1;31", problem.Warning: "1;33", problem.Note: "1;36"}[s]
	return p.in(code, s.String())
}

type printer struct {
	w     *bufio.Writer
	paint paint
}

func (p *printer) problem(pr *problem.Problem) {
	head := p.paint.severity(pr.Severity) + " " + p.paint.in("1", string(pr.Code)) + ": " + oneLine(pr.Message)
	if pr.At.Source == nil {
		fmt.Fprintf(p.w, "seamwright: %s\n", head)
		p.help(pr)
		return
	}
	if pr.At.Source.Text == "" { // a file that could not be read has no lines
		fmt.Fprintf(p.w, "%s: %s\n", clean(pr.At.Source.Name), head)
		p.help(pr)
		return
	}
	at := pr.At.Source.Position(pr.At.Span.Start)
	fmt.Fprintf(p.w, "%s:%d:%d: %s\n", clean(pr.At.Source.Name), at.Line, at.Column, head)
	gutter := p.gutter(pr)
	p.excerpt(gutter, pr.At, '^', "1;31", "")
	for _, l := range pr.Labels {
		if l.At.Source == nil {
			continue
		}
		pos := l.At.Source.Position(l.At.Span.Start)
		if l.At.Source != pr.At.Source {
			fmt.Fprintf(p.w, "%*s in %s:%d:%d\n", gutter, "", clean(l.At.Source.Name), pos.Line, pos.Column)
		}
		p.excerpt(gutter, l.At, '-', "1;34", oneLine(l.Text))
	}
	p.help(pr)
	p.mended(gutter, pr)
}

// gutter is the width of the largest line number to be shown.
func (p *printer) gutter(pr *problem.Problem) int {
	most := pr.At.Source.Position(pr.At.Span.Start).Line
	for _, l := range pr.Labels {
		if l.At.Source != nil {
			most = max(most, l.At.Source.Position(l.At.Span.Start).Line)
		}
	}
	return max(3, len(fmt.Sprint(most)))
}

// excerpt shows the line on which a place begins, and marks under it.
func (p *printer) excerpt(gutter int, at problem.Place, mark byte, colour, label string) {
	src := at.Source
	pos := src.Position(at.Span.Start)
	text, start := src.Line(pos.Line)
	from := max(0, min(int(at.Span.Start-start), len(text)))
	to := max(from, min(int(at.Span.End-start), len(text)))
	shown, col, width := window(text, from, to)
	marks := strings.Repeat(string(mark), max(1, width))
	if end := src.Position(at.Span.End); end.Line > pos.Line && label == "" && endsWithText(at) {
		label = fmt.Sprintf("as far as line %d", end.Line)
	}
	if label != "" {
		marks += " " + label
	}
	fmt.Fprintf(p.w, "%*d |%s\n", gutter, pos.Line, strings.TrimRight(" "+shown, " "))
	fmt.Fprintf(p.w, "%*s | %s%s\n", gutter, "", strings.Repeat(" ", col), p.paint.in(colour, marks))
}

// endsWithText tells a span that covers several lines from one that only
// takes in the line break.
func endsWithText(at problem.Place) bool {
	text := at.Source.Text
	end := max(0, min(int(at.Span.End), len(text)))
	start := max(0, min(int(at.Span.Start), end))
	return strings.Contains(strings.TrimRight(text[start:end], " \t\r\n"), "\n")
}

func (p *printer) help(pr *problem.Problem) {
	if pr.Help != "" {
		for i, line := range strings.Split(pr.Help, "\n") {
			lead := "help:"
			if i > 0 {
				lead = "     "
			}
			fmt.Fprintf(p.w, "  %s %s\n", p.paint.in("1;32", lead), oneLine(line))
		}
	}
}

// mostMended is how many lines are shown as they would read.
const mostMended = 5

// mended shows the lines as they would read with the edits made, other ones than the
// problem's own with their numbers; nothing where they are many.
func (p *printer) mended(gutter int, pr *problem.Problem) {
	byLine := map[int][]problem.Edit{} // for look-up only
	var lines []int
	src := pr.At.Source
	for _, e := range pr.Edits {
		n := src.Position(e.At.Start).Line
		text, start := src.Line(n)
		from, to := e.At.Start-start, e.At.End-start
		if from < 0 || to < from || int(to) > len(text) || strings.Contains(e.New, "\n") {
			return
		}
		if byLine[n] == nil {
			lines = append(lines, n)
		}
		byLine[n] = append(byLine[n], problem.Edit{At: problem.Span{Start: from, End: to}, New: e.New})
	}
	if len(lines) > mostMended {
		return
	}
	slices.Sort(lines)
	for _, n := range lines {
		text, _ := src.Line(n)
		made, ok := Apply(text, byLine[n])
		if !ok || made == text || len(made) > 200 {
			continue
		}
		shown, _, _ := window(made, 0, 0)
		number := ""
		if n != src.Position(pr.At.Span.Start).Line {
			number = fmt.Sprint(n)
		}
		fmt.Fprintf(p.w, "%*s %s %s\n", gutter, number, p.paint.in("1;32", "+"), shown)
	}
}
