package testsew

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
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

func build(t testing.TB, name, text string) []File { return buildIn(t, name, text, "", "svg") }

// buildIn builds with the words of another language; "" leaves the pattern's own. Sheets
// are in the forms given, or all.
func buildIn(t testing.TB, name, text, language string, forms ...string) []File {
	t.Helper()
	p, ps := compiler.Compile(&problem.Source{Name: name, Text: text}, beside{})
	if problem.Failed(ps) {
		t.Fatalf("%s: %v", name, ps)
	}
	if language != "" {
		p.Settings.Language = language
	}
	outputs, ps := emit.Build(p, emit.Options{Only: []string{"sheets", "tables", "json"}, Forms: forms})
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
		r, err := Sew(buildIn(t, name, string(text), ""))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, b := range r.Blocks {
			if b.Sheets > 0 && b.Printed == 0 {
				t.Errorf("%s: the file that is printed was not looked at", name)
			}
			t.Logf("%s %v: sections %d, sheets %d prints %d, front %.4f wrong %.4f, allowance %.4f (%s), margin %.4f (%s), points %d pins %d miss %.4f layers %.3v %v", filepath.Base(name), b.Finished, b.Sections, b.Sheets, b.Prints, b.Compared, b.Wrong, b.LeastAllowance, b.LeastAllowanceAt, b.LeastMargin, b.LeastMarginOf, b.Points, b.Pins, b.PinMiss, b.Layers, b.Thickest)
			for _, f := range b.Findings {
				t.Error(f)
			}
		}
	}
}

// Sheets in German are understood as well as those in English: what stands along
// their edges, and how often they are printed.
func TestExamplesInGerman(t *testing.T) {
	names, _ := filepath.Glob("../../examples/*.seam")
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files := buildIn(t, name, string(text), "de")
		german := false
		for _, f := range files {
			german = german || strings.Contains(string(f.Data), "<title>") && !strings.Contains(string(f.Data), "joins ")
		}
		r, err := Sew(files)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, b := range r.Blocks {
			for _, f := range b.Findings {
				t.Error(f)
			}
		}
		if !german {
			t.Errorf("%s: no German sheets", name)
		}
	}
}

// The examples of the families can be sewn too.
func TestFamilies(t *testing.T) {
	for _, f := range families.List() {
		if r, err := Sew(build(t, f.Name, f.Example)); err != nil || r.Failed() {
			t.Errorf("%s: %v %v", f.Name, err, findings(r))
		}
	}
}

const triangles = `pattern "Pinwheel" { edition 1 }
fabric sand "sand" light #e3c37a
fabric sea "sea" dark #22304d
block pinwheel 4 x 2 finished 8in {
  section { 1 sand at (0.9, 0.1) }
  section { 1 sea at (0.1, 1.9) }
  section { 1 sand at (2.3, 0.2) }
  section { 1 sea at (3.7, 1.8) }
  section { 1 sand at (1.7, 1.7) }
  join (0, 0) -- (1, 2)
  join (2, 2) -- (4, 0)
  join (1, 0) -- (1, 2)
  join (2, 0) -- (2, 2)
}
`

// Patches that are cut exact, without paper, must have the size of their shape:
// squares, rectangles, triangles of both kinds.
func TestExactPatches(t *testing.T) {
	var mutants []mutant
	size := regexp.MustCompile(`,exact,([^",]+|"[^"]+"),[^,]+ in,`)
	for name, text := range map[string]string{"nine": ninePatch, "pinwheel": triangles} {
		files := build(t, name+".seam", text)
		if r, err := Sew(files); err != nil || r.Failed() {
			t.Errorf("%s: %v %v", name, err, findings(r))
		}
		for _, f := range named(files, sectionTable) {
			for _, m := range size.FindAllSubmatchIndex(f.Data, -1) {
				data := slices.Concat(f.Data[:m[3]], []byte(",1 in,"), f.Data[m[1]:])
				mutants = append(mutants, mutant{fmt.Sprintf("%s %s", name, f.Data[m[0]:m[1]]), changed(files, f.Path, data)})
			}
		}
	}
	verdicts(t, mutants, "where its shape needs|round the template")
}
