package booklet

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"testing"

	"seamwright/emit/booklet/words"
)

// spoken returns the keys that the package's own text says and counts by, and
// those that it puts together from parts.
func spoken(t *testing.T) (said, counted map[string]bool) {
	t.Helper()
	said, counted = map[string]bool{}, map[string]bool{}
	set := token.NewFileSet()
	packages, err := parser.ParseDir(set, ".", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range packages {
		ast.Inspect(p, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			name, ok := call.Fun.(*ast.SelectorExpr)
			literal, text := call.Args[0].(*ast.BasicLit)
			if !ok || !text {
				return true
			}
			key, _ := strconv.Unquote(literal.Value)
			switch name.Sel.Name {
			case "say":
				said[key] = true
			case "count":
				counted[key] = true
			}
			return true
		})
	}
	// Put together from the model: the fabric's value, what is scrappy, the grade.
	for _, key := range []string{"light", "medium", "dark", "scrappy_piece", "scrappy_section", "scrappy_unit", "scrappy_block",
		"grade_1", "grade_2", "grade_3", "grade_4"} {
		said[key] = true
	}
	return said, counted
}

func TestEveryMessageIsUsed(t *testing.T) {
	said, counted := spoken(t)
	if len(said) < 50 || len(counted) < 3 {
		t.Fatalf("only %d and %d keys were found", len(said), len(counted))
	}
	c, _ := words.In(words.Default)
	for key := range said {
		if !c.Has(key) || c.Has(key+".one") { // the latter is counted by
			t.Errorf("%q is said, and not in the catalogue", key)
		}
	}
	for key := range counted {
		if !c.Has(key+".one") || !c.Has(key+".other") {
			t.Errorf("%q is counted by, and not in the catalogue twice", key)
		}
	}
	text, err := os.ReadFile("words/en.txt")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		key, _, ok := strings.Cut(line, " =")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		base := strings.TrimSuffix(strings.TrimSuffix(key, ".one"), ".other")
		if !said[key] && !counted[base] {
			t.Errorf("%q is in the catalogue, and never said", key)
		}
	}
}
