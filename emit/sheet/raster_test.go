package sheet

import (
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"seamwright/emit/drawing"
	"seamwright/emit/svg"
)

// valid checks a document against W3C's SVG 1.1 DTD, which Debian's
// w3c-sgml-lib enters in the system's catalog.
func valid(t *testing.T, data []byte) {
	t.Helper()
	tool(t, "xmllint")
	path := filepath.Join(t.TempDir(), "t.svg")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("xmllint", "--noout", "--nonet", "--dtdvalidfpi", "-//W3C//DTD SVG 1.1//EN", path).CombinedOutput()
	if err != nil {
		t.Errorf("not valid SVG 1.1: %v\n%.2000s", err, out)
	}
}

func TestSheetsAreValid(t *testing.T) {
	for i, l := range all(t) {
		if i%4 == 0 { // a process for each is slow
			valid(t, file(t, &l.set.Sheets[len(l.set.Sheets)-1]))
		}
	}
}

// A picture is a page as dots: dark[y][x].
type picture struct {
	dpi  float64
	grey *image.Gray
}

func decode(t *testing.T, path string, dpi float64) picture {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	grey := image.NewGray(img.Bounds())
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			grey.Set(x, y, img.At(x, y))
		}
	}
	return picture{dpi, grey}
}

// librsvg turns a page into dots with rsvg-convert.
func librsvg(t *testing.T, data []byte, dpi float64) picture {
	t.Helper()
	tool(t, "rsvg-convert")
	dir := t.TempDir()
	in, out := filepath.Join(dir, "t.svg"), filepath.Join(dir, "t.png")
	if err := os.WriteFile(in, data, 0o600); err != nil {
		t.Fatal(err)
	}
	d := strconv.FormatFloat(dpi, 'f', 0, 64)
	if msg, err := exec.Command("rsvg-convert", "-d", d, "-p", d, "-b", "white", "-o", out, in).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, msg)
	}
	return decode(t, out, dpi)
}

// chromium turns a page into dots with a browser: CSS says 96 px to the inch
// (CSS Values 3), and three dots to the px make 288 to the inch.
func chromium(t *testing.T, data []byte, w, h length) picture {
	t.Helper()
	tool(t, "chromium")
	dir := t.TempDir()
	in, out := filepath.Join(dir, "t.svg"), filepath.Join(dir, "t.png")
	if err := os.WriteFile(in, data, 0o600); err != nil {
		t.Fatal(err)
	}
	size := strconv.Itoa(int(math.Ceil(float64(w*96)))) + "," + strconv.Itoa(int(math.Ceil(float64(h*96))))
	msg, err := exec.Command("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--hide-scrollbars", "--force-device-scale-factor=3", "--user-data-dir="+filepath.Join(dir, "profile"),
		"--screenshot="+out, "--window-size="+size, "file://"+in).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, msg)
	}
	return decode(t, out, 288)
}

// dark reports how dark the page is at a place, from 0 to 1.
func (p picture) dark(at pos) float64 {
	x, y := int(float64(at.X)*p.dpi), int(float64(at.Y)*p.dpi)
	return 1 - float64(p.grey.GrayAt(x, y).Y)/255
}

// middle returns where the line is that crosses the stretch from a to b: the
// middle of its darkness, along the stretch, in inches from a.
func (p picture) middle(t *testing.T, a, b pos) length {
	t.Helper()
	n := int(float64(dist(a, b)) * p.dpi * 4)
	sum, moment := 0.0, 0.0
	for i := range n {
		d := p.dark(along(a, sub(b, a), (length(i)+0.5)/length(n)))
		sum += d
		moment += d * (float64(i) + 0.5)
	}
	if sum == 0 {
		t.Fatalf("no line between %v and %v", a, b)
	}
	return length(moment/sum) / length(n) * dist(a, b)
}

// across measures the distance of two parallel lines, near from and near to.
func (p picture) across(t *testing.T, from, to pos) length {
	t.Helper()
	d := unit(from, to)
	const look = 0.04
	a := p.middle(t, along(from, d, -look), along(from, d, look)) - look
	b := p.middle(t, along(to, d, -look), along(to, d, look)) - look
	return dist(from, to) - a + b
}

func named(t *testing.T, name string) laid {
	t.Helper()
	for _, l := range all(t) {
		if l.name == name {
			return l
		}
	}
	t.Fatalf("%s was not laid", name)
	return laid{}
}

