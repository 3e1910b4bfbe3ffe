package names_test

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/names"
	"seamwright/lang/problem"

	"github.com/google/go-cmp/cmp"
)

// shipped finds families only, which is all that the examples below use.
type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	name, ok := strings.CutPrefix(path, "std/")
	text, found := families.Source(name)
	if !ok || !found {
		return nil, "not here"
	}
	return &problem.Source{Name: path, Text: text}, ""
}

func texts(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	for _, glob := range []string{"../../examples/*.seam", "../../examples/families/*.seam", "../families/*.seam"} {
		paths, err := filepath.Glob(glob)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range paths {
			data, err := os.ReadFile(p)
			if err != nil {
				t.Fatal(err)
			}
			all[filepath.ToSlash(p)] = string(data)
		}
	}
	for _, f := range families.List() {
		all["example of "+f.Name] = f.Example
	}
	if len(all) < 30 {
		t.Fatalf("only %d texts were found", len(all))
	}
	return all
}

// Every name of a good text is known, and no name of the tree is passed over, the
// names of settings and of fields excepted.
func TestEveryNameIsFound(t *testing.T) {
	for name, text := range texts(t) {
		file, faults := lang.Parse(&problem.Source{Name: name, Text: text})
		if len(faults) > 0 {
			t.Fatalf("%s: %v", name, faults)
		}
		table := names.Resolve(file)
		for _, r := range table.Refs {
			if got := text[r.At.Start:r.At.End]; got != r.Name {
				t.Errorf("%s: the use of %q stands at %q", name, r.Name, got)
			}
			known := r.Decl >= 0 || r.Of >= 0 || r.Kind == names.Compass || r.Kind == names.Helper
			if !known {
				t.Errorf("%s: %q at %d is unknown", name, r.Name, r.At.Start)
			}
		}
		for _, d := range table.Decls {
			if got := text[d.At.Start:d.At.End]; got != d.Name {
				t.Errorf("%s: %q is declared at %q", name, d.Name, got)
			}
		}
		for at, word := range written(file) {
			if table.Ref(at) < 0 && table.Decl(at) < 0 {
				t.Errorf("%s: nothing is said of %q at %d", name, word, at)
			}
		}
	}
}

// written lists the names of a tree by reflection, so that a new kind of node can't
// be forgotten.
func written(f *lang.File) map[int32]string {
	found := map[int32]string{}
	var visit func(v reflect.Value)
	visit = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Interface, reflect.Pointer:
			if v.IsNil() {
				return
			}
			switch n := v.Interface().(type) {
			case *lang.Pattern, *lang.Pad, *lang.Accept:
				return // names of settings, papers, codes
			case *lang.Prop:
				for i, value := range n.Values {
					if n, ok := value.Value.(*lang.Name); ok && i > 0 && slices.Contains([]string{"mitred", "bias", "around"}, n.Text) {
						continue // a word of the setting
					}
					visit(reflect.ValueOf(value))
				}
				return
			case *lang.Field:
				visit(reflect.ValueOf(n.X))
				return
			case *lang.Param:
				found[n.Name.Span.Start] = n.Name.Text
				if n.Default != nil {
					visit(reflect.ValueOf(n.Default))
				}
				return
			case *lang.Fabric: // the words for value and scope are the language's own
				found[n.Name.Span.Start] = n.Name.Text
				return
			case *lang.Recolour:
				found[n.Name.Span.Start] = n.Name.Text
				if n.As.Text != "" {
					found[n.As.Span.Start] = n.As.Text
				}
				return
			case *lang.Place:
				for _, e := range []lang.Expr{n.By, n.At, n.Turn} {
					if e != nil {
						visit(reflect.ValueOf(e))
					}
				}
				found[n.Unit.Span.Start] = n.Unit.Text // `as T` is a label
				for _, a := range n.Args {
					visit(reflect.ValueOf(a))
				}
				return
			case *lang.Name:
				found[n.Span.Start] = n.Text
				return
			}
			visit(v.Elem())
		case reflect.Slice:
			for i := range v.Len() {
				visit(v.Index(i))
			}
		case reflect.Struct:
			if id, ok := v.Interface().(lang.Ident); ok {
				if id.Text != "" {
					found[id.Span.Start] = id.Text
				}
				return
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					visit(v.Field(i))
				}
			}
		}
	}
	visit(reflect.ValueOf(f.Decls))
	return found
}

