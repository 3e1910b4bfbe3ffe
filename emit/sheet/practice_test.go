package sheet

import (
	"math"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
)

// extraWidth is of the line that tells what is left beyond the border, in mm.
const extraWidth = 0.45

// sheetsOf lays the only block of a pattern and returns the lines of its sheets.
func sheetsOf(t *testing.T, text string) (*pattern.Pattern, []drawn) {
	t.Helper()
	p := compile(t, text)
	set, problems := Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
	if len(set.Sheets) == 0 {
		t.Fatal(problems)
	}
	var paths []drawn
	for i := range set.Sheets {
		lines, _ := read(t, file(t, &set.Sheets[i]))
		paths = append(paths, lines...)
	}
	return p, paths
}

// extentOf returns how wide and high a line of a section is, in inches.
func extentOf(t *testing.T, paths []drawn, section string, width float64, dashed bool) (w, h float64) {
	t.Helper()
	lines := of(paths, section, width, dashed)
	if len(lines) == 0 {
		t.Fatalf("section %s has no line %v mm wide", section, width)
	}
	b := boxOf(lines[0].points)
	for _, l := range lines[1:] {
		c := boxOf(l.points)
		b.x0, b.y0, b.x1, b.y1 = min(b.x0, c.x0), min(b.y0, c.y0), max(b.x1, c.x1), max(b.y1, c.y1)
	}
	return float64(b.x1 - b.x0), float64(b.y1 - b.y0)
}

const pennant = `pattern "Pennant" { edition 1 sheet a3 %EXTRA% }
fabric flag "flag" dark #9c3d2e
fabric sky "sky" light #dfeaf0
block pennant 6 x 6 finished 6in {
  section A {
    1 flag at (3, 2)
    2 sky along (0, 0) -- (3, 6)
    3 sky along (6, 0) -- (3, 6)
  }
}
`

// A printed outline and 1/4 in all round, on a dashed line to trim on: a section of 6 in
// is cut 6 1/2 (Foundation Piecing Primer 3, McCall's Quick Quilts; Foundation piecing
// directions, sewkaren-lycreated.blogspot.com). Sheets without that line lose the block:
// 12 1/2 in came out 12 (How not to paper piece, getstitchy.wordpress.com, 2010). Points
// stand 1/4 in inside the raw edge (common practice, no source).
func TestAQuarterInchAllRound(t *testing.T) {
	p, paths := sheetsOf(t, strings.Replace(pennant, "%EXTRA%", "", 1))
	w, h := extentOf(t, paths, "A", outlineWidth, false)
	if math.Abs(w-6) > grid || math.Abs(h-6) > grid {
		t.Errorf("the outline is %v x %v", w, h)
	}
	w, h = extentOf(t, paths, "A", cuttingWidth, true)
	if math.Abs(w-6.5) > 2*grid || math.Abs(h-6.5) > 2*grid {
		t.Errorf("the cutting line is %v x %v", w, h)
	}
	tip := p.Blocks[0].Sizes[0].Drawings[0].Pieces[0].Polygon // the flag's point, on the upper edge
	high := length(0)
	for _, q := range tip {
		high = max(high, q.Y)
	}
	if high != 6 || math.Abs(h-float64(high)-2*0.25) > 2*grid {
		t.Errorf("the point stands at %v, and the raw edges are %v apart", high, h)
	}
}

// Edges that join are trimmed at the allowance; edges on the block's border may be left
// 1/4 in wider and trimmed when the block is complete (common practice, no source).
func TestBordersMayBeLeftWider(t *testing.T) {
	_, paths := sheetsOf(t, strings.Replace(pennant, "%EXTRA%", "extra 1/4in", 1))
	w, h := extentOf(t, paths, "A", extraWidth, true)
	if math.Abs(w-7) > 2*grid || math.Abs(h-7) > 2*grid {
		t.Errorf("all edges on the border: left %v x %v", w, h)
	}
	// Two sections that join: along the join, the extra is on the outer sides alone.
	_, paths = sheetsOf(t, `pattern "Two" { edition 1 extra 1/4in }
fabric flag "flag" dark #9c3d2e
fabric sky "sky" light #dfeaf0
block two 4 x 4 finished 4in {
  section A { 1 flag at (1, 1)  2 sky along (0, 2) -- (2, 2) }
  section B { 1 sky at (3, 3)  2 flag along (2, 1) -- (4, 1) }
  join n -- s
}
`)
	for _, name := range []string{"A", "B"} {
		cutW, cutH := extentOf(t, paths, name, cuttingWidth, true)
		w, h := extentOf(t, paths, name, extraWidth, true)
		// A section of 2 x 4: trimmed 2 1/2 x 4 1/2, and left wider on three sides.
		less, more := min(cutW, cutH), max(cutW, cutH)
		if math.Abs(less-2.5) > 2*grid || math.Abs(more-4.5) > 2*grid {
			t.Errorf("%s is trimmed to %v x %v", name, cutW, cutH)
		}
		if math.Abs(max(w, h)-5) > 2*grid || min(w, h) > 2.75+2*grid {
			t.Errorf("%s is left %v x %v", name, w, h)
		}
	}
}
