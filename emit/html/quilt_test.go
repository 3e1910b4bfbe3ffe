package html

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/jpeg"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
	"seamwright/emit/photo"
	"seamwright/emit/report"
	"seamwright/emit/table"
)

// whole makes a page of what is of no block.
func whole(t *testing.T, p *pattern.Pattern, beside Beside) string {
	t.Helper()
	p.Blocks = nil
	page, err := Page(p, [][]report.Made{}, []Block{}, beside)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

// The author's pictures are in the page itself, as the file that a browser reads
// (image/jpeg of the standard library reads it back); the policy lets in nothing
// else, and only where there is one.
func TestPhotosAreInThePage(t *testing.T) {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, image.NewGray(image.Rect(0, 0, 60, 40)), nil); err != nil {
		t.Fatal(err)
	}
	read, err := photo.Read(file.String())
	if err != nil {
		t.Fatal(err)
	}
	dots := &drawing.Raster{W: 2, H: 1, RGB: []byte{255, 0, 0, 0, 255, 0}}
	page := whole(t, sample.Boat(), Beside{Photos: []Photo{{Of: read, Words: `sewn "so" <b>`}, {Of: dots}}})
	_, rest, ok := strings.Cut(page, `<img alt="sewn &quot;so&quot; &lt;b&gt;" src="data:image/jpeg;base64,`)
	data, _, _ := strings.Cut(rest, `"`)
	back, err := base64.StdEncoding.DecodeString(data)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	if img, err := jpeg.Decode(bytes.NewReader(back)); err != nil || img.Bounds().Dx() != 60 {
		t.Error("the picture in the page is not the author's:", err)
	}
	if !strings.Contains(page, `src="data:image/png;base64,`) || !strings.Contains(page, "img-src data:;") && !strings.Contains(page, `img-src data:"`) {
		t.Error("a picture of dots is missing, or not let in")
	}
	if strings.Contains(whole(t, sample.Boat(), Beside{}), "img-src") {
		t.Error("pictures are let in where there is none")
	}
}

// A page with pictures of a telephone's size can still be sent.
func TestPhotosHaveALimit(t *testing.T) {
	big := &drawing.Raster{JPEG: make([]byte, mostPhotos/2-1000), W: 10, H: 10, Channels: 3}
	page := whole(t, sample.Boat(), Beside{Photos: []Photo{{Of: big}, {Of: big}, {Of: big}}})
	if n := strings.Count(page, "<img"); n != 2 || !strings.Contains(page, "One more picture would") {
		t.Errorf("%d pictures are shown", n)
	}
}

// A quilt is told of: size, blocks, sashing, cloth. The author's words stay words.
func TestQuiltInThePage(t *testing.T) {
	p := sample.Boat()
	p.Settings.Buying = pattern.Buying{Usable: 40}
	p.Colorway = []pattern.Colorway{{Dress: make([]pattern.Cloth, len(p.Fabrics))}}
	q := &pattern.Quilt{Title: "<Race>", Layout: &pattern.Layout{Size: pattern.Size{W: 17, H: 8.25},
		Cuts: []pattern.Cut{{For: "sashes", Shape: pattern.Rectangle, Size: pattern.Size{W: 8.5, H: 1.5}, Count: 4}},
		Runs: []pattern.Run{{For: "border", Height: 3.5, Lengths: []pattern.Length{12, 12}}}}}
	page := whole(t, p, Beside{Quilts: []Quilt{{Of: q, Cloth: func() [][]table.Cloth { return table.QuiltCloth(p, q.Layout) },
		SVG: func() []byte { return []byte("<svg></svg>") }}}})
	_, text := parse(t, []byte(page))
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{"The quilt: <Race>", "17 in x 8 1/4 in", "(4)rectangle8 1/2 in x 1 1/2 in", "strips: 3 1/2 in(2) of 12 in", "(1) strip of 3 1/2 in, for border"} {
		if !strings.Contains(flat, want) {
			t.Errorf("%q is not told", want)
		}
	}
}
