package booklet_test

import (
	"fmt"
	"image"
	_ "image/png"
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

// The inch mark of every sheet measures 300 pixels at 300 dots to the inch, in
// both directions, in two rasterizers, on letter and on A4.
func TestInchIsAnInchOnEverySheet(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		p := compile(t, filepath.Join(examples, "harbour_boat.seam"))
		p.Settings.Sheet, _ = pattern.SheetNamed(paper)
		pages, path := made(t, p, &p.Blocks[0].Sizes[1])
		dir, measured := t.TempDir(), 0
		for i, page := range pages {
			if !strings.HasPrefix(page.Name, "sheet-") {
				continue
			}
			n := fmt.Sprint(i + 1)
			tool(t, "pdftoppm", "-r", "300", "-f", n, "-l", n, "-singlefile", "-png", path, filepath.Join(dir, "poppler-"+n))
			tool(t, "mutool", "draw", "-r", "300", "-o", filepath.Join(dir, "mupdf-"+n+".png"), path, n)
			square := find(page.Items, "square-1in")
			if square == nil {
				t.Fatalf("%s, page %s has no inch mark", paper, n)
			}
			for _, by := range []string{"poppler", "mupdf"} {
				img := picture(t, filepath.Join(dir, by+"-"+n+".png"))
				corner := square.Items[0].(*drawing.Path).Points[0]
				w, h := apart(img, corner, true), apart(img, corner, false)
				if w < 299 || w > 301 || h < 299 || h > 301 {
					t.Errorf("%s, page %s, %s: the inch is %.1f x %.1f pixels", paper, n, by, w, h)
				}
				measured++
			}
		}
		if measured < 2 {
			t.Errorf("%s: no sheet was measured", paper)
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

// apart returns how many pixels lie between the middles of the square's first
// side and of the side opposite, weighed by darkness. It looks along a line
// clear of the smaller square and of words: 0.9 in from the corner.
func apart(img image.Image, corner pattern.Pos, across bool) float64 {
	x, y := int(corner.X*300), int(corner.Y*300)
	middle := func(from int) float64 {
		sum, weight := 0.0, 0.0
		for i := from - 12; i <= from+12; i++ {
			px, py := i, y+240
			if !across {
				px, py = x+240, i
			}
			r, _, _, _ := img.At(px, py).RGBA()
			dark := 1 - float64(r)/0xffff
			sum, weight = sum+dark*(float64(i)+0.5), weight+dark
		}
		return sum / weight
	}
	if across {
		return middle(x+300) - middle(x)
	}
	return middle(y+300) - middle(y)
}
