package eval

import (
	"strings"
	"testing"

	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

// texts is a loader of files given by path; "std/..." is what is shipped.
type texts map[string]string

func (ts texts) load(_ *problem.Source, path string) (*problem.Source, string) {
	if text, ok := ts[path]; ok {
		return &problem.Source{Name: path + ".seam", Text: text}, ""
	}
	if name, ok := strings.CutPrefix(path, "std/"); ok {
		if text, ok := families.Source(name); ok {
			return &problem.Source{Name: path, Text: text}, ""
		}
	}
	return nil, "there is no such file"
}

// evaluate parses and evaluates a text; the problems are those of both.
func evaluate(text string, files texts) *Result {
	f, problems := lang.Parse(&problem.Source{Name: "test.seam", Text: text})
	r := Evaluate(f, files.load)
	r.Problems = append(r.Problems, problems...)
	problem.Sort(r.Problems)
	return r
}

// show writes problems one a line, for failures.
func show(ps []problem.Problem) string {
	var b strings.Builder
	for _, p := range ps {
		at := ""
		if p.At.Source != nil {
			pos := p.At.Source.Position(p.At.Span.Start)
			at = p.At.Source.Name + ":" + itoa(pos.Line) + ":" + itoa(pos.Column) + " "
		}
		b.WriteString("\t" + at + string(p.Code) + " " + p.Severity.String() + ": " + p.Message + " (" + p.Help + ")\n")
	}
	return b.String()
}

func itoa(n int) string { return coordinate(float64(n)) }

// good evaluates a text that has no problems.
func good(t *testing.T, text string) *Result {
	t.Helper()
	r := evaluate(text, nil)
	if len(r.Problems) > 0 {
		t.Fatalf("problems in\n%s\n%s", text, show(r.Problems))
	}
	return r
}

// want holds a result to exactly these problems: "L201 3 far" is a code, a line and
// words of the message.
func want(t *testing.T, text string, files texts, wanted ...string) *Result {
	t.Helper()
	r := evaluate(text, files)
	bad := len(r.Problems) != len(wanted)
	for i := 0; !bad && i < len(wanted); i++ {
		p := r.Problems[i]
		part := strings.SplitN(wanted[i], " ", 3)
		line := p.At.Source.Position(p.At.Span.Start).Line
		bad = string(p.Code) != part[0] || itoa(line) != part[1] || len(part) > 2 && !strings.Contains(p.Message, part[2])
	}
	if bad {
		t.Errorf("in\n%s\nwanted\n\t%s\ngot\n%s", text, strings.Join(wanted, "\n\t"), show(r.Problems))
	}
	return r
}
