package compiler_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// A star whose ground has its edge on the block's border, at 67 degrees to its seam: along
// its seam the border is off the straight grain, on the grain it lies at a slant.
const grounds = `pattern "Star" {
SETTING}
fabric lit   "lit"   light  #f0d48a
fabric night "night" dark   #1f2f47
unit wedge outline (0, 0), (4, -4), (4, 4) {
  section A {
    1 lit   at (1, 0.2)
    2 lit   along (0, 0) -- (4, 0)
    3 night along (1.2, 1.2) -- (4, 0)
    4 night along (1.2, -1.2) -- (4, 0)
  }
}
block star 8 x 8 finished 8in {
  for i in 0..3 { place wedge at c turn 90deg * i }
  join c -- ne
  join c -- sw
  join nw -- se
}
`

func TestGrainBeforeTheLine(t *testing.T) {
	for setting, first := range map[string]bool{"": false, "  grain night\n": true} {
		text := strings.Replace(grounds, "SETTING", setting, 1)
		d := &sizedOf(t, text).Drawings[0]
		for k := 2; k < 4; k++ {
			patch := &d.Pieces[k].Patch
			a, b := patch.Laid[0], patch.Laid[1]
			if straight := min(math.Abs(float64(b.X-a.X)), math.Abs(float64(b.Y-a.Y))) < 1e-9; straight != first || patch.Along == first {
				t.Errorf("with %q piece %d lies from %v to %v, along its line %v", setting, k+1, a, b, patch.Along)
			}
			if patch.Margin < 0.125-1e-9 {
				t.Errorf("with %q piece %d reaches %v beyond its need", setting, k+1, patch.Margin)
			}
		}
		_, ps := compile(text)
		told := false
		for _, p := range ps {
			told = told || p.Code == "R112" && strings.Contains(p.Help, "grain night")
		}
		if told == first {
			t.Errorf("with %q the border is off the grain: %v", setting, told)
		}
	}
}

// Half a square has the grain on its short sides and an edge along its line: it is both.
// A line that runs with the grain leaves its patch as it was.
func TestGrainAlongTheLine(t *testing.T) {
	text := `pattern "Corner" {
  grain sail, hull
}
fabric sail "sail" light #f3ecdd
fabric hull "hull" dark #33312e
block corner 4 x 4 finished 6in {
  section {
    1 sail at (2, 2)
    2 hull along (0, 1) -- (4, 1)
    3 hull along (2, 4) -- (4, 2)
  }
}
`
	d := &sizedOf(t, text).Drawings[0]
	for k, want := range []pattern.Shape{pattern.Square, pattern.Rectangle, pattern.HalfSquare} {
		if patch := &d.Pieces[k].Patch; patch.Shape != want && !(k == 0 && patch.Shape == pattern.Rectangle) || patch.Along != (k > 0) {
			t.Errorf("piece %d: shape %v, along its line %v", k+1, patch.Shape, patch.Along)
		}
	}
	if d, e := sizedOf(t, strings.Replace(text, "  grain sail, hull\n", "", 1)).Drawings[0], d; d.Pieces[1].Patch.Size != e.Pieces[1].Patch.Size || d.Pieces[2].Patch.Size != e.Pieces[2].Patch.Size {
		t.Error("with the grain and without, other sizes are cut")
	}
}

func TestGrainOfUnknownFabric(t *testing.T) {
	for setting, code := range map[string]problem.Code{"grain nigth": eval.UnknownFabric, "grain 4in": eval.SettingValue} {
		_, ps := compile(strings.Replace(grounds, "SETTING", "  "+setting+"\n", 1))
		if !slices.ContainsFunc(ps, func(p problem.Problem) bool { return p.Code == code && p.Severity == problem.Error }) {
			t.Errorf("%s: %s", setting, show(ps))
		}
	}
}

// First spaces that are half a square are cut two from a square where a block has several,
// the short sides on the grain: four of 3 in take two squares and not four. One alone would
// leave half a square over.
func TestFirstHalfSquares(t *testing.T) {
	quarter := func(finished, first, second string) *pattern.Patch {
		s := sizedOf(t, `fabric vane "vane" dark #25525e
fabric sky "sky" light #dfeaf0
unit quarter 2 x 2 { section { 1 vane at `+first+`  2 sky along `+second+` } }
block windmill `+finished+`
`)
		return &s.Drawings[0].Pieces[0].Patch
	}
	four := "4 x 4 finished 6in {\n  join w -- c, c -- e\n  join n -- s\n  for i in 0..3 { place quarter at c turn 90deg * i }\n}"
	one := "2 x 2 finished 3in {\n  place quarter at sw\n}"
	patch := quarter(four, "(0.5, 0.5)", "se -- nw")
	if patch.Shape != pattern.HalfSquare || patch.Along || patch.Margin < 0.25-1e-9 {
		t.Errorf("of four: %+v", patch)
	}
	if side := patch.Laid[1].X - patch.Laid[0].X; math.Abs(float64(side)) > 1e-9 && math.Abs(float64(patch.Laid[1].Y-patch.Laid[0].Y)) > 1e-9 {
		t.Errorf("a short side lies from %v to %v, off the grain", patch.Laid[0], patch.Laid[1])
	}
	if patch := quarter(one, "(0.5, 0.5)", "se -- nw"); patch.Shape != pattern.Square {
		t.Errorf("of one: %+v", patch)
	}
}
