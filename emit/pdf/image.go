package pdf

import (
	"fmt"
	"math"
	"slices"

	"seamwright/emit/drawing"
)

// image places a picture: it is drawn on a square of 1 by 1, which is turned and
// stretched to where it goes (ISO 32000-1, 8.9.5).
func (c *content) image(i *drawing.Image) {
	at := slices.Index(c.images, i.Of)
	if at < 0 {
		at = len(c.images)
		c.images = append(c.images, i.Of)
	}
	x, y := float64(i.At.X)*perInch, c.height-float64(i.At.Y+i.Size.H)*perInch
	wide, high := float64(i.Size.W)*perInch, float64(i.Size.H)*perInch
	if sum := x + y + wide + high; math.IsNaN(sum) || math.IsInf(sum, 0) {
		c.err = fmt.Errorf("a picture is not on any paper")
		return
	}
	m := [6]float64{wide, 0, 0, high, x, y}
	switch i.Of.Turn { // as drawing.Raster numbers them
	case 2:
		m = [6]float64{-wide, 0, 0, high, x + wide, y}
	case 3:
		m = [6]float64{-wide, 0, 0, -high, x + wide, y + high}
	case 4:
		m = [6]float64{wide, 0, 0, -high, x, y + high}
	case 5:
		m = [6]float64{0, -high, -wide, 0, x + wide, y + high}
	case 6:
		m = [6]float64{0, -high, wide, 0, x, y + high}
	case 7:
		m = [6]float64{0, high, wide, 0, x, y}
	case 8:
		m = [6]float64{0, high, -wide, 0, x + wide, y}
	}
	c.out = append(c.out, "q "...)
	for _, v := range m {
		c.out = append(number(c.out, v), ' ')
	}
	c.out = fmt.Appendf(c.out, "cm /I%d Do Q\n", at)
}

// A gallery holds the pictures of a file, each written once.
type gallery struct {
	file *file
	at   map[*drawing.Raster]ref
}

// entry returns the entry of a page's pictures for its resource dictionary.
func (g *gallery) entry(images []*drawing.Raster) string {
	entries := ""
	for i, r := range images {
		at, ok := g.at[r]
		if !ok {
			if g.at == nil {
				g.at = map[*drawing.Raster]ref{}
			}
			at = picture(g.file, r)
			g.at[r] = at
		}
		entries += fmt.Sprintf("/I%d %s ", i, at)
	}
	return "/XObject <<" + entries + ">>"
}

func picture(f *file, r *drawing.Raster) ref {
	head := fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d /BitsPerComponent 8", r.W, r.H)
	at := f.reserve()
	if r.JPEG != nil {
		space, decode := "/DeviceRGB", ""
		switch r.Channels {
		case 1:
			space = "/DeviceGray"
		case 4:
			space = "/DeviceCMYK"
			if r.Inverted {
				decode = " /Decode [1 0 1 0 1 0 1 0]"
			}
		}
		f.packed(at, head+" /ColorSpace "+space+decode+" /Filter /DCTDecode", stream{data: r.JPEG})
		return at
	}
	if r.Alpha != nil {
		mask := f.reserve()
		f.stream(mask, head+" /ColorSpace /DeviceGray", r.Alpha)
		head += " /SMask " + mask.String()
	}
	f.stream(at, head+" /ColorSpace /DeviceRGB", r.RGB)
	return at
}
