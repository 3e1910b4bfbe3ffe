package compiler_test

import (
	"fmt"
	"math"
	"testing"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

// eighths is a length rounded to the nearest eighth, as charts print it.
func eighths(l pattern.Length) float64 { return math.Round(float64(l)*8) / 8 }

// Diagonals of blocks to the nearest eighth: Math charts, quilterscache.com, 17 June
// 2002. One block on point is as wide as its diagonal.
func TestPublishedDiagonals(t *testing.T) {
	for b, want := range map[int]float64{4: 5.625, 5: 7.125, 6: 8.5, 7: 9.875, 8: 11.375, 9: 12.75, 10: 14.125, 12: 17, 14: 19.75} {
		l := laid(t, fmt.Sprintf("%din", b), "blocks cloud, 1 x 1\n on_point sky")
		if got := eighths(l.Size.W); got != want || l.Size.W != l.Size.H {
			t.Errorf("%d in: %v, want %v", b, l.Size, want)
		}
	}
}

// A guild's way to the setting of 6 in blocks: the diagonal is 8 1/2, side squares
// 9 3/4, corner squares 8 1/2 / 2 + 7/8 = 5 1/8, plain squares between the blocks
// 6 1/2 (On-point tip, moonlightquilters.org). It takes 1.41 for the root of 2, most
// take 1.414: with 1.41 the sides for 7, 10, 13 and 14 in come out an eighth too small
// (computed), and rounding before or after adding is the same (Block on point,
// pinemeadowsdesigns.com: 12 / 1.414 = 8.49, 8 1/2, 9 3/8).
func TestGuildsOnPoint(t *testing.T) {
	l := laid(t, "6in", "blocks cloud, sky, 3 x 3\n on_point sea")
	for what, want := range map[string]pattern.Length{"setting triangles": 9.75, "corner triangles": 5.125, "plain squares": 6.5} {
		if n, size := counted(l, what); n == 0 || size.W != want {
			t.Errorf("%d %s of %v, want %v", n, what, size, want)
		}
	}
	if w := eighths(l.Size.W / 3); w != 8.5 {
		t.Errorf("diagonal %v", w)
	}
	for _, b := range []pattern.Length{7, 10, 13, 14} {
		_, size := counted(laid(t, fmt.Sprintf("%gin", float64(b)), "blocks cloud, 2 x 2\n on_point sky"), "setting triangles")
		if least := b*math.Sqrt2 + 0.5 + math.Sqrt2/2; size.W < least || size.W != pattern.RoundUp(b*1.41+1.25, 1./8)+1./8 {
			t.Errorf("%v in: %v", b, size.W)
		}
	}
	if _, size := counted(laid(t, "12in", "blocks cloud, 2 x 2\n on_point sky"), "corner triangles"); size.W != 9.375 {
		t.Errorf("corner for 12 in: %v", size.W)
	}
}

// bedding reckons the cloth of one long strip of a quilt.
func bedding(t *testing.T, finished, quilt, what string, usable pattern.Length) cutting.Cloth {
	t.Helper()
	p, q := sewn(t, finished, quilt)
	if q.Layout == nil {
		t.Fatal(q.Why)
	}
	set := p.Settings
	set.Buying.Usable, set.Buying.Straighten, set.Buying.Shrinkage = usable, 0, 0
	r := run(t, q.Layout, what)
	return cutting.Buy(nil, []pattern.Run{r}, &set)
}

// Backing of 72 x 90 in: area / 1296 and half a yard are 5 1/2 yd, and two lengths of
// 94 in, 188 in or 5.22 yd, fit (Quilt backings, bellaonline.com). 59 x 65 in from
// 3 3/4 yd, 135 in, two lengths of 67 1/2 (quiltingboard.com t28279): laid the other
// way, two of 61 1/2 do it too, and that is what the program cuts.
func TestPublishedBackingYards(t *testing.T) {
	c := bedding(t, "6in", "blocks cloud, 12 x 15\n backing 2in of sky", "backing", 40)
	if c.Inches != 188 || cutting.Yards(c.Need) != "5 1/4 yd" || c.Buy > 72*90/36+18 {
		t.Errorf("72 x 90: %+v, %s", c, cutting.Yards(c.Need))
	}
	c = bedding(t, "1in", "blocks cloud, 59 x 65\n backing 1 1/4in of sky", "backing", 42)
	if c.Inches != 2*61.5 || c.Buy > 135 {
		t.Errorf("59 x 65: %+v", c)
	}
}

// The strips of a border cut 6 1/2 in wide round 70 x 86 in are 2 x 70 + 2 x 86 + 4 x
// 6 1/2 = 338 in long (Amount of yardage, slideserve.com).
func TestPublishedBorderLength(t *testing.T) {
	l := laid(t, "2in", "blocks cloud, 35 x 43\n border 6in of sky")
	sum := pattern.Length(0)
	for _, n := range run(t, l, "border").Lengths {
		sum += n
	}
	if sum != 2*70+2*86+4*6.5 {
		t.Errorf("%v in", sum)
	}
}

// A published mistake: (51 + 61) / 36 = 3.1 yd for a border of 5 in round 40 x 50
// (blog.missouriquiltco.com), two lengths instead of four and no width. Computed: four
// lengths of 50 1/2 in, cut 5 1/2 wide from strips of 40 in, are six strips, 33 in.
func TestBorderClothIsStrips(t *testing.T) {
	l := laid(t, "2in", "blocks cloud, 20 x 25\n border 5in of sky")
	if r := run(t, l, "border"); r.Height != 5.5 || fmt.Sprint(r.Lengths) != "[50.5 50.5 50.5 50.5]" {
		t.Errorf("%+v", r)
	}
	c := bedding(t, "2in", "blocks cloud, 20 x 25\n border 5in of sky", "border", 40)
	if c.Inches != 33 || cutting.Yards(c.Need) != "1 yd" {
		t.Errorf("%+v, %s", c, cutting.Yards(c.Need))
	}
}

// Strips of binding as published, with what is added for corners and joins: 66 x 58
// and 20 in are 268, across 40 in 7 strips or 17 1/2 in (Binding yardage,
// blog.missouriquiltco.com); 40 x 50, nothing added, 5 strips or 12 1/2 in
// (alwaysinstitchesohio.blogspot.com, 2009); 78 x 56 and 8 in are 276 and 7 strips
// (onceuponaquilt.blogspot.com); 50 x 60, divided by the width less 2 in, 6 strips.
// The program adds 12 in ((perimeter + 12) / width: Binding, suite101.com, 2009).
func TestPublishedBindingInches(t *testing.T) {
	for _, c := range []struct {
		w, h   int
		inches pattern.Length
	}{{66, 58, 17.5}, {40, 50, 12.5}, {78, 56, 17.5}, {50, 60, 15}} {
		text := fmt.Sprintf("blocks cloud, %d x %d\n binding 2 1/2in of sky", c.w/2, c.h/2)
		if got := bedding(t, "2in", text, "binding", 40); got.Inches != c.inches {
			t.Errorf("%d x %d: %v in, want %v", c.w, c.h, got.Inches, c.inches)
		}
		if r := run(t, laid(t, "2in", text), "binding"); r.Lengths[0] != pattern.Length(2*(c.w+c.h)+12) {
			t.Errorf("%d x %d: %v in", c.w, c.h, r.Lengths)
		}
	}
}
