package compiler_test

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// mirrored compiles a block with a quilt that has it reversed, and returns the block
// and its mirror image, nil where it has none.
func mirrored(t interface {
	Helper()
	Fatalf(string, ...any)
}, block, finished string) (*pattern.Pattern, *pattern.Block) {
	t.Helper()
	text := `fabric sky "sky" light #dfeaf0
fabric sea "sea" dark #25525e
fabric hull "hull" medium #b5533c
unit corner 4 x 4 { section K { 1 sky at (1, 3)  2 sea along (0, 1) -- (4, 3)  3 hull along (3, 0) -- (3, 4) } }
` + block + `
quilt "Turned Over" { row it, it turn 90deg reversed, it reversed
  blocks ` + finished + ` }
`
	p, ps := compiler.Compile(&problem.Source{Name: "turned.seam", Text: text}, nil)
	if p == nil {
		t.Fatalf("%v\n%s", ps, text)
	}
	if p.Quilts[0].Layout == nil {
		t.Fatalf("%s", p.Quilts[0].Why)
	}
	for i := range p.Blocks {
		if p.Blocks[i].Reverses != "" {
			return p, &p.Blocks[i]
		}
	}
	return p, nil
}

// spaces lists every space of a block by what is sewn there, its number and its
// corners; reversed as seen in a mirror.
func spaces(s *pattern.Sized, reversed bool) (all []string) {
	for _, c := range s.Copies {
		move := c.Motion()
		for _, piece := range s.Drawings[c.Drawing].Pieces {
			var corners []string
			for _, q := range piece.Polygon {
				q = move(q)
				if reversed {
					q.X = s.Finished.W - q.X
				}
				corners = append(corners, fmt.Sprintf("%.4f %.4f", math.Abs(float64(q.X)), math.Abs(float64(q.Y))))
			}
			sort.Strings(corners)
			all = append(all, fmt.Sprint(piece.Number, piece.Fabric, corners))
		}
	}
	sort.Strings(all)
	return all
}

// The mirror image of a block has every space where a mirror shows it, numbered as
// there, and its sections are called after those that they reverse.
func TestReversedBlockIsTheMirrorImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		x, y := rapid.IntRange(1, 7).Draw(t, "x"), rapid.IntRange(1, 7).Draw(t, "y")
		fmt.Fprintf(&b, "block it 8 x 8 finished 6in, 8in {\n section A { 1 sky at (0.25, 0.125)  2 sea along (0, %d) -- (%d, 0) }\n", y, x)
		b.WriteString(" place corner by sw at (4, 4)")
		b.WriteString(rapid.SampledFrom([]string{"", " turn 0deg"}).Draw(t, "turn"))
		b.WriteString("\n place corner by c at (6, 2)" + rapid.SampledFrom([]string{"", " turn 90deg", " reversed", " turn 180deg reversed"}).Draw(t, "placed"))
		b.WriteString("\n section { piece hull at (1.5, 7)  piece sea along (1, 4) -- (3, 8) }\n join w -- e\n join n -- s\n}")
		p, r := mirrored(t, b.String(), "8in")
		if r == nil {
			t.Fatalf("no mirror image: %s", b.String())
		}
		of := &p.Blocks[0]
		if r.Reverses != of.Name || r.Title != of.Title+", reversed" || len(r.Sizes) != 1 || r.Sizes[0].Finished.W != 8 {
			t.Fatalf("%+v", r)
		}
		s, o := &r.Sizes[0], &of.Sizes[1]
		if want, got := spaces(o, true), spaces(s, false); !slices.Equal(want, got) {
			t.Fatalf("%s: got\n%s\nwant\n%s", b.String(), strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
		var names, want []string
		for i := range s.Drawings {
			names = append(names, s.Drawings[i].Name)
		}
		for i := range o.Drawings {
			name := o.Drawings[i].Name
			switch short, ok := strings.CutSuffix(name, "r"); {
			case ok: // its mirror image is the one that it reverses
				name = short
			case name == "A" && x == y: // its own mirror image
			default:
				name += "r"
			}
			want = append(want, name)
		}
		sort.Strings(names)
		sort.Strings(want)
		if !slices.Equal(names, want) {
			t.Fatalf("%s: sections %v, want %v", b.String(), names, want)
		}
		for i, at := range p.Quilts[0].Layout.Placed {
			if own := i > 0; at.Reversed || (p.Blocks[at.Block].Reverses != "") != own {
				t.Fatalf("%d: %+v", i, at)
			}
		}
	})
}

// A block that is its own mirror image needs no other sheets: nothing is made beside
// it, and it lies reversed in the quilt.
func TestSymmetricBlockHasNoOtherSheets(t *testing.T) {
	for _, block := range []string{
		"block it 8 x 8 finished 8in { section A { 1 sky at c  2 sea along (0, 3) -- (8, 3) } }",
		"block it 8 x 8 finished 8in { place corner by sw at w  place corner by c at (6, 6) reversed  section P { 1 sky at s + (0, 1)  } join n -- c  join w -- e }",
	} {
		p, r := mirrored(t, block, "8in")
		if r != nil {
			t.Errorf("%s: %q", block, r.Name)
		}
		if at := &p.Quilts[0].Layout.Placed[1]; at.Block != 0 || !at.Reversed {
			t.Errorf("%s: %+v", block, at)
		}
	}
}

// Only a quilt asks for mirror images.
func TestBlocksThatNoQuiltReverses(t *testing.T) {
	p, _, _ := fleet(t, "row mixed, mixed turn 90deg")
	for i := range p.Blocks {
		if p.Blocks[i].Reverses != "" {
			t.Errorf("%q is made", p.Blocks[i].Name)
		}
	}
	// Nor one that can't be laid out.
	text := `fabric sky "sky" light #dfeaf0
block it 4 x 4 finished 4in { section A { 1 sky at (1, 1)  2 sky along (0, 1) -- (3, 4) } }
quilt { row it reversed, it
 row it }
`
	p, ps := compiler.Compile(&problem.Source{Name: "q.seam", Text: text}, nil)
	if p == nil || len(p.Blocks) != 1 {
		t.Errorf("%v", ps)
	}
}
