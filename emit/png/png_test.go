package png_test

import (
	"bytes"
	"image"
	stdpng "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
	"seamwright/emit/png"
	"seamwright/emit/sheet"
	"seamwright/emit/svg"
)

func render(t *testing.T, page *drawing.Page, width int) image.Image {
	t.Helper()
	data, err := png.Render(page, width)
	if err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// librsvg turns the SVG of the same page into dots.
func librsvg(t *testing.T, page *drawing.Page, dpi int) image.Image {
	t.Helper()
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	data, err := svg.Render(page)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "t.svg"), filepath.Join(dir, "t.png")
	if err := os.WriteFile(in, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if msg, err := exec.Command("rsvg-convert", "-d", strconv.Itoa(dpi), "-p", strconv.Itoa(dpi), "-b", "white", "-o", out, in).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, msg)
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := stdpng.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// difference returns how far two pictures are apart: the mean over all dots, and
// the part of the dots that are clearly apart, both of the whole range.
func difference(t *testing.T, a, b image.Image) (mean, clearly float64) {
	t.Helper()
	if w, h := a.Bounds().Dx()-b.Bounds().Dx(), a.Bounds().Dy()-b.Bounds().Dy(); w != 0 || h < -1 || h > 1 {
		t.Fatalf("%v beside %v", a.Bounds(), b.Bounds())
	}
	width, height := a.Bounds().Dx(), min(a.Bounds().Dy(), b.Bounds().Dy())
	for y := range height {
		for x := range width {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			d := (math.Abs(float64(r1)-float64(r2)) + math.Abs(float64(g1)-float64(g2)) + math.Abs(float64(b1)-float64(b2))) / 3 / 0xFFFF
			mean += d
			if d > 0.25 {
				clearly++
			}
		}
	}
	n := float64(width * height)
	return mean / n, clearly / n
}

// How far librsvg's picture of a page may be from ours, a fifth above what was
// seen. The two round the edges of lines differently, and SVG rounds places to a
// hundredth of a millimetre, which shows most where there is little but hatching.
const (
	mostMean, mostClearly = 0.004, 0.005
	hatchedMean, hatched  = 0.011, 0.0066
)

func pages(p *pattern.Pattern) []*drawing.Page {
	var all []*drawing.Page
	for _, picture := range diagram.Pictures(p, &p.Blocks[0]) {
		all = append(all, picture.Make(nil))
	}
	set, _ := sheet.Lay(p, &p.Blocks[0], &p.Blocks[0].Sizes[0], p.Settings.Sheet)
	return append(all, &set.Sheets[0].Page)
}

// An independent rasterizer, librsvg, shows the SVG of a page as this package
// shows the page.
func TestLikeLibrsvg(t *testing.T) {
	for _, page := range append(pages(sample.Boat()), pages(sample.Star())...) {
		for _, dpi := range []int{56, 160} { // of which every page is a whole number of dots wide
			width := int(math.Round(float64(page.Size.W) * float64(dpi)))
			mean, clearly := difference(t, render(t, page, width), librsvg(t, page, dpi))
			t.Logf("%s, %d: %.4f, %.4f", page.Name, width, mean, clearly)
			atMost, most := mostMean, mostClearly
			if page.Name == "values" {
				atMost, most = hatchedMean, hatched
			}
			if mean > atMost || clearly > most {
				t.Errorf("%s at %d dots: %.4f apart in the mean, %.4f of it clearly", page.Name, width, mean, clearly)
			}
		}
	}
}

// What that comparison must see: lines of another weight, text moved by a
// millimetre, a fabric in another color.
func TestComparisonSees(t *testing.T) {
	const dpi = 160
	change := map[string]func(drawing.Item) bool{
		"a line twice as heavy": func(i drawing.Item) bool {
			p, ok := i.(*drawing.Path)
			if ok && p.Style == drawing.PatchLine {
				p.Style = drawing.OutlineLine
			}
			return ok
		},
		"text moved": func(i drawing.Item) bool {
			text, ok := i.(*drawing.Text)
			if ok {
				text.At.X += pattern.Millimetre
			}
			return ok
		},
		"another color": func(i drawing.Item) bool {
			p, ok := i.(*drawing.Path)
			if ok && p.Fill != drawing.NoColour {
				p.Fill ^= 0x3F3F3F
				return true
			}
			return false
		},
	}
	for name, change := range change {
		page := pages(sample.Boat())[0]
		if name == "text moved" {
			page = pages(sample.Boat())[3] // there is little on the first
		}
		want := render(t, page, int(page.Size.W*dpi))
		n := 0
		var walk func([]drawing.Item)
		walk = func(items []drawing.Item) {
			for _, item := range items {
				if g, ok := item.(*drawing.Group); ok {
					walk(g.Items)
				} else if change(item) {
					n++
				}
			}
		}
		walk(page.Items)
		if mean, clearly := difference(t, render(t, page, int(page.Size.W*dpi)), want); n == 0 || mean < mostMean && clearly < mostClearly {
			t.Errorf("%s: %d things changed and only %.4f, %.4f apart", name, n, mean, clearly)
		}
	}
}

// Areas, which can be worked out by hand: the sum of all cover, in square dots.
func TestCover(t *testing.T) {
	const in = 100 // dots
	line := float64(drawing.OutlineLine.Look().Width) * in
	square := []pattern.Pos{{X: 1, Y: 1}, {X: 3, Y: 1}, {X: 3, Y: 3}, {X: 1, Y: 3}}
	dash := drawing.CuttingLine.Look()
	turned := []pattern.Pos{{X: 0.5, Y: 0.5}, {X: 3.5, Y: 2.5}, {X: 2, Y: 3.7}}
	run := math.Hypot(3, 2) + math.Hypot(1.5, 1.2)
	dashes := math.Floor(run/float64(dash.On+dash.Off)) * float64(dash.On)
	dashes += math.Min(float64(dash.On), math.Mod(run, float64(dash.On+dash.Off)))
	for name, c := range map[string]struct {
		items []drawing.Item
		want  float64
	}{
		"a filled square": {[]drawing.Item{&drawing.Path{Points: square, Closed: true, Fill: drawing.Black}}, 200 * 200},
		"a filled circle": {[]drawing.Item{&drawing.Path{Points: square[:1], Circle: 0.7, Fill: drawing.Black}}, math.Pi * 70 * 70},
		"an outline, twice": {[]drawing.Item{
			&drawing.Path{Style: drawing.OutlineLine, Points: square, Closed: true, Fill: drawing.NoColour},
			&drawing.Path{Style: drawing.OutlineLine, Points: square, Closed: true, Fill: drawing.NoColour},
		}, 800*line - (1-math.Pi/4)*line*line},
		"a circle's line": {[]drawing.Item{&drawing.Path{Style: drawing.OutlineLine, Points: []pattern.Pos{{X: 2, Y: 2}}, Circle: 1.5, Fill: drawing.NoColour}},
			2 * math.Pi * 150 * line},
		"dashes": {[]drawing.Item{&drawing.Path{Style: drawing.CuttingLine, Points: turned, Fill: drawing.NoColour}},
			dashes * in * float64(dash.Width) * in},
		"clipped": {[]drawing.Item{&drawing.Group{Clip: square, Items: []drawing.Item{
			&drawing.Path{Points: []pattern.Pos{{X: 2, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 4}, {X: 2, Y: 4}}, Closed: true, Fill: drawing.Black},
			&drawing.Group{Clip: []pattern.Pos{{X: 0, Y: 0}, {X: 4, Y: 4}, {X: 0, Y: 4}}, Items: []drawing.Item{
				&drawing.Path{Points: square, Closed: true, Fill: drawing.Black}}},
		}}}, 100*200 + 200*200/2 - 100*100/2},
	} {
		img := render(t, &drawing.Page{Size: pattern.Size{W: 4, H: 4}, Items: c.items}, 4*in)
		got := 0.0
		for y := range 4 * in {
			for x := range 4 * in {
				r, _, _, _ := img.At(x, y).RGBA()
				got += 1 - float64(r)/0xFFFF
			}
		}
		if math.Abs(got-c.want) > 0.01*c.want {
			t.Errorf("%s covers %.1f dots, not %.1f", name, got, c.want)
		}
	}
}

func TestRefuses(t *testing.T) {
	nan := pattern.Length(math.NaN())
	good := pattern.Size{W: 4, H: 4}
	for name, c := range map[string]struct {
		page  drawing.Page
		width int
	}{
		"no size":     {drawing.Page{}, 400},
		"too narrow":  {drawing.Page{Size: good}, png.Least - 1},
		"too wide":    {drawing.Page{Size: good}, png.Most + 1},
		"too tall":    {drawing.Page{Size: pattern.Size{W: 1, H: 100000}}, 400},
		"no place":    {drawing.Page{Size: good, Items: []drawing.Item{&drawing.Path{Style: drawing.SewingLine, Points: []pattern.Pos{{X: nan}, {X: 1}}}}}, 400},
		"nowhere":     {drawing.Page{Size: good, Items: []drawing.Item{&drawing.Path{Style: drawing.SewingLine, Points: []pattern.Pos{{X: 1e300}, {X: 1}}}}}, 400},
		"text of NaN": {drawing.Page{Size: good, Items: []drawing.Item{&drawing.Text{Text: "a", Size: nan}}}, 400},
	} {
		if _, err := png.Render(&c.page, c.width); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestSameBytes(t *testing.T) {
	page := pages(sample.Star())[0]
	a, _ := png.Render(page, 700)
	b, _ := png.Render(page, 700)
	if len(a) == 0 || !bytes.Equal(a, b) {
		t.Error("two pictures of one page differ")
	}
}

func BenchmarkRender(b *testing.B) {
	page := pages(sample.Boat())[0]
	for b.Loop() {
		if _, err := png.Render(page, 1200); err != nil {
			b.Fatal(err)
		}
	}
}
