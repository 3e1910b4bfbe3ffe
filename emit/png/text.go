package png

import (
	"fmt"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"seamwright/emit/drawing"
)

// text draws one line of text from the outlines of its glyphs.
func (c *canvas) text(t *drawing.Text) {
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	at := t.Start()
	k := float64(t.Size) * c.scale / drawing.EmUnits
	x := 0.0
	var s shape
	for _, r := range drawing.Visual(t.Text) {
		g := drawing.GlyphOf(r, t.Bold)
		place := func(p fixed.Point26_6) point {
			px, py := (x+float64(p.X)/64)*k, float64(p.Y)/64*k
			return point{float64(at.X)*c.scale + px*cos + py*sin, float64(at.Y)*c.scale - px*sin + py*cos}
		}
		s = outline(s, g.Segments, place)
		x += g.Advance
	}
	if !(math.Abs(float64(t.At.X+t.At.Y))+float64(t.Size)+math.Abs(t.Turn) < mostDots) { // false for NaN too
		c.err = fmt.Errorf("the text %q has no place, size or direction", t.Text)
		return
	}
	if len(s) > 0 {
		c.fill(s, t.Colour)
	}
}

// curve is into how many chords a glyph's curve is divided: at the largest title
// of a picture 8,000 dots wide they are within a tenth of a dot.
const curve = 8

// outline appends a glyph's contours.
func outline(s shape, segments []sfnt.Segment, place func(fixed.Point26_6) point) shape {
	var now point
	for _, seg := range segments {
		last := len(s) - 1
		switch seg.Op {
		case sfnt.SegmentOpMoveTo:
			now = place(seg.Args[0])
			s = append(s, []point{now})
		case sfnt.SegmentOpLineTo:
			now = place(seg.Args[0])
			s[last] = append(s[last], now)
		case sfnt.SegmentOpQuadTo:
			b, end := place(seg.Args[0]), place(seg.Args[1])
			for i := 1; i <= curve; i++ {
				u := float64(i) / curve
				s[last] = append(s[last], now.toward(b, u).toward(b.toward(end, u), u))
			}
			now = end
		case sfnt.SegmentOpCubeTo:
			b, d, end := place(seg.Args[0]), place(seg.Args[1]), place(seg.Args[2])
			for i := 1; i <= curve; i++ {
				u := float64(i) / curve
				left, right := now.toward(b, u).toward(b.toward(d, u), u), b.toward(d, u).toward(d.toward(end, u), u)
				s[last] = append(s[last], left.toward(right, u))
			}
			now = end
		}
	}
	return s
}
