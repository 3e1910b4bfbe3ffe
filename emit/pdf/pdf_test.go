package pdf

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// sample has a 1 in square, every style, both weights, a clip, a circle and
// texts that try to break out of their strings.
func sample(size pattern.Size) *drawing.Page {
	p := &drawing.Page{Name: "sample", Size: size}
	at := func(x, y float64) pattern.Pos { return pattern.Pos{X: pattern.Length(x), Y: pattern.Length(y)} }
	p.Items = append(p.Items,
		&drawing.Path{Style: drawing.NoLine, Fill: drawing.Black, Closed: true, Points: []pattern.Pos{at(1, 1), at(2, 1), at(2, 2), at(1, 2)}},
		&drawing.Path{Style: drawing.OutlineLine, Fill: drawing.NoColour, Circle: 0.5, Points: []pattern.Pos{at(4, 2)}},
		&drawing.Group{ID: "g", Clip: []pattern.Pos{at(1, 3), at(3, 3), at(3, 4)}, Items: []drawing.Item{
			&drawing.Path{Style: drawing.NoLine, Fill: 0x3c7d8c, Closed: true, Points: []pattern.Pos{at(0, 2), at(5, 2), at(5, 5), at(0, 5)}},
		}},
	)
	for s := drawing.SewingLine; s <= drawing.PatchLine; s++ {
		y := 4 + 0.2*float64(s)
		p.Items = append(p.Items, &drawing.Path{Style: s, Fill: drawing.NoColour, Points: []pattern.Pos{at(1, y), at(4, y)}})
	}
	for i, s := range []string{`quay (3) > <1/2 \ )`, "Łódź, naïve façade 1/4", "שלום harbour", "buoy \U0001F6DF\x00\x1b", strings.Repeat("wide ", 50)} {
		p.Items = append(p.Items, &drawing.Text{Text: s, At: at(1, 6.4+0.3*float64(i)), Size: 0.2, Bold: i%2 == 1, Turn: float64(-2 * (i / 4))})
	}
	return p
}

func render(t *testing.T) []byte {
	t.Helper()
	d := &Document{Title: "Harbour (boat)", Author: "Harbour Sheets", Pages: []Page{
		{Page: sample(pattern.Size{W: 8.5, H: 11}), Bookmark: "First"},
		{Page: sample(pattern.Size{W: pattern.Length(210 / 25.4), H: pattern.Length(297 / 25.4)}), Bookmark: "Second (A4)"},
		{Page: &drawing.Page{Name: "press", Size: pattern.Size{W: 8, H: 10}}, Slug: 0.5, Bleed: 0.125, Over: []drawing.Item{&drawing.Path{Style: drawing.RuleLine, Fill: drawing.NoColour, Points: []pattern.Pos{{X: -0.4, Y: 0}, {X: -0.2, Y: 0}}}}},
	}}
	b, err := Render(d)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// tool runs a checker from outside; a bare machine may lack it, CI may not.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is missing", name)
		}
		t.Skipf("%s is not installed", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

func saved(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sample.pdf")
	if err := os.WriteFile(path, render(t), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(render(t), render(t)) {
		t.Error("two renderings differ")
	}
}

func TestStructure(t *testing.T) {
	out := tool(t, "qpdf", "--check", saved(t))
	if !strings.Contains(out, "No syntax or stream encoding errors found") || strings.Contains(out, "WARNING") {
		t.Error(out)
	}
}

func TestPageBoxesAndFonts(t *testing.T) {
	path := saved(t)
	info := tool(t, "pdfinfo", "-f", "1", "-l", "3", "-box", path)
	for _, want := range []string{"Title:           Harbour (boat)", "612 x 792 pts (letter)", "595.276 x 841.89 pts (A4)",
		"3 MediaBox:    -36.00   -36.00   612.00   756.00", "3 TrimBox:       0.00     0.00   576.00   720.00", "3 BleedBox:     -9.00    -9.00   585.00   729.00"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, info)
		}
	}
	fonts := strings.Split(strings.TrimSpace(tool(t, "pdffonts", path)), "\n")
	if len(fonts) < 4 {
		t.Fatalf("two weights should be two fonts:\n%s", strings.Join(fonts, "\n"))
	}
	for _, l := range fonts[2:] {
		// name, type, encoding, emb, sub, uni
		if f := strings.Fields(l); f[len(f)-5] != "yes" || f[len(f)-3] != "yes" {
			t.Errorf("not embedded or without a character map: %s", l)
		}
	}
}

func TestTextCanBeFound(t *testing.T) {
	out := tool(t, "pdftotext", saved(t), "-")
	for _, want := range []string{`quay (3) > <1/2 \ )`, "Łódź", "1/4"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in the text:\n%s", want, out)
		}
	}
}

func TestInchIsAnInch(t *testing.T) {
	path := saved(t)
	dir := t.TempDir()
	for name, run := range map[string]func(){
		"poppler": func() { tool(t, "pdftoppm", "-r", "300", "-png", path, filepath.Join(dir, "poppler")) },
		"mupdf":   func() { tool(t, "mutool", "draw", "-r", "300", "-o", filepath.Join(dir, "mupdf-%d.png"), path) },
	} {
		run()
		for page := 1; page <= 2; page++ {
			file, err := os.Open(filepath.Join(dir, fmt.Sprintf("%s-%d.png", name, page)))
			if err != nil {
				t.Fatal(err)
			}
			img, _, err := image.Decode(file)
			file.Close()
			if err != nil {
				t.Fatal(err)
			}
			// The black square stands from 1 to 2 in, both ways.
			w, h := darkRun(img, 450, true), darkRun(img, 450, false)
			if w < 299 || w > 301 || h < 299 || h > 301 {
				t.Errorf("%s, page %d: the inch is %d x %d pixels at 300 dpi", name, page, w, h)
			}
		}
	}
}

// darkRun counts the dark pixels through the middle of the square.
func darkRun(img image.Image, at int, across bool) int {
	n := 0
	for i := 250; i < 650; i++ {
		x, y := i, at
		if !across {
			x, y = at, i
		}
		if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
			n++
		}
	}
	return n
}

func BenchmarkRender(b *testing.B) {
	d := &Document{}
	for range 100 {
		d.Pages = append(d.Pages, Page{Page: sample(pattern.Size{W: 8.5, H: 11})})
	}
	for b.Loop() {
		if _, err := Render(d); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(100*b.N)/b.Elapsed().Seconds(), "pages/s")
}
