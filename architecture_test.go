// The rules of the house, held by a test: which folder may import which, where
// each dependency is used, how long a file may be, and that nothing happens
// before it is asked for.
package seamwright_test

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "seamwright"

// layers are the packages in the order in which they may know of each other: a
// package imports only from those named before it in its row or in a row it is
// allowed. A row that ends in /... stands for all below.
var layers = []struct {
	folder string
	may    []string
}{
	{"lang/problem", nil},
	{"lang", []string{"lang/problem"}},
	{"lang/grammar", []string{"lang"}}, // for tests and the reference
	{"lang/families", []string{"lang", "lang/problem"}},
	{"lang/names", []string{"lang", "lang/problem"}},
	{"compiler/parallel", nil},
	{"compiler/pattern", []string{"lang/problem"}},
	{"compiler/value", []string{"compiler/pattern", "lang", "lang/problem"}},
	{"compiler/plane", nil},
	{"compiler/eval", []string{"compiler/pattern", "compiler/value", "compiler/plane", "lang", "lang/problem"}},
	{"compiler/solver", []string{"compiler/pattern", "compiler/plane", "compiler/eval", "lang/problem"}},
	{"compiler/piecing", []string{"compiler/parallel", "compiler/pattern", "compiler/plane", "compiler/eval", "compiler/solver", "lang/problem"}},
	{"compiler/cutting", []string{"compiler/parallel", "compiler/pattern", "compiler/plane", "lang/problem"}},
	{"compiler/pressing", []string{"compiler/pattern", "compiler/plane", "lang/problem"}},
	{"compiler/quilting", []string{"compiler/pattern"}},
	{"compiler/rules", []string{"compiler/parallel", "compiler/pattern", "compiler/plane", "lang/problem"}},
	{"compiler", []string{"compiler/...", "lang", "lang/problem"}},
	{"emit/drawing", []string{"compiler/pattern"}},
	{"emit/svg", []string{"compiler/pattern", "emit/drawing"}},
	{"emit/pdf", []string{"compiler/pattern", "emit/drawing"}},
	{"emit/png", []string{"compiler/pattern", "emit/drawing"}},
	{"emit/tiling", []string{"compiler/pattern", "emit/drawing"}},
	{"emit/sheet", []string{"compiler/parallel", "compiler/pattern", "compiler/plane", "emit/booklet/words", "emit/drawing", "emit/tiling", "lang/problem"}},
	{"emit/diagram", []string{"compiler/pattern", "compiler/plane", "emit/booklet/words", "emit/drawing"}},
	{"emit/table", []string{"compiler/pattern", "compiler/cutting", "emit/booklet/words", "emit/drawing"}},
	{"emit/testsew", nil}, // an independent judge: it reads what was emitted
	{"emit/photo", []string{"emit/drawing"}},
	{"emit/flow", []string{"compiler/pattern", "emit/drawing"}},
	{"emit/booklet/words", nil},
	{"emit/booklet", []string{"compiler/pattern", "emit/booklet/words", "emit/diagram", "emit/drawing", "emit/flow", "emit/pdf", "emit/photo", "emit/sheet", "emit/table", "emit/tiling", "lang/problem"}},
	{"emit/edition", []string{"compiler/pattern", "emit/drawing", "emit/sheet", "lang/problem"}},
	{"emit/letter", []string{"compiler/pattern", "emit/booklet/words", "emit/compare", "emit/edition"}},
	{"emit/compare", []string{"compiler/pattern", "emit/booklet/words", "emit/drawing", "emit/edition", "emit/flow", "emit/svg", "emit/table", "lang/problem"}},
	{"emit/report", []string{"compiler/pattern", "compiler/cutting", "emit/booklet/words", "emit/drawing", "emit/table"}},
	{"emit/contact", []string{"compiler/pattern", "emit/diagram", "emit/drawing"}},
	{"emit/html", []string{"compiler/pattern", "emit/booklet/words", "emit/diagram", "emit/drawing", "emit/photo", "emit/report", "emit/svg", "emit/table"}},
	{"emit/internal/sample", []string{"compiler/pattern", "compiler/plane", "compiler/cutting"}}, // for tests
	{"emit", []string{"compiler/parallel", "compiler/pattern", "emit/...", "lang/problem"}},
	{"cmd/internal/trace", []string{"compiler/plane", "compiler/solver", "lang", "lang/problem"}},
	{"cmd/internal/lsp/wire", nil},
	{"cmd/internal/lsp", []string{"cmd/internal/lsp/wire", "cmd/internal/files", "compiler", "compiler/eval", "compiler/pattern", "compiler/value", "lang", "lang/families", "lang/names", "lang/problem"}},
	{"cmd/internal/...", []string{"compiler/parallel", "lang/problem", "cmd/internal/..."}},
	{"examples", nil},
	{"cmd/editors", nil},
	{"cmd/editors/...", nil},
	{"cmd/seamwright", []string{"compiler", "compiler/...", "emit", "emit/...", "lang", "lang/...", "cmd/internal/..."}},
}

