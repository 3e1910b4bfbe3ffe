package letter

import (
	"strconv"
	"strings"

	"seamwright/emit/edition"
)

// reply words the answer, ready to be sent.
func (a *answer) reply() string {
	var b strings.Builder
	b.WriteString(a.say("thank_you", "title", a.newest.Title()) + "\n\n" + a.holds() + "\n")
	if len(a.causes) == 0 {
		b.WriteString("\n" + a.say("need_more") + "\n")
	}
	for _, c := range a.causes {
		b.WriteString("\n" + strings.TrimSpace(c.Say) + "\n")
	}
	if who := edition.Find(a.newest.Words, "author"); who != "" {
		return b.String() + "\n" + a.say("regards_by") + "\n" + who + "\n"
	}
	return b.String() + "\n" + a.say("regards") + "\n"
}

// holds says what the maker has, as far as the letter tells.
func (a *answer) holds() string {
	more := ""
	switch {
	case a.size != nil && len(a.record.Blocks) > 1:
		more = a.say("holds_block", "title", a.block.Title, "size", a.size.Words())
	case a.size != nil:
		more = a.say("holds_size", "size", a.size.Words())
	}
	n := strconv.Itoa(a.record.Edition)
	s := a.say("holds", "n", n, "more", more)
	if a.letter.Mark != "" && a.paper != "" {
		s = a.say("holds_mark", "mark", readMark(a.letter.Mark), "n", n, "made", a.madeFor(a.paper), "more", more)
	}
	if a.record == a.newest {
		return s + " " + a.say("newest")
	}
	return s + " " + a.say("newer", "n", strconv.Itoa(a.newest.Edition))
}

// madeFor says for what a sheet was made.
func (a *answer) madeFor(paper string) string {
	if strings.HasPrefix(paper, "pad ") {
		return a.say("made_pad")
	}
	return a.say("made_for", "paper", onPaper(paper))
}
