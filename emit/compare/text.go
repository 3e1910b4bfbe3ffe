package compare

import (
	"strconv"
	"strings"
	"unicode"

	"seamwright/emit/edition"
)

// Text tells a report to a person at a terminal. Old and new name the versions.
func (r *Report) Text(old, new string) string {
	var b strings.Builder
	b.WriteString(old + " -> " + new + ": " + r.InShort() + "\n")
	block := "\x00"
	for i := range r.Changes {
		c := &r.Changes[i]
		if c.Block != block {
			block = c.Block
			b.WriteString(r.heading(block) + "\n")
		}
		b.WriteString("  " + clean(r.Line(c)) + "\n")
	}
	if r.Untold() {
		b.WriteString("(" + untold + ")\n")
	}
	return b.String()
}

const untold = "Quilts are not compared: one of these was recorded before it was recorded how quilts are laid out."

// InShort says how much changed.
func (r *Report) InShort() string {
	switch n := len(r.Changes); n {
	case 0:
		return "nothing that is printed changed"
	case 1:
		return "1 change"
	default:
		return strconv.Itoa(n) + " changes"
	}
}

func (r *Report) heading(block string) string {
	if block == "" {
		return "the pattern"
	}
	for _, of := range []*edition.Record{r.New, r.Old} {
		for i := range of.Blocks {
			if b := &of.Blocks[i]; b.Name == block {
				return clean(b.Title)
			}
		}
	}
	return block
}

// Line tells one change: "A2 fabric: lamp -> night, at 8 in".
func (r *Report) Line(c *Change) string {
	s := c.Name() + ": " + c.What()
	if at := r.at(c); len(at) > 0 {
		s += ", at " + list(at)
	}
	return s
}

// Name says what of what changed: "A2 fabric".
func (c *Change) Name() string {
	switch {
	case c.onlySubject():
		return c.Subject
	case c.onlyAspect():
		return c.Aspect
	}
	return c.Subject + " " + c.Aspect
}

// onlySubject reports whether the subject says all.
func (c *Change) onlySubject() bool {
	switch c.Aspect {
	case "words", "setting", "print", "text", "section", "space", "join":
		return true
	}
	return false
}

// onlyAspect reports whether the aspect says all.
func (c *Change) onlyAspect() bool { return c.Subject == c.Aspect || c.Subject == "sheets" }

// What tells the old and the new.
func (c *Change) What() string {
	var s string
	switch {
	case c.Old == "" && c.New == "":
		return c.Note
	case c.Old == c.New:
		s = c.New
	case c.Old == "":
		s = "new: " + c.New
	case c.New == "":
		s = "gone; was " + c.Old
	default:
		s = c.Old + " -> " + c.New
	}
	if c.Note != "" {
		s += " (" + c.Note + ")"
	}
	return s
}

// at lists the sizes of a change, where it is not at all of those that both
// versions have.
func (r *Report) at(c *Change) []string {
	if len(c.Sizes) == 0 {
		return nil
	}
	both := 0
	for i := range r.New.Blocks {
		if b := &r.New.Blocks[i]; b.Name == c.Block {
			for k := range b.Sizes {
				if r.matched[b.Name+"/"+b.Sizes[k].Name] != nil {
					both++
				}
			}
		}
	}
	if len(c.Sizes) == both {
		return nil
	}
	return c.Sizes
}

func list(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// clean makes an author's text harmless to a terminal: one line, nothing that is
// not seen or that turns the direction of writing.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
			return -1
		}
		return r
	}, s)
}

// Markdown tells a report for a page of a code host or a mail: a table for each
// block. Level is that of its headings.
func (r *Report) Markdown(old, new string, level int) string {
	var b strings.Builder
	hash := strings.Repeat("#", level)
	b.WriteString(hash + " " + escape(r.New.Title()) + "\n\n" + escape(old) + " to " + escape(new) + ": " + r.InShort() + ".\n")
	block := "\x00"
	for i := range r.Changes {
		c := &r.Changes[i]
		if c.Block != block {
			block = c.Block
			b.WriteString("\n" + hash + "# " + escape(r.heading(block)) + "\n\n| what | was | is | affects |\n|---|---|---|---|\n")
		}
		what := escape(c.Name())
		if at := r.at(c); len(at) > 0 {
			what += ", at " + escape(list(at))
		}
		was, is := escape(c.Old), escape(c.New)
		if c.Note != "" {
			if is != "" {
				is += "; "
			}
			is += escape(c.Note)
		}
		b.WriteString("| " + what + " | " + was + " | " + is + " | " + c.Affects + " |\n")
	}
	if r.Untold() {
		b.WriteString("\n" + untold + "\n")
	}
	return b.String()
}

// escape makes a text plain in a cell of Markdown: what could begin a link, a
// tag, a cell or emphasis is escaped.
func escape(s string) string {
	var b strings.Builder
	for _, r := range clean(s) {
		switch {
		case strings.ContainsRune("\\`*_[]|#~!$", r):
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '&':
			b.WriteString("&amp;")
		case r == '@': // would call a person on a code host
			b.WriteString("&#64;")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
