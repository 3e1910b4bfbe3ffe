package diagram

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Figure is a picture without any words, to be set in a text.
type Figure struct {
	bounds box // of what is drawn, in the block's own places
	draw   func(f frame) []drawing.Item
}

// Proportion is the figure's height for a width of 1.
func (g *Figure) Proportion() float64 {
	return float64(g.bounds.h() / max(g.bounds.w(), tiny))
}

// In draws the figure as large as a part of a page allows, in its middle.
func (g *Figure) In(at pattern.Pos, size pattern.Size) []drawing.Item {
	scale := min(size.W/max(g.bounds.w(), tiny), size.H/max(g.bounds.h(), tiny))
	return g.draw(g.bounds.frameAt(at, size, scale))
}

// Size is what the figure measures at true size.
func (g *Figure) Size() pattern.Size { return pattern.Size{W: g.bounds.w(), H: g.bounds.h()} }

// True draws the figure at true size, its upper left corner at a place.
func (g *Figure) True(corner pattern.Pos) []drawing.Item {
	return g.draw(frame{scale: 1, origin: pos{X: corner.X - g.bounds.min.X, Y: corner.Y + g.bounds.max.Y}})
}

// frameAt puts the middle of the box in the middle of a part of a page.
func (b box) frameAt(at pos, size pattern.Size, scale length) frame {
	return frame{scale: scale, origin: pos{
		X: at.X + size.W/2 - length((b.min.X+b.max.X)/2*scale),
		Y: at.Y + size.H/2 + length((b.min.Y+b.max.Y)/2*scale),
	}}
}

// Colored is the block in the pattern's own cloths.
func Colored(p *pattern.Pattern, s *pattern.Sized) *Figure {
	return block(s, func(items []drawing.Item, pen *drawing.Pen, piece *pattern.Piece, polygon []pos, style drawing.Style) []drawing.Item {
		return append(items, pen.Outline(style, polygon, drawing.Colour(p.Fabrics[piece.Fabric].Colour)))
	})
}

// Lines is the block to color in.
func Lines(s *pattern.Sized) *Figure {
	return block(s, func(items []drawing.Item, pen *drawing.Pen, _ *pattern.Piece, polygon []pos, style drawing.Style) []drawing.Item {
		return append(items, pen.Outline(style, polygon, drawing.NoColour))
	})
}

// Full is the block's lines with its raw edge, an allowance outside.
func Full(s *pattern.Sized, allowance pattern.Length) *Figure {
	inner := Lines(s)
	raw := offset(s.Outline, allowance)
	return &Figure{bounds: boxOf(raw), draw: func(f frame) []drawing.Item {
		return append(inner.draw(f),
			&drawing.Path{Style: drawing.OutlineLine, Points: f.onPage(slices.Clone(s.Outline)), Closed: true, Fill: drawing.NoColour},
			&drawing.Path{Style: drawing.CuttingLine, Points: f.onPage(slices.Clone(raw)), Closed: true, Fill: drawing.NoColour})
	}}
}

// Values is the block in light, medium and dark, hatched.
func Values(p *pattern.Pattern, s *pattern.Sized) *Figure {
	h := hatcher{grey: s.Figures.Pieces > many}
	return block(s, func(items []drawing.Item, pen *drawing.Pen, piece *pattern.Piece, polygon []pos, style drawing.Style) []drawing.Item {
		h.pen = pen
		items = h.fill(items, polygon, p.Fabrics[piece.Fabric].Value)
		return append(items, pen.Outline(style, polygon, drawing.NoColour))
	})
}

// block draws every piece of a block, each by a function.
func block(s *pattern.Sized, each func([]drawing.Item, *drawing.Pen, *pattern.Piece, []pos, drawing.Style) []drawing.Item) *Figure {
	style := lines(s)
	return &Figure{bounds: boxOf(s.Outline), draw: func(f frame) (items []drawing.Item) {
		pen := f.mine()
		items = make([]drawing.Item, 0, len(s.Copies)+s.Figures.Pieces)
		eachPiece(s, pen, func(piece *pattern.Piece, polygon []pos) {
			items = each(items, pen, piece, f.onPage(polygon), style)
		})
		return items
	}}
}

// Swatch draws a square of a fabric: its color, its value's hatching beside it.
func Swatch(fabric *pattern.Fabric, at pattern.Pos, side pattern.Length) []drawing.Item {
	square := []pos{at, {X: at.X + side, Y: at.Y}, {X: at.X + side, Y: at.Y + side}, {X: at.X, Y: at.Y + side}}
	return []drawing.Item{&drawing.Path{Style: drawing.PatchLine, Points: square, Closed: true, Fill: drawing.Colour(fabric.Colour)}}
}

// Hatched draws a rectangle with the hatching of a value.
func Hatched(value string, at pattern.Pos, size pattern.Size) []drawing.Item {
	polygon := []pos{at, {X: at.X + size.W, Y: at.Y}, {X: at.X + size.W, Y: at.Y + size.H}, {X: at.X, Y: at.Y + size.H}}
	h := hatcher{}
	items := h.fill(nil, polygon, value)
	return append(items, &drawing.Path{Style: drawing.PatchLine, Points: polygon, Closed: true, Fill: drawing.NoColour})
}

// Apart is the block with its sections moved apart, every space numbered; all
// reports whether every number found its place.
func Apart(s *pattern.Sized, at pattern.Pos, size pattern.Size) (items []drawing.Item, all bool) {
	e := &exploded{sized: s}
	bounds := e.apart()
	scale := min(size.W/max(bounds.w(), tiny), size.H/max(bounds.h(), tiny))
	e.frame = bounds.frameAt(at, size, scale)
	e.from, e.to = at.X, at.X+size.W
	items = e.draw()
	return items, e.left == 0
}

// A Joining is the picture of one join.
type Joining struct {
	Figure
	Join *pattern.Join
}

// Joinings are the joins of a block, in sewing order. Each shows the parts that
// are brought together, a little apart, with the points that must meet ringed.
func Joinings(s *pattern.Sized) []Joining {
	parts := newAssembly(len(s.Copies))
	whole := boxOf(s.Outline)
	n := min(len(s.Joins), mostSteps)
	out := make([]Joining, n)
	for k := range out {
		j := &s.Joins[k]
		step := newStep(s, parts, j)
		step.bounds = step.bounds.atLeast(max(whole.w(), whole.h()) / 1.8)
		out[k] = Joining{Figure{bounds: step.bounds, draw: step.draw}, j}
	}
	return out
}

// atLeast returns a box about the same middle whose sides have a least length,
// so that small parts are not drawn as large as the block.
func (b box) atLeast(side length) box {
	grow := pos{X: max(0, side-b.w()) / 2, Y: max(0, side-b.h()) / 2}
	if b.w() >= side || b.h() >= side {
		return b
	}
	if grow.X < grow.Y {
		grow.Y = 0
	} else {
		grow.X = 0
	}
	return box{pos{X: b.min.X - grow.X, Y: b.min.Y - grow.Y}, pos{X: b.max.X + grow.X, Y: b.max.Y + grow.Y}}
}

// SideNames names what lies on one side of a join, "A + B", each letter once,
// and how many more there are.
func SideNames(s *pattern.Sized, copies []int) (names string, more int) {
	const most = 5 // more do not fit beside a step
	last, n := "", 0
	for i, c := range copies {
		name := s.Drawings[s.Copies[c].Drawing].Name
		if name == last {
			continue
		}
		if n++; n > most {
			return names, len(copies) - i
		}
		if names != "" {
			names += " + "
		}
		names, last = names+name, name
	}
	return names, 0
}
