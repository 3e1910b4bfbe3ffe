package eval

import (
	"strings"
	"testing"

	"seamwright/lang/problem"
)

// Every code has an explanation, its example raises it and nothing else, and the
// cured example raises nothing.
func TestCodes(t *testing.T) {
	several := map[problem.Code]bool{FileCircle: true, TooManyFiles: true} // examples take more than one file
	last := problem.Code("")
	for _, c := range Codes() {
		if c.Code <= last {
			t.Errorf("%s stands after %s", c.Code, last)
		}
		last = c.Code
		if c.Title == "" || c.Rule == "" || c.Source == "" {
			t.Errorf("%s is not explained", c.Code)
		}
		if several[c.Code] {
			continue
		}
		r := evaluate(c.Example, nil)
		if len(r.Problems) != 1 || r.Problems[0].Code != c.Code {
			t.Errorf("%s: the example\n%s\nraises\n%s", c.Code, shorten(c.Example), show(r.Problems))
		}
		for _, p := range r.Problems {
			if strings.HasSuffix(p.Message, ".") || strings.TrimSpace(p.Message) == "" {
				t.Errorf("%s: the message %q is no sentence without its stop", c.Code, p.Message)
			}
		}
		if r := evaluate(c.Cured, nil); len(r.Problems) > 0 {
			t.Errorf("%s: the cured example\n%s\nraises\n%s", c.Code, shorten(c.Cured), show(r.Problems))
		}
	}
}

func shorten(s string) string {
	if len(s) > 600 {
		return s[:600] + "..."
	}
	return s
}

// Where a problem carries an edit, the edit mends it. This makes every suggestion
// in the examples a tested one.
func TestEditsMend(t *testing.T) {
	edits := 0
	for _, c := range Codes() {
		r := evaluate(c.Example, nil)
		for _, p := range r.Problems {
			if len(p.Edits) == 0 {
				continue
			}
			edits++
			mended := p.At.Source.Text
			for i := len(p.Edits) - 1; i >= 0; i-- {
				e := p.Edits[i]
				mended = mended[:e.At.Start] + e.New + mended[e.At.End:]
			}
			for _, q := range evaluate(mended, nil).Problems {
				if q.Code == p.Code {
					t.Errorf("%s: the edit leaves\n%s\nwith\n%s", c.Code, mended, show([]problem.Problem{q}))
				}
			}
		}
	}
	if edits < 10 {
		t.Errorf("only %d examples carry an edit", edits)
	}
}
