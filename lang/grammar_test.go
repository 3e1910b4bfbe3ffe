package lang_test

import (
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"seamwright/lang"
	"seamwright/lang/grammar"
	"seamwright/lang/problem"
)

// specification parses by the tagged grammar alone.
var specification = sync.OnceValues(grammar.New)

// specified returns the tree by the tagged grammar, or why there is none.
func specified(t rapid.TB, text string) ([]lang.Decl, error) {
	t.Helper()
	p, err := specification()
	if err != nil {
		t.Fatal(err)
	}
	root, err := p.ParseString("", text)
	if err != nil {
		return nil, err
	}
	return lang.TreeOf(root), nil
}

// agree holds the parser to the specification for one text.
func agree(t rapid.TB, text string) (accepted bool) {
	t.Helper()
	f, problems := lang.Parse(&problem.Source{Name: "test.seam", Text: text})
	for _, p := range problems {
		switch p.Code {
		case lang.NotText, lang.TooLarge, lang.TooDeep:
			return false // limits are no matter of the grammar
		}
	}
	mixed := len(problems) > 0 && problems[0].Code == lang.MixedUnit // a rule beyond the grammar
	for len(problems) > 0 && problems[0].Code == lang.MixedUnit {
		problems = problems[1:]
	}
	want, err := specified(t, text)
	switch {
	case err == nil && len(problems) > 0:
		t.Fatalf("the grammar accepts what the parser does not:\n%s\n%s", lang.Render(&problems[0]), text)
	case err != nil && len(problems) == 0:
		t.Fatalf("the parser accepts what the grammar does not: %v\n%s", err, text)
	case err == nil && !mixed:
		if diff := cmp.Diff(want, f.Decls, lang.SameTree()); diff != "" {
			t.Fatalf("trees differ (-grammar +parser):\n%s\n%s", diff, text)
		}
	}
	return err == nil
}

func TestGrammarSamples(t *testing.T) {
	for path, text := range lang.Samples(t) {
		if !agree(t, text) {
			t.Errorf("%s is not accepted", path)
		}
	}
}

func TestGrammarGenerated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := lang.DrawnText(t)
		if !agree(t, text) {
			_, err := specified(t, text)
			t.Fatalf("a program after the grammar is not accepted: %v\n%s", err, text)
		}
	})
}

// Whole tokens lost, doubled or exchanged: the most likely way to find a text
// that only one of the two accepts.
func TestGrammarMutated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { agree(t, lang.MutatedText(t)) })
}

// FuzzGrammar: the parser and the specification accept the same.
func FuzzGrammar(f *testing.F) {
	lang.Seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			t.Skip("the tagged grammar is slow and recurses")
		}
		agree(t, text)
	})
}
