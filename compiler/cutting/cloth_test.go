package cutting

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

func square(side pattern.Length, n int) Need { return Need{pattern.Size{W: side, H: side}, n} }

func reckoned(width pattern.Length, shrinkage float64) *pattern.Settings {
	return &pattern.Settings{Buying: pattern.Buying{Usable: width, Shrinkage: shrinkage}}
}

// Worked examples of strips, as published.
func TestPublishedStrips(t *testing.T) {
	for _, c := range []struct {
		source    string
		needs     []Need
		width     pattern.Length
		shrinkage float64
		strips    []int
		inches    pattern.Length
		need      pattern.Length
		buy       string
	}{
		{"How to figure yardage, featheredstar.wordpress.com", []Need{square(2.5, 80)}, 40, 6, []int{5}, 12.5, 13.25, "3/8 yd"},
		// 152 in, told there as 4.222 yd; the next eighth up is computed.
		{"quiltingboard.com 6228687, 2013", []Need{square(9.5, 63)}, 42, 0, []int{16}, 152, 152, "4 1/4 yd"},
		{"quiltingboard.com t131707", []Need{square(4, 52), square(3, 20)}, 44, 0, []int{5, 2}, 26, 26, "3/4 yd"},
	} {
		plain, ok := unmixed(c.needs, c.width)
		got := bought(plain, c.needs, reckoned(c.width, c.shrinkage))
		if !ok || len(got.Strips) != len(c.strips) || math.Abs(float64(got.Inches-c.inches)) > 1e-9 ||
			math.Abs(float64(got.Need-c.need)) > 1e-9 || Yards(got.Need) != c.buy {
			t.Errorf("%s: %+v, %s; want %+v", c.source, got, Yards(got.Need), c)
			continue
		}
		for i, n := range c.strips {
			if got.Strips[i].Times != n {
				t.Errorf("%s: %d strips, want %d", c.source, got.Strips[i].Times, n)
			}
		}
	}
	if y := 152.0 / 36; math.Abs(y-4.222) > 0.0005 { // the published yards of the second
		t.Error(y)
	}
}

// Parts of a patch are none: starting a quilt, quilterscache.com. The 23 strips
// for 112 pieces are computed from it.
func TestPiecesPerStripRoundDown(t *testing.T) {
	if n := PerStrip(42, 7.75); n != 5 {
		t.Errorf("%d pieces of 7 3/4 in", n)
	}
	if n := PerStrip(42, 14); n != 3 {
		t.Errorf("%d pieces of 14 in", n)
	}
	if s, ok := strips(Need{pattern.Size{W: 7.75, H: 7.75}, 112}, 42); !ok || s.Times != 23 {
		t.Errorf("%d strips for 112", s.Times)
	}
}

// Squares from a fat quarter of 18 x 22 in: Math charts, quilterscache.com, 17
// June 2002, and Fat quarter squares, piecefulliving.blogspot.com, 2011. Four
// squares of 7 in (quiltingboard.com t73923) is a published mistake: there are 6.
func TestSquaresOfAFatQuarter(t *testing.T) {
	for side, want := range map[pattern.Length]int{2.5: 56, 3.5: 30, 5: 12, 6.5: 6, 7: 6} {
		if n := PerStrip(18, side) * PerStrip(22, side); n != want {
			t.Errorf("%v in: %d, want %d", side, n, want)
		}
	}
}

// Squares from a yard, 44 in of it usable: Math charts, quilterscache.com, 17
// June 2002. Its 35 squares of 7 in are a published mistake: 6 x 5 are 30.
func TestSquaresOfAYard(t *testing.T) {
	for side, want := range map[pattern.Length]int{1: 1584, 1.5: 696, 1.875: 437, 2: 396, 2.5: 238, 2.875: 180, 3: 168,
		3.5: 120, 3.875: 99, 4: 99, 4.5: 72, 4.875: 63, 5: 56, 5.5: 48, 6: 42, 6.5: 30, 7: 30, 8: 20, 9: 16, 10: 12, 12: 9, 12.5: 6} {
		rows := PerStrip(36, side)
		per := PerStrip(44, side)
		if rows*per != want {
			t.Errorf("%v in: %d, want %d", side, rows*per, want)
		}
		s, ok := strips(square(side, want), 44)
		if !ok || s.inches() > 36+noise {
			t.Errorf("%v in: %d squares take %v in", side, want, s.inches())
		}
		if s, _ := strips(square(side, want+1), 44); s.inches() <= 36+noise {
			t.Errorf("%v in: one square more still comes from a yard", side)
		}
	}
}

// A table of squares "from 44 in wide" (docsbay.net) has 357 of 2 in, 208 of 2 1/2 and 56
// of 5: no cloth, whatever its width and length, gives those three, so that nothing is
// held to it.
func TestATableThatNoClothGives(t *testing.T) {
	for w := pattern.Length(30); w <= 50; w += 0.125 {
		for l := pattern.Length(27); l <= 50; l += 0.125 {
			n := func(side pattern.Length) int { return PerStrip(w, side) * PerStrip(l, side) }
			if n(2) == 357 && n(2.5) == 208 && n(5) == 56 {
				t.Errorf("%v x %v gives them", w, l)
			}
		}
	}
}

