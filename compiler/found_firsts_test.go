package compiler_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/pressing"
	"seamwright/compiler/quilting"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// Two halves of a square, with a seam in each, that meet at (1/2, 6). As they are found
// the seams lie the same way there.
const halves = `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 8in {
  line (0, 8) -- (2, 0)
  line (0, 6) -- (1/2, 6), (1/2, 6) -- (8, 8)
  piece sail at (1/8, 6.5), (1, 1)
  piece hull at (4, 2)
  piece hull at (1, 7)
}
`

// asFound pieces and presses with every section as it was found.
func asFound(text string) *pattern.Pattern {
	file, _ := lang.Parse(&problem.Source{Name: "t.seam", Text: text})
	r := eval.Evaluate(file, nil)
	if problem.Failed(piecing.Piece(r)) {
		return nil
	}
	pressing.Press(&r.Pattern)
	return &r.Pattern
}

func opened(s *pattern.Sized) (n int) {
	for i := range s.Joins {
		if s.Joins[i].Press == pattern.PressOpen {
			n++
		}
	}
	return n
}

// A section that was found is begun with that piece from which seams nest, and numbering
// writes it so: the numbered text compiles to the same pattern.
func TestFoundBegunOtherwise(t *testing.T) {
	if s := &asFound(halves).Blocks[0].Sizes[0]; opened(s) != 1 || len(s.Firsts) == 0 {
		t.Fatalf("as found, %d joins are open and %v to be turned: nothing is tested", opened(s), s.Firsts)
	}
	s := sizedOf(t, halves)
	if opened(s) != 0 || len(s.Firsts) != 0 {
		t.Errorf("%d joins are open, and %v to be turned", opened(s), s.Firsts)
	}
	made, ps := compiler.Number(&problem.Source{Name: "t.seam", Text: halves}, nil)
	if len(made.Units) != 1 {
		t.Fatalf("%s\n%s", made.Text, show(ps))
	}
	numbered := sizedOf(t, made.Text)
	if d := cmp.Diff(s, numbered, alike()); d != "" {
		t.Errorf("%s\n%s", made.Text, d)
	}
	for i := range s.Drawings {
		for k := range s.Drawings[i].Pieces {
			if s.Drawings[i].Pieces[k].Patch.Size == (pattern.Size{}) {
				t.Errorf("piece %d of %s is not cut", k+1, s.Drawings[i].Name)
			}
		}
	}
}

// What the author begins with 1 stays the first: that it would nest from the other end
// is only told.
func TestFirstThatIsAskedFor(t *testing.T) {
	asked := strings.NewReplacer("  piece sail at (1/8, 6.5), (1, 1)", "  1 sail at (1, 1)\n  piece sail at (1/8, 6.5)",
		"  piece hull at (4, 2)", "  1 hull at (4, 2)").Replace(halves)
	if s := sizedOf(t, asked); opened(s) != 1 || len(s.Firsts) == 0 {
		t.Errorf("%d joins are open, and %v to be turned, of\n%s", opened(s), s.Firsts, asked)
	}
}

// Whatever is drawn, in no block are more joins open or more sections printed than as
// they were found.
func TestFirstsOfFound(t *testing.T) {
	fewer := 0
	rapid.Check(t, func(t *rapid.T) {
		text := drawUnit(t).text(false)
		was := asFound(text)
		now, ps := pieced(text)
		if was == nil || almostOne(ps) {
			return
		}
		for b := range was.Blocks {
			for i := range was.Blocks[b].Sizes {
				s, z := &was.Blocks[b].Sizes[i], &now.Blocks[b].Sizes[i]
				if opened(z) > opened(s) || len(z.Drawings) > len(s.Drawings) || len(z.Copies) != len(s.Copies) {
					t.Fatalf("%d joins open, not %d, %d drawings, not %d:\n%s", opened(z), opened(s), len(z.Drawings), len(s.Drawings), text)
				}
				fewer += opened(s) - opened(z)
			}
		}
	})
	t.Logf("%d joins nest that would have been pressed open", fewer)
}

