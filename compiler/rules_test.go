package compiler_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/compiler/rules"
	"seamwright/lang/problem"
)

// Every rule's example breaks that rule and no other, and its cure breaks none.
func TestRuleExamples(t *testing.T) {
	for _, info := range rules.Codes() {
		t.Run(string(info.Code), func(t *testing.T) {
			_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: info.Example}, nil)
			if len(got) == 0 {
				t.Fatal("the example breaks no rule")
			}
			for _, p := range got {
				if p.Code != info.Code && p.Severity != problem.Note { // a note is no breach
					t.Errorf("%s %s: %s", p.Code, p.Severity, p.Message)
				}
				if p.At.Source == nil || p.At.Span.End <= p.At.Span.Start {
					t.Errorf("%s has no place in the text", p.Code)
				}
			}
			_, got = compiler.Compile(&problem.Source{Name: "cured.seam", Text: info.Cured}, nil)
			for _, p := range got {
				if p.Code == info.Code || p.Severity != problem.Note {
					t.Errorf("the cured example: %s %s", p.Code, p.Message)
				}
			}
		})
	}
}

// An accept holds for the section or unit that it stands in, and nowhere else.
func TestAcceptHoldsWhereItStands(t *testing.T) {
	const slender = `fabric beam "beam" light #f3ecdd
fabric night "night" dark #25304a
unit ray 8 x 8 {
  %s
  section {
    %s
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 2.6)
  }
}
block beacon 8 x 8 finished 8in { place ray at sw }
block other 8 x 8 finished 8in {
  section {
    %s
    1 beam at (2, 0.2)
    2 night along (0, 0) -- (8, 2.7)
  }
}
`
	const accept = `accept R102 "it is meant"`
	for _, c := range []struct {
		unit, section, other string
		lines                []int // of the warnings that are left
	}{
		{"", "", "", []int{7, 15}},
		{accept, "", "", []int{15}},
		{"", accept, "", []int{15}},
		{"", "", accept, []int{7}},
		{accept, "", accept, nil},
	} {
		text := fmt.Sprintf(slender, c.unit, c.section, c.other)
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: text}, nil)
		var lines []int
		for _, p := range got {
			if p.Code == "R102" {
				lines = append(lines, p.At.Source.Position(p.At.Span.Start).Line)
			}
		}
		if !slices.Equal(lines, c.lines) {
			t.Errorf("accepted in the unit %q, its section %q, the other %q: warnings on lines %v, want %v", c.unit, c.section, c.other, lines, c.lines)
		}
	}
}

// A pattern's own limit takes the place of the usual one, and the pattern
// remembers every limit that it was checked by.
func TestLimitsOfThePattern(t *testing.T) {
	const text = `pattern "Mizzen" { %s }
fabric sail "sail" light #f3ecdd
fabric mast "mast" dark #6b4a2f
block mizzen 8 x 8 finished 4in {
  section A {
    1 mast at (4, 4)
    2 sail along (3.8, 0) -- (3.8, 8)
    3 sail along (4.2, 0) -- (4.2, 8)
  }
}
`
	for _, c := range []struct {
		limit, codes string // the mast is 0.2 in wide
		value        float64
	}{
		{"", "R101", 1.0 / 4},
		{"limit narrow_piece, 3/16in", "", 3.0 / 16},
		{"limit narrow_piece, 5mm", "", 5 / 25.4},
		{"limit narrow_piece, 6mm", "R101", 6 / 25.4},
		{"limit narow_piece, 3/16in", "R100R101", 1.0 / 4},
		{"limit narrow_piece, 3", "R100R101", 1.0 / 4},
		{"limit narrow_piece", "L212", 0},
	} {
		p, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: fmt.Sprintf(text, c.limit)}, nil)
		codes := ""
		for _, g := range got {
			codes += string(g.Code)
		}
		if codes != c.codes {
			t.Errorf("%q raises %q, want %q", c.limit, codes, c.codes)
		}
		if p == nil {
			continue
		}
		i := slices.IndexFunc(p.Limits, func(l pattern.Limit) bool { return l.Name == "narrow_piece" })
		if i < 0 || p.Limits[i].Value != c.value || p.Limits[i].Set != (c.limit != "") || p.Limits[i].Code != "R101" {
			t.Errorf("%q: the pattern says %+v, want %v", c.limit, p.Limits, c.value)
		}
	}
}

