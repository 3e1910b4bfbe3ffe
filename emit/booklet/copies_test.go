package booklet_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

// bound writes a list of pages of the first size of an example in every language.
func bound(t *testing.T, name, language string, on pattern.Sheet, list func(booklet.Parts) []pdf.Page) (booklet.Parts, []pdf.Page, string) {
	t.Helper()
	p := compile(t, filepath.Join(examples, name+".seam"))
	s := &p.Blocks[0].Sizes[0]
	set, problems := sheet.Lay(p, &p.Blocks[0], s, on)
	if problem.Failed(problems) {
		t.Fatal(problems)
	}
	c, _ := words.In(language)
	parts := booklet.Parts{Pattern: p, Block: &p.Blocks[0], Sized: s, Sheets: &set, Cuts: table.List(p, s), Words: c}
	pages := list(parts)
	data, err := pdf.Render(&pdf.Document{Title: p.Title, Pages: pages})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "pages.pdf")
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return parts, pages, path
}

// A pad, rasterized: within the page there is nothing where the glue goes and
// where the press holds the paper, and no color; every sheet is there as often as it must be.
func TestPadKeepsItsEdgesFree(t *testing.T) {
	pad := &pattern.Pad{Copies: 3, Spare: 2, Glue: pattern.PadGlue, Gripper: pattern.PadGripper, Bleed: pattern.PadBleed}
	letter, _ := pattern.SheetNamed("letter")
	for _, name := range []string{"harbour_boat", "lamp_on_the_point", "mooring_buoy"} {
		parts, pages, path := bound(t, name, "en", booklet.PadSheet(letter, pad), func(p booklet.Parts) []pdf.Page {
			p.Pattern.Settings.Sheet = letter
			return booklet.Pad(p, pad)
		})
		seen := map[any]int{}
		for _, page := range pages {
			seen[page.Page]++
		}
		total := 0
		for i := range parts.Sheets.Sheets {
			s := &parts.Sheets.Sheets[i]
			n := seen[&s.Page]
			if n < 3*s.Print || n > 3*s.Print+2 {
				t.Errorf("%s: sheet %d is in the pad %d times; a block takes %d", name, i+1, n, s.Print)
			}
			total += n - 3*s.Print
		}
		if total != pad.Spare {
			t.Errorf("%s: %d sheets to spare", name, total)
		}
		const dpi = 72
		dir := t.TempDir()
		tool(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-png", path, filepath.Join(dir, "p"))
		pictures, _ := filepath.Glob(filepath.Join(dir, "p*.png"))
		if len(pictures) != len(pages) {
			t.Fatalf("%s: %d pictures of %d pages", name, len(pictures), len(pages))
		}
		for i, picture_ := range pictures {
			img := picture(t, picture_)
			slug := int(pages[i].Slug * dpi)
			edge := int(pattern.PadGlue*dpi) - 1
			w, h := int(letter.Paper.W*dpi), int(letter.Paper.H*dpi)
			for y := range h {
				for x := range w {
					if r, g, b, _ := img.At(slug+x, slug+y).RGBA(); r != g || g != b {
						t.Fatalf("%s, page %d has a color at %d, %d", name, i+1, x, y)
					}
					if x >= edge && x < w-edge && y >= edge && y < h-edge {
						continue
					}
					if r, _, _, _ := img.At(slug+x, slug+y).RGBA(); r < 0xc000 {
						t.Fatalf("%s, page %d: print at %d, %d of %d x %d, within 3/8 in of the edge", name, i+1, x, y, w, h)
					}
				}
			}
		}
	}
}

// What is for testing, checking and teaching says what it must, is a sound file
// and fits its pages, in both languages; the tester's form keeps back what is
// expected.
func TestCopiesForOthers(t *testing.T) {
	letter, _ := pattern.SheetNamed("letter")
	for _, c := range []struct {
		list     func(booklet.Parts) []pdf.Page
		en, de   []string
		withheld string
	}{
		{booklet.Tester, []string{"TEST - not for sale", "What the test sewer saw", "Left over", "Section C: its longest edge"}, []string{"PROBE", "Gekauft"}, "Expected"},
		{booklet.Key, []string{"Expected", "match the ends", "a scrap of at least 5 in x 7 in", "6 1/2 in (16.5 cm)", "match 2 points"}, []string{"Erwartet"}, "TEST"},
		{booklet.Checker, []string{"6 in + 2 x 0.25 in = 6.5 in", "A 2 x 1 + B 3 x 1 + C 5 x 1 = 10", "1: 0 + 2: 2 = 2", "B3: 0.375 in", "= 36.000; 6 in x 6 in = 36.000", "C2 x 1 + C3 x 1 = 2"}, []string{"jede Zahl"}, "not for sale"},
		{booklet.Class, []string{"The patches for one block, cut before the class", "permission of the author", "A foundation to practice on", "8 x (1 + 1) x 1 = 16", "Labels for the bags", "Notes:", "Close the blade"}, []string{"Stoffpäckchen"}, "not for sale"},
	} {
		for language, want := range map[string][]string{"en": c.en, "de": c.de} {
			_, pages, path := bound(t, "harbour_boat", language, letter, c.list)
			if out := tool(t, "qpdf", "--check", path); strings.Contains(out, "WARNING") {
				t.Error(out)
			}
			// Without blanks: poppler breaks words that stand at a slant.
			found := strings.Join(strings.Fields(tool(t, "pdftotext", path, "-")), "")
			for _, w := range want {
				if !strings.Contains(found, strings.ReplaceAll(w, " ", "")) {
					t.Errorf("%q is not in the text of %d pages:\n%s", w, len(pages), found)
				}
			}
			if language == "en" && strings.Contains(found, strings.ReplaceAll(c.withheld, " ", "")) {
				t.Errorf("%q is in the text", c.withheld)
			}
			for i, page := range pages {
				if page.Size != letter.Paper {
					t.Errorf("page %d measures %v", i+1, page.Size)
				}
			}
		}
	}
}

// A strict validator, which is not ours, takes every kind of file that there is
// (pdfcpu, in its strict mode).
func TestStrictly(t *testing.T) {
	letter, _ := pattern.SheetNamed("letter")
	pad := &pattern.Pad{Copies: 3, Spare: 2, Glue: pattern.PadGlue, Gripper: pattern.PadGripper, Bleed: pattern.PadBleed}
	for kind, list := range map[string]func(booklet.Parts) []pdf.Page{
		"booklet": booklet.Make, "tester": booklet.Tester, "key": booklet.Key, "checker": booklet.Checker, "class": booklet.Class,
		"pad": func(p booklet.Parts) []pdf.Page { return booklet.Pad(p, pad) },
	} {
		for _, name := range []string{"harbour_boat", "guiding_star"} {
			_, _, path := bound(t, name, "de", letter, list)
			if out := tool(t, "pdfcpu", "validate", "-c", "disable", "-m", "strict", path); !strings.Contains(out, "validation ok") {
				t.Errorf("%s of %s: %s", kind, name, out)
			}
		}
	}
}

// A booklet of several sizes: every sheet of every size once; the pages that its
// lists name are those sheets; what differs is told for each size.
func TestTogether(t *testing.T) {
	p := compile(t, filepath.Join(examples, "harbour_boat.seam"))
	c, _ := words.In("en")
	var all []booklet.Parts
	sheets := 0
	for i := range p.Blocks[0].Sizes {
		s := &p.Blocks[0].Sizes[i]
		set, problems := sheet.Lay(p, &p.Blocks[0], s, p.Settings.Sheet)
		if problem.Failed(problems) {
			t.Fatal(problems)
		}
		sheets += len(set.Sheets)
		all = append(all, booklet.Parts{Pattern: p, Block: &p.Blocks[0], Sized: s, Sheets: &set, Cuts: table.List(p, s), Words: c})
	}
	pages := booklet.Together(all)
	data, err := pdf.Render(&pdf.Document{Title: p.Title, Pages: pages})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "together.pdf")
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	found, chapters := 0, 0
	for i, page := range pages {
		if strings.HasPrefix(page.Name, "sheet-") {
			found++
		} else if want := fmt.Sprintf("page-%d", i+1); page.Name != want {
			t.Errorf("page %d calls itself %s", i+1, page.Name)
		}
		if strings.HasPrefix(page.Bookmark, "Finished size") {
			chapters++
		}
	}
	if found != sheets || chapters != len(all) || len(all) < 3 {
		t.Errorf("%d sheets of %d, %d sizes of %d", found, sheets, chapters, len(all))
	}
	if out := tool(t, "qpdf", "--check", path); strings.Contains(out, "WARNING") {
		t.Error(out)
	}
	text := strings.Split(tool(t, "pdftotext", "-layout", path, "-"), "\f")
	for i := range pages { // the first page of the list of each size is followed by its sheets
		if strings.Contains(text[i], "What to print") && !strings.Contains(strings.Join(strings.Fields(text[i]), " "), fmt.Sprint(i+2)+" ") {
			t.Errorf("the list on page %d does not name the page after it:\n%s", i+1, text[i])
		}
	}
}