// Two sections whose seams meet only across the joins of the quilt, the right edge of one
// block and the left edge of the next.
const passing = `fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block ketch 8 x 8 finished 8in {
  line (4, 0) -- (4, 8)
  line (0, 4) -- (4, 7), (4, 5) -- (8, 4)
  piece sail at (1, 2), (5, 1)
  piece hull at (1, 7), (5, 7)
}
`

func openInQuilt(p *pattern.Pattern) (n int) {
	for _, j := range p.Quilts[0].Layout.Joins {
		if j.Press == pattern.PressOpen {
			n++
		}
	}
	return n
}

// inQuilt pieces, presses and lays out with every section as it was found.
func inQuilt(text string) *pattern.Pattern {
	p := asFound(text)
	if p != nil {
		quilting.Lay(p)
		pressing.PressQuilts(p)
	}
	return p
}

// Sections that were found are begun so that they nest with those of the next block, and
// numbering writes them so.
func TestFoundBegunForTheQuilt(t *testing.T) {
	text := passing + "quilt \"Fleet\" { blocks ketch, 3 x 2 }\n"
	if n := openInQuilt(inQuilt(text)); n != 4 {
		t.Fatalf("as found, %d joins of the quilt are open, want all 4 within its rows", n)
	}
	p, ps := compile(text)
	if p == nil {
		t.Fatal(show(ps))
	}
	if n := openInQuilt(p); n != 0 {
		t.Errorf("%d joins of the quilt are open", n)
	}
	made, ps := compiler.Number(&problem.Source{Name: "t.seam", Text: text}, nil)
	if len(made.Units) != 1 {
		t.Fatalf("%s\n%s", made.Text, show(ps))
	}
	numbered, ps := compile(made.Text)
	if numbered == nil {
		t.Fatal(show(ps))
	}
	if d := cmp.Diff(&p.Blocks[0].Sizes[0], &numbered.Blocks[0].Sizes[0], alike()); d != "" {
		t.Errorf("%s\n%s", made.Text, d)
	}
}

// In no quilt are more joins open than with every section as it was found, and in no
// block either; a block that is in it reversed has its sections begun like the other's.
func TestFirstsOfQuilts(t *testing.T) {
	fewer := 0
	rapid.Check(t, func(t *rapid.T) {
		text := drawUnit(t).text(false)
		name := regexp.MustCompile(`block (\w+)`).FindStringSubmatch(text)[1]
		row := []string{name, name, name}
		for i := range row {
			row[i] += rapid.SampledFrom([]string{"", "", " turn 90deg", " turn 180deg", " reversed"}).Draw(t, "lies")
		}
		text += fmt.Sprintf("quilt \"Fleet\" {\n  row %s\n  row %[2]s, %[2]s, %[2]s\n}\n", strings.Join(row, ", "), name)
		was := inQuilt(text)
		now, ps := compile(text)
		if was == nil || now == nil || almostOne(ps) || was.Quilts[0].Layout == nil || now.Quilts[0].Layout == nil {
			return
		}
		if openInQuilt(now) > openInQuilt(was) && opened(&now.Blocks[0].Sizes[0]) == opened(&was.Blocks[0].Sizes[0]) {
			t.Fatalf("%d joins of the quilt are open, not %d:\n%s", openInQuilt(now), openInQuilt(was), text)
		}
		for b := range now.Blocks {
			s, z := &was.Blocks[b].Sizes[0], &now.Blocks[b].Sizes[0]
			if len(was.Blocks) != len(now.Blocks) || opened(z) > opened(s) || len(z.Drawings) > len(s.Drawings) {
				t.Fatalf("%d joins open, not %d, %d drawings, not %d:\n%s", opened(z), opened(s), len(z.Drawings), len(s.Drawings), text)
			}
		}
		fewer += openInQuilt(was) - openInQuilt(now)
	})
	t.Logf("%d joins of quilts nest that would have been pressed open", fewer)
}
