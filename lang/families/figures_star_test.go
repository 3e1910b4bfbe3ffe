package families_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// Stars and other figures with roots in them, against what others have published,
// as in figures_test.go.

// star is a square of S with a star of eight diamonds, as eight equal wedges: in
// each a diamond, half of a corner square and half of a side triangle. With another
// angle than 45 degrees the wedges are turned by that.
func star(finished, angle string) string {
	return cloths + fmt.Sprintf(`accept R109 "the published star is a root of two wide"
unit eighth outline (0, 0), (6, 0), (6, 6) {
  let side = 12 / (2 + sqrt(2))
  let tip = (side + side / sqrt(2), side / sqrt(2))
  section {
    piece a at mid((0, 0), tip)
    piece b along tip -- (side, 0)
    piece d along polar(side, 45deg) -- tip
  }
}
block star 12 x 12 finished %sin {
  for i in 0..3 {
    place eighth at c turn %s * 2 * i
    place eighth at c turn %[2]s * 2 * i + %[2]s * 2 reversed
  }
  join c -- e, c -- w, c -- n, c -- s
  join c -- ne, c -- sw
  join nw -- se
}
`, finished, angle)
}

// An eight-point star: the sides of its diamonds, its corner squares and the short
// sides of its triangles are S / 3.414 each, the triangles' long sides the diagonal
// of the square. Worked: 18 in 5.2724 (8-pointed star tutorial, abcdocz.com/doc/174108,
// which also has squares of 2 and 2 1/8 in a star of 6.828 and 7.2548); 6 in 1.7574,
// with 2.484 for the diagonal, 15 in 4.3936, and 4.2222 in 1.2367 (S. Collins, Drafting
// for the Creative Quilter, C&T 2010). Formulas for Quilters (K. Combs, 2002) divides
// by 3.41. They round the root of two; the program doesn't, so these agree to their
// last figure but one.
func TestEightPointStar(t *testing.T) {
	for _, c := range []struct{ block, side float64 }{
		{18, 5.2724}, {6.828, 2}, {7.2548, 2.125}, {6, 1.7574}, {15, 4.3936}, {4.2222, 1.2367},
	} {
		p := compile(t, star(fmt.Sprint(c.block), "45deg"))
		s := &p.Blocks[0].Sizes[0]
		for i := range s.Drawings {
			list := pieces(s, i)
			for _, d := range sides(list[0]) {
				near(t, "side of a diamond", d, c.side, 0.0006)
			}
			side := sides(list[0])[0]
			near(t, "block by side", c.block/side, 2+math.Sqrt2, exact)
			near(t, "point of a diamond", angleAt(list[0], pattern.Pos{X: pattern.Length(c.block / 2), Y: pattern.Length(c.block / 2)}), 45, exact)
			corner := sides(list[2]) // half of a square
			near(t, "side of the square", corner[1], side, exact)
			near(t, "diagonal of the square", corner[0], side*math.Sqrt2, exact)
			near(t, "half the long side of a triangle", sides(list[1])[1], side/math.Sqrt2, exact)
			near(t, "short side of a triangle", sides(list[1])[0], side, exact)
		}
	}
	near(t, "published diagonal", 1.7574*1.414, 2.484, 0.001)
}

// Eight times 45 degrees are 360: eight diamonds of too wide an angle do not lie
// flat (R. S. McKim, 101 Patchwork Patterns, ch. III). Nor do narrower ones close.
func TestWideDiamondsDoNotLieFlat(t *testing.T) {
	for _, angle := range []string{"46deg", "44deg"} {
		p, problems := compiler.Compile(&problem.Source{Name: "test", Text: star("12", angle)}, shipped{})
		geometry := func(q problem.Problem) bool { return q.Severity == problem.Error && q.Code[0] == 'G' }
		if p != nil || !slices.ContainsFunc(problems, geometry) {
			t.Errorf("%s: %v", angle, problems)
		}
	}
}

// A hexagon's side is its width across the flats by the root of three: 2.75 in makes
// 1.5877 (a hexagon template, as a corpus of mathematical texts quotes it).
func TestHexagonSide(t *testing.T) {
	p := compile(t, cloths+`block comb 4 x 2.75 finished 4in {
  section {
    piece a at c
    for i in 0..3 {
      let way = 30deg + 60deg * (i + floor((i + 1) / 2))
      piece b along c + polar(2.75 / 2, way) -- c + polar(2.75 / 2, way) + polar(1, way + 90deg)
    }
  }
}
`)
	d := sides(pieces(&p.Blocks[0].Sizes[0], 0)[0])
	if len(d) != 6 {
		t.Fatalf("sides %v", d)
	}
	near(t, "longest", d[0], 1.5877, 5e-5)
	near(t, "shortest", d[5], 1.5877, 5e-5)
}
