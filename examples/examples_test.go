package examples_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

var update = flag.Bool("update", false, "draw the expected pictures anew")

// pictures is where the expected pictures lie.
var pictures = filepath.Join("..", "testdata", "examples")

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

// files returns the names of all examples and of the files they use.
func files(t *testing.T) (patterns, used []string) {
	t.Helper()
	patterns, err := filepath.Glob("*.seam")
	if err != nil || len(patterns) < 8 {
		t.Fatalf("%d examples (%v), at least 8 are promised", len(patterns), err)
	}
	used, err = filepath.Glob(filepath.Join("families", "*.seam"))
	if err != nil {
		t.Fatal(err)
	}
	return patterns, used
}

func source(t *testing.T, name string) *problem.Source {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return &problem.Source{Name: name, Text: string(text)}
}

// Picture finds a picture beside the one that asks.
func (beside) Picture(from *problem.Source, path string) (data, why string) {
	read, err := os.ReadFile(filepath.Join(filepath.Dir(from.Name), path))
	if err != nil {
		return "", "there is no such file"
	}
	return string(read), ""
}

// compile returns a pattern of which neither errors nor warnings were told.
func compile(t *testing.T, name string) *pattern.Pattern {
	t.Helper()
	p, problems := compiler.Compile(source(t, name), beside{})
	tell(t, problems)
	if p == nil {
		t.FailNow()
	}
	return p
}

// tell fails on every problem that is more than a note.
func tell(t *testing.T, problems []problem.Problem) {
	t.Helper()
	for _, q := range problems {
		if q.Severity == problem.Note {
			continue
		}
		where := ""
		if q.At.Source != nil {
			where = q.At.Source.Name + ":" + q.At.Source.Text[q.At.Span.Start:q.At.Span.End] + ": "
		}
		t.Errorf("%s%v %s: %s", where, q.Severity, q.Code, q.Message)
	}
}

// Every example builds everything that is made of a pattern, on letter paper, and
// its front pictures are the expected ones.
func TestExamples(t *testing.T) {
	patterns, _ := files(t)
	for _, name := range patterns {
		t.Run(name, func(t *testing.T) {
			p := compile(t, name)
			letter, _ := pattern.SheetNamed("letter")
			outputs, problems := emit.Build(p, emit.Options{Sheet: &letter})
			tell(t, problems)
			fronts := 0
			for _, o := range outputs {
				if len(o.Data) == 0 {
					t.Errorf("%s is empty", o.Path)
				}
				if isFront(o.Path) {
					fronts++
					picture(t, strings.TrimSuffix(name, ".seam"), o)
				}
			}
			if fronts == 0 {
				t.Error("no front picture")
			}
		})
	}
}

func isFront(path string) bool {
	return strings.Contains(path, "front") && strings.HasSuffix(path, ".svg")
}

// picture holds one front picture to the expected one.
func picture(t *testing.T, example string, o emit.Output) {
	t.Helper()
	golden := filepath.Join(pictures, example, strings.ReplaceAll(o.Path, "/", "-"))
	if *update {
		if err := os.MkdirAll(filepath.Dir(golden), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, o.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Errorf("%v: run the test with -update and look at the picture", err)
	} else if string(want) != string(o.Data) {
		t.Errorf("the picture differs from %s; if that is meant, run with -update and look at it", golden)
	}
}

// Examples are written as the formatter writes them.
func TestFormatted(t *testing.T) {
	patterns, used := files(t)
	for _, name := range append(patterns, used...) {
		src := source(t, name)
		file, problems := lang.Parse(src)
		if problem.Failed(problems) {
			t.Errorf("%s does not parse", name)
			continue
		}
		if got := lang.Format(file); got != src.Text {
			t.Errorf("%s is not formatted; it should be\n%s", name, got)
		}
	}
}
