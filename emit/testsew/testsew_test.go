package testsew

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/emit"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// beside loads shipped families, and files beside the one that asks.
type beside struct{}

func (beside) Load(from *problem.Source, path string) (*problem.Source, string) {
	if name, std := strings.CutPrefix(path, "std/"); std {
		text, ok := families.Source(name)
		if !ok {
			return nil, "no such family"
		}
		return &problem.Source{Name: path, Text: text}, ""
	}
	name := filepath.Join(filepath.Dir(from.Name), path+".seam")
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, "there is no such file"
	}
	return &problem.Source{Name: name, Text: string(text)}, ""
}

func build(t testing.TB, name, text string) []File {
	t.Helper()
	p, ps := compiler.Compile(&problem.Source{Name: name, Text: text}, beside{})
	if problem.Failed(ps) {
		t.Fatalf("%s: %v", name, ps)
	}
	outputs, ps := emit.Build(p, emit.Options{Only: []string{"sheets", "tables", "json"}, Forms: []string{"svg"}})
	if problem.Failed(ps) {
		t.Fatalf("%s: %v", name, ps)
	}
	var files []File
	for _, o := range outputs {
		files = append(files, File{o.Path, o.Data})
	}
	return files
}

func TestExamples(t *testing.T) {
	names, _ := filepath.Glob("../../examples/*.seam")
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Sew(build(t, name, string(text)))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, b := range r.Blocks {
			t.Logf("%s %v: sections %d, sheets %d prints %d, front %.4f wrong %.4f, allowance %.4f (%s), margin %.4f (%s), points %d pins %d miss %.4f layers %.3v %v", filepath.Base(name), b.Finished, b.Sections, b.Sheets, b.Prints, b.Compared, b.Wrong, b.LeastAllowance, b.LeastAllowanceAt, b.LeastMargin, b.LeastMarginOf, b.Points, b.Pins, b.PinMiss, b.Layers, b.Thickest)
			for _, f := range b.Findings {
				t.Error(f)
			}
		}
	}
}
