package piecing

import (
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// wound is a square with four strips about it; head stands before the sections.
func wound(head string) string {
	return sky + sea + "block b 4 x 4 finished 4in {\n" + head +
		"  section { 1 sea at c; 2 sky along (1, 1.25) -- (1.25, 1); }\n" +
		"  for p in (0.5, 1), (1, 3.5), (3.5, 3), (3, 0.5) { section { 1 sky at p } }\n}\n"
}

func pieced(t *testing.T, text string) (*pattern.Pattern, []problem.Problem) {
	t.Helper()
	f, ps := lang.Parse(&problem.Source{Name: "wound", Text: text})
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	r := eval.Evaluate(f, nil)
	if problem.Failed(r.Problems) {
		t.Fatal(r.Problems)
	}
	ps = Piece(r)
	return &r.Pattern, ps
}

const round = "  join (0, 3) -- (3, 3), (3, 4) -- (3, 1), (4, 1) -- (1, 1)\n"

// The joins of a partial seam: where it begins and stops, what lies along it, and
// that its second part has the whole seam. All four strips are alike but the one on
// which the seam stops would not be, had it paper.
func TestPartialSeam(t *testing.T) {
	p, ps := pieced(t, wound("  join (1, 2) -- (1, 3) partial\n"+round+"  join (1, 3) -- (1, 0)\n"))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	s := &p.Blocks[0].Sizes[0]
	first, last := &s.Joins[0], &s.Joins[4]
	if first.Begins != 5 || first.Begun != 0 || last.Begun != 1 || last.Begins != 0 || !s.Partial() {
		t.Fatalf("%+v\n%+v", first, last)
	}
	if first.A != (pattern.Pos{X: 1, Y: 3}) || first.B != (pattern.Pos{X: 1, Y: 2}) {
		t.Errorf("begins at %v, stops at %v", first.A, first.B)
	}
	if from, to := s.Rest(last); from != first.B || to != (pattern.Pos{X: 1, Y: 0}) {
		t.Errorf("the rest runs from %v to %v", from, to)
	}
	// Seen from A down to B the square is on the left.
	if len(first.Left) != 1 || len(first.Right) != 1 || s.Copies[first.Left[0]].Drawing != s.Copies[0].Drawing {
		t.Errorf("left %v, right %v", first.Left, first.Right)
	}
	if len(last.Left)+len(last.Right) != 3 || s.Figures.Seams != 5 {
		t.Errorf("%v %v, %d seams", last.Left, last.Right, s.Figures.Seams)
	}
	stops := 0
	for _, e := range s.Drawings[0].Edges {
		for _, m := range e.Marks {
			if m.Kind == pattern.Stop {
				stops++
			}
		}
	}
	if stops != 1 {
		t.Errorf("%d marks where to stop", stops)
	}
}

// What is wrong with a partial join is told, and nothing else.
func TestPartialFaults(t *testing.T) {
	for name, c := range map[string]struct{ head, want string }{
		"not finished": {"  join (1, 3) -- (1, 2) partial\n" + round, "no later join finishes"},
		"not needed":   {"  join (1, 3) -- (1, 2) partial\n  join (1, 0) -- (1, 4)\n", "need not be sewn in two goes"},
		"too far":      {"  join (1, 3) -- (1, 0.5) partial\n" + round + "  join (1, 0) -- (1, 3)\n", "a join that is sewn later ends there"},
		"as far":       {"  join (1, 3) -- (1, 1) partial\n" + round + "  join (1, 0) -- (1, 3)\n", "a join that is sewn later ends there"},
		"not crossed":  {"  join (0, 3) -- (3, 3)\n  join (1, 3) -- (1, 2) partial\n  join (3, 4) -- (3, 1), (4, 1) -- (1, 1)\n  join (1, 0) -- (1, 3)\n", "where it begins"},
		"crossed":      {"  join (1, 3) -- (1, 2) partial\n" + round + "  join (0, 0.5) -- (4, 0.5)\n  join (1, 0) -- (1, 3)\n", "where a partial seam is still open"},
	} {
		_, ps := pieced(t, wound(c.head))
		found := false
		for _, p := range ps {
			found = found || p.Code == PartialSeam && strings.Contains(p.Message, c.want)
		}
		if !found {
			t.Errorf("%s: %v", name, ps)
		}
	}
}
