package lang

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/lang/problem"
)

var update = flag.Bool("update", false, "write the golden files anew")

// A mistake is a line as a beginner might write it, in the block boat; the
// line it stands for is there in the sound text.
type mistake struct{ name, right, wrong string }

const sound = `fabric sky "sky" light #dfeaf0
fabric hull "hull" dark #33312e scrappy by block

unit beam(rows: count = 2, lit: fabric) 4 x rows {
  check rows > 0 "a beam has a row"
  section A { piece lit at c }
}

block boat 8 x 8 finished 6in, 8in {
  let deck = 2 1/2  // where hull and sails meet
  section A {
    1 sky   at (3, 4)
    2 hull  along (0, deck) -- (8, deck) at s
  }
  section B {
    1 hull  at (4, 7)
  }
  for i in 0..1 {
    place beam(rows: 2, lit: sky) at (4 * i, 0) turn 90deg
  }
  join w -- e, n -- s from 12in
}
`

func mistakes() []mistake {
	return []mistake{
		{"points side by side", "join w -- e, n", "join w e, n"},
		{"a missing along", "2 hull  along (0, deck) -- (8, deck)", "2 hull (0, deck) -- (8, deck)"},
		{"a missing along before names", "2 hull  along (0, deck) -- (8, deck)", "2 hull w -- e"},
		{"a missing at", "1 sky   at (3, 4)", "1 sky (3, 4)"},
		{"a missing comma in a point", "(3, 4)", "(3 4)"},
		{"a missing comma between lines", "e, n -- s", "e n -- s"},
		{"a missing comma between sizes", "6in, 8in", "6in 8in"},
		{"a missing closing brace", "at s\n  }", "at s\n"},
		{"a missing closing brace on one line", "piece lit at c }", "piece lit at c"},
		{"a missing opening brace", "section A {\n", "section A\n"},
		{"a closing brace too many", "at (4, 7)", "at (4, 7) }"},
		{"a blank before a unit", "6in, 8in", "6 in, 8in"},
		{"dashes for a comment", "  // where hull and sails meet", " -- where hull and sails meet"},
		{"dashes for a comment on a line", "  section B", "  -- the second section\n  section B"},
		{"an inch mark", "6in, 8in", `6", 8"`},
		{"inches in words", "6in, 8in", "6 inches, 8 inches"},
		{"a degree sign", "90deg", "90°"},
		{"a fraction in one character", "2 1/2", "2½"},
		{"a times sign", "8 x 8", "8 × 8"},
		{"a long dash", "join w -- e", "join w — e"},
		{"curly quotes", `"hull"`, "“hull”"},
		{"an unfinished line", "let deck = 2 1/2  // where hull and sails meet", "let deck ="},
		{"a size without blanks", "8 x 8", "8x8"},
		{"a size with a star", "8 x 8", "8 * 8"},
		{"a misspelt word", "section B", "secton B"},
		{"a word with a blank in it", "section B", "sect ion B"},
		{"words run together", "let deck", "letdeck"},
		{"no let", "let deck", "deck"},
		{"a single = in a test", "rows > 0", "rows = 1"},
		{"a named value with =", "rows: 2", "rows = 2"},
		{"a parameter without a kind", "rows: count = 2", "rows = 2"},
		{"an unclosed parenthesis", "(8, deck) at s", "(8, deck at s"},
		{"an unclosed text", `"a beam has a row"`, `"a beam has a row`},
		{"a color without its sign", "#33312e", "33312e"},
		{"a short color", "#dfeaf0", "#def"},
		{"a join in a section", "    1 hull  at (4, 7)", "    1 hull  at (4, 7)\n    join w -- e"},
		{"a section at the top", "unit beam", "section Z { 1 sky at c }\nunit beam"},
		{"a fabric in a block", "  for i in", "  fabric sea light #123456\n  for i in"},
		{"at before along", "along (0, deck) -- (8, deck) at s", "at s along (0, deck) -- (8, deck)"},
		{"a clause twice", "turn 90deg", "turn 90deg turn 90deg"},
		{"a reserved word for a name", "let deck", "let line"},
		{"three sides", "rows > 0", "0 < rows < 9"},
		{"a decimal comma", "(3, 4)", "(3,5, 4)"},
		{"a number without its zero", "(3, 4)", "(.5, 4)"},
		{"a blank before a helper's parenthesis", "(3, 4)", "mid (w, e)"},
		{"finished sizes of a unit", "4 x rows {", "4 x rows finished 4in {"},
		{"drawn and sewn", "  for i in", "  line n -- s\n  for i in"},
		{"a square bracket", "(3, 4)", "[3, 4]"},
		{"another language's comment", "  section B", "  /* the second */\n  section B"},
	}
}

// What is told for each mistake, whole, is kept in a file to be read.
func TestMistakes(t *testing.T) {
	if _, problems := parse(sound); len(problems) > 0 {
		t.Fatal(render(&problems[0]))
	}
	var b strings.Builder
	for _, m := range mistakes() {
		if strings.Count(sound, m.right) != 1 {
			t.Errorf("%s: %q does not stand in the text once", m.name, m.right)
		}
		text := strings.Replace(sound, m.right, m.wrong, 1)
		_, problems := Parse(&problem.Source{Name: "boat.seam", Text: text})
		fmt.Fprintf(&b, "== %s\n", m.name)
		for i := range problems {
			b.WriteString(render(&problems[i]))
		}
		if len(problems) == 0 {
			t.Errorf("%s: nothing is told", m.name)
		}
		alike := map[problem.Code]bool{}
		for _, p := range problems {
			alike[p.Code] = true
			if p.Severity != problem.Error {
				t.Errorf("%s is no error", m.name)
			}
		}
		if len(alike) > 1 {
			t.Errorf("%s: one mistake is told in %d ways", m.name, len(alike))
		}
	}
	golden(t, "testdata/mistakes.golden", b.String())
}

// Where every mistake has an edit, the edits give a sound text.
func TestMistakesMended(t *testing.T) {
	mended := 0
	for _, m := range mistakes() {
		text := strings.Replace(sound, m.right, m.wrong, 1)
		_, problems := parse(text)
		var edits []problem.Edit
		whole := true
		for _, p := range problems {
			edits = append(edits, p.Edits...)
			whole = whole && len(p.Edits) > 0
		}
		if !whole {
			continue
		}
		mended++
		if _, left := parse(mend(text, edits)); len(left) > 0 {
			t.Errorf("%s: the edits leave\n%s", m.name, render(&left[0]))
		}
	}
	if mended < 25 {
		t.Errorf("only %d of the mistakes are mended by edits", mended)
	}
}

// Five mistakes of five kinds are told, each once, in one run.
func TestMistakesTogether(t *testing.T) {
	text := sound
	for _, change := range [][2]string{
		{`"sky" light`, "“sky” light"},
		{"finished 6in", "finished 6 in"},
		{"1 sky   at (3, 4)", "1 sky   at (3 4)"},
		{"at s\n  }", "at s\n"},
		{"join w -- e", "join w e"},
	} {
		text = strings.Replace(text, change[0], change[1], 1)
	}
	_, problems := parse(text)
	var codes []problem.Code
	for _, p := range problems {
		codes = append(codes, p.Code)
	}
	want := []problem.Code{Typographic, UnitApart, CommaMissing, BraceMissing, JoinsTwo}
	if diff := cmp.Diff(want, codes); diff != "" {
		t.Error(diff)
	}
}

// golden compares a text with a file, or writes it with -update.
func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s is out of date; look, then run with -update\n%s", path, diff)
	}
}
