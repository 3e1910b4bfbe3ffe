package diagram

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Diagonal shows how a square or a rectangle is cut into triangles, cloth with its
// right side up and its long side across: the cuts are dashed. The two triangles of a
// rectangle are of the hand that is not reversed.
func Diagonal(shape pattern.Shape, size pattern.Size) *Figure {
	w, h := max(size.W, size.H), min(size.W, size.H)
	corners := []pos{{}, {X: w}, {X: w, Y: h}, {Y: h}} // a figure's y goes up
	return &Figure{bounds: boxOf(corners), draw: func(f frame) []drawing.Item {
		items := []drawing.Item{&drawing.Path{Style: drawing.SewingLine, Points: f.onPage(append([]pos(nil), corners...)), Closed: true, Fill: drawing.NoColour}}
		cut := func(a, b int) {
			items = append(items, &drawing.Path{Style: drawing.CuttingLine, Points: f.onPage([]pos{corners[a], corners[b]}), Fill: drawing.NoColour})
		}
		if shape.Yield() > 1 {
			cut(3, 1)
		}
		if shape == pattern.QuarterSquare {
			cut(0, 2)
		}
		return items
	}}
}
