package diagram

import (
	"math"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
)

type pos = pattern.Pos

// length is an inch as a plain number, for products and quotients.
type length = pattern.Length

const (
	// pageWidth is what A4 prints beside half-inch margins, 7.27 in, and letter.
	pageWidth = 7.25 * pattern.Inch
	pageEdge  = 0.25 * pattern.Inch
	inner     = pageWidth - 2*pageEdge

	// tallest keeps long blocks on one page.
	tallest = 8 * pattern.Inch

	titleSize = 14 * pattern.Point
	wordSize  = 9 * pattern.Point
	lineStep  = 13 * pattern.Point
)

// A picture is a page under way: a heading, then what is drawn, then words. y is
// how far down it is filled.
type picture struct {
	page  *drawing.Page
	y     length
	white bool // on a white ground
}

// newPicture begins a page with the block's title and what the picture shows.
func newPicture(said *words.Catalogue, name string, p *pattern.Pattern, b *pattern.Block, sizes []*pattern.Sized, shows string) *picture {
	title := drawing.Clean(b.Title)
	pic := &picture{page: &drawing.Page{Name: name, Title: title + ": " + shows}, y: pageEdge}
	pic.y += titleSize
	pic.write(pageEdge, pic.y, drawing.Shorten(title, titleSize, true, inner), titleSize, drawing.Start, true)
	pic.y += 4 * pattern.Point
	pic.words(shows + "  " + finishes(said, p, sizes))
	pic.y += 6 * pattern.Point
	return pic
}

// finishes tells the sizes at which the block looks so.
func finishes(said *words.Catalogue, p *pattern.Pattern, sizes []*pattern.Sized) string {
	const most = 6 // more would fill the line
	s, key := "", "finishes"
	for i, size := range sizes[:min(most, len(sizes))] {
		if i > 0 {
			s += ", "
		}
		if len(sizes) == 1 {
			s += size.Finished.Words(p.Settings.Metric)
		} else {
			s += size.Finished.Exact()
		}
	}
	if len(sizes) > most {
		key = "finishes_more"
	}
	return said.Say(key, "sizes", strings.ReplaceAll(s, ".", said.Say("decimal_mark")))
}

func (pic *picture) add(items ...drawing.Item) { pic.page.Items = append(pic.page.Items, items...) }

func (pic *picture) write(x, y length, text string, size length, anchor drawing.Anchor, bold bool) {
	pic.add(&drawing.Text{Text: text, At: pos{X: x, Y: y}, Size: size, Anchor: anchor, Bold: bold})
}

// words writes a text over as many lines as it takes.
func (pic *picture) words(text string) {
	for _, line := range drawing.Wrap(text, wordSize, false, inner) {
		pic.y += lineStep
		pic.write(pageEdge, pic.y, line, wordSize, drawing.Start, false)
	}
}

// done closes the page below what is on it.
func (pic *picture) done() *drawing.Page {
	pic.page.Size = pattern.Size{W: pageWidth, H: pic.y + pageEdge}
	if pic.white {
		w, h := pic.page.Size.W, pic.page.Size.H
		ground := &drawing.Path{Style: drawing.NoLine, Points: []pos{{}, {X: w}, {X: w, Y: h}, {Y: h}}, Closed: true, Fill: 0xffffff}
		pic.page.Items = append([]drawing.Item{ground}, pic.page.Items...)
	}
	return pic.page
}

// A frame takes places of the block to places of the page.
type frame struct {
	scale  length
	origin pos          // of the block's lower left corner, on the page
	pen    *drawing.Pen // what is drawn with; nil: one of the drawing's own
}

func (f frame) with(pen *drawing.Pen) frame {
	f.pen = pen
	return f
}

// mine returns the pen to draw with.
func (f frame) mine() *drawing.Pen {
	if f.pen == nil {
		return &drawing.Pen{}
	}
	return f.pen
}

func (f frame) at(p pos) pos {
	return pos{X: f.origin.X + length(p.X*f.scale), Y: f.origin.Y - length(p.Y*f.scale)}
}

// box is a rectangle with y either way up.
type box struct{ min, max pos }

func boxOf(points []pos) box {
	inf := length(math.Inf(1))
	b := box{pos{X: inf, Y: inf}, pos{X: -inf, Y: -inf}}
	return b.with(points)
}

func (b box) with(points []pos) box {
	for _, p := range points {
		b.min = pos{X: min(b.min.X, p.X), Y: min(b.min.Y, p.Y)}
		b.max = pos{X: max(b.max.X, p.X), Y: max(b.max.Y, p.Y)}
	}
	return b
}

func (b box) w() length { return b.max.X - b.min.X }
func (b box) h() length { return b.max.Y - b.min.Y }

func (b box) touches(c box) bool {
	return b.min.X < c.max.X && c.min.X < b.max.X && b.min.Y < c.max.Y && c.min.Y < b.max.Y
}

// fit places a part of the block below what is on the page, in the middle, as
// large as the page allows, and takes the room.
func (pic *picture) fit(b box) frame {
	scale := min(inner/max(b.w(), tiny), tallest/max(b.h(), tiny))
	f := frame{scale: scale}
	f.origin = pos{X: pageWidth/2 - length((b.min.X+b.max.X)/2*scale), Y: pic.y + length(b.max.Y*scale)}
	pic.y += b.h() * scale
	return f
}

// tiny stands in for a measure of nothing, so that nothing is divided by zero.
const tiny = 1e-6

// many is how many pieces make a picture of the whole block so fine that lines
// are drawn as hairlines, or it would be black, and values as greys: hatching
// would be coarser than the pieces.
const many = 2000

// lines is the style of sewing lines in a picture that shows a whole block.
func lines(s *pattern.Sized) drawing.Style {
	if s.Figures.Pieces > many {
		return drawing.RunOnLine
	}
	return drawing.PatchLine
}