// libraries says where each dependency is used outside tests.
var libraries = map[string][]string{
	"codeberg.org/go-fonts/dejavu":         {"emit/drawing"},
	"github.com/ajstarks/svgo":             {"emit/svg"},
	"github.com/alecthomas/participle/v2":  {"lang/grammar"},
	"github.com/rogpeppe/go-internal/diff": {"cmd/seamwright"},
	"github.com/fsnotify/fsnotify":         {"cmd/internal/watch"},
	"golang.org/x/image":                   {"emit/drawing", "emit/svg", "emit/png"},
}

// longest is the number of lines beyond which a file is no longer read in one go.
const longest = 600

// A source is one Go file of the module.
type source struct {
	path, folder string
	lines        int
	test         bool
	tree         *ast.File
}

// sources parses every Go file of the module.
func sources(t *testing.T) []source {
	t.Helper()
	var all []source
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || len(d.Name()) > 1 && d.Name()[0] == '.') {
			return fs.SkipDir
		}
		if filepath.Ext(path) != ".go" {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		tree, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ParseComments)
		if err != nil {
			return err
		}
		all = append(all, source{filepath.ToSlash(path), filepath.ToSlash(filepath.Dir(path)),
			bytes.Count(text, []byte("\n")), strings.HasSuffix(path, "_test.go"), tree})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 50 {
		t.Fatalf("only %d files were found", len(all))
	}
	return all
}

// matches reports whether a folder is one of the patterns.
func matches(folder string, patterns []string) bool {
	for _, p := range patterns {
		below, all := strings.CutSuffix(p, "/...")
		if folder == p || all && strings.HasPrefix(folder, below+"/") {
			return true
		}
	}
	return false
}

func TestImportsGoOneWay(t *testing.T) {
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		row := slices.IndexFunc(layers, func(l struct {
			folder string
			may    []string
		}) bool {
			return matches(s.folder, []string{l.folder})
		})
		if row < 0 {
			t.Errorf("%s: the folder %s has no place among the layers", s.path, s.folder)
			continue
		}
		for _, i := range s.tree.Imports {
			name := strings.Trim(i.Path.Value, `"`)
			own, ours := strings.CutPrefix(name, module+"/")
			switch {
			case ours && !matches(own, layers[row].may):
				t.Errorf("%s imports %s, which %s must not know of", s.path, own, s.folder)
			case !ours && strings.Contains(strings.Split(name, "/")[0], "."):
				if !allowedLibrary(name, s.folder) {
					t.Errorf("%s imports %s, which is not used there", s.path, name)
				}
			}
		}
	}
}

func allowedLibrary(name, folder string) bool {
	for lib, folders := range libraries {
		if (name == lib || strings.HasPrefix(name, lib+"/")) && slices.Contains(folders, folder) {
			return true
		}
	}
	return false
}

