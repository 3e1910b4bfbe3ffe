package main

import (
	"slices"
	"strings"
	"testing"

	"seamwright/lang/problem"
)

func TestRanges(t *testing.T) {
	for arg, want := range map[string]string{
		"points=6, 8,12":             "6 8 12",
		"depth=0.3..0.6 by 0.1":      "0.3 0.4 0.5 0.6",
		"n=1..3":                     "1 2 3",
		"n=-1..1 by 0.5":             "-1 -0.5 0 0.5 1",
		"n=1..2 by 0.3":              "1 1.3 1.6 1.9",
		"warm=ember,if 1 < 2 then a": "ember if 1 < 2 then a",
		"n=":                         "", "n": "", "=3": "", "n=1..2 by 0": "", "n=2..1": "", "n=1..99": "", "n=a..b": "", "n=,": "", "n=1..NaN": "", "n=1..2 by Inf": "",
	} {
		list, err := rangesOf([]string{arg})
		got := ""
		if err == nil {
			got = strings.Join(list[0].values, " ")
		}
		if got != want || (err != nil) != (want == "") {
			t.Errorf("%s: %q, %v; want %q", arg, got, err, want)
		}
	}
}

// Values go where the parameter has its value, or where it could be given one.
func TestHoles(t *testing.T) {
	const head = "fabric sky light #dfeaf0\nunit u(a: count = 1, b: number = 2) 4 x 4 { piece sky at c }\nblock k 4 x 4 finished 4in { "
	for place, want := range map[string]string{
		"place u at sw":             "place u(b: 7) at sw",
		"place u() at sw":           "place u(b: 7) at sw",
		"place u( ) at sw":          "place u(b: 7 ) at sw",
		"place u(3) at sw":          "place u(3, b: 7) at sw",
		"place u(3, 2 + 2) at sw":   "place u(3, 7) at sw",
		"place u(b: 5, a: 1) at sw": "place u(b: 7, a: 1) at sw",
		"for i in 1..1 { if true { } else if true { place u(a: 1) at sw } }": "for i in 1..1 { if true { } else if true { place u(a: 1, b: 7) at sw } }",
	} {
		v, err := newVaried(&problem.Source{Name: "t.seam", Text: head + place + " }\n"}, newLoader(), []valueRange{{"b", []string{"7"}}})
		if err != nil {
			t.Errorf("%s: %v", place, err)
			continue
		}
		if got := v.text([]string{"7"}); got != head+want+" }\n" {
			t.Errorf("%s becomes %s", place, strings.TrimPrefix(got, head))
		}
	}
	v, err := newVaried(&problem.Source{Name: "t.seam", Text: head + "place u at sw }\nblock m(b: number = 1) 4 x 4 finished 4in { piece sky at c }\n"},
		newLoader(), []valueRange{{"b", []string{"1", "2"}}, {"a", []string{"3", "4"}}})
	if err != nil {
		t.Fatal(err)
	}
	if got := v.text([]string{"9", "8"}); !strings.Contains(got, "m(b: number = 9)") || !strings.Contains(got, "place u(a: 8) at") {
		t.Error(got)
	}
	if got := v.all(); !slices.EqualFunc(got, [][]string{{"1", "3"}, {"1", "4"}, {"2", "3"}, {"2", "4"}}, slices.Equal) {
		t.Error(got)
	}
}
