package lang

import (
	"os"
	"path/filepath"
	"reflect"

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

// sameTree compares trees but for places and the blanks in a number.
func sameTree(docs bool) cmp.Options {
	options := cmp.Options{
		cmp.Exporter(func(typ reflect.Type) bool { return true }),
		cmpopts.IgnoreTypes(Span{}),
		cmpopts.EquateEmpty(),
	}
	if !docs {
		options = append(options, cmpopts.IgnoreFields(Unit{}, "Doc"), cmpopts.IgnoreFields(Fabric{}, "Doc"), cmpopts.IgnoreFields(Colorway{}, "Doc"))
	}
	return options
}

// newNumber reads a literal by itself.
func newNumber(span Span, text string) (n Number) {
	n.read(span, text)
	return n
}
