package drawing

import "seamwright/compiler/pattern"

// An Image is one of the author's pictures in its place: At is its upper left
// corner. Only documents for paper carry it; the writers of drawings refuse it.
type Image struct {
	At   pattern.Pos
	Size pattern.Size
	Of   *Raster
}

func (*Image) item() {}

// A Raster is a picture of dots: a JPEG file's bytes as they are, or colors.
type Raster struct {
	W, H int // as stored, before it is turned

	JPEG     []byte // else nil
	Channels int    // of a JPEG: 1 gray, 3 color, 4 inks
	Inverted bool   // of a JPEG with four inks: they are stored as what is left white

	RGB   []byte // of others: three bytes a dot, row by row
	Alpha []byte // one byte a dot, 255 where it is opaque; nil where it is everywhere

	// Turn says how a stored picture is to be seen: 0 and 1 as it is, 2 to 8 as
	// cameras number it (Exif 2.3, tag Orientation): from 5 on its rows are columns.
	Turn int
}

// Seen returns the picture's width and height as it is seen.
func (r *Raster) Seen() (w, h int) {
	if r.Turn >= 5 {
		return r.H, r.W
	}
	return r.W, r.H
}
