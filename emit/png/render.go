package png

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Widths of pictures, in dots. Under 64 a block of a few pieces is a smear; 8,000
// is more than shops take, and a square one is 256 MB while it is made.
const (
	Least = 64
	Most  = 8000
)

// mostDots bounds what a tall page takes.
const mostDots = Most * Most

// Render returns a page as a picture so many dots wide. The error tells of a page
// without a size, of a width that is not between [Least] and [Most], or of a
// coordinate that is no number.
func Render(page *drawing.Page, width int) ([]byte, error) {
	scale := float64(width) / float64(page.Size.W)
	height := math.Round(float64(page.Size.H) * scale)
	if width < Least || width > Most || !(height >= 1) || height*float64(width) > mostDots {
		return nil, fmt.Errorf("page %s of %v x %v in does not make a picture %d dots wide", page.Name, float64(page.Size.W), float64(page.Size.H), width)
	}
	c := &canvas{scale: scale, dots: image.NewRGBA(image.Rect(0, 0, width, int(height)))}
	draw.Draw(c.dots, c.dots.Rect, image.White, image.Point{}, draw.Src)
	c.items(page.Items)
	if c.err != nil {
		return nil, fmt.Errorf("page %s: %w", page.Name, c.err)
	}
	var out bytes.Buffer
	if err := png.Encode(&out, c.dots); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// A canvas is a picture under way. A dot is told by its number, row by row.
type canvas struct {
	scale float64 // dots to an inch
	dots  *image.RGBA
	clip  []float64 // how much of each dot may be painted; nil: all of every one
	run   run
	area  area
	err   error
}

// A run is a sequence of lines, painted together.
type run struct {
	cover []float64
	box   image.Rectangle // of what is covered
}

func (c *canvas) items(items []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			c.path(item)
		case *drawing.Text:
			c.text(item)
		case *drawing.Group:
			c.group(item)
		default:
			c.err = fmt.Errorf("a %T cannot be drawn as dots", item)
		}
	}
	c.flush()
}

func (c *canvas) group(g *drawing.Group) {
	c.flush()
	if g.Clip == nil {
		c.items(g.Items)
		return
	}
	outer, inner := c.clip, make([]float64, len(c.dots.Pix)/4)
	c.cover(shape{c.chain(g.Clip)}, func(dots int, cover []float64) { copy(inner[dots:], cover) })
	c.clip = inner
	c.items(g.Items)
	c.clip = outer
}

func (c *canvas) path(p *drawing.Path) {
	points := c.chain(p.Points)
	closed := p.Closed
	if p.Circle > 0 && len(points) > 0 {
		points, closed = circle(points[0], float64(p.Circle)*c.scale), true
	}
	filled := p.Fill != drawing.NoColour && closed
	if filled {
		c.fill(shape{points}, p.Fill)
	}
	if look := p.Style.Look(); look.Width > 0 {
		if p.Pairs {
			for ; len(points) > 1; points = points[2:] {
				c.line(stroke(points[:2], false, look, c.scale), false)
			}
			return
		}
		c.line(stroke(points, closed, look, c.scale), closed)
	}
	if filled {
		c.flush()
	}
}

// line adds what a line covers to the run. Outlines of neighboring pieces lie on
// each other, so the greater cover counts: painted one over the other, the edges
// of a line would come out darker the second time. Open lines cross.
func (c *canvas) line(s shape, outline bool) {
	if c.run.cover == nil {
		c.run.cover = make([]float64, len(c.dots.Pix)/4)
	}
	c.cover(s, func(dots int, cover []float64) {
		to := c.run.cover[dots:]
		for i, a := range cover {
			if outline {
				to[i] = max(to[i], a)
			} else {
				to[i] = 1 - float64((1-to[i])*(1-a))
			}
		}
	})
	c.run.box = c.run.box.Union(c.area.at)
}

// flush paints the run, if there is one.
func (c *canvas) flush() {
	box := c.run.box
	for y := box.Min.Y; y < box.Max.Y; y++ {
		from := y*c.dots.Rect.Dx() + box.Min.X
		cover := c.run.cover[from:][:box.Dx()]
		c.paint(from, cover, drawing.Black)
		clear(cover)
	}
	c.run.box = image.Rectangle{}
}

// chain takes places of the page to dots.
func (c *canvas) chain(points []pattern.Pos) []point {
	out := make([]point, len(points))
	for i, p := range points {
		out[i] = point{float64(p.X) * c.scale, float64(p.Y) * c.scale}
		if !(math.Abs(out[i].x)+math.Abs(out[i].y) < mostDots) { // false for NaN too
			c.err = fmt.Errorf("a point at %v, %v in is not on any paper", float64(p.X), float64(p.Y))
			out[i] = point{}
		}
	}
	return out
}

// fill paints a shape.
func (c *canvas) fill(s shape, color drawing.Colour) {
	c.flush()
	c.cover(s, func(dots int, cover []float64) { c.paint(dots, cover, color) })
}

// half rounds to the nearest, and a color just between two, noise or not, up.
const half = 0.5 + 1e-6

// paint covers dots, from one of a row to the right, with a color.
func (c *canvas) paint(dots int, cover []float64, color drawing.Colour) {
	ink := [3]float64{float64(color >> 16 & 0xFF), float64(color >> 8 & 0xFF), float64(color & 0xFF)}
	for i, a := range cover {
		if a == 0 {
			continue
		}
		to := c.dots.Pix[4*(dots+i):]
		for k, v := range ink {
			to[k] = uint8(float64(float64(to[k])*(1-a)) + float64(v*a) + half)
		}
	}
}

// cover tells, row by row, how much of each dot lies in a shape and in what may
// be painted.
func (c *canvas) cover(s shape, use func(dots int, cover []float64)) {
	c.area.reset(s.bounds().Intersect(c.dots.Rect))
	c.area.add(s)
	c.area.each(func(y int, cover []float64) {
		dots := y*c.dots.Rect.Dx() + c.area.at.Min.X
		if c.clip != nil {
			for i := range cover {
				cover[i] *= c.clip[dots+i]
			}
		}
		use(dots, cover)
	})
}
