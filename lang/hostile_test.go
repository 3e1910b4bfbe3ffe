package lang

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"seamwright/lang/problem"
)

// hostileText is the size of a hostile text: what takes quadratic time on one is
// slower than patience, what does not takes a small part of it.
const (
	hostileText = 1 << 17
	patience    = 2 * time.Second
)

// Texts made to be slow, deep or full of mistakes are read in bounded time, and
// at most a hundred problems and a note are told.
func TestHostile(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	unit := "unit u 8 x 8 {\n"
	texts := map[string]string{
		"nested parentheses": unit + "let a = " + strings.Repeat("(", 100_000) + "1" + strings.Repeat(")", 100_000) + "\n}",
		"nested blocks":      unit + strings.Repeat("if true {", 50_000) + strings.Repeat("}", 50_000) + "\n}",
		"nested sections":    unit + strings.Repeat("section A {\n", 60_000),
	}
	for _, piece := range []string{
		"(", ")", "{", "}", "{}", "[", "-", "- ", "not ", "--", "a -- ", "a--b ", "..", ".x", "1.", ",", ";", "=", "\"", "\"\n", "'", "“", "½", "2 ", "2\n", "1/2 ",
		"#", "# ", "#\n", "//\n", "/*", "/* */", "\\", "\r", "@ ", "\x01", "é", "ﬀ", "\u200b", "\n", "a", "a ", "a\n", "x ", "x\n", "if ", "if\n", "if a\n", "else ",
		"then ", "1 if\n", "let ", "let\n", "let a = \n", "let a = 1 +\n", "letx ", "letx\n", "le t\n", "section ", "section\n", "section {\n", "section A { ",
		"unit ", "unit\n", "unit (\n", "unit u(\n", "block b 8 x 8 finished\n", "fabric\n", "fabric a b\n", "pattern {\n", "pad {", "pad { a\n", "a\nb\n", "a(", "a(b ",
		"for i in ", "for i in a {", "1 a along b -- c ", "1 a ", "1 a\n", "1 a at b -- the words ", "-- the words\n", "place ", "place u at a at b ", "line a -- ", "join a b ",
		"check a = ", "a = 1\n", "accept\n", "use\n", "colorway c {\n", "{ a as\n",
	} {
		full := strings.Repeat(piece, hostileText/len(piece))
		texts[fmt.Sprintf("%q alone", piece)] = full
		texts[fmt.Sprintf("%q in a unit", piece)] = unit + full
		texts[fmt.Sprintf("%q in a section", piece)] = unit + "section A {\n" + full + "\n}\n}\n"
		texts[fmt.Sprintf("%q in settings", piece)] = "pad {\n" + full + "\n}\n"
		texts[fmt.Sprintf("%q in a value", piece)] = unit + "let a = " + full + "\n}\n"
	}
	for name, text := range texts {
		start := time.Now()
		f, problems := parse(text)
		if took := time.Since(start); took > patience {
			t.Errorf("%s: takes %v", name, took)
		}
		if len(problems) > maxProblems+1 {
			t.Errorf("%s: %d problems", name, len(problems))
		}
		if len(problems) > maxProblems {
			if last := problems[maxProblems]; last.Code != TooMany || last.Severity != problem.Note {
				t.Errorf("%s: the last of too many problems is %s", name, last.Code)
			}
		}
		if strings.HasPrefix(name, "nested") {
			if h := heightOf(f); h > 8*maxDepth {
				t.Errorf("%s: the tree is %d high", name, h)
			}
		}
	}
}

// What is just as deep as allowed is read, and one more is not.
func TestDepth(t *testing.T) {
	for _, c := range []struct {
		name string
		text func(n int) string
		most int
	}{
		{"parentheses", func(n int) string { return "let a = " + strings.Repeat("(", n) + "1" + strings.Repeat(")", n) }, 198},
		{"signs", func(n int) string { return "let a = " + strings.Repeat("- ", n) + "1" }, 198},
		{"a sum", func(n int) string { return "let a = 1" + strings.Repeat(" + 1", n) }, 199},
		{"fields", func(n int) string { return "let a = b" + strings.Repeat(".x", n) }, 199},
		{"conditions", func(n int) string { return strings.Repeat("if true { ", n) + strings.Repeat("}", n) }, 199},
		{"other cases", func(n int) string { return "if true {}" + strings.Repeat(" else if true {}", n) }, 198},
	} {
		for n := c.most; n <= c.most+1; n++ {
			_, problems := parse("unit u 8 x 8 {\n" + c.text(n) + "\n}\n")
			if n == c.most && len(problems) > 0 {
				t.Errorf("%d %s are too deep: %s", n, c.name, problems[0].Message)
			}
			if n > c.most && (len(problems) != 1 || problems[0].Code != TooDeep) {
				t.Errorf("%d %s: %v", n, c.name, problems)
			}
		}
	}
}
