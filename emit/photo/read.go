package photo

import (
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"strings"

	"seamwright/emit/drawing"
)

// mostDots is the size of the largest picture: 40 million dots are more than a
// page at 600 to an inch, and 160 MB while a PNG is decoded.
const mostDots = 40_000_000

// Read reads a picture.
func Read(data string) (*drawing.Raster, error) {
	switch {
	case strings.HasPrefix(data, "\xff\xd8\xff"):
		return readJPEG([]byte(data))
	case strings.HasPrefix(data, "\x89PNG\r\n\x1a\n"):
		return readPNG(data)
	}
	for _, other := range []struct{ begins, name string }{
		{"GIF8", "a GIF"}, {"RIFF", "a WebP"}, {"BM", "a BMP"}, {"II*\x00", "a TIFF"}, {"MM\x00*", "a TIFF"}, {"%PDF", "a PDF"}, {"<svg", "an SVG"}, {"<?xml", "an SVG"},
	} {
		if strings.HasPrefix(data, other.begins) {
			return nil, fmt.Errorf("it is %s; save it as PNG or JPEG", other.name)
		}
	}
	if len(data) > 12 && data[4:8] == "ftyp" {
		return nil, errors.New("it is a HEIC or AVIF, as telephones make them; save it as JPEG")
	}
	return nil, errors.New("it is neither PNG nor JPEG, whatever its name says")
}

func fits(w, h int) error {
	if w <= 0 || h <= 0 {
		return errors.New("it has no size")
	}
	if w > mostDots/h {
		return fmt.Errorf("it is %d x %d dots, more than a page can show; make it smaller", w, h)
	}
	return nil
}

// readPNG decodes a PNG. Its size is looked at first, for a small file can hold a
// huge picture.
func readPNG(data string) (*drawing.Raster, error) {
	head, err := png.DecodeConfig(strings.NewReader(data))
	if err != nil {
		return nil, errors.New("it is damaged: its beginning is no PNG")
	}
	if err := fits(head.Width, head.Height); err != nil {
		return nil, err
	}
	img, err := png.Decode(strings.NewReader(data))
	if err != nil {
		return nil, errors.New("it is damaged, or was not copied whole")
	}
	size := img.Bounds().Size()
	dots := image.NewNRGBA(image.Rectangle{Max: size})
	draw.Draw(dots, dots.Rect, img, img.Bounds().Min, draw.Src)
	r := &drawing.Raster{W: size.X, H: size.Y, RGB: make([]byte, 0, 3*size.X*size.Y)}
	opaque := dots.Opaque()
	for i := 0; i < len(dots.Pix); i += 4 {
		r.RGB = append(r.RGB, dots.Pix[i:i+3]...)
		if !opaque {
			r.Alpha = append(r.Alpha, dots.Pix[i+3])
		}
	}
	return r, nil
}