// The language reference lists every limit with its rule and usual value.
func TestReferenceListsTheLimits(t *testing.T) {
	reference, err := os.ReadFile("../lang/README.md")
	if err != nil {
		t.Fatal(err)
	}
	p, problems := compiler.Compile(&problem.Source{Name: "example.seam", Text: `fabric hull "hull" dark #25525e
block tender 4 x 4 finished 4in {
  section A { 1 hull at c }
}
`}, nil)
	if p == nil || len(p.Limits) == 0 {
		t.Fatal(problems)
	}
	rows := map[string]string{} // by rule: the names and values of its limits, as the table has them
	for i := range p.Limits {
		l := &p.Limits[i]
		names, values, _ := strings.Cut(rows[l.Code], "|")
		if names != "" {
			names, values = names+" ", values+", "
		}
		rows[l.Code] = names + "`" + l.Name + "`|" + values + l.Words()
	}
	for code, row := range rows {
		names, values, _ := strings.Cut(row, "|")
		if want := "| " + names + " | " + code + " | " + values + " |"; !strings.Contains(string(reference), want) {
			t.Errorf("the reference lacks\n%s", want)
		}
	}
}

// Neighbors in grey: across a join as well as across a seam, where they lie side by
// side for a length, and once for two fabrics.
func TestContrastAcrossJoins(t *testing.T) {
	const text = `fabric buoy "buoy" medium #b8432f
fabric weed "weed" medium #5a7d2a
fabric foam "foam" light #f3ecdd
block float 4 x 4 finished 4in {
  section { 1 %s at (1, 3) }
  section { 1 %s at (3, 3) }
  section { 1 %s at (1, 1) }
  section { 1 %s at (3, 1) }
  join n -- c
  join s -- c
  join w -- e
}
`
	for _, c := range []struct {
		of   [4]any
		want int
	}{
		{[4]any{"buoy", "weed", "foam", "foam"}, 1},
		{[4]any{"buoy", "foam", "weed", "foam"}, 1},
		{[4]any{"buoy", "weed", "weed", "buoy"}, 1}, // told once
		{[4]any{"buoy", "foam", "foam", "weed"}, 0}, // they touch in a point
		{[4]any{"buoy", "foam", "buoy", "foam"}, 0},
	} {
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: fmt.Sprintf(text, c.of[:]...)}, nil)
		n := 0
		for _, p := range got {
			if p.Code == "R107" {
				n++
			}
		}
		if n != c.want {
			t.Errorf("%v: %d warnings, want %d", c.of, n, c.want)
		}
	}
}

// Another colorway is looked at in its own cloths; roles that it dresses in one cloth
// are meant to be one.
func TestContrastInColorways(t *testing.T) {
	const text = `fabric buoy "buoy" dark #25525e
fabric foam "foam" light #f3ecdd
block float 4 x 4 finished 4in {
  section A {
    1 buoy at (1, 1)
    2 foam along (2, 0) -- (2, 4)
  }
}
colorway dusk { %s }
`
	for dress, want := range map[string]string{
		`buoy "rust" medium #b8432f`:                            "",
		`buoy "rust" medium #b8432f foam "moss" medium #5a7d2a`: `"rust" and "moss" lie side by side and are equally light in the colorway "dusk"`,
		`foam as buoy`: "",
		`buoy "rust" medium #b8432f foam "rust" medium #b8432f`:     "",
		`buoy "rust" medium #b8432f foam "old rust" medium #b8432f`: `"rust" and "old rust" lie side by side and are equally light in the colorway "dusk"`,
	} {
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: fmt.Sprintf(text, dress)}, nil)
		found := ""
		for _, p := range got {
			if p.Code == "R107" {
				found = p.Message
			} else if p.Severity == problem.Error {
				t.Fatal(p.Message)
			}
		}
		if found != want {
			t.Errorf("%s: %q, want %q", dress, found, want)
		}
	}
}
