package pdf

import (
	"fmt"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// perInch is the size of PDF's unit: 1/72 in (ISO 32000-1, 8.3.2.3).
const perInch = 72

// mostJoined is how many chains of one style are stroked at once. It saves their
// ends; a path without end is dear to some printers.
const mostJoined = 250

// A content is a page's drawing as operators (ISO 32000-1, 7.8.2), before it is
// packed. It depends on nothing but what is drawn: a glyph's code is its number
// in the font, the same in every file.
type content struct {
	out    []byte
	height float64 // of the page, points
	used   [2]glyphs
	images []*drawing.Raster // in the order of their first use

	style  drawing.Style // as last set, so that it is not set again
	fill   drawing.Colour
	font   int // 0 regular, 1 bold; -1 unset
	size   pattern.Length
	joined int // chains that wait for their stroke
	err    error
}

// unset stands for "whatever the page began with".
const unset = drawing.Colour(-2)

// draw appends items to the content of a page of a height.
func (c *content) draw(height pattern.Length, items []drawing.Item) {
	c.height = float64(height) * perInch
	c.reset()
	c.out = append(c.out, "1 j\n"...)
	c.items(items)
	c.flush()
}

// reset forgets what was set: at the start, and where a state was restored.
func (c *content) reset() {
	c.style, c.fill, c.font = drawing.NoLine, unset, -1
}

func (c *content) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			c.path(item)
		case *drawing.Text:
			c.word(item)
		case *drawing.Group:
			c.group(item)
		case *drawing.Image:
			c.flush()
			c.image(item)
		}
	}
}

func (c *content) group(g *drawing.Group) {
	if g.Clip == nil {
		c.items(g.Items)
		return
	}
	c.flush()
	c.out = append(c.out, "q\n"...)
	c.chain(&drawing.Path{Points: g.Clip, Closed: true})
	c.out = append(c.out, "W n\n"...)
	c.reset()
	c.items(g.Items)
	c.flush()
	c.out = append(c.out, "Q\n"...)
	c.reset()
}

// at appends a place of the page in points, y up.
func (c *content) at(x, y pattern.Length) {
	px, py := float64(x)*perInch, c.height-float64(y)*perInch
	if math.IsNaN(px+py) || math.IsInf(px+py, 0) {
		c.err = fmt.Errorf("a point at %v, %v in is not on any paper", float64(x), float64(y))
		return
	}
	c.out = append(place(append(place(c.out, px), ' '), py), ' ')
}

// path strokes and fills. Strokes of one style are joined: solid ones look the
// same, and a dash begins anew with every chain (ISO 32000-1, 8.4.3.6).
func (c *content) path(p *drawing.Path) {
	stroke, fill := p.Style != drawing.NoLine, p.Fill != drawing.NoColour
	if !stroke && !fill {
		return
	}
	if stroke && !fill && p.Style == c.style && c.joined < mostJoined {
		c.chain(p)
		c.joined += strokes(p)
		return
	}
	c.flush()
	if stroke && p.Style != c.style {
		c.stroke(p.Style)
	}
	if fill {
		c.paint(p.Fill)
	}
	c.chain(p)
	switch {
	case stroke && fill:
		c.out = append(c.out, "B\n"...)
	case stroke:
		c.joined = strokes(p)
	default:
		c.out = append(c.out, "f\n"...)
	}
}

// flush strokes the chains that wait for it.
func (c *content) flush() {
	if c.joined > 0 {
		c.out = append(c.out, "S\n"...)
		c.joined = 0
	}
}

func (c *content) stroke(s drawing.Style) {
	c.style = s
	look := s.Look()
	c.out = append(number(c.out, float64(look.Width)*perInch), " w["...)
	if look.Off > 0 {
		c.out = append(number(c.out, float64(look.On)*perInch), ' ')
		c.out = number(c.out, float64(look.Off)*perInch)
	}
	c.out = append(c.out, "]0 d "...)
	if look.On > 0 { // a dash ends square, or its round ends would lengthen it
		c.out = append(c.out, "0 J\n"...)
	} else {
		c.out = append(c.out, "1 J\n"...) // round, so that dots are round
	}
}

// paint sets the color of fills and texts; grey where it is one, so that a page
// in black stays one for a printer that counts colors.
func (c *content) paint(to drawing.Colour) {
	if to == c.fill {
		return
	}
	c.fill = to
	r, g, b := uint32(to)>>16&0xFF, uint32(to)>>8&0xFF, uint32(to)&0xFF
	if r == g && g == b {
		c.out = append(number(c.out, float64(r)/255), " g\n"...)
		return
	}
	for _, part := range [3]uint32{r, g, b} {
		c.out = append(number(c.out, float64(part)/255), ' ')
	}
	c.out = append(c.out, "rg\n"...)
}

// strokes counts what is stroked apart in a path.
func strokes(p *drawing.Path) int {
	if p.Pairs {
		return len(p.Points) / 2
	}
	return 1
}

