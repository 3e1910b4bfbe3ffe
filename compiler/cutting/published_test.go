package cutting

import (
	"math"
	"testing"

	"seamwright/compiler/pattern"
)

// A triangle whose other side is known: of a half-square triangle with a long side
// of 2 in the square is 2 x 0.707 + 7/8 = 2.29, of a quarter-square triangle with
// short sides of 2 in 2 x 1.414 + 1 1/4 = 4.08 (What size should my triangle be,
// blackforestquilting.com, 2005). The exact additions, 0.8536 and 1.2071, are a little
// less than those, and the cut size is theirs, to the next eighth.
func TestTrianglesFromTheOtherSide(t *testing.T) {
	half := plain(halfSquare(math.Sqrt2)) // its long side is 2
	if half.Shape != pattern.HalfSquare || half.Exact.W > 2.29 || 2.29-half.Exact.W > 7./8-0.8536+0.001 || half.Size.W != 2.375 {
		t.Errorf("long side 2: %+v", half)
	}
	quarter := plain(quarterSquare(2 * math.Sqrt2)) // its short sides are 2
	if quarter.Shape != pattern.QuarterSquare || quarter.Exact.W > 4.08 || 4.08-quarter.Exact.W > 5./4-1.2071+0.002 || quarter.Size.W != 4.125 {
		t.Errorf("short sides 2: %+v", quarter)
	}
}

// Corners round a square on point: its side / 1.414 + 7/8 (Lesson 5 Square in a
// Square, slideblast.com: 3 1/2 -> 3 3/8; Corner triangles, scrapish.com: 4 -> 3 3/4).
// Published mistakes: a forum adds 1/2, which makes 4.03 of 5 in instead of 4.41
// (quiltingboard.com, post 3912467); the second source's text says to multiply by
// 1.414, and its own example divides.
func TestCornersRoundASquare(t *testing.T) {
	for center, cut := range map[pattern.Length]pattern.Length{3.5: 3.375, 4: 3.75, 5: 4.5} {
		got := plain(halfSquare(center / math.Sqrt2))
		if got.Size.W != cut || got.Size.W <= center/math.Sqrt2+0.5 || got.Size.W > center*math.Sqrt2 {
			t.Errorf("round %v: cut %v, want %v", center, got.Size.W, cut)
		}
	}
}

// Why 7/8 and 1 1/4: a seam of 1/4 in takes 1/4 at a square corner, and measured along the
// diagonal 3/8 at a sharp one; 1/2 + 3/8, and 1/2 + 3/8 + 3/8 (smartplatequilting.com,
// ?p=447). The exact figures are 0.3536 for a sharp corner, up to the next eighth.
func TestWhySevenEighths(t *testing.T) {
	half, quarter := plain(halfSquare(3)), plain(quarterSquare(3))
	sharp := half.Exact.W - 3 - 0.5
	if math.Abs(float64(sharp)-0.3536) > 5e-5 || math.Abs(float64(quarter.Exact.W-3-0.5-2*sharp)) > 1e-9 {
		t.Errorf("a sharp corner takes %v", sharp)
	}
	if up := pattern.RoundUp(sharp, 1./8); up != 3./8 || half.Size.W != 3+0.5+up || quarter.Size.W != 3+0.5+2*up {
		t.Errorf("%v and %v", half.Size.W, quarter.Size.W)
	}
}

// Nine divisions of 12 in are 1 1/3 in, and a half-square triangle's square is 2.2083,
// just under 2 1/4 (October block, oneworldfabrics.blogspot.com, 2017).
func TestThirdsOfAnInch(t *testing.T) {
	got := plain(halfSquare(12. / 9))
	if got.Size.W != 2.25 || math.Abs(float64(12./9+7./8)-2.2083) > 5e-5 || got.Exact.W > 2.2083 {
		t.Errorf("%+v", got)
	}
}

// Published mistakes. Squares for half-square triangles cut at 4 1/2, the size that
// they should be trimmed to (thewayisewit.blogspot.com, 2023): they make 4 in finished
// only from 4 7/8. A quarter-square triangle's square of finished + 1 3/8, 5 3/8 for
// 4 in, an eighth more than is needed (a block of the month, delawarequilts.com):
// 5 1/4.
func TestPublishedTriangleMistakes(t *testing.T) {
	if got := plain(halfSquare(4)); got.Size.W != 4.875 || got.Exact.W <= 4.5 {
		t.Errorf("half square: %+v", got)
	}
	if got := plain(quarterSquare(4)); got.Size.W != 5.25 || got.Exact.W > 5.25 {
		t.Errorf("quarter square: %+v", got)
	}
}

// Equilateral triangles from strips: strips of 4 1/4 in finished height are cut 5,
// 3/4 more; the triangles' sides finish 2/sqrt 3 of the height, 4.91, and are cut 7/8
// longer, 0.866 exactly (Equilateral triangles, quilting.about.com and
// mythicseam.com). The program's template is lower than the strip, for the tip that
// a seam would cut off anyway is blunted on it; the sides and their lines are the same.
func TestEquilateralTriangles(t *testing.T) {
	const high = 4.25
	side := pattern.Length(high * 2 / math.Sqrt(3))
	if math.Abs(float64(side)-4.91) > 0.005 {
		t.Errorf("side %v", side)
	}
	triangle := []pos{{}, {X: side}, {X: side / 2, Y: high}}
	seams := offset(nil, triangle, []pattern.Length{.25, .25, .25})
	if got := seams[2].Y - seams[0].Y; math.Abs(float64(got)-5) > 1e-9 {
		t.Errorf("strip of %v", got)
	}
	if got := float64(seams[1].X - seams[0].X - side); math.Abs(got-0.8660) > 5e-5 || pattern.RoundUp(pattern.Length(got), 1./8) != 0.875 {
		t.Errorf("sides are %v longer", got)
	}
	got := plain(triangle)
	blunted := 5 - (0.5 - 0.25*math.Sqrt2) // the tip would reach 1/2 in past the point
	if got.Shape != pattern.TemplatePatch || math.Abs(float64(got.Exact.H)-blunted) > 1e-9 || got.Size.H != 4.875 {
		t.Errorf("template: %+v, want %v high", got, blunted)
	}
}

