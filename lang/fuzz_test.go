package lang

import (
	"reflect"
	"testing"

	"seamwright/lang/problem"
)

// seeds are sound texts, mistaken ones, and damaged ones.
func seeds(f *testing.F) {
	for _, text := range samples(f) {
		f.Add(text)
	}
	for _, info := range Codes() {
		f.Add(info.Example)
	}
	for _, text := range []string{
		"", "{", "}", "unit", "unit u 8 x 8 {", "block b(x: line) x x x finished 6in {}", "let a = ((((", "\xff\xfe", "\x00",
		"pad { a\nb\nc }", "“ ” ‘ ’ — ½ × ° 6\" 6'", "section A { 1 a at c } }", "if a { if b { if c {", "a -- the words\n-- more words",
		"unit u 8 x 8 { piece a (0, 0), b, c line n -- s, e -- w check 1 = 2 \"m\" place v at c turn 90 deg }",
		"/* */ // \n/// doc\n# note\nfabric a \"\\\" \\\\ \\n\" light #12345",
	} {
		f.Add(text)
	}
}

// FuzzParse: any text gives a tree and problems, all of whose places lie in it.
func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		file, problems := parse(text)
		inside := func(s Span, what string) {
			if s.Start < 0 || s.End < s.Start || int(s.End) > len(text) {
				t.Fatalf("%s at %v, in a text of %d bytes", what, s, len(text))
			}
		}
		visit(reflect.ValueOf(file.Decls), 0, func(n Node, _ int) { inside(n.Where(), reflect.TypeOf(n).String()) })
		last := int32(0)
		for _, c := range file.Comments {
			inside(c.Span, "a comment")
			if c.Span.Start < last {
				t.Fatal("comments are out of order")
			}
			last = c.Span.End
		}
		if len(problems) > maxProblems+1 {
			t.Fatalf("%d problems", len(problems))
		}
		for _, p := range problems {
			if p.Message == "" || p.Code == "" || p.At.Source != file.Source {
				t.Fatalf("a problem that says nothing: %+v", p)
			}
			inside(p.At.Span, p.Message)
			for _, l := range p.Labels {
				inside(l.At.Span, l.Text)
			}
			end := int32(0)
			for _, e := range p.Edits {
				inside(e.At, "an edit")
				if e.At.Start < end {
					t.Fatal("edits overlap or are out of order")
				}
				end = e.At.End
			}
			render(&p)
		}
	})
}

// FuzzFormat: what parses is laid out without loss.
func FuzzFormat(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text string) {
		if _, problems := parse(text); !problem.Failed(problems) {
			formatted(t, text)
		}
	})
}
