// Package contact lays variants of one block side by side on one picture, each
// with what it takes to sew it, so that a designer can choose by eye.
package contact

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
)

// A Variant is one of them. It has a pattern, whose first block is shown at its
// first size, or a fault.
type Variant struct {
	Name    string // "points 8, depth 0.4"
	Pattern *pattern.Pattern
	Facts   []string // lines below the picture
	Fault   string   // why there is no pattern
}

// What is measured here is a picture for a screen, or one sheet of tabloid: no
// more columns than can be told apart there. Common practice, no source.
const (
	mostColumns = 5

	picture = 1.8 * pattern.Inch // a picture's width and height at most
	gap     = 0.35 * pattern.Inch
	edge    = 0.4 * pattern.Inch

	titleSize = 0.22 * pattern.Inch
	nameSize  = 0.13 * pattern.Inch
	factSize  = 0.11 * pattern.Inch
	leading   = 1.35 // lines lie so many sizes apart
)

// Page draws all variants, row by row, and below them a note that explains their
// facts, "" for none. Across is how many stand in a row; 0, or more than have room,
// leaves that to the page.
func Page(title, note string, variants []Variant, across int) *drawing.Page {
	if across <= 0 || across > mostColumns {
		across = min(mostColumns, max(1, len(variants)))
	}
	lines := 0
	for i := range variants {
		lines = max(lines, len(variants[i].Facts))
	}
	text := nameSize*2*leading + factSize*leading*pattern.Length(lines)
	cell := pattern.Size{W: picture + gap, H: picture + text + gap}
	rows := (len(variants) + across - 1) / across
	head := titleSize * 2
	width := cell.W*pattern.Length(across) - gap
	var foot []string
	if note != "" {
		foot = drawing.Wrap(note, factSize, false, width)
	}
	below := factSize * leading * pattern.Length(len(foot))
	page := &drawing.Page{
		Name: "variants", Title: title,
		Size: pattern.Size{W: 2*edge + width, H: 2*edge + head + cell.H*pattern.Length(rows) - gap + below},
	}
	page.Items = append(page.Items, words(drawing.Shorten(title, titleSize, true, page.Size.W-2*edge), pattern.Pos{X: edge, Y: edge + titleSize*drawing.CapHeight}, titleSize, true))
	for i := range variants {
		corner := pattern.Pos{
			X: edge + cell.W*pattern.Length(i%across),
			Y: edge + head + cell.H*pattern.Length(i/across),
		}
		page.Items = append(page.Items, one(&variants[i], corner)...)
	}
	for i, line := range foot {
		at := pattern.Pos{X: edge, Y: page.Size.H - edge - factSize*leading*pattern.Length(len(foot)-1-i)}
		page.Items = append(page.Items, words(line, at, factSize, false))
	}
	return page
}

// one draws a variant, its upper left corner at a place.
func one(v *Variant, corner pattern.Pos) []drawing.Item {
	var items []drawing.Item
	y := corner.Y + picture
	line := func(text string, size pattern.Length, bold bool) {
		for i, part := range drawing.Wrap(text, size, bold, picture+gap/2) {
			if i == 2 { // a name or fault of three lines would run into the next picture
				break
			}
			y += size * leading
			items = append(items, words(part, pattern.Pos{X: corner.X, Y: y}, size, bold))
		}
	}
	if v.Pattern != nil && len(v.Pattern.Blocks) > 0 && len(v.Pattern.Blocks[0].Sizes) > 0 {
		items = append(items, diagram.Colored(v.Pattern, &v.Pattern.Blocks[0].Sizes[0]).In(corner, pattern.Size{W: picture, H: picture})...)
	} else {
		box := []pattern.Pos{corner, {X: corner.X + picture, Y: corner.Y}, {X: corner.X + picture, Y: corner.Y + picture}, {X: corner.X, Y: corner.Y + picture}}
		items = append(items, &drawing.Path{Style: drawing.LeaderLine, Points: box, Closed: true, Fill: drawing.NoColour})
	}
	line(v.Name, nameSize, true)
	for _, f := range v.Facts {
		line(f, factSize, false)
	}
	if v.Fault != "" {
		line(v.Fault, factSize, false)
	}
	return items
}

func words(text string, at pattern.Pos, size pattern.Length, bold bool) *drawing.Text {
	return &drawing.Text{Text: text, At: at, Size: size, Bold: bold, Colour: drawing.Black}
}
