package lsp

import (
	"strings"

	"seamwright/lang"
)

// A context is what a cursor stands in, from the words before it alone, so that it
// holds while the text is half written.
type context struct {
	scope  string       // top, pattern, quilt, pad, colorway, unit or section
	stmt   []lang.Token // of the statement, from its first word to before the cursor's
	prefix lang.Span    // the word that is being typed
	parens int          // that are open in the statement
}

// context works out what stands before an offset; ok is false in comments and in
// texts in quotes.
func (t *text) context(offset int32) (c context, ok bool) {
	start, _ := t.line(t.position(offset).Line)
	for _, com := range t.tree().Comments {
		if com.Span.Start >= start && com.Span.Start < offset {
			return c, false // it runs to the end of the line
		}
	}
	if before := strings.ReplaceAll(t.source.Text[start:offset], `\"`, ""); strings.Count(before, `"`)%2 == 1 {
		return c, false
	}
	c = context{scope: "top", prefix: lang.Span{Start: offset, End: offset}}
	var open []string
	head, lastLine := "", -1
	for _, w := range t.words() {
		if w.At.Start >= offset {
			break
		}
		if w.At.End >= offset && isLetter(w.Text[0]) {
			c.prefix = w.At
			if t.position(w.At.Start).Line != lastLine && c.begins(w) {
				c.stmt, c.parens = nil, 0
			}
			break
		}
		line := t.position(w.At.Start).Line
		if line != lastLine && c.begins(w) {
			c.stmt, c.parens = nil, 0
		}
		lastLine = line
		switch w.Text {
		case "{":
			open = append(open, c.scope)
			switch head {
			case "pattern", "quilt", "pad", "colorway", "section":
				c.scope = head
			case "unit", "block":
				c.scope = "unit"
			}
			c.stmt, c.parens, head = nil, 0, ""
			continue
		case "}":
			if n := len(open); n > 0 {
				c.scope, open = open[n-1], open[:n-1]
			}
			c.stmt, c.parens, head = nil, 0, ""
			continue
		case ";":
			c.stmt, c.parens = nil, 0
			continue
		case "(":
			c.parens++
		case ")":
			c.parens--
		case "pattern", "quilt", "pad", "colorway", "section", "unit", "block":
			if len(c.stmt) == 0 {
				head = w.Text
			}
		case "for", "if", "else":
			head = ""
		}
		c.stmt = append(c.stmt, w)
	}
	if n := len(c.stmt); n > 0 && c.prefix.Start == c.prefix.End && t.position(offset).Line != lastLine && c.mayEnd() {
		c.stmt = nil // a new line begins a new statement
	}
	return c, true
}

// begins reports whether a word that is the first of its line begins a statement.
func (c *context) begins(w lang.Token) bool {
	switch {
	case c.parens > 0:
		return false
	case w.Class == "Number":
		return c.mayEnd()
	case w.Class == "Name":
		return c.mayEnd() // a setting, a fabric, or a word half typed
	case w.Class != "" || w.Text == "" || !isLetter(w.Text[0]):
		return false
	}
	switch w.Text {
	case "let", "join", "section", "piece", "place", "line", "for", "check", "accept",
		"pattern", "use", "fabric", "colorway", "unit", "block", "quilt", "pad":
		return true
	}
	return false
}

// mayEnd reports whether a statement may end where it does, as far as its last word
// tells.
func (c *context) mayEnd() bool {
	switch c.last() {
	case ",", "--", "+", "-", "*", "/", "=", "at", "along", "by", "turn", "as", "of", "from", "in", "and", "or", "not", "if", "then", "else", ":", "(":
		return false
	}
	return true
}

func (c *context) last() string {
	if n := len(c.stmt); n > 0 {
		return c.stmt[n-1].Text
	}
	return ""
}

func (c *context) lastClass() string {
	if n := len(c.stmt); n > 0 {
		return c.stmt[n-1].Class
	}
	return ""
}

func (c *context) first() string {
	if len(c.stmt) > 0 {
		return c.stmt[0].Text
	}
	return ""
}

// inPath returns the part of a path that is typed before an offset, if the offset
// stands in the quotes behind `from`.
func (t *text) inPath(offset int32) (typed lang.Span, ok bool) {
	start, _ := t.line(t.position(offset).Line)
	line := t.source.Text[start:offset]
	i := strings.LastIndexByte(line, '"')
	if i < 0 || strings.Count(line, `"`)%2 == 0 || !strings.HasSuffix(strings.TrimRight(line[:i], " \t"), "from") {
		return lang.Span{}, false
	}
	return lang.Span{Start: start + int32(i) + 1, End: offset}, true
}