// How much larger than its space a patch for paper is cut, on every side: 1/4
// (C&T e-book, ISBN 978-1-60705-182-4, ch. 3: strips + 1/2 in both directions),
// 1/2 (Cutting rules, gailgarber.com: + 1), 3/4 (Discoveries,
// sunflowerquilts.blogspot.com, 2008: + 1 1/2). Whatever is chosen is what is added,
// and the cloth reaches at least a seam past the space, as all of them ask.
func TestPublishedEases(t *testing.T) {
	for _, c := range []struct{ ease, more pattern.Length }{{0.25, 0.5}, {0.5, 1}, {0.75, 1.5}} {
		d := cut(pattern.Settings{Ease: c.ease}, sewn(rect(6, 2.5+2), [2]pos{{Y: 2}, {X: 1, Y: 2}}))
		p := d.Pieces[1].Patch
		if p.Size != (pattern.Size{W: 6 + c.more, H: 2.5 + c.more}) || p.Margin < c.ease-0.25-1e-9 {
			t.Errorf("ease %v: %+v", c.ease, p)
		}
	}
}

// Patches for paper take more cloth than the same block cut exact (Quilter's World,
// Nov 2017; C&T e-book, ISBN 978-1-60705-182-4, ch. 3), with any of the published eases.
func TestPaperTakesMoreCloth(t *testing.T) {
	section := sewn(rect(6, 3), [2]pos{{X: 3}, {Y: 3}}, [2]pos{{X: 6, Y: 3}, {X: 3}}) // a goose
	var exact pattern.Length
	for i := range section.Pieces {
		p := plain(section.Pieces[i].Polygon)
		exact += p.Size.W * p.Size.H / pattern.Length(p.Shape.Yield())
	}
	for _, ease := range []pattern.Length{0.25, 0.5, 0.75} {
		var paper pattern.Length
		d := cut(pattern.Settings{Ease: ease}, section)
		for i := range d.Pieces {
			p := d.Pieces[i].Patch
			paper += p.Size.W * p.Size.H / pattern.Length(p.Shape.Yield())
		}
		if paper <= exact {
			t.Errorf("ease %v: %v sq in for paper, %v exact", ease, paper, exact)
		}
	}
}

// A fat quarter is half of half a yard: 18 x 22 in, or 18 x 21 of cloth 42 in wide (Fat
// quarters, allpeoplequilt.com, 2017; sew4home.com); a fat eighth 9 x 21; a long quarter is
// 9 in of the whole width (Imperial to metric guide, echidnasewing.com.au, 2022). What
// comes from each is computed: a quarter is worth two eighths, fat or long.
func TestPublishedQuarters(t *testing.T) {
	fat, long, eighth := pattern.Size{W: 18, H: 21}, pattern.Size{W: 42, H: 9}, pattern.Size{W: 9, H: 21}
	for side, want := range map[pattern.Length][3]int{2.5: {56, 48, 24}, 4.5: {16, 18, 8}, 8: {4, 5, 2}, 9: {4, 4, 2}} {
		for i, from := range []pattern.Size{fat, long, eighth} {
			if n, ok := Pieces([]Need{square(side, want[i])}, from); !ok || n != 1 {
				t.Errorf("%d of %v from %v take %d", want[i], side, from, n)
			}
			if n, _ := Pieces([]Need{square(side, want[i]+1)}, from); n != 2 {
				t.Errorf("%d of %v from %v take %d", want[i]+1, side, from, n)
			}
		}
	}
}

// Pre-cut cloth that is sold: up to 40 strips of 2 1/2 in, squares of 10 in and of 5 in
// (4-H Quilt Quest fair book, extension.unl.edu; Precut guide,
// handmadebyheidi.blogspot.com, 2010). What comes from them is computed.
func TestPublishedPreCuts(t *testing.T) {
	for _, c := range []struct {
		need, from pattern.Size
		each       int
	}{
		{pattern.Size{W: 2.5, H: 2.5}, pattern.Size{W: 40, H: 2.5}, 16},
		{pattern.Size{W: 5, H: 5}, pattern.Size{W: 10, H: 10}, 4},
		{pattern.Size{W: 2.5, H: 2.5}, pattern.Size{W: 5, H: 5}, 4},
		{pattern.Size{W: 3.5, H: 2}, pattern.Size{W: 5, H: 5}, 2},
	} {
		for n, want := range map[int]int{1: 1, c.each: 1, c.each + 1: 2, 40 * c.each: 40} {
			if got, ok := Pieces([]Need{{c.need, n}}, c.from); !ok || got != want {
				t.Errorf("%d of %v from %v: %d, want %d", n, c.need, c.from, got, want)
			}
		}
	}
	if _, ok := Pieces([]Need{square(3, 1)}, pattern.Size{W: 40, H: 2.5}); ok {
		t.Error("3 in from a strip of 2 1/2")
	}
}
