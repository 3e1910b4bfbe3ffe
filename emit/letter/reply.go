package letter

import (
	"fmt"
	"strings"

	"seamwright/emit/edition"
)

// reply words the answer, ready to be sent.
func (a *answer) reply() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Thank you for writing about %s.\n\n", a.newest.Title())
	fmt.Fprintf(&b, "%s\n", a.holds())
	if len(a.causes) == 0 {
		b.WriteString("\nTo find the cause I need a little more: what the 6-inch rule and the 15-cm rule on your sheet measure, what your block measures, and the number of the space that was not covered, with the size of the patch that you cut.\n")
	}
	for _, c := range a.causes {
		fmt.Fprintf(&b, "\n%s\n", strings.TrimSpace(c.Say))
	}
	b.WriteString("\nWith kind regards")
	if who := edition.Find(a.newest.Words, "author"); who != "" {
		b.WriteString(",\n" + who)
	}
	return b.String() + "\n"
}

// holds says what the maker has, as far as the letter tells.
func (a *answer) holds() string {
	s := fmt.Sprintf("I take it that you sew from edition %d", a.record.Edition)
	if a.letter.Mark != "" && a.paper != "" {
		s = fmt.Sprintf("By its mark %s your sheet is of edition %d, %s", readMark(a.letter.Mark), a.record.Edition, madeFor(a.paper))
	}
	if a.size != nil {
		s += ", the block that finishes " + a.size.Words()
	}
	if a.record == a.newest {
		return s + ". That is the newest edition."
	}
	return s + fmt.Sprintf(". The newest is edition %d.", a.newest.Edition)
}

// madeFor says for what a sheet was made.
func madeFor(paper string) string {
	if strings.HasPrefix(paper, "pad ") {
		return "from a printed pad"
	}
	return "made for " + onPaper(paper) + " paper"
}
