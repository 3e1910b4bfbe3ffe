package vscode_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/lang"
	"seamwright/lang/problem"
)

// kinds of scope that a word of each class may have
var (
	ofWords   = []string{"keyword.", "storage.", "constant.language."}
	ofNames   = []string{"variable.", "entity."}
	ofClasses = map[string][]string{
		"String": {"string."}, "Number": {"constant.numeric.", "keyword.other.unit."}, "Colour": {"constant.other.color."},
	}
)

func begins(scope string, with []string) bool {
	for _, w := range with {
		if strings.HasPrefix(scope, w) {
			return true
		}
	}
	return false
}

func TestEveryWordOfTheLanguageIsColored(t *testing.T) {
	g := readGrammar(t)
	for _, word := range strings.Fields(lang.ReservedWords) {
		for _, s := range g.scopes(word) {
			if !begins(s, ofWords) {
				t.Errorf("%s is %q", word, s)
			}
		}
		name := word + "let" // a name that only begins so
		for _, s := range g.scopes(name + "_" + word) {
			if s != "" {
				t.Errorf("%s is %q", name, s)
			}
		}
	}
}

// The lexer of the language judges: in all examples and families every word has
// the color of what it is, every comment is one, and nothing else is colored so.
func TestColorsAreThoseOfTheLexer(t *testing.T) {
	g := readGrammar(t)
	seen := map[string]int{}
	var files []string
	for _, pattern := range []string{"../../../examples/*.seam", "../../../examples/*/*.seam", "../../../lang/families/*.seam", "testdata/*.seam"} {
		some, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, some...)
	}
	if len(files) < 20 {
		t.Fatalf("only %d patterns were found", len(files))
	}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text := string(b)
		scopes := g.scopes(text)
		commented := make([]bool, len(text))
		tree, _ := lang.Parse(&problem.Source{Name: file, Text: text})
		for _, c := range tree.Comments {
			want := "comment.line.double-slash.seam"
			if c.Doc {
				want = "comment.line.documentation.seam"
			}
			for i := c.Span.Start; i < c.Span.End; i++ {
				commented[i] = true
				if scopes[i] != want {
					t.Fatalf("%s: in the comment %q there is %q", file, c.Text, scopes[i])
				}
			}
		}
		for i, s := range scopes {
			if strings.HasPrefix(s, "comment.") && !commented[i] && text[i] != '\r' && text[i] != '\n' && text[i] != ' ' {
				t.Fatalf("%s: a comment at %q", file, text[i:min(len(text), i+30)])
			}
		}
		tokens, _ := lang.Tokens(text)
		for i, w := range tokens {
			may, class := ofNames, w.Class
			switch {
			case ofClasses[w.Class] != nil:
				may = ofClasses[w.Class]
			case w.Class == "" && 'a' <= w.Text[0] && w.Text[0] <= 'z' && w.Text != "x":
				may, class = ofWords, "word"
			case w.Class == "Name" || w.Text == "x":
			case w.Text == "--" || w.Text == "..":
				may = []string{"keyword.operator.seam"}
			default:
				continue
			}
			seen[class]++
			for at := w.At.Start; at < w.At.End; at++ {
				if s := scopes[at]; !begins(s, may) && !(s == "" && class == "Name") && !(s == "" && w.Text == "x") {
					t.Errorf("%s: %q behind %q is %q", file, w.Text, tokens[max(0, i-1)].Text, s)
					break
				}
			}
		}
	}
	for class, least := range map[string]int{"word": 500, "Name": 500, "Number": 500, "String": 50, "Colour": 50} {
		if seen[class] < least {
			t.Errorf("only %d of %s were looked at", seen[class], class)
		}
	}
}

// What the engine of Visual Studio Code makes of the grammar, written down by
// testdata/scopes.js. It holds our reading of the grammar, by which the other tests
// go, to the engine's.
func TestTheEngineColorsAlike(t *testing.T) {
	text, err := os.ReadFile("testdata/boat.seam")
	if err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile("testdata/boat.scopes")
	if err != nil {
		t.Fatal(err)
	}
	scopes := readGrammar(t).scopes(string(text))
	var got strings.Builder
	for i := 0; i < len(text); {
		end := i + 1
		for end < len(text) && scopes[end] == scopes[i] && text[end] != '\n' {
			end++
		}
		if scopes[i] != "" && text[i] != '\n' {
			got.WriteString(scopes[i] + "\t" + string(text[i:end]) + "\n")
		}
		i = end
	}
	if got.String() != string(want) {
		t.Errorf("got\n%s\nwant\n%s", got.String(), want)
	}
}