func (c *content) chain(p *drawing.Path) {
	if len(p.Points) > 0 && p.Circle > 0 {
		c.circle(p.Points[0], p.Circle)
		return
	}
	for i, q := range p.Points {
		c.at(q.X, q.Y)
		if i == 0 || p.Pairs && i%2 == 0 {
			c.out = append(c.out, "m\n"...)
		} else {
			c.out = append(c.out, "l\n"...)
		}
	}
	if p.Closed {
		c.out = append(c.out, "h\n"...)
	}
}

// circle appends four curves. The handle's length makes the curve touch the
// circle in the middle of each quarter; the error is under 0.03 % of the radius.
func (c *content) circle(m pattern.Pos, r pattern.Length) {
	k := r * 4 / 3 * (math.Sqrt2 - 1)
	c.at(m.X+r, m.Y)
	c.out = append(c.out, "m\n"...)
	for _, q := range [4][2]pattern.Pos{ // outward direction at the start and the end of a quarter
		{{X: 1}, {Y: 1}}, {{Y: 1}, {X: -1}}, {{X: -1}, {Y: -1}}, {{Y: -1}, {X: 1}},
	} {
		a, b := q[0], q[1]
		c.at(m.X+r*a.X+k*b.X, m.Y+r*a.Y+k*b.Y)
		c.at(m.X+r*b.X+k*a.X, m.Y+r*b.Y+k*a.Y)
		c.at(m.X+r*b.X, m.Y+r*b.Y)
		c.out = append(c.out, "c\n"...)
	}
	c.out = append(c.out, "h\n"...)
}

// sameSize is how near two sizes of text are one, in inches: they differ by noise.
const sameSize = 1e-9

// word sets one line of text.
func (c *content) word(t *drawing.Text) {
	text := drawing.Visual(t.Text)
	if text == "" {
		return
	}
	c.flush()
	c.paint(t.Colour)
	c.out = append(c.out, "BT "...)
	weight := 0
	if t.Bold {
		weight = 1
	}
	if other := math.Abs(float64(t.Size-c.size)) > sameSize; weight != c.font || other {
		c.font, c.size = weight, t.Size
		c.out = append(append(c.out, '/'), fontNames[weight]...)
		c.out = append(number(append(c.out, ' '), float64(t.Size)*perInch), " Tf "...)
	}
	start := t.Start()
	if t.Level() {
		c.at(start.X, start.Y)
		c.out = append(c.out, "Td("...)
	} else {
		sin, cos := math.Sincos(t.Turn * math.Pi / 180)
		for _, v := range [4]float64{cos, sin, -sin, cos} {
			c.out = append(number(c.out, v), ' ')
		}
		c.at(start.X, start.Y)
		c.out = append(c.out, "Tm("...)
	}
	used := &c.used[weight]
	for _, r := range text {
		id := drawing.GlyphOf(r, t.Bold).ID
		used.add(r)
		c.out = escaped(escaped(c.out, byte(id>>8)), byte(id))
	}
	c.out = append(c.out, ")Tj ET\n"...)
}

// escaped appends a byte of a string (ISO 32000-1, 7.3.4.2).
func escaped(b []byte, c byte) []byte {
	switch c {
	case '(', ')', '\\':
		b = append(b, '\\')
	case '\r': // a bare one would be read as a line feed
		return append(b, '\\', 'r')
	}
	return append(b, c)
}

// place appends a coordinate, to a hundredth of a point: 0.004 mm, a tenth of
// what the best printer sets.
func place(b []byte, v float64) []byte { return decimal(b, v, 100, 2) }

// number appends any other number.
func number(b []byte, v float64) []byte { return decimal(b, v, 10_000, 4) }

// decimal appends a number plainly: PDF knows no exponents.
func decimal(b []byte, v float64, parts int64, digits int) []byte {
	const (
		most = 1e12
		tie  = 1e-5 // of a step: numbers just between two go one way, whatever a processor makes of their last digit
	)
	if !(math.Abs(v) < most) { // on no paper, but still a number
		return fmt.Appendf(b, "%.*f", digits, v)
	}
	n := int64(math.Round(v*float64(parts) + tie))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = whole(b, n/parts)
	if n %= parts; n == 0 {
		return b
	}
	b = append(b, '.')
	for step := parts / 10; n > 0; step /= 10 {
		b = append(b, byte('0'+n/step))
		n %= step
	}
	return b
}

// whole appends a number that is not negative, most of them short.
func whole(b []byte, n int64) []byte {
	if n >= 10_000 {
		b = whole(b, n/10_000)
		n %= 10_000
		return append(b, byte('0'+n/1000), byte('0'+n/100%10), byte('0'+n/10%10), byte('0'+n%10))
	}
	switch {
	case n >= 1000:
		b = append(b, byte('0'+n/1000))
		fallthrough
	case n >= 100:
		b = append(b, byte('0'+n/100%10))
		fallthrough
	case n >= 10:
		b = append(b, byte('0'+n/10%10))
	}
	return append(b, byte('0'+n%10))
}
