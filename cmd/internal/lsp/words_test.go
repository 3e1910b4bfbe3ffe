package lsp

import (
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/lang/problem"
)

func TestEveryWordHasItsMeaning(t *testing.T) {
	var told []string
	for _, m := range meanings {
		told = append(told, m[0])
	}
	if want := reserved(); !slices.Equal(told, want) {
		t.Errorf("told are %v,\nthe words are %v", told, want)
	}
}

// The compiler itself says which settings it has, when it is given one too many.
func TestSettingsAreTheCompilers(t *testing.T) {
	for _, of := range []string{"pattern", "quilt", "pad"} {
		head := of
		if of != "pad" {
			head += ` "P"`
		}
		_, ps := compiler.Compile(&problem.Source{Name: "t", Text: head + " { zzzzzzzzzz 1 }"}, nil)
		i := slices.IndexFunc(ps, func(p problem.Problem) bool { return strings.HasPrefix(p.Help, "it has ") })
		if i < 0 {
			t.Fatalf("%s: nothing is said of an unknown setting: %v", of, ps)
		}
		want := strings.FieldsFunc(strings.TrimPrefix(ps[i].Help, "it has "), func(r rune) bool { return r == ',' || r == ' ' })
		want = slices.DeleteFunc(want, func(s string) bool { return s == "and" })
		var told []string
		for _, s := range settings {
			if s.of == of {
				told = append(told, s.name)
			}
		}
		slices.Sort(want)
		slices.Sort(told)
		if !slices.Equal(told, want) {
			t.Errorf("%s: told are %v,\nthe compiler has %v", of, told, want)
		}
	}
}
