package lang

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"seamwright/lang/problem"
)

// samples are texts without mistakes: the test's own and every real one.
func samples(t rapid.TB) map[string]string {
	t.Helper()
	texts := map[string]string{}
	for _, glob := range []string{"testdata/good/*.seam", "families/*.seam", "../examples/*.seam", "../examples/*/*.seam"} {
		paths, err := filepath.Glob(glob)
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			texts[path] = string(text)
		}
	}
	if len(texts) < 3 {
		t.Fatal("too few samples found")
	}
	return texts
}

func parse(text string) (*File, []problem.Problem) {
	return Parse(&problem.Source{Name: "test.seam", Text: text})
}

// specification parses by the tagged grammar alone.
var specification = sync.OnceValues(grammar)

// specified returns the tree by the tagged grammar, or why there is none. A
// text in which the lexer finds a fault is none of the language.
func specified(t rapid.TB, text string) ([]Decl, error) {
	t.Helper()
	p, err := specification()
	if err != nil {
		t.Fatal(err)
	}
	s := newScanner(text)
	for {
		if tok, _ := s.Next(); tok.EOF() {
			break
		}
	}
	if len(s.faults) > 0 {
		return nil, participle.Errorf(lexer.Position{}, "%s", s.faults[0].Message)
	}
	root, err := p.ParseString("", text)
	if err != nil {
		return nil, err
	}
	return root.tree(), nil
}

// sameTree compares trees but for places and the blanks in a number.
func sameTree(docs bool) cmp.Options {
	options := cmp.Options{
		cmp.Exporter(func(typ reflect.Type) bool { return true }),
		cmpopts.IgnoreTypes(Span{}),
		cmpopts.IgnoreFields(Number{}, "Text"),
		cmpopts.EquateEmpty(),
	}
	if !docs {
		options = append(options, cmpopts.IgnoreFields(Unit{}, "Doc"), cmpopts.IgnoreFields(Fabric{}, "Doc"), cmpopts.IgnoreFields(Colorway{}, "Doc"))
	}
	return options
}

// agree holds the parser to the specification for one text.
func agree(t rapid.TB, text string) (accepted bool) {
	t.Helper()
	f, problems := parse(text)
	for _, p := range problems {
		switch p.Code {
		case NotText, TooLarge, TooDeep:
			return false // limits are no matter of the grammar
		}
	}
	mixed := len(problems) > 0 && problems[0].Code == MixedUnit // a rule beyond the grammar
	for len(problems) > 0 && problems[0].Code == MixedUnit {
		problems = problems[1:]
	}
	want, err := specified(t, text)
	switch {
	case err == nil && len(problems) > 0:
		t.Fatalf("the grammar accepts what the parser does not:\n%s\n%s", render(&problems[0]), text)
	case err != nil && len(problems) == 0:
		t.Fatalf("the parser accepts what the grammar does not: %v\n%s", err, text)
	case err == nil && !mixed:
		if diff := cmp.Diff(want, f.Decls, sameTree(false)); diff != "" {
			t.Fatalf("trees differ (-grammar +parser):\n%s\n%s", diff, text)
		}
	}
	return err == nil
}

func TestGrammarSamples(t *testing.T) {
	for path, text := range samples(t) {
		if !agree(t, text) {
			t.Errorf("%s is not accepted", path)
		}
	}
}

func TestGrammarGenerated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := lay(t, drawn(t))
		if !agree(t, text) {
			_, err := specified(t, text)
			t.Fatalf("a program after the grammar is not accepted: %v\n%s", err, text)
		}
	})
}

// Whole tokens lost, doubled or exchanged: the most likely way to find a text
// that only one of the two accepts.
func TestGrammarMutated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		toks := drawn(t)
		if len(toks) < 2 {
			t.Skip("nothing to mutate")
		}
		for range rapid.IntRange(1, 3).Draw(t, "mutations") {
			i := rapid.IntRange(0, len(toks)-2).Draw(t, "where")
			switch rapid.IntRange(0, 3).Draw(t, "how") {
			case 0:
				toks = append(toks[:i:i], toks[i+1:]...)
			case 1:
				toks = append(toks[:i+1:i+1], toks[i:]...)
			case 2:
				toks = append(toks[:i:i], append([]generated{toks[i+1], toks[i]}, toks[i+2:]...)...)
			case 3:
				toks[i].text = rapid.SampledFrom(append(strings.Fields(reservedWords),
					"(", ")", "{", "}", ",", ";", ":", "--", "..", "=", "==", "+", "-", "sky", "1", `"t"`, "#123456")).Draw(t, "instead")
			}
			if len(toks) < 2 {
				break
			}
		}
		agree(t, lay(t, toks))
	})
}