func TestEveryPackageSaysWhatItIsFor(t *testing.T) {
	said, files := map[string]bool{}, map[string]int{}
	all := sources(t)
	for _, s := range all {
		if !s.test {
			files[s.folder]++
		}
	}
	for _, s := range all {
		if s.test {
			continue
		}
		doc, first := s.tree.Doc != nil, strings.HasSuffix(s.path, "/doc.go")
		if doc && !first && files[s.folder] > 1 {
			t.Errorf("%s: the package comment belongs into doc.go", s.path)
		}
		said[s.folder] = said[s.folder] || doc
	}
	for folder, ok := range said {
		if !ok {
			t.Errorf("%s has no package comment", folder)
		}
	}
}

func TestFilesAreShort(t *testing.T) {
	for _, s := range sources(t) {
		if s.lines > longest {
			t.Errorf("%s has %d lines; over %d it is time to split it by noun", s.path, s.lines, longest)
		}
	}
}

// Nothing happens before it is asked for, and no package keeps state: process
// start is most of the time of a small build.
func TestNothingHappensAtStart(t *testing.T) {
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		for _, d := range s.tree.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Name.Name == "init" && d.Recv == nil {
					t.Errorf("%s has an init function", s.path)
				}
			case *ast.GenDecl:
				if d.Tok != token.VAR {
					continue
				}
				if name := d.Specs[0].(*ast.ValueSpec).Names[0].Name; !harmless(d) && !slices.Contains(remembered, s.folder+" "+name) {
					t.Errorf("%s: the variable %s is made at start, or can be changed: use a function, a constant or sync.OnceValue", s.path, name)
				}
			}
		}
	}
}

// The program is not linked with the C library, which would be loaded at every
// start and take half a millisecond, a third of what a small check may take. The
// package net is what brings it in; a verb that talks to a network belongs into a
// program of its own, started by this one. Nor does it know of regular expressions,
// whose package makes tables of all alphabets at every start: 0.1 ms.
func TestStartsWithoutTheCLibrary(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "./cmd/seamwright").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range strings.Fields(string(out)) {
		if name == "net" || name == "runtime/cgo" || name == "regexp" {
			t.Errorf("the program imports %s", name)
		}
	}
}

// remembered are the variables that keep what was worked out once, and whose
// answers never change: the outlines of the embedded font.
var remembered = []string{"emit/drawing regular", "emit/drawing noFont"}

// harmless reports whether a package's variables cost nothing at start and keep
// no state: embedded files, sentinel errors, what is made when first asked for,
// arrays of constants, and proofs that a type has an interface.
func harmless(d *ast.GenDecl) bool {
	if d.Doc != nil && strings.Contains(d.Doc.List[len(d.Doc.List)-1].Text, "//go:embed") {
		return true
	}
	for _, spec := range d.Specs {
		v := spec.(*ast.ValueSpec)
		if v.Names[0].Name == "_" {
			continue
		}
		if len(v.Values) != 1 {
			return false
		}
		switch e := v.Values[0].(type) {
		case *ast.CallExpr:
			f, ok := e.Fun.(*ast.SelectorExpr)
			if !ok {
				return false
			}
			pkg, _ := f.X.(*ast.Ident)
			name := pkg.Name + "." + f.Sel.Name
			if name != "errors.New" && !strings.HasPrefix(name, "sync.Once") {
				return false
			}
		case *ast.CompositeLit:
			if !constant(e) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// constant reports whether a literal is laid down by the compiler: an array or
// slice without calls and without maps in it.
func constant(lit *ast.CompositeLit) bool {
	if _, ok := lit.Type.(*ast.ArrayType); !ok {
		return false
	}
	ok := true
	ast.Inspect(lit, func(n ast.Node) bool {
		switch n.(type) {
		case *ast.CallExpr, *ast.MapType, *ast.FuncLit:
			ok = false
		}
		return ok
	})
	return ok
}
