package cutting

import (
	"math"
	"testing"

	"seamwright/compiler/pattern"
)

// Equal triangles of one fabric are cut alike, at the border and inside.
func TestEqualTrianglesAreCutAlike(t *testing.T) {
	inside := corner(6, 3, 0)
	for i := range inside.Edges {
		inside.Edges[i].Kind = pattern.Joined
	}
	other := inside
	other.Pieces = append([]pattern.Piece(nil), inside.Pieces...)
	other.Pieces[1].Fabric = 1
	p := pattern.Pattern{Settings: pattern.Settings{Allowance: 0.25, Ease: 0.5}, Blocks: []pattern.Block{{Sizes: []pattern.Sized{{
		Drawings: []pattern.Drawing{inside, corner(6, 3, 0), other},
	}}}}}
	Cut(&p)
	d := p.Blocks[0].Sizes[0].Drawings
	if a, b := d[0].Pieces[1].Patch, d[1].Pieces[1].Patch; a.Shape != pattern.HalfSquare || a.Size != b.Size {
		t.Errorf("one is cut as %v %v, the other as %v %v", a.Shape, a.Size, b.Shape, b.Size)
	}
	if got := d[2].Pieces[1].Patch.Shape; got == pattern.HalfSquare {
		t.Error("one of another fabric is cut as half a square")
	}
}

// needle draws a triangle of 20 degrees, so long, its short side the seam: at the end
// of a section that is as sharp, where its tip reaches far, or inside one, where it is
// cut off.
func needle(long pattern.Length, inside bool) pattern.Drawing {
	slope := pattern.Length(math.Tan(20 * math.Pi / 180))
	wide := long + 2
	short := [2]pos{{X: long, Y: -1}, {X: long}}
	if inside {
		return sewn(rect(wide, wide*slope), short, [2]pos{{}, {X: wide, Y: wide * slope}})
	}
	return sewn([]pos{{}, {X: wide}, {X: wide, Y: wide * slope}}, short)
}

// cutTogether cuts several sections of one block and returns the second patch of each.
func cutTogether(t *testing.T, drawings ...pattern.Drawing) (patches []pattern.Patch) {
	t.Helper()
	p := pattern.Pattern{Settings: pattern.Settings{Allowance: 0.25, Ease: 0.5}, Blocks: []pattern.Block{{Sizes: []pattern.Sized{{Drawings: drawings}}}}}
	Cut(&p)
	for i := range drawings {
		patches = append(patches, p.Blocks[0].Sizes[0].Drawings[i].Pieces[1].Patch)
	}
	return patches
}

// A tip of the cutting line makes the one patch longer than the other; cut for one
// block they are of one size, which covers both, unless that takes a tenth more cloth.
func TestTipsMakeNoSecondSize(t *testing.T) {
	sharp, blunt := cutTogether(t, needle(6, false))[0], cutTogether(t, needle(6, true))[0]
	if sharp.Size.H <= blunt.Size.H || sharp.Size.W != blunt.Size.W {
		t.Fatalf("alone: %v and %v", sharp.Size, blunt.Size)
	}
	both := cutTogether(t, needle(6, true), needle(6, false))
	if both[0].Size != sharp.Size || both[1].Size != sharp.Size {
		t.Errorf("together: %v and %v, want %v", both[0].Size, both[1].Size, sharp.Size)
	}
	grown := (sharp.Size.H - blunt.Size.H) / 2
	if both[0].Margin < blunt.Margin || both[0].Margin > blunt.Margin+grown+1e-9 || both[0].Exact != blunt.Exact {
		t.Errorf("the larger patch: %+v, was %+v", both[0], blunt)
	}
	many := needle(1.5, true)
	many.Make = 12
	few := cutTogether(t, many, needle(1.5, false))
	if alone := cutTogether(t, many)[0]; few[0].Size != alone.Size || few[1].Size == alone.Size {
		t.Errorf("a dozen small ones are cut %v, alone %v, for one of %v", few[0].Size, alone.Size, few[1].Size)
	}
	other := needle(6, true)
	other.Pieces[1].Fabric = 1
	if got := cutTogether(t, other, needle(6, false))[0].Size; got != blunt.Size {
		t.Errorf("one of another fabric is cut %v", got)
	}
}
