package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// The parts of a drawing that is cut into tiles hold every item at least once, in
// its place, and none that does not reach into the tile.
func TestPartsHoldTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func(name string) pattern.Pos {
			return pattern.Pos{X: pattern.Length(rapid.Float64Range(0, 12).Draw(t, name)), Y: pattern.Length(rapid.Float64Range(0, 9).Draw(t, name))}
		}
		var items []Item
		for range rapid.IntRange(1, 20).Draw(t, "items") {
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				items = append(items, &Path{Style: SewingLine, Points: []pattern.Pos{at("a"), at("b")}, Fill: NoColour})
			case 1:
				items = append(items, &Text{Text: "harbour", At: at("t"), Size: 0.2, Turn: rapid.Float64Range(0, 360).Draw(t, "turn")})
			case 2:
				items = append(items, &Path{Style: OutlineLine, Points: []pattern.Pos{at("c")}, Circle: 0.5, Fill: NoColour})
			case 3:
				items = append(items, &Group{Clip: []pattern.Pos{at("x"), at("y"), at("z")}, Items: []Item{&Path{Style: NoLine, Fill: Black, Points: []pattern.Pos{at("u"), at("v"), at("w")}}}})
			}
		}
		whole := ReachOf(items)
		if whole.X0 > whole.X1 {
			return
		}
		wide := NewWide(items)
		all, n := EmptyReach(), 0
		for x := pattern.Length(-1); x < 14; x += 5 {
			for y := pattern.Length(-2); y < 12; y += 4 {
				tile := Reach{x, y, x + 5, y + 4}
				part := wide.Part(tile, pattern.Pos{X: 1, Y: 2})
				for _, item := range part {
					r := ReachOf([]Item{item})
					back := Reach{r.X0 + x - 1, r.Y0 + y - 2, r.X1 + x - 1, r.Y1 + y - 2}
					if back.X0 > tile.X1+1e-9 || back.X1 < tile.X0-1e-9 || back.Y0 > tile.Y1+1e-9 || back.Y1 < tile.Y0-1e-9 {
						t.Fatalf("%v does not reach into %v", back, tile)
					}
					all = all.Join(back)
				}
				n += len(part)
			}
		}
		seen := 0
		for i := range items {
			if r := wide.reach[i]; r.X0 <= r.X1 && r.Y0 <= r.Y1 {
				seen++
			}
		}
		if n < seen {
			t.Fatalf("%d items in the tiles of %d", n, seen)
		}
		for _, d := range [4]pattern.Length{all.X0 - whole.X0, all.Y0 - whole.Y0, all.X1 - whole.X1, all.Y1 - whole.Y1} {
			if math.Abs(float64(d)) > 1e-9 {
				t.Fatalf("the tiles reach %v, the whole %v", all, whole)
			}
		}
	})
}

// A reach is never too small: worked by hand.
func TestReach(t *testing.T) {
	got := ReachOf([]Item{
		&Path{Style: OutlineLine, Points: []pattern.Pos{{X: 1, Y: 1}, {X: 3, Y: 1}}, Fill: NoColour},
		&Path{Style: NoLine, Points: []pattern.Pos{{X: 9, Y: 9}}, Fill: NoColour}, // not drawn
		&Group{Clip: []pattern.Pos{{X: 4, Y: 0}, {X: 5, Y: 0}, {X: 5, Y: 2}, {X: 4, Y: 2}}, Items: []Item{
			&Path{Fill: Black, Points: []pattern.Pos{{X: 0, Y: 0.5}, {X: 8, Y: 0.5}, {X: 8, Y: 1.5}}}}},
	})
	half := OutlineLine.Look().Width / 2
	want := Reach{1 - half, 0.5, 5, 1.5}
	if got != want {
		t.Errorf("%v, not %v", got, want)
	}
	turned := ReachOf([]Item{&Text{Text: "HI", At: pattern.Pos{X: 2, Y: 2}, Size: 1, Turn: 90}}) // reads upwards
	if turned.Y1 > 2 || turned.Y0 > 1.5 || turned.X0 > 1.3 || turned.X1 > 2.01 {
		t.Errorf("%v", turned)
	}
}
