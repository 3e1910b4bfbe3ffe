package lang

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/lang/problem"
)

// scanAll returns the texts of the tokens, and the faults as code@text.
func scanAll(text string) (tokens, faults []string, s *scanner) {
	s = newScanner(text)
	for {
		var tok token
		s.next(&tok)
		if tok.kind == tEOF {
			break
		}
		tokens = append(tokens, text[tok.start:tok.end])
	}
	for _, f := range s.faults {
		faults = append(faults, fmt.Sprintf("%s@%s", f.Code, text[f.At.Span.Start:f.At.Span.End]))
	}
	return tokens, faults, s
}

func TestLexerTokens(t *testing.T) {
	for _, c := range []struct{ text, tokens, faults string }{
		{"let deck = 2 1/2", "let|deck|=|2 1/2", ""},
		{"b8/1/2", "b8|/|1|/|2", ""},
		{"b8/2 1/2", "b8|/|2 1/2", ""},
		{"-2 1/2in", "-|2 1/2in", ""},
		{"1/4in 3/2 in", "1/4in|3/2 in", "L106@3/2 in"},
		{"2\n1/2", "2|1|/|2", ""},
		{"3--1 a---b", "3|--|1|a|--|-|b", ""},
		{"0..3 1..rounds", "0|..|3|1|..|rounds", ""},
		{"1.5..2.5", "1.5|..|2.5", ""},
		{"p.x c .y", "p|.|x|c|.|y", ""},
		{"5 x 6", "5|x|6", ""},
		{"a<=b>=c!=d==e", "a|<=|b|>=|c|!=|d|==|e", ""},
		{"#dfeaf0;#FFFFFF", "#dfeaf0|;|#FFFFFF", ""},
		{`"a \"b\" \\" "//"`, `"a \"b\" \\"|"//"`, ""},
		{"möwe_2 _q", "möwe_2|_q", ""},
		{"a // b\n/// c\n//", "a", ""},
		{"90deg 2.54cm 10mm", "90deg|2.54cm|10mm", ""},
		{"check n >= 1\"one at least\"", `check|n|>=|1|"one at least"`, ""},
		{"\uFEFFlet", "let", ""},

		{"8x8", "8|x|8", "L107@8x8"},
		{"1a", "1|a", "L107@1a"},
		{"4inches", "4inches", "L105@4inches"},
		{"3c7d8c", "3c7d8c", "L110@3c7d8c"},
		{"6\" 6″ 6' 90°", "6\"|6″|6'|90°", "L105@6\"|L105@6″|L105@6'|L105@90°"},
		{"2½ ½ 2 ½in", "2½|½|2 ½in", "L104@½|L104@½|L104@½"},
		{"“boat” ‘sea’ \"mast”", "“boat”|‘sea’|\"mast”", "L104@“boat”|L104@‘sea’|L104@\"mast”"},
		{"n — s – e − 1", "n|—|s|–|e|−|1", "L104@—|L104@–|L104@−"},
		{"2 3/2", "2 3/2", "L108@2 3/2"},
		{"1/0in", "1/0in", "L108@1/0"},
		{"1234567890123", "1234567890123", "L108@1234567890123"},
		{"0.1234567890123", "0.1234567890123", "L108@0.1234567890123"},
		{".5", ".5", "L108@.5"},
		{"1...3", "1|...|3", "L104@..."},
		{"a\u00A0b", "a|b", "L104@\u00A0"},
		{"a\u200Bb", "a|b", "L104@\u200B"},
		{"a @@ b", "a|@@|b", "L103@@@"},
		{"a\x01b", "a|\x01|b", "L103@\x01"},
		{"a \rb", "a|\r|b", "L103@\r"},
		{"\"a\nb", "\"a|b", "L109@\"a"},
		{`"a\n"`, `"a\n"`, `L109@\`},
		{"a #def #1234567", "a|#def|#1234567", "L110@#def"},
		{"# words\na", "a", "L111@# words"},
		{"/* w */ a", "a", "L111@/* w */"},
		{"a /* open\nb", "a|b", "L111@/* open"},
		{"mid[a]", "mid|[|a|]", "L103@[|L103@]"},
	} {
		tokens, faults, _ := scanAll(c.text)
		if got := strings.Join(tokens, "|"); got != c.tokens {
			t.Errorf("%q: tokens %q, want %q", c.text, got, c.tokens)
		}
		if got := strings.Join(faults, "|"); got != c.faults {
			t.Errorf("%q: faults %q, want %q", c.text, got, c.faults)
		}
	}
}

func TestLexerComments(t *testing.T) {
	_, _, s := scanAll("/// doc \r\n// plain\nfabric a /// not doc\n//// rule\n")
	var got []Comment
	for _, c := range s.comments {
		got = append(got, Comment{Text: c.Text, Doc: c.Doc})
	}
	want := []Comment{{Text: "/// doc", Doc: true}, {Text: "// plain"}, {Text: "/// not doc"}, {Text: "//// rule"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestReservedWords(t *testing.T) {
	words := strings.Fields(ReservedWords)
	if !slices.IsSorted(words) || len(words) != int(tUse-tAccept)+1 {
		t.Errorf("%d reserved words are listed, %d are tokens", len(words), tUse-tAccept+1)
	}
	for i, w := range words {
		if k := reserved(w); int(k) != int(tAccept)+i {
			t.Errorf("%s is token %d", w, k)
		}
	}
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		text     string
		num, den int64
		unit     string
	}{
		{"0", 0, 1, ""}, {"007", 7, 1, ""}, {"2.5", 5, 2, ""}, {"0.125in", 1, 8, "in"},
		{"2 1/2", 5, 2, ""}, {"3  3/4in", 15, 4, "in"}, {"1/4in", 1, 4, "in"}, {"10mm", 10, 1, "mm"},
		{"22.5deg", 45, 2, "deg"}, {"2.54cm", 127, 50, "cm"}, {"2 0/5", 2, 1, ""},
		{"999999999999", 999999999999, 1, ""}, {"0.00000000001", 1, 100000000000, ""},
		{"999999 999998/999999", 999999*999999 + 999998, 999999, ""},
		{"2½", 5, 2, ""}, {"½in", 1, 2, "in"}, {`6"`, 6, 1, "in"}, {"6'", 72, 1, "in"},
		{"4 in", 4, 1, "in"}, {"90 °", 90, 1, "deg"}, {"6 inches", 6, 1, "in"},
	} {
		n := newNumber(Span{}, c.text)
		if n.Num != c.num || n.Den != c.den || n.Unit.String() != c.unit || n.Big {
			t.Errorf("%q is %d/%d %q", c.text, n.Num, n.Den, n.Unit)
		}
	}
	for _, text := range []string{"1234567890123", "0.1234567890123", "1234567/2in", "1 1/1234567", "1/0in", "3 1/0"} {
		if n := newNumber(Span{}, text); !n.Big || n.Den != 1 || n.Num != 0 {
			t.Errorf("%q is %+v", text, n)
		}
	}
}

// Whatever is wrong with a text as such is told once.
func TestUnreadable(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		want problem.Code
	}{
		"zero bytes":  {"fabric\x00\x00", NotText},
		"UTF-16":      {"\xff\xfef\x00a\x00b\x00", NotText},
		"Latin-1":     {"fabric a \"caf\xe9\" light #123456 // \xfcber \xe4lles\n", NotText},
		"in a name":   {"fabric f\xe9 light #123456", NotText},
		"a huge text": {strings.Repeat(" ", maxText+1), TooLarge},
		"many tokens": {strings.Repeat(";", maxTokens+1), TooLarge},
	} {
		_, problems := parse(c.text)
		if len(problems) != 1 || problems[0].Code != c.want {
			t.Errorf("%s: %d problems", name, len(problems))
			for i := range problems {
				t.Log(problems[i].Code, problems[i].Message)
			}
		}
	}
	if f, problems := parse(""); len(f.Decls) > 0 || len(problems) > 0 {
		t.Error("an empty text is a file of no declarations")
	}
	if _, problems := parse(strings.Repeat(" ", maxText-maxTokens+1) + strings.Repeat(";", maxTokens-1)); len(problems) > 0 {
		t.Error("a text of the greatest size is refused")
	}
}
