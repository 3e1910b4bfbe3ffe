package cutting

import (
	"math"
	"testing"

	"seamwright/compiler/pattern"
)

// Finished + 1/2 in each way: Lesson 1, Allowing for Seam Allowances
// (docslib.org 4718373); definitions (quiltersfun.com); What is what in quilting
// (piececorpquiltersguild.com). Cells of a grid: Easy math (quilton, 2012), Quilt
// blocks easy math 4 (quiltmaker.com, 2013). Nine patch of 12 in: M. Hohn, 2004.
func TestPublishedRectangles(t *testing.T) {
	for _, c := range []struct{ w, h, cutW, cutH pattern.Length }{
		{3, 3, 3.5, 3.5}, {5, 2.5, 5.5, 3}, {1.5, 1.5, 2, 2}, {9, 9, 9.5, 9.5}, {12, 12, 12.5, 12.5},
		{12. / 3, 12. / 3, 4.5, 4.5}, {16. / 2, 16. / 2, 8.5, 8.5}, {16. / 4, 16. / 4, 4.5, 4.5}, {6, 3, 6.5, 3.5},
		{12. / 9, 12. / 9, 1.875, 1.875}, // computed: 1 1/3 is on no ruler, so up to the next eighth
	} {
		for _, turn := range []float64{0, 90, 45, 22.5, 57} {
			got := plain(turned(rect(c.w, c.h), turn))
			if got.Size != (pattern.Size{W: c.cutW, H: c.cutH}) {
				t.Errorf("%v x %v turned %v: cut %v", c.w, c.h, turn, got.Size)
			}
			if want := map[bool]pattern.Shape{true: pattern.Square, false: pattern.Rectangle}[c.w == c.h]; got.Shape != want {
				t.Errorf("%v x %v turned %v: shape %v", c.w, c.h, turn, got.Shape)
			}
		}
	}
}

func halfSquare(leg pattern.Length) []pos { return []pos{{}, {X: leg}, {Y: leg}} }

// quarterSquare has its long side on the x axis.
func quarterSquare(long pattern.Length) []pos {
	return []pos{{}, {X: long}, {X: long / 2, Y: long / 2}}
}

// Finished + 7/8, cut once: Formulas for Quilters (K. Combs, 2002); Lesson 1
// (docslib.org 4718373); HST and QST (north-hampshire-quilters.org.uk); How to
// measure and cut triangles (2018). Wings of geese, finished height + 7/8: Fast
// geese (alinequilts, 2011). Shoo fly 12, 9, 6 in: Vintage Quilt Blocks.
func TestPublishedHalfSquares(t *testing.T) {
	for _, c := range []struct{ leg, cut pattern.Length }{
		{2, 2.875}, {3, 3.875}, {4.5, 5.375}, {1, 1.875}, {1.5, 2.375}, {4, 4.875},
	} {
		got := plain(halfSquare(c.leg))
		if got.Shape != pattern.HalfSquare || got.Size.W != c.cut || got.Size.H != c.cut {
			t.Errorf("leg %v: %+v, want %v", c.leg, got, c.cut)
		}
		// 0.8536 more than finished is exact: HST formula (cwkalina, 2009).
		if add := float64(got.Exact.W - c.leg); math.Abs(add-0.8536) > 5e-5 {
			t.Errorf("leg %v: exact addition %v", c.leg, add)
		}
	}
}

// Finished long side + 1 1/4, cut twice: Formulas for Quilters (K. Combs, 2002);
// Cutting QSTs (quiltville, 2005). Geese, and the points of an Ohio star of 12 in
// (4 finished): M. Hohn, 1999. The exact 1/2 + 1/2 sqrt 2 = 1.2071 is computed.
func TestPublishedQuarterSquares(t *testing.T) {
	for _, c := range []struct{ long, cut pattern.Length }{{3, 4.25}, {4, 5.25}, {2, 3.25}, {6, 7.25}} {
		got := plain(quarterSquare(c.long))
		if got.Shape != pattern.QuarterSquare || got.Size.W != c.cut {
			t.Errorf("long side %v: %+v, want %v", c.long, got, c.cut)
		}
		if add := float64(got.Exact.W - c.long); math.Abs(add-1.2071) > 5e-5 {
			t.Errorf("long side %v: exact addition %v", c.long, add)
		}
	}
}

