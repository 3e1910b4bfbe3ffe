package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/lang/problem"
)

func compile(text string) (*pattern.Pattern, []problem.Problem) {
	return compiler.Compile(&problem.Source{Name: "t.seam", Text: text}, nil)
}

func show(ps []problem.Problem) string {
	var b strings.Builder
	for _, p := range ps {
		line := 0
		if p.At.Source != nil {
			line = p.At.Source.Position(p.At.Span.Start).Line
		}
		fmt.Fprintf(&b, "  line %d: %v %s: %s (%s)\n", line, p.Severity, p.Code, p.Message, p.Help)
	}
	return b.String()
}

// Every code of the geometry has an example that raises it and nothing else,
// and a cure that raises nothing.
func TestGeometryCodes(t *testing.T) {
	seen := map[problem.Code]bool{}
	for _, c := range piecing.Codes() {
		if seen[c.Code] {
			t.Errorf("%s is explained twice", c.Code)
		}
		seen[c.Code] = true
		if c.Title == "" || c.Rule == "" || c.Source == "" {
			t.Errorf("%s is not explained", c.Code)
		}
		if c.Code == piecing.NotCovered {
			if c.Example != "" {
				t.Errorf("%s has an example: then the program has a fault", c.Code)
			}
			continue
		}
		_, ps := compile(c.Example)
		ps = apartFromNotes(ps, c.Code)
		if len(ps) != 1 || ps[0].Code != c.Code {
			t.Errorf("%s: the example\n%sraises\n%s", c.Code, c.Example, show(ps))
		}
		p, ps := compile(c.Cured)
		ps = apartFromNotes(ps, c.Code)
		if len(ps) > 0 || p == nil {
			t.Errorf("%s: the cured example\n%sraises\n%s", c.Code, c.Cured, show(ps))
		}
	}
}

// apartFromNotes leaves out what is no fault: that a drawn unit can be sewn, and
// how seams are pressed.
func apartFromNotes(ps []problem.Problem, but problem.Code) []problem.Problem {
	return slices.DeleteFunc(ps, func(p problem.Problem) bool { return p.Severity == problem.Note && p.Code != but })
}

// Where a problem offers an edit, the edit mends it.
func TestGeometryEditsMend(t *testing.T) {
	tried := 0
	for _, c := range piecing.Codes() {
		_, ps := compile(c.Example)
		for _, p := range ps {
			if len(p.Edits) == 0 {
				continue
			}
			tried++
			text := p.At.Source.Text
			slices.SortFunc(p.Edits, func(a, b problem.Edit) int { return int(b.At.Start - a.At.Start) })
			for _, e := range p.Edits {
				text = text[:e.At.Start] + e.New + text[e.At.End:]
			}
			_, after := compile(text)
			for _, q := range after {
				if q.Code == c.Code {
					t.Errorf("%s: the edits to %q mend nothing:\n%s", c.Code, text, show(after))
				}
			}
		}
	}
	if tried == 0 {
		t.Error("no problem offers an edit")
	}
}

// What joins and places mean beyond the basic cases. Want is a part of the one
// error's message or help or, after "ok", the number of sections and of pieces.
func TestJoinsAndPlaces(t *testing.T) {
	const fabrics = "fabric a light #f3ecdd\nfabric b medium #3c7d8c\nfabric d dark #33312e\n"
	for _, c := range []struct{ name, want, text string }{
		{"joins left out between units", "ok 4 4", `unit g 2 x 2 { section A { 1 a at c } }
block t 4 x 4 finished 6in {
  for i in 0..1 { for j in 0..1 { place g at (2 * i, 2 * j) } }
}`},
		{"a join from a size", "ok 1 3", `block t 4 x 4 finished 4in {
  section A {
    1 a at (1, 1)
    2 b along (0, 2) -- (4, 2)
    3 d along (0, 3) -- (4, 3)
  }
  join s -- n from 8in
}`},
		{"and from there on", "ok 2 6", `block t 4 x 4 finished 8in {
  section A {
    1 a at (1, 1)
    2 b along (0, 2) -- (4, 2)
    3 d along (0, 3) -- (4, 3)
  }
  join s -- n from 8in
}`},
		{"a join that another ends on is sewn later", "move this one above the join of line 5", `block t 4 x 4 finished 4in {
  join w -- e
  join s -- c
  section A { 1 a at (1, 1) }
  section B { 1 b at (3, 1) }
  section C { 1 d at (1, 3) }
}`},
		{"turned out of its cell", "by c at (1, 2)", `unit g 2 x 4 { section A { 1 a at c } }
block t 4 x 4 finished 4in {
  join n -- s
  place g at (0, 0) turn 180deg
  place g at s
}`},
		{"turned out of its cell, no joins written", "by c at (3, 2)", `unit g 2 x 4 { section A { 1 a at c } }
block t 4 x 4 finished 4in {
  place g at (0, 0)
  place g at (2, 0) turn 180deg
}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, ps := compile(fabrics + c.text)
			var sections, pieces int
			if n, _ := fmt.Sscanf(c.want, "ok %d %d", &sections, &pieces); n == 2 {
				if p == nil {
					t.Fatalf("refused:\n%s", show(ps))
				}
				f := p.Blocks[0].Sizes[0].Figures
				if f.Sections != sections || f.Pieces != pieces {
					t.Errorf("%d sections and %d pieces, want %d and %d", f.Sections, f.Pieces, sections, pieces)
				}
				return
			}
			found, errors := false, 0
			for _, q := range ps {
				if q.Severity == problem.Error {
					errors++
				}
				found = found || strings.Contains(q.Message+" "+q.Help, c.want)
			}
			if p != nil || !found || errors != 1 {
				t.Errorf("want one error that says %q, got:\n%s", c.want, show(ps))
			}
		})
	}
}

// Of two free cells, each turned unit is offered the one it was meant for.
func TestEachTurnedUnitFindsItsCell(t *testing.T) {
	_, ps := compile(`fabric a light #f3ecdd
unit g 2 x 4 { section A { 1 a at c } }
block t 4 x 4 finished 4in {
  join n -- s
  place g at sw turn 180deg
  place g at s turn 180deg
}`)
	if len(ps) != 2 || !strings.Contains(ps[0].Help, "by c at (1, 2)") || !strings.Contains(ps[1].Help, "by c at (3, 2)") {
		t.Errorf("\n%s", show(ps))
	}
}
