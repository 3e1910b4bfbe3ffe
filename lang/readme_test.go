package lang_test

import (
	"flag"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/eval"
	"seamwright/emit"
	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/grammar"
	"seamwright/lang/problem"
)

var updateReadme = flag.Bool("update-readme", false, "write the kept parts of README.md anew")

const readme = "README.md"

func reference(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// An example is one fenced text of the reference. What stands after ```seam says
// what it is: nothing for a whole file; body for the body of a block of 8 x 8;
// section for the body of a section in it; true for lines that must hold.
type example struct {
	line int
	form string
	text string
}

var fence = regexp.MustCompile("(?ms)^```seam ?([a-z]*)\n(.*?)^```$")

func examples(text string) []example {
	var list []example
	for _, m := range fence.FindAllStringSubmatchIndex(text, -1) {
		list = append(list, example{1 + strings.Count(text[:m[0]], "\n"), text[m[2]:m[3]], text[m[4]:m[5]]})
	}
	return list
}

const cast = `pattern "Example" { edition 1 }
fabric sail "sail" light  #f3ecdd
fabric sky  "sky"  medium #9db8c4
fabric sea  "sea"  dark   #25525e
fabric hull "hull" dark   #3a2a20
`

// whole makes a file of an example, and says how many lines stand before it.
func (e example) whole() (text string, before int) {
	const block = "block example 8 x 8 finished 6in {\n"
	switch e.form {
	case "body":
		return cast + block + e.text + "}\n", 6
	case "section":
		return cast + block + "section {\n" + e.text + "}\n}\n", 7
	case "true":
		checks := ""
		for line := range strings.Lines(e.text) {
			checks += "check " + strings.TrimSpace(line) + " \"is not so\"\n"
		}
		return cast + block + checks + "section { 1 sail at c }\n}\n", 6
	}
	return e.text, 0
}

type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	text, ok := families.Source(strings.TrimPrefix(path, "std/"))
	if !ok {
		return nil, "no such family"
	}
	return &problem.Source{Name: path, Text: text}, ""
}

// Every example of the reference compiles, fits letter paper, and nothing is wrong with it but what
// a fragment leaves unused.
func TestReadmeExamples(t *testing.T) {
	list := examples(reference(t))
	if len(list) < 15 {
		t.Fatalf("only %d examples found", len(list))
	}
	for _, e := range list {
		text, before := e.whole()
		if file, bad := lang.Parse(&problem.Source{Name: "example", Text: e.text}); e.form == "" && len(bad) == 0 && lang.Format(file) != e.text {
			t.Errorf("%s:%d: is not formatted; it should be\n%s", readme, e.line, lang.Format(file))
		}
		p, problems := compiler.Compile(&problem.Source{Name: "example", Text: text}, shipped{})
		for _, q := range problems {
			if q.Severity == problem.Note || e.form != "" && q.Code == eval.Unused {
				continue
			}
			line := q.At.Source.Position(q.At.Span.Start).Line
			t.Errorf("%s:%d: %v %s: %s", readme, e.line+line-before, q.Severity, q.Code, q.Message)
		}
		if p == nil {
			t.Errorf("%s:%d: gives no pattern", readme, e.line)
			continue
		}
		_, problems = emit.Build(p, emit.Options{})
		for _, q := range problems {
			if q.Severity != problem.Note {
				t.Errorf("%s:%d: %v %s: %s", readme, e.line, q.Severity, q.Code, q.Message)
			}
		}
	}
}

// The parts of the reference that the program knows better say what it says.
func TestReadmeKept(t *testing.T) {
	text := reference(t)
	for _, part := range []struct{ name, want string }{
		{"helpers", helperTable()},
		{"grammar", "```ebnf\n" + strings.TrimSpace(grammar.EBNF()) + "\n```\n"},
	} {
		begin := "<!-- " + part.name + ": kept by a test -->\n"
		head, rest, found := strings.Cut(text, begin)
		got, tail, ends := strings.Cut(rest, "<!-- end -->")
		if !found || !ends {
			t.Fatalf("%s has no part %q", readme, part.name)
		}
		if got != part.want && !*updateReadme {
			t.Errorf("the part %q of %s is out of date; run with -update-readme", part.name, readme)
		}
		text = head + begin + part.want + "<!-- end -->" + tail
	}
	if *updateReadme {
		if err := os.WriteFile(readme, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func helperTable() string {
	var b strings.Builder
	b.WriteString("| helper | what it gives |\n|---|---|\n")
	for _, s := range eval.Signatures() {
		fmt.Fprintf(&b, "| `%s` | %s |\n", strings.Join(s.Forms, "` <br> `"), s.Does)
	}
	return b.String()
}

// Every kind, setting and limit that the evaluator knows is in the reference.
func TestReadmeIsComplete(t *testing.T) {
	text := reference(t)
	for _, setting := range []string{"pattern", "quilt", "pad"} {
		for _, name := range settings(t, setting) {
			if !strings.Contains(text, "`"+name+"`") {
				t.Errorf("the setting `%s` of `%s` is not in the reference", name, setting)
			}
		}
	}
	for _, kind := range strings.Fields("number count length angle point line fabric text bool") {
		if !strings.Contains(text, "| `"+kind+"` |") {
			t.Errorf("the kind %s is not in the reference", kind)
		}
	}
}

// settings asks the program for the settings of a declaration, by way of the help
// that it gives on an unknown one.
func settings(t *testing.T, decl string) []string {
	t.Helper()
	file, _ := lang.Parse(&problem.Source{Name: "test", Text: decl + map[string]string{"pattern": ` "Test"`}[decl] + " { qqqqqqqqqqqqqq 1 }\n"})
	for _, p := range eval.Evaluate(file, nil).Problems {
		if p.Code == eval.UnknownSetting {
			words := strings.FieldsFunc(strings.TrimPrefix(p.Help, "it has "), func(r rune) bool { return r == ',' || r == ' ' })
			return slices.DeleteFunc(words, func(w string) bool { return w == "and" })
		}
	}
	t.Fatalf("an unknown setting of %s is not told", decl)
	return nil
}
