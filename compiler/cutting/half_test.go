package cutting

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// corner draws a square on the block's border whose corner is cut off by a seam
// that leans by some degrees from 45.
func corner(side, leg pattern.Length, lean float64) pattern.Drawing {
	sin, cos := math.Sincos((45 + lean) * math.Pi / 180)
	to := pos{X: side, Y: side - leg}
	d := sewn(rect(side, side), [2]pos{{X: to.X - pattern.Length(cos), Y: to.Y + pattern.Length(sin)}, to})
	for i := range d.Edges {
		d.Edges[i].Kind = pattern.Border
	}
	return d
}

// A corner of the block is cut as half a square, its short sides on the grain
// (Right triangles and grain, frommartimichell.blogspot.com, 2015). With an ease of
// just the allowance that is the square of the usual rule for half-square
// triangles, the finished short side and 7/8 in (Why 7/8, smartplatequilting.com,
// ?p=447; rounded up to a quarter here). With the usual ease it stays within what is
// published for foundations, the longest leg and 2 in (Cutting rules,
// gailgarber.com: 5 in for a leg of 3).
func TestCornersAreHalfSquares(t *testing.T) {
	for _, leg := range []pattern.Length{1.5, 2, 2.5, 3, 4} {
		d := cut(pattern.Settings{Ease: 0.25}, corner(6, leg, 0))
		p := d.Pieces[1].Patch
		if p.Shape != pattern.HalfSquare || !p.Along || p.Size.W != p.Size.H {
			t.Fatalf("a corner of %v in is cut as %+v", leg, p)
		}
		if rule := pattern.RoundUp(leg+7.0/8, 0.25); p.Size.W != rule {
			t.Errorf("a corner of %v in is cut from a square of %v in, by the rule of %v", leg, p.Size.W, rule)
		}
		if p = cut(pattern.Settings{}, corner(6, leg, 0)).Pieces[1].Patch; p.Size.W > leg+2 || p.Size.W < leg+7.0/8 {
			t.Errorf("a corner of %v in is cut from a square of %v in with the usual ease", leg, p.Size.W)
		}
	}
}

// Where its short sides would be off the grain, or nothing lies on the border, a
// rectangle is cut.
func TestNoHalfSquareOffTheGrain(t *testing.T) {
	if d := cut(pattern.Settings{}, corner(6, 3, 6)); d.Pieces[1].Patch.Shape == pattern.HalfSquare {
		t.Error("half a square at 51 degrees")
	}
	d := corner(6, 3, 0)
	d.Edges[1].Kind, d.Edges[2].Kind = pattern.Joined, pattern.Joined
	if d := cut(pattern.Settings{}, d); d.Pieces[1].Patch.Shape == pattern.HalfSquare {
		t.Error("half a square inside the block")
	}
}

// A maker lays the long side an allowance past the line, its middle at the middle
// of the space, and folds the triangle over: it covers the space, an allowance
// round it, and what the need asks for.
func TestFoldedHalfSquaresCover(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		ease := rapid.SampledFrom([]pattern.Length{0.25, 0.375, 0.5, 0.75}).Draw(t, "ease")
		side := pattern.Length(rapid.Float64Range(2, 9).Draw(t, "side"))
		leg := side * pattern.Length(rapid.Float64Range(0.3, 0.95).Draw(t, "leg"))
		d := cut(pattern.Settings{Ease: ease}, corner(side, leg, rapid.Float64Range(-5, 5).Draw(t, "lean")))
		piece := &d.Pieces[1]
		if piece.Patch.Shape != pattern.HalfSquare {
			return
		}
		seen++
		u, _ := direction(piece.Seam[0], piece.Seam[1])
		low, high := pattern.Length(math.Inf(1)), pattern.Length(math.Inf(-1))
		for _, v := range piece.Polygon {
			low, high = min(low, dot(u, v)), max(high, dot(u, v))
		}
		mid, half, line := (low+high)/2, piece.Patch.Size.W/math.Sqrt2, cross(u, piece.Seam[0])
		at := func(x, y pattern.Length) pos { return pos{X: u.X*x - u.Y*(line+y), Y: u.Y*x + u.X*(line+y)} }
		laid := []pos{at(mid-half, -0.25), at(mid+half, -0.25), at(mid, half-0.25)}
		corners := needed(d, 1, 0.25)
		for _, v := range piece.Polygon {
			for i := range 64 {
				sin, cos := math.Sincos(float64(i) * math.Pi / 32)
				q := pos{X: v.X + 0.25*pattern.Length(cos), Y: v.Y + 0.25*pattern.Length(sin)}
				if cross(u, q)-line >= -0.25 {
					corners = append(corners, q)
				}
			}
		}
		for _, q := range corners {
			if out := outside(laid, q); out > 1e-6 {
				t.Fatalf("cut %v, leaves %v bare by %v", piece.Patch.Size, q, out)
			}
		}
		if got := piece.Patch.Margin; got < -1e-9 {
			t.Fatalf("margin %v", got)
		}
	})
	if seen == 0 {
		t.Error("no half square was cut")
	}
}
