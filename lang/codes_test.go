package lang

import (
	goast "go/ast"
	goparser "go/parser"
	gotoken "go/token"
	"strings"
	"testing"
)

// Every code is explained, by an example that raises it and nothing else.
func TestCodes(t *testing.T) {
	explained := map[string]bool{}
	for _, info := range Codes() {
		code := string(info.Code)
		if explained[code] {
			t.Errorf("%s is explained twice", code)
		}
		explained[code] = true
		if info.Title == "" || info.Rule == "" || info.Source == "" {
			t.Errorf("%s is not explained", code)
		}
		if info.Example == "" {
			if !strings.Contains(info.Rule, "no example") {
				t.Errorf("%s has no example", code)
			}
			continue
		}
		_, problems := parse(info.Example)
		if len(problems) != 1 || problems[0].Code != info.Code {
			t.Errorf("the example of %s raises %d problems:\n%s", code, len(problems), info.Example)
			for i := range problems {
				t.Log(render(&problems[i]))
			}
		}
		if _, problems := parse(info.Cured); len(problems) > 0 {
			t.Errorf("the cure of %s does not work: %s", code, render(&problems[0]))
		}
	}
	for name, code := range constants(t, "codes.go") {
		if !explained[code] {
			t.Errorf("%s, %s, is not explained", name, code)
		}
	}
}

// An edit, where one is given, mends the example it is given for.
func TestCodesEdits(t *testing.T) {
	for _, info := range Codes() {
		_, problems := parse(info.Example)
		for _, p := range problems {
			if len(p.Edits) == 0 {
				continue
			}
			mended := mend(info.Example, p.Edits)
			if _, left := parse(mended); len(left) > 0 {
				t.Errorf("%s: the edit leaves %s\n%s", info.Code, left[0].Message, mended)
			}
		}
	}
}

// constants reads the codes from the source, so that none is forgotten.
func constants(t *testing.T, path string) map[string]string {
	t.Helper()
	file, err := goparser.ParseFile(gotoken.NewFileSet(), path, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	goast.Inspect(file, func(n goast.Node) bool {
		if spec, ok := n.(*goast.ValueSpec); ok && len(spec.Values) == 1 {
			if value, ok := spec.Values[0].(*goast.BasicLit); ok && value.Kind == gotoken.STRING {
				found[spec.Names[0].Name] = strings.Trim(value.Value, `"`)
			}
		}
		return true
	})
	if len(found) < 20 {
		t.Fatalf("only %d codes found in %s", len(found), path)
	}
	return found
}