// An inch is an inch in two independent renderers, in both directions, and so
// are the edges of a section, within a dot.
func TestTrueScaleInDots(t *testing.T) {
	l := named(t, "boat 8 in letter")
	s := &l.set.Sheets[0]
	data := file(t, s)
	paths, _ := read(t, data)
	for name, pic := range map[string]picture{
		"librsvg":  librsvg(t, data, 300),
		"chromium": chromium(t, data, s.Page.Size.W, s.Page.Size.H),
	} {
		dot := length(1 / pic.dpi)
		measure := func(what string, p drawn, want length) {
			b := boxOf(p.points)
			m := pos{X: b.x0 + 0.31*b.w(), Y: b.y0 + 0.63*b.h()}
			for _, got := range [2]length{
				pic.across(t, pos{X: b.x0, Y: m.Y}, pos{X: b.x1, Y: m.Y}),
				pic.across(t, pos{X: m.X, Y: b.y0}, pos{X: m.X, Y: b.y1}),
			} {
				if want != 0 && math.Abs(float64(got-want)) > float64(dot) {
					t.Errorf("%s: %s is %.4f in wide or high, want %v", name, what, got, want)
				}
			}
		}
		for _, p := range paths {
			switch {
			case p.group == "square-1in":
				measure("the 1-inch square", p, 1)
			case p.group == "square-2cm":
				measure("the 2-cm square", p, 20/25.4)
			}
		}
		place := s.Places[0]
		d := &l.sized.Drawings[place.Drawing]
		b, want := boxOf(of(paths, d.Name, outlineWidth, false)[0].points), boxOf(turnedLine(d.Outline, place.Turn))
		if got := pic.across(t, pos{X: b.x0, Y: b.y0 + 0.11*b.h()}, pos{X: b.x1, Y: b.y0 + 0.11*b.h()}); math.Abs(float64(got-want.w())) > float64(dot) {
			t.Errorf("%s: section %s is %.4f in wide, want %v", name, d.Name, got, want.w())
		}
	}
}

// Along each seam of the front view, reversed, the page is black; along the same
// seam as it lies from the front it is not.
func TestReversedInDots(t *testing.T) {
	l := named(t, "flood_tide 6 in letter") // its slanting seams all lean one way
	mirrored, straight := 0, 0
	for i := range l.set.Sheets {
		s := &l.set.Sheets[i]
		pic := librsvg(t, file(t, s), 200)
		for _, place := range s.Places {
			d := &l.sized.Drawings[place.Drawing]
			move := place.Motion()
			box := boxOf(d.Outline)
			for k := range d.Pieces {
				if k == 0 {
					continue
				}
				seam := d.Pieces[k].Seam
				if v := sub(seam[1], seam[0]); v.X*v.X < 0.25 || v.Y*v.Y < 0.25 { // may lie on itself reversed
					continue
				}
				for _, f := range [...]length{0.17, 0.29, 0.37, 0.61, 0.83} {
					p := along(seam[0], sub(seam[1], seam[0]), f)
					q := pos{X: box.x0 + box.x1 - p.X, Y: p.Y} // as if it had been printed unreversed
					if black(pic, move(p)) {
						mirrored++
					} else {
						t.Errorf("section %s: seam %d is not printed at %v", d.Name, k+1, move(p))
					}
					if black(pic, move(q)) {
						straight++
					}
				}
			}
		}
	}
	if mirrored < 10 || straight*5 > mirrored {
		t.Errorf("%d points lie on lines reversed, %d unreversed", mirrored, straight)
	}
}

// black reports whether there is a line within a dot or two.
func black(pic picture, at pos) bool {
	for dx := -2; dx <= 2; dx++ {
		for dy := -2; dy <= 2; dy++ {
			if pic.dark(pos{X: at.X + length(float64(dx)/pic.dpi), Y: at.Y + length(float64(dy)/pic.dpi)}) > 0.5 {
				return true
			}
		}
	}
	return false
}

// No dot of a label is a dot of a line or of another label. The page is drawn
// twice, once with words alone and once with lines alone.
func TestLabelsTouchNothingInDots(t *testing.T) {
	for _, l := range all(t) {
		if l.name != "hearth 4 in letter" && l.name != "flood_tide 6 in letter" {
			continue
		}
		for i := range l.set.Sheets {
			page := l.set.Sheets[i].Page
			var pics [2]picture
			for k := range pics {
				part := page
				part.Items = only(page.Items, k == 0)
				data, err := svg.Render(&part)
				if err != nil {
					t.Fatal(err)
				}
				pics[k] = librsvg(t, data, 300)
			}
			both := 0
			for k, v := range pics[0].grey.Pix {
				if v < 160 && pics[1].grey.Pix[k] < 160 {
					both++
				}
			}
			if both > 0 {
				t.Errorf("%s sheet %d: %d dots belong to a word and to a line", l.name, i+1, both)
			}
		}
	}
}

// only keeps the words of a section's drawing, or its lines.
func only(items []drawing.Item, words bool) (out []drawing.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			if g := *item; !g.Shared && g.ID != "head" { // in the front view letters stand on grey
				g.Items = only(g.Items, words)
				out = append(out, &g)
			}
		case *drawing.Text:
			if words {
				out = append(out, item)
			}
		case *drawing.Path:
			if !words && item.Style != drawing.NoLine {
				out = append(out, item)
			}
		}
	}
	return out
}
