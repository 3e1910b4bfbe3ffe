package booklet_test

import (
	"fmt"
	"image"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

const examples = "../../examples"

type beside struct{}

func (beside) Load(from *problem.Source, path string) (*problem.Source, string) {
	name := filepath.Join(filepath.Dir(from.Name), path+".seam")
	if family, ok := strings.CutPrefix(path, "std/"); ok {
		name = filepath.Join("../../lang/families", family+".seam")
	}
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err.Error()
	}
	return &problem.Source{Name: name, Text: string(text)}, ""
}

func compile(t *testing.T, name string) *pattern.Pattern {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	p, problems := compiler.Compile(&problem.Source{Name: name, Text: string(text)}, beside{})
	if p == nil {
		t.Fatalf("%s: %v", name, problems)
	}
	return p
}

// made writes the booklet of one size and returns its pages and its file.
func made(t *testing.T, p *pattern.Pattern, s *pattern.Sized) ([]pdf.Page, string) {
	t.Helper()
	set, problems := sheet.Lay(p, &p.Blocks[0], s, p.Settings.Sheet)
	if problem.Failed(problems) {
		t.Fatal(problems)
	}
	c, _ := words.In("en")
	pages := booklet.Make(booklet.Parts{Pattern: p, Block: &p.Blocks[0], Sized: s, Sheets: &set, Cuts: table.List(p, s), Words: c})
	data, err := pdf.Render(&pdf.Document{Title: p.Title, Pages: pages})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "booklet.pdf")
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return pages, path
}

// tool runs a program from outside; a bare machine may lack it, CI may not.
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

// The booklet of every example is a sound file of pages of the right size, in
// which its words can be found (qpdf, poppler).
func TestExamplesAreSoundFiles(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(examples, "*.seam"))
	if err != nil || len(names) < 8 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			p := compile(t, name)
			pages, path := made(t, p, &p.Blocks[0].Sizes[0])
			if out := tool(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors found") || strings.Contains(out, "WARNING") {
				t.Error(out)
			}
			info := tool(t, "pdfinfo", "-box", "-f", "1", "-l", fmt.Sprint(len(pages)), path)
			size := p.Settings.Sheet.Paper
			box := strings.Fields(fmt.Sprintf("MediaBox: 0.00 0.00 %.2f %.2f", float64(size.W)*72, float64(size.H)*72))
			if got := strings.Count(strings.Join(strings.Fields(info), " "), strings.Join(box, " ")); got != len(pages) {
				t.Errorf("%d pages of %d have the box %v:\n%s", got, len(pages), box, info)
			}
			found := strings.Join(strings.Fields(tool(t, "pdftotext", path, "-")), " ")
			for _, want := range []string{p.Title, "What to print", "Close the blade", "reversed", "page 1 of " + fmt.Sprint(len(pages)),
				fmt.Sprintf("page %d of %d", len(pages), len(pages))} {
				if !strings.Contains(found, want) {
					t.Errorf("%q is not in the text", want)
				}
			}
		})
	}
}

