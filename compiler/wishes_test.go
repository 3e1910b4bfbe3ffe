package compiler_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/compiler/piecing"
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// pieceAt finds the drawing and the piece at a point of the first block, in grid
// squares of a block that is unitSide wide.
func pieceAt(p *pattern.Pattern, at plane.Point) (name string, number int) {
	s := &p.Blocks[0].Sizes[0]
	scale := float64(s.Finished.W) / unitSide
	for c := range s.Copies {
		move, d := s.Copies[c].Motion(), &s.Drawings[s.Copies[c].Drawing]
		for k := range d.Pieces {
			polygon := make(plane.Polygon, len(d.Pieces[k].Polygon))
			for i, q := range d.Pieces[k].Polygon {
				q = move(q)
				polygon[i] = plane.Point{X: float64(q.X) / scale, Y: float64(q.Y) / scale}
			}
			if polygon.Locate(at) > 0 {
				return fmt.Sprint(d.Name, " ", c), k + 1
			}
		}
	}
	return "", 0
}

const windows = `fabric sky light #dfeaf0
fabric sea dark #25525e
block b 8 x 8 finished 6in {
  line w -- e, n -- c, (2, 0) -- (2, 4), (6, 0) -- (6, 4)
  piece sky at (1, 1), (7, 1)
  piece sea at (4, 1), (6, 6)
`

// What a text asks of the sections of a drawn unit, and what comes of it.
func TestWishes(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"nothing asked", "piece sky at (2, 6)", "A2 A1 A3 B2 B1"},
		{"a piece first", "1 sky at (2, 6)", "A2 A1 A3 B2 B1"},
		{"another first", "1 sky at (2, 6)\n section at (4, 1), (7, 1)", "A2 A1 A3 B2 B1"},
		{"never a join", "piece sky at (2, 6)\n section along (2, 0) -- (2, 3)", "A2 A1 A3 B2 B1"},
		{"a name", "piece sky at (2, 6)\n section Q at (2, 6)", "A2 A1 A3 Q2 Q1"},
		{"two names", "piece sky at (2, 6)\n section Q at (2, 6)\n section R at (6, 6)", "A2 A1 A3 R1 Q1"},
		{"three names", "piece sky at (2, 6)\n section Q at (1, 1)\n section R at (4, 1), (7, 1)\n section S at (6, 6)", "Q1 R1 R2 S2 S1"},
		{"a loop asks", "piece sky at (2, 6)\n for x in 1, 7 { section at (x, 1), (4, 1) }", "A2 A1 A3 B2 B1"},
		{"two firsts", "1 sky at (2, 6)\n section at (2, 6), (6, 6)\n", "A2 A1 A3 B2 B1"},
	} {
		text := windows + c.text + "\n}\n"
		p, ps := pieced(text)
		if p == nil {
			t.Errorf("%s: %s", c.name, show(ps))
			continue
		}
		got := ""
		for _, at := range []plane.Point{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 7, Y: 1}, {X: 6, Y: 6}, {X: 2, Y: 6}} {
			name, n := pieceAt(p, at)
			name, _, _ = strings.Cut(name, " ")
			got += fmt.Sprint(" ", name, n)
		}
		if got[1:] != c.want {
			t.Errorf("%s: %s, want %s", c.name, got[1:], c.want)
		}
	}
}

// What can't be had is refused where it is asked, with the reason.
func TestWishesRefused(t *testing.T) {
	for _, c := range []struct{ text, code, message string }{
		{"line (4, 0) -- c\n section at (3, 1), (5, 1), (2, 6), (6, 6)\n piece sea at (5, 1), (3, 1)\n piece sky at (2, 6)", "G162", "seams cross at (4, 4)"},
		{"1 sky at (2, 6), (4, 1.5)", "G155", "has its fabric already"},
		{"2 sky at (2, 6)", "L254", "only 1 may be written"},
		{"piece sky at (2, 6)\n section at (2, 6), (3, 7)", "G163", "one patch to share"},
		{"piece sky at (2, 6)\n section at (2, 6), w", "G157", "lies on"},
		{"piece sky at (2, 6)\n section along (0, 7) -- (8, 7)", "G163", "no seam lies on this line"},
		{"piece sky at (2, 6)\n section Q at (2, 6)\n section R at (6, 6)\n section at (2, 6), (6, 6)", "G162", "a section of its own"},
		{"piece sky at (2, 6)\n section Q at (2, 6)\n section R at (6, 6), (2, 6)", "G162", "a section of its own"},
		{"piece sky at (2, 6)\n section Q at (2, 6)\n section Q at (1, 1)", "L207", "already written"},
	} {
		text := windows
		if strings.HasPrefix(c.text, "line") {
			text = strings.Replace(text, "at (4, 1), (6, 6)", "at (6, 6)", 1)
		}
		_, ps := pieced(text + c.text + "\n}\n")
		if !slices.ContainsFunc(ps, func(p problem.Problem) bool {
			return string(p.Code) == c.code && strings.Contains(p.Message, c.message)
		}) {
			t.Errorf("%s: want %s %q, have %s", c.text, c.code, c.message, show(ps))
		}
	}
}

// Of wishes taken at random each is had or refused, and numbering keeps them.
func TestWishesAtRandom(t *testing.T) {
	had, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		u := drawUnit(t)
		if len(u.patches) < 3 {
			return
		}
		inside := func(name string) plane.Point {
			return u.patches[rapid.IntRange(0, len(u.patches)-1).Draw(t, name)].Interior()
		}
		a, b := inside("a"), inside("b")
		text := u.text(false)
		wish := fmt.Sprintf("  section at %s, %s\n", pt(a), pt(b))
		if a == b {
			wish = fmt.Sprintf("  section Q at %s\n", pt(a))
		}
		first := inside("first")
		text = strings.Replace(text, "block one 8 x 8 finished 6in, 40cm {\n", "block one 8 x 8 finished 6in {\n"+wish, 1)
		head, tail, _ := strings.Cut(text, "unit part")
		for _, f := range drawnFabrics {
			head = strings.Replace(head, "piece "+f+" at "+pt(first), "1 "+f+" at "+pt(first), 1)
		}
		text = head + "unit part" + tail
		p, ps := pieced(text)
		if almostOne(ps) {
			return
		}
		if p == nil {
			if !slices.ContainsFunc(ps, func(p problem.Problem) bool { return p.Code == piecing.WishRefused }) {
				t.Fatalf("%s\n%s", text, show(ps))
			}
			refused++
			return
		}
		had++
		as(t, p, a, b, first)
		made, _ := compiler.Number(&problem.Source{Name: "t.seam", Text: text}, nil)
		if p, ps = pieced(made.Text); p == nil || made.Text == text {
			t.Fatalf("%s\n%s", made.Text, show(ps))
		}
		as(t, p, a, b, first)
	})
	t.Logf("%d had, %d refused", had, refused)
}

func as(t *rapid.T, p *pattern.Pattern, a, b, first plane.Point) {
	in, _ := pieceAt(p, a)
	if other, _ := pieceAt(p, b); other != in {
		t.Errorf("%v is in %s, %v in %s", a, in, b, other)
	}
	if a == b && !strings.HasPrefix(in, "Q ") {
		t.Errorf("section Q is called %s", in)
	}
	if _, n := pieceAt(p, first); n != 1 {
		t.Errorf("%v is piece %d", first, n)
	}
}