// Yards and inches: Fraction conversions, catbirdquilts.wordpress.com, 2014, and
// Decimals to fractions, thesprucecrafts.com. Thirds are rounded up to eighths.
func TestYards(t *testing.T) {
	for inches, want := range map[pattern.Length]string{4.5: "1/8 yd", 9: "1/4 yd", 13.5: "3/8 yd", 18: "1/2 yd", 22.5: "5/8 yd",
		27: "3/4 yd", 31.5: "7/8 yd", 36: "1 yd", 12: "3/8 yd", 24: "3/4 yd", 0.5: "1/8 yd", 36.01: "1 1/8 yd"} {
		if got := Yards(inches); got != want {
			t.Errorf("%v in: %s, want %s", inches, got, want)
		}
	}
}

// Whatever is bought, all patches come from it: each strip holds its patches,
// none is missing, and the strips, with all that is lost, are no longer than the
// cloth. Mixing never costs more.
func TestClothIsEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) pattern.Length {
			return pattern.Length(rapid.IntRange(8, 96).Draw(t, name)) / 8
		}
		var needs []Need
		wanted := map[pattern.Size]int{}
		for range rapid.IntRange(1, 6).Draw(t, "sizes") {
			n := Need{pattern.Size{W: side("w"), H: side("h")}, rapid.IntRange(1, 60).Draw(t, "n")}
			needs = append(needs, n)
			wanted[pattern.Size{W: min(n.Size.W, n.Size.H), H: max(n.Size.W, n.Size.H)}] += n.Count
		}
		set := &pattern.Settings{Metric: rapid.Bool().Draw(t, "metric"), Buying: pattern.Buying{Usable: pattern.Length(rapid.IntRange(18, 44).Draw(t, "width")),
			Straighten: side("straighten") / 8, Shrinkage: float64(rapid.IntRange(0, 6).Draw(t, "shrinkage")), Spare: rapid.IntRange(0, 1).Draw(t, "spare")}}
		c := Buy(needs, nil, set)
		for _, s := range c.Strips {
			across := pattern.Length(0)
			for _, cut := range s.Cuts {
				if cut.Size.H > s.Height+noise {
					t.Fatalf("a patch of %v in a strip of %v", cut.Size, s.Height)
				}
				per := (cut.Count + s.Times - 1) / s.Times
				across += cut.Size.W * pattern.Length(per)
				wanted[pattern.Size{W: min(cut.Size.W, cut.Size.H), H: max(cut.Size.W, cut.Size.H)}] -= cut.Count
			}
			if across > set.Buying.Usable+noise {
				t.Fatalf("%+v is %v across, of %v", s, across, set.Buying.Usable)
			}
		}
		for size, n := range wanted {
			if n != 0 {
				t.Fatalf("%d of %v are not cut", n, size)
			}
		}
		// The sum is that of the lengths as they are told; what they are rounded by may take
		// a step more.
		told := c.Spare + set.Buying.Straighten.Told(set.Metric)
		for _, s := range c.Strips {
			told += s.Height.Told(set.Metric) * pattern.Length(s.Times)
		}
		told *= pattern.Length(1 + set.Buying.Shrinkage/100)
		if d := told - c.Need; d < -noise || d > noise {
			t.Fatalf("the sum of what is told is %v, not %v", told, c.Need)
		}
		rounded := pattern.Length(len(c.Strips)+2) * 60 * 0.0625
		if left := c.Buy - told; left < -noise || left >= Step(set.Metric)+rounded {
			t.Fatalf("%v is left over, one step is %v", left, Step(set.Metric))
		}
		plain, _ := unmixed(needs, set.Buying.Usable)
		if c.Buy > bought(plain, needs, set).Buy+noise {
			t.Fatal("mixing costs more")
		}
	})
}

// A scrap serves where the patches come from it, in either direction; a patch
// that no way round fits the cloth is told.
func TestScrapsAndGiants(t *testing.T) {
	set := reckoned(40, 0)
	if c := Buy([]Need{square(2.5, 4)}, nil, set); c.Scrap != (pattern.Size{W: 7, H: 5}) {
		t.Errorf("four of 2 1/2 in: %+v", c)
	}
	if c := Buy([]Need{square(2.5, 5)}, nil, set); c.Scrap.W != 0 || Yards(c.Buy) != "1/8 yd" {
		t.Errorf("five of 2 1/2 in: %+v", c)
	}
	if c := Buy([]Need{{pattern.Size{W: 41, H: 41}, 1}}, nil, set); !c.TooBig {
		t.Errorf("41 in of 40: %+v", c)
	}
	if c := Buy([]Need{{pattern.Size{W: 41, H: 4.5}, 1}}, nil, set); c.TooBig || Yards(c.Buy) != "1 1/4 yd" {
		t.Errorf("a long patch lies along the cloth: %+v", c)
	}
}
