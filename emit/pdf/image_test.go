package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// colors of the quarters as they are to be seen: upper left, upper right, lower
// left, lower right.
func quarters() [4]color.NRGBA {
	return [4]color.NRGBA{{200, 30, 30, 255}, {30, 160, 30, 255}, {40, 40, 200, 255}, {220, 200, 40, 255}}
}

// stored lays the quarters out as a camera held in some way stores them. Where its
// first row and its first column are to be seen is told by the table of Exif 2.3,
// tag Orientation, from memory.
func stored(turn int) *image.NRGBA {
	sides := [9][2]string{1: {"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"}, {"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"}}[turn]
	img := image.NewNRGBA(image.Rect(0, 0, 64, 64))
	for y := range 64 {
		for x := range 64 {
			at := map[string]int{}
			at[sides[0]], at[sides[1]] = y, x // how far from that side it is seen
			right, low := at["left"] >= 32, at["top"] >= 32
			if v, ok := at["right"]; ok {
				right = v < 32
			}
			if v, ok := at["bottom"]; ok {
				low = v < 32
			}
			i := 0
			if right {
				i++
			}
			if low {
				i += 2
			}
			img.SetNRGBA(x, y, quarters()[i])
		}
	}
	return img
}

func rgb(img *image.NRGBA) (out []byte) {
	for i := 0; i < len(img.Pix); i += 4 {
		out = append(out, img.Pix[i:i+3]...)
	}
	return out
}

// However a camera was held, and whatever the picture is stored as, a viewer shows
// it upright and in its place; what is clear shows the page.
func TestPictures(t *testing.T) {
	page := &drawing.Page{Name: "pictures", Size: pattern.Size{W: 8.5, H: 11}}
	place := func(i int) pattern.Pos {
		return pattern.Pos{X: 1 + 2*pattern.Length(i%3), Y: 1 + 1.5*pattern.Length(i/3)}
	}
	add := func(r *drawing.Raster) int {
		i := len(page.Items)
		page.Items = append(page.Items, &drawing.Image{At: place(i), Size: pattern.Size{W: 1.5, H: 1}, Of: r})
		return i
	}
	for turn := 1; turn <= 8; turn++ {
		add(&drawing.Raster{W: 64, H: 64, RGB: rgb(stored(turn)), Turn: turn})
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, stored(6), &jpeg.Options{Quality: 100}); err != nil {
		t.Fatal(err)
	}
	once := &drawing.Raster{W: 64, H: 64, JPEG: b.Bytes(), Channels: 3, Turn: 6}
	add(once)
	add(once)
	clear := make([]byte, 64*64)
	for i := range clear {
		clear[i] = 128
	}
	half := add(&drawing.Raster{W: 64, H: 64, RGB: rgb(stored(1)), Alpha: clear})
	data, err := Render(&Document{Title: "Pictures", Pages: []Page{{Page: page}}})
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(data, []byte("/DCTDecode")); n != 1 {
		t.Errorf("a picture that is shown twice is stored %d times", n)
	}
	path := filepath.Join(t.TempDir(), "t.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	tool(t, "qpdf", "--check", path)
	const dpi = 40
	tool(t, "pdftoppm", "-r", "40", "-png", "-singlefile", path, path)
	f, err := os.Open(path + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	for i := range page.Items {
		for q, want := range quarters() {
			at := place(i)
			x, y := at.X+0.375+0.75*pattern.Length(q%2), at.Y+0.25+0.5*pattern.Length(q/2)
			c := color.NRGBAModel.Convert(img.At(int(x*dpi), int(y*dpi))).(color.NRGBA)
			for k, pair := range [3][2]uint8{{c.R, want.R}, {c.G, want.G}, {c.B, want.B}} {
				expected := float64(pair[1])
				if i == half {
					expected = (expected*128 + 255*127) / 255
				}
				if math.Abs(float64(pair[0])-expected) > 8 {
					t.Errorf("picture %d, quarter %d, channel %d: %d, not %.0f", i, q, k, pair[0], expected)
				}
			}
		}
	}
}

func TestPictureNowhere(t *testing.T) {
	page := &drawing.Page{Size: pattern.Size{W: 4, H: 4}, Items: []drawing.Item{
		&drawing.Image{At: pattern.Pos{X: pattern.Length(math.NaN())}, Size: pattern.Size{W: 1, H: 1}, Of: &drawing.Raster{W: 1, H: 1, RGB: make([]byte, 3)}}}}
	if _, err := Render(&Document{Pages: []Page{{Page: page}}}); err == nil {
		t.Error("no error")
	}
}
