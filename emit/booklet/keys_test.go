package booklet

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"strconv"
	"strings"
	"testing"

	"seamwright/emit/booklet/words"
)

// spoken returns the keys that a package's own text says and counts by, and those
// that the booklet puts together from parts.
func spoken(t *testing.T, folder string) (said, counted map[string]bool) {
	t.Helper()
	said, counted = map[string]bool{}, map[string]bool{}
	set := token.NewFileSet()
	packages, err := parser.ParseDir(set, folder, func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
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
			if !ok {
				return true
			}
			for i, arg := range call.Args {
				literal, text := arg.(*ast.BasicLit)
				if !text || literal.Kind != token.STRING {
					continue
				}
				key, _ := strconv.Unquote(literal.Value)
				switch called := name.Sel.Name; {
				case called == "heads", i == 0 && (called == "say" || called == "Say" || called == "heading"):
					said[key] = true
				case i == 0 && (called == "count" || called == "Count"):
					counted[key] = true
				}
			}
			return true
		})
	}
	if folder != "." {
		return said, counted
	}
	// Put together from the model: the fabric's value, what is scrappy, the grade.
	for _, key := range []string{"light", "medium", "dark", "scrappy_piece", "scrappy_section", "scrappy_unit", "scrappy_block",
		"grade_1", "grade_2", "grade_3", "grade_4"} {
		said[key] = true
	}
	return said, counted
}

func TestEveryMessageIsUsed(t *testing.T) {
	said, counted := spoken(t, ".")
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
	unused(t, "words/en.txt", said, counted)

	// Those of the tables are said there, some in the booklet too.
	in, by := spoken(t, "../table")
	tables := words.InTables(words.Default)
	for key := range in {
		if !tables.Has(key) {
			t.Errorf("%q is said in a table, and not in the catalogue", key)
		}
	}
	maps.Copy(in, said)
	maps.Copy(by, counted)
	for _, name := range []string{"cloth_strip", "cloth_length"} { // by what is cut
		by[name] = true
	}
	for _, name := range []string{"quarters", "eighths", "strips", "squares", "cloths"} { // by what it is cut from
		in["source_"+name] = true
	}
	unused(t, "words/tables/en.txt", in, by)

	// The report says its own, and those of the tables, by words of its own too.
	in, by = spoken(t, "../report")
	page, counts := spoken(t, "../html")
	maps.Copy(in, page)
	maps.Copy(by, counts)
	report := words.InReport(words.Default)
	for key := range in {
		if !report.Has(key) && key != "scrappy_" {
			t.Errorf("%q is said in the report, and not in the catalogue", key)
		}
	}
	for key := range by {
		if !report.Has(key + ".other") {
			t.Errorf("%q is counted by in the report, and not in the catalogue", key)
		}
	}
	unused(t, "words/report/en.txt", in, by)

	in, by = spoken(t, "../diagram")
	pictures := words.OnPictures(words.Default)
	for key := range in {
		if !pictures.Has(key) {
			t.Errorf("%q is said on a picture, and not in the catalogue", key)
		}
	}
	for _, key := range []string{"light", "medium", "dark", "finishes", "finishes_more"} {
		in[key] = true
	}
	unused(t, "words/pictures/en.txt", in, by)
}

// unused reports the messages of a file that are never said. What is cut for a
// quilt has the model's own names.
func unused(t *testing.T, name string, said, counted map[string]bool) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		key, _, ok := strings.Cut(line, " =")
		if !ok || strings.HasPrefix(line, "#") || strings.HasPrefix(key, "part_") || strings.HasPrefix(key, "side_") || strings.HasPrefix(key, "way_") {
			continue
		}
		base := strings.TrimSuffix(strings.TrimSuffix(key, ".one"), ".other")
		if !said[key] && !counted[base] {
			t.Errorf("%s: %q is in the catalogue, and never said", name, key)
		}
	}
}