// Whoever renames a declaration and all its uses has changed nothing: the compiler
// itself is the judge.
func TestRenamingChangesNothing(t *testing.T) {
	renamed := 0
	for name, text := range texts(t) {
		src := &problem.Source{Name: name, Text: text}
		before, faults := compiler.Compile(src, shipped{})
		if len(faults) > 0 && problem.Failed(faults) {
			continue // it uses a file of a folder
		}
		file, _ := lang.Parse(src)
		table := names.Resolve(file)
		for i := range table.Decls {
			d := &table.Decls[i]
			if d.Kind == names.Section || d.Kind == names.Colorway {
				continue // printed; nothing uses them
			}
			fresh := fmt.Sprintf("fresh_%d", i)
			edits := map[lang.Span]string{d.At: fresh}
			for _, at := range table.RefsTo(i) {
				edits[at] = fresh
			}
			if use, ok := d.Node.(*lang.Use); ok && len(use.Names) == 1 && use.Names[0].As.Text == "" {
				edits[d.At] = d.Name + " as " + fresh
			}
			after, faults := compiler.Compile(&problem.Source{Name: name, Text: edited(text, edits)}, shipped{})
			if problem.Failed(faults) {
				t.Errorf("%s: renaming %s breaks it: %s", name, d.Name, faults[0].Message)
				continue
			}
			if diff := cmp.Diff(shape(before), shape(after)); diff != "" {
				t.Errorf("%s: renaming %s changes it:\n%s", name, d.Name, diff)
			}
			renamed++
		}
	}
	if renamed < 300 {
		t.Errorf("only %d names were tried", renamed)
	}
}

func edited(text string, edits map[lang.Span]string) string {
	var b strings.Builder
	for i := 0; i < len(text); {
		done := false
		for at, s := range edits {
			if int(at.Start) == i {
				b.WriteString(s)
				i, done = int(at.End), true
			}
		}
		if !done {
			b.WriteByte(text[i])
			i++
		}
	}
	return b.String()
}

// shape is what a pattern holds besides its author's names and their places.
func shape(p *pattern.Pattern) any {
	type piece struct {
		Label   string
		Words   string
		Polygon []pattern.Pos
	}
	var all []piece
	for _, b := range p.Blocks {
		for _, s := range b.Sizes {
			for _, d := range s.Drawings {
				for k := range d.Pieces {
					// The words of a fabric may be its name, so its color stands for it.
					words := fmt.Sprintf("%06x", p.Fabrics[d.Pieces[k].Fabric].Colour)
					all = append(all, piece{d.Label(k), words, d.Pieces[k].Polygon})
				}
			}
		}
	}
	return all
}

// What this package does not know the evaluator does not know, and the reverse.
func TestUnknownNamesAreTheEvaluators(t *testing.T) {
	tried := 0
	for name, text := range texts(t) {
		src := &problem.Source{Name: name, Text: text}
		if result := eval.Evaluate(parse(src), shipped{}.Load); problem.Failed(result.Problems) {
			continue
		}
		table := names.Resolve(parse(src))
		for i := range table.Decls {
			if tried%3 == 0 { // a third of them is enough
				d := &table.Decls[i]
				damaged := edited(text, map[lang.Span]string{d.At: "other_name"})
				compare(t, name+" without "+d.Name, damaged)
			}
			tried++
		}
	}
}

func parse(src *problem.Source) *lang.File {
	file, _ := lang.Parse(src)
	return file
}

func compare(t *testing.T, what, text string) {
	t.Helper()
	src := &problem.Source{Name: "damaged", Text: text}
	unknown := map[lang.Span]bool{}
	for _, p := range eval.Evaluate(parse(src), shipped{}.Load).Problems {
		switch p.Code {
		case eval.UnknownName, eval.UnknownUnit, eval.UnknownFabric, eval.UnknownBlock:
			if p.At.Source == src {
				unknown[p.At.Span] = true
			}
		}
	}
	table := names.Resolve(parse(src))
	ours := map[lang.Span]bool{}
	for _, r := range table.Refs {
		if r.Decl < 0 && r.Of < 0 && r.Kind != names.Compass && r.Kind != names.Helper && r.Kind != names.Parameter {
			ours[r.At] = true
		}
	}
	if diff := cmp.Diff(unknown, ours); diff != "" {
		t.Errorf("%s: unknown names (-evaluator +table):\n%s", what, diff)
	}
}

func TestScopes(t *testing.T) {
	const text = `fabric a "a" light #ffffff
unit u(a: fabric, b: number = 1) 2 x 2 {
  let d = b
  for i in 0..b { let e = i }
  section { 1 a at c }
}
`
	table := names.Resolve(parse(&problem.Source{Name: "t", Text: text}))
	for _, c := range []struct{ before, want string }{
		{"b: number", "a u"},
		{"let e", "i d b a u"},
		{" }\n  section", "e i d b a u"},
		{"section", "d b a u"},
		{"fabric a \"", "u a"},
	} {
		var got []string
		for _, d := range table.Visible(int32(strings.Index(text, c.before))) {
			got = append(got, d.Name)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("before %q: %s, want %s", c.before, s, c.want)
		}
	}
	at := int32(strings.Index(text, "1 a at") + 2)
	if r := table.Refs[table.Ref(at)]; r.Kind != names.Parameter {
		t.Errorf("the fabric of the piece is of kind %d, not the parameter", r.Kind)
	}
}
