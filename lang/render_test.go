package lang

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"seamwright/lang/problem"
)

// render writes a problem as a person meets it: place and message, the line
// with the span marked, second places, help, and the line as the edits mend it.
func render(p *problem.Problem) string {
	var b strings.Builder
	place := func(at problem.Place, mark string) {
		pos := at.Source.Position(at.Span.Start)
		text, start := at.Source.Line(pos.Line)
		end := min(at.Span.End, start+int32(len(text)))
		width := max(1, utf8.RuneCountInString(text[min(at.Span.Start-start, int32(len(text))):max(0, end-start)]))
		fmt.Fprintf(&b, "  | %s\n  | %s%s\n", text, strings.Repeat(" ", pos.Column-1), strings.Repeat(mark, width))
	}
	pos := p.At.Source.Position(p.At.Span.Start)
	fmt.Fprintf(&b, "%s:%d:%d: %s %s: %s\n", p.At.Source.Name, pos.Line, pos.Column, p.Severity, p.Code, p.Message)
	place(p.At, "^")
	for _, l := range p.Labels {
		fmt.Fprintf(&b, "  %s:\n", l.Text)
		place(l.At, "-")
	}
	if p.Help != "" {
		fmt.Fprintf(&b, "  help: %s\n", p.Help)
	}
	if len(p.Edits) > 0 {
		mended := mend(p.At.Source.Text, p.Edits)
		first := p.At.Source.Position(p.Edits[0].At.Start).Line
		lines := strings.Split(mended, "\n")
		count := 1
		for _, e := range p.Edits {
			count += strings.Count(e.New, "\n")
		}
		for _, line := range lines[first-1 : min(first-1+count, len(lines))] {
			fmt.Fprintf(&b, "  + %s\n", line)
		}
	}
	return b.String()
}

// mend applies edits, which are in order.
func mend(text string, edits []problem.Edit) string {
	for i := len(edits) - 1; i >= 0; i-- {
		e := edits[i]
		text = text[:e.At.Start] + e.New + text[e.At.End:]
	}
	return text
}