// Whatever is true to scale measures what it says at 300 dots to the inch, in both
// directions, in two rasterizers, on letter and on A4: the inch mark of every sheet
// 300 pixels and its rules of 6 in and 15 cm 1800 and 1771.7; the inch in the margin of
// the pages of the block at full size 300.
func TestInchIsAnInchOnEverySheet(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		p := compile(t, filepath.Join(examples, "harbour_boat.seam"))
		p.Settings.Sheet, _ = pattern.SheetNamed(paper)
		pages, path := made(t, p, &p.Blocks[0].Sizes[1])
		dir, sheets, full := t.TempDir(), 0, 0
		for i, page := range pages {
			corner := find(page.Items, "inch")
			if corner == nil && !strings.HasPrefix(page.Name, "sheet-") {
				continue
			}
			n := fmt.Sprint(i + 1)
			tool(t, "pdftoppm", "-r", "300", "-f", n, "-l", n, "-singlefile", "-png", path, filepath.Join(dir, "poppler-"+n))
			tool(t, "mutool", "draw", "-r", "300", "-o", filepath.Join(dir, "mupdf-"+n+".png"), path, n)
			for _, by := range []string{"poppler", "mupdf"} {
				img := picture(t, filepath.Join(dir, by+"-"+n+".png"))
				measure := func(what string, got, want, off float64) {
					if !(math.Abs(got-want) <= off) {
						t.Errorf("%s, page %s, %s: the %s is %.1f pixels, not %.1f", paper, n, by, what, got, want)
					}
				}
				if corner != nil {
					full++
					at := corner.Items[0].(*drawing.Path).Points[0]
					beside := pattern.Length(0.03) // along a line that crosses the stroke of the end alone
					measure("inch across", middle(img, pattern.Pos{X: at.X + 1, Y: at.Y + beside}, true)-middle(img, pattern.Pos{X: at.X, Y: at.Y + 0.5}, true), 300, 1)
					measure("inch down", middle(img, pattern.Pos{X: at.X + beside, Y: at.Y + 1}, false)-middle(img, pattern.Pos{X: at.X + 0.5, Y: at.Y}, false), 300, 1)
					continue
				}
				sheets++
				square, rules := find(page.Items, "square-1in"), find(page.Items, "rules")
				if square == nil || rules == nil {
					t.Fatalf("%s, page %s has no inch mark or no rules", paper, n)
				}
				at := square.Items[0].(*drawing.Path).Points[0]
				clear := pattern.Length(0.8) // of the smaller square and of words
				for _, across := range []bool{true, false} {
					from, to := pattern.Pos{X: at.X, Y: at.Y + clear}, pattern.Pos{X: at.X + 1, Y: at.Y + clear}
					if !across {
						from, to = pattern.Pos{X: at.X + clear, Y: at.Y}, pattern.Pos{X: at.X + clear, Y: at.Y + 1}
					}
					measure("inch", middle(img, to, across)-middle(img, from, across), 300, 1)
				}
				// The first stroke of each rule is its line; strokes of whole inches and
				// centimeters stand out to the side by 2.6 mm, others by 1.2.
				var lines [][]pattern.Pos
				for _, item := range rules.Items {
					if path, ok := item.(*drawing.Path); ok && math.Hypot(float64(path.Points[0].X-path.Points[1].X), float64(path.Points[0].Y-path.Points[1].Y)) > 1 {
						lines = append(lines, path.Points)
					}
				}
				if len(lines) != 2 {
					t.Fatalf("%s, page %s has %d rules", paper, n, len(lines))
				}
				out := pattern.Length(2 * pattern.Millimetre)
				h, v := lines[0], lines[1]
				measure("rule of 6 in", middle(img, pattern.Pos{X: h[1].X, Y: h[1].Y + out}, true)-middle(img, pattern.Pos{X: h[0].X, Y: h[0].Y + out}, true), 1800, 2)
				measure("rule of 15 cm", middle(img, pattern.Pos{X: v[0].X - out, Y: v[0].Y}, false)-middle(img, pattern.Pos{X: v[1].X - out, Y: v[1].Y}, false), 150/25.4*300, 2)
			}
		}
		if sheets < 2 || full < 2 {
			t.Errorf("%s: %d sheets and %d pages of the block were measured", paper, sheets, full)
		}
	}
}

func find(items []drawing.Item, id string) *drawing.Group {
	for _, item := range items {
		if g, ok := item.(*drawing.Group); ok {
			if g.ID == id {
				return g
			}
			if found := find(g.Items, id); found != nil {
				return found
			}
		}
	}
	return nil
}

func picture(t *testing.T, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// middle returns where a line is crossed near a point, in pixels at 300 dots to the
// inch: the middle of what is dark there, weighed, across or down; far away where
// nothing is.
func middle(img image.Image, near pattern.Pos, across bool) float64 {
	x, y := int(near.X*300), int(near.Y*300)
	from, sum, weight := x, 0.0, 0.0
	if !across {
		from = y
	}
	for i := from - 8; i <= from+8; i++ {
		px, py := i, y
		if !across {
			px, py = x, i
		}
		r, _, _, _ := img.At(px, py).RGBA()
		dark := 1 - float64(r)/0xffff
		sum, weight = sum+dark*(float64(i)+0.5), weight+dark
	}
	if weight < 0.5 {
		return math.Inf(1)
	}
	return sum / weight
}
