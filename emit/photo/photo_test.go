package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/emit/drawing"
)

// dotted is a picture of random dots, some of them clear.
func dotted(w, h int, clear bool) *image.NRGBA {
	r := rand.New(rand.NewPCG(1, 2))
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = uint8(r.UintN(256))
		if i%4 == 3 && !clear {
			img.Pix[i] = 255
		}
	}
	return img
}

func pngOf(t *testing.T, img image.Image) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func jpegOf(t testing.TB, img image.Image) string {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// withSegment puts a segment behind the beginning of a JPEG.
func withSegment(data string, marker byte, body string) string {
	n := len(body) + 2
	return data[:2] + "\xff" + string([]byte{marker, byte(n >> 8), byte(n)}) + body + data[2:]
}

// exif is what a camera writes, little-endian, of how it was held, and a place.
func exif(turn byte) string {
	return "Exif\x00\x00II*\x00\x08\x00\x00\x00\x02\x00" +
		"\x25\x88\x04\x00\x01\x00\x00\x00\x00\x00\x00\x00" + // where it was
		"\x12\x01\x03\x00\x01\x00\x00\x00" + string([]byte{turn}) + "\x00\x00\x00\x00\x00\x00\x00SECRET PLACE"
}

func TestPNG(t *testing.T) {
	for name, img := range map[string]image.Image{
		"opaque": dotted(7, 5, false), "clear": dotted(7, 5, true), "gray": image.NewGray(image.Rect(0, 0, 3, 4)), "deep": image.NewRGBA64(image.Rect(0, 0, 3, 4)),
		"paletted": image.NewPaletted(image.Rect(0, 0, 3, 4), color.Palette{color.White, color.RGBA{1, 2, 3, 255}}),
	} {
		r, err := Read(pngOf(t, img))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		size := img.Bounds().Size()
		if r.W != size.X || r.H != size.Y || len(r.RGB) != 3*r.W*r.H || r.JPEG != nil || r.Alpha != nil && len(r.Alpha) != r.W*r.H {
			t.Errorf("%s: %d x %d, %d and %d bytes", name, r.W, r.H, len(r.RGB), len(r.Alpha))
		}
		for i := range r.W * r.H {
			c := color.NRGBAModel.Convert(img.At(i%r.W, i/r.W)).(color.NRGBA)
			a := uint8(255)
			if r.Alpha != nil {
				a = r.Alpha[i]
			}
			if c.A != a || a > 0 && (r.RGB[3*i] != c.R || r.RGB[3*i+1] != c.G || r.RGB[3*i+2] != c.B) {
				t.Fatalf("%s: dot %d is %v and %d, not %v", name, i, r.RGB[3*i:3*i+3], a, c)
			}
		}
	}
	if r, _ := Read(pngOf(t, dotted(7, 5, false))); r.Alpha != nil {
		t.Error("an opaque picture has a mask")
	}
}

func TestJPEG(t *testing.T) {
	plain := jpegOf(t, dotted(70, 50, false))
	held := withSegment(withSegment(plain, app1, exif(6)), 0xFE, "a comment")
	for name, c := range map[string]struct {
		data     string
		turn     int
		channels int
	}{
		"plain": {plain, 0, 3}, "gray": {jpegOf(t, image.NewGray(image.Rect(0, 0, 70, 50))), 0, 1}, "held": {held, 6, 3},
		"another behind it": {held + plain, 6, 3},
	} {
		r, err := Read(c.data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if r.W != 70 || r.H != 50 || r.Turn != c.turn || r.Channels != c.channels || r.Inverted {
			t.Errorf("%s: %+v", name, r)
		}
		if bytes.Contains(r.JPEG, []byte("SECRET PLACE")) || bytes.Contains(r.JPEG, []byte("a comment")) {
			t.Errorf("%s: what the camera wrote is still there", name)
		}
		was, err1 := jpeg.Decode(strings.NewReader(c.data))
		is, err2 := jpeg.Decode(bytes.NewReader(r.JPEG))
		if err1 != nil || err2 != nil {
			t.Fatalf("%s: %v, %v", name, err1, err2)
		}
		for i := range 70 * 50 {
			if was.At(i%70, i/70) != is.At(i%70, i/70) {
				t.Fatalf("%s: it is another picture", name)
			}
		}
	}
	if r, _ := Read(held); r != nil {
		if w, h := r.Seen(); w != 50 || h != 70 {
			t.Errorf("held upright it is seen as %d x %d", w, h)
		}
	}
}

func TestBadPictures(t *testing.T) {
	good := jpegOf(t, dotted(70, 50, false))
	at := strings.Index(good, "\xff\xc0") // the frame
	huge := pngOf(t, dotted(7, 5, false))
	huge = huge[:16] + "\x00\x01\x00\x00\x00\x01\x00\x00" + huge[24:29]
	huge += string(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE([]byte(huge[12:]))))
	for name, c := range map[string]struct{ data, want string }{
		"nothing":        {"", "neither PNG nor JPEG"},
		"a text":         {"pattern \"Boat\" {}", "neither PNG nor JPEG"},
		"a GIF":          {"GIF89a...", "a GIF"},
		"a telephone's":  {"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00", "HEIC"},
		"half a JPEG":    {good[:len(good)/2], "damaged"},
		"its beginning":  {good[:3], "damaged"},
		"no picture":     {good[:2] + "\xff\xd9", "damaged"},
		"lossless":       {good[:at+1] + "\xc3" + good[at+2:], "uncommon"},
		"deep":           {good[:at+4] + "\x0c" + good[at+5:], "uncommon"},
		"two colors":     {good[:at+9] + "\x02" + good[at+10:], "2 colors"},
		"without height": {good[:at+5] + "\x00\x00" + good[at+7:], "no size"},
		"half a PNG":     {pngOf(t, dotted(70, 50, false))[:500], "damaged"},
		"a huge PNG":     {huge, "more than a page can show"},
	} {
		if r, err := Read(c.data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v", name, r, err)
		}
	}
	if fits(100_000, 100_000) == nil || fits(1<<40, 1<<40) == nil || fits(6000, 4000) != nil {
		t.Error("the limit of dots is not kept")
	}
}

// No bytes make it panic, and what it keeps of a JPEG is never more than there was.
func TestAnyBytes(t *testing.T) {
	good := withSegment(jpegOf(t, dotted(17, 9, false)), app1, exif(8))
	rapid.Check(t, func(t *rapid.T) {
		data := []byte(good)
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			data[rapid.IntRange(0, len(data)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		}
		data = data[:rapid.IntRange(0, len(data)).Draw(t, "length")]
		if r, err := Read(string(data)); err == nil && (r.W <= 0 || r.H <= 0 || len(r.JPEG) > len(data)) {
			t.Errorf("%+v", r)
		}
	})
}

// For a screen a picture keeps how it was held and its dots, and loses the rest; a
// large one of colors gets small, each dot the mean of those it stands for.
func TestSmall(t *testing.T) {
	plain := jpegOf(t, dotted(70, 50, false))
	for turn := range byte(9) {
		r, err := Read(withSegment(plain, app1, exif(turn)))
		if err != nil {
			t.Fatal(err)
		}
		file, kind := Small(r, 10)
		again, err := Read(string(file))
		if kind != "image/jpeg" || err != nil || again.Turn != max(r.Turn, 0) && r.Turn > 1 || bytes.Contains(file, []byte("SECRET PLACE")) {
			t.Errorf("held %d: %s, %v", turn, kind, err)
		}
		if _, err := jpeg.Decode(bytes.NewReader(file)); err != nil {
			t.Errorf("held %d: %v", turn, err)
		}
	}
	r := &drawing.Raster{W: 5, H: 2, RGB: make([]byte, 30), Alpha: []byte{255, 0, 255, 255, 9, 255, 0, 255, 255, 9}}
	copy(r.RGB, []byte{200, 100, 0, 9, 9, 9})
	copy(r.RGB[15:], []byte{100, 0, 50})
	file, kind := Small(r, 3)
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil || kind != "image/png" || img.Bounds().Dx() != 2 || img.Bounds().Dy() != 1 {
		t.Fatal(kind, err, img)
	}
	if got := color.NRGBAModel.Convert(img.At(0, 0)).(color.NRGBA); got != (color.NRGBA{150, 50, 25, 127}) {
		t.Errorf("the mean of four dots, two of them clear, is %v", got)
	}
}