// Setting triangles and corners: M. Hohn, Setting Triangles, 2002, and an
// independent chart (lukas.is-a-geek.org) that agrees. They take 1.414 for
// sqrt 2, which makes a difference in one entry: 16 sqrt 2 + 1 1/4 = 23.8774 is
// just over 23 7/8.
func TestSettingChart(t *testing.T) {
	for _, c := range []struct{ b, side, corner pattern.Length }{
		{4, 7, 3.75}, {6, 9.75, 5.125}, {8, 12.625, 6.625}, {10, 15.5, 8}, {12, 18.25, 9.375}, {16, 24, 12.25},
	} {
		if got := plain(quarterSquare(c.b * math.Sqrt2)); got.Size.W != c.side {
			t.Errorf("side for %v: %v, want %v", c.b, got.Size.W, c.side)
		}
		if got := plain(halfSquare(c.b / math.Sqrt2)); got.Size.W != c.corner {
			t.Errorf("corner for %v: %v, want %v", c.b, got.Size.W, c.corner)
		}
	}
}

// Straight grain belongs on the edge of the block (Bias, quilterchic.com;
// Cutting out pieces, jinnybeyer.com): the same triangle is cut both ways.
func TestGrainDecides(t *testing.T) {
	corner := turned(halfSquare(3), 45) // long side upright, legs at 45 degrees
	for _, c := range []struct {
		border []int
		want   pattern.Shape
	}{{nil, pattern.QuarterSquare}, {[]int{0}, pattern.HalfSquare}, {[]int{1}, pattern.QuarterSquare}} {
		if got := plain(corner, c.border...); got.Shape != c.want {
			t.Errorf("border %v: shape %v, want %v", c.border, got.Shape, c.want)
		}
	}
	if got := plain(halfSquare(3), 1); got.Shape != pattern.QuarterSquare {
		t.Errorf("long side on the border: %v", got.Shape)
	}
}

// A right triangle with unequal legs. Computed: 3, 4, 5 has an inscribed radius
// of 1, so 1/4 in all round makes it 5/4 as large: 3 3/4 x 5.
func TestHalfRectangle(t *testing.T) {
	a := plain([]pos{{}, {X: 4}, {Y: 3}})
	b := plain([]pos{{}, {X: 3}, {Y: 4}})
	for _, got := range []pattern.Patch{a, b} {
		if got.Shape != pattern.HalfRectangle || got.Size != (pattern.Size{W: 5, H: 3.75}) {
			t.Errorf("got %+v", got)
		}
	}
	if a.Reversed == b.Reversed {
		t.Error("a triangle and its mirror image are cut from the same cloth")
	}
	if a.Shape.Yield() != 2 {
		t.Error("a rectangle cut once gives two")
	}
}

func TestTemplateTakesItsAllowance(t *testing.T) {
	// A parallelogram 4 in long, 2 in high, its acute corners at 45 degrees. Its
	// longest side lies along the grain; the height takes two allowances.
	got := plain([]pos{{}, {X: 4}, {X: 6, Y: 2}, {X: 2, Y: 2}})
	if got.Shape != pattern.TemplatePatch || got.Size.H != 2.5 {
		t.Errorf("got %+v", got)
	}
	// An L-shape is not convex: its box and the allowance.
	got = plain([]pos{{}, {X: 4}, {X: 4, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}, {Y: 3}})
	if got.Shape != pattern.TemplatePatch || got.Size != (pattern.Size{W: 4.5, H: 3.5}) {
		t.Errorf("got %+v", got)
	}
}
