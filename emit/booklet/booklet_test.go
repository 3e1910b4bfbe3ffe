package booklet

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/internal/sample"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
)

// parts prepares the booklet of a pattern's first block and size.
func parts(t testing.TB, p *pattern.Pattern, language string) Parts {
	t.Helper()
	b := &p.Blocks[0]
	s := &b.Sizes[0]
	set, problems := sheet.Lay(p, b, s, p.Settings.Sheet)
	for _, problem := range problems {
		t.Log(problem.Code, problem.Message)
	}
	c, ok := words.In(language)
	if !ok {
		t.Fatal(language)
	}
	return Parts{Pattern: p, Block: b, Sized: s, Sheets: &set, Cuts: table.List(p, s), Words: c}
}

// own returns the pages that are not sheets.
func own(pages []pdf.Page) (out []pdf.Page) {
	for _, p := range pages {
		if strings.HasPrefix(p.Name, "page-") {
			out = append(out, p)
		}
	}
	return out
}

// A printed is a text and what it covers, y down, in inches.
type printed struct {
	text string
	box  drawing.Box
}

func texts(items []drawing.Item) (out []printed) {
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Group:
			out = append(out, texts(item.Items)...)
		case *drawing.Text:
			e := item.Extent().Ink
			x, y := float64(item.At.X), float64(item.At.Y)
			if !e.Empty() {
				out = append(out, printed{item.Text, drawing.Box{X0: e.X0 + x, Y0: e.Y0 + y, X1: e.X1 + x, Y1: e.Y1 + y}})
			}
		}
	}
	return out
}

func text(pages []pdf.Page) string {
	var b strings.Builder
	for _, p := range pages {
		for _, x := range texts(p.Items) {
			b.WriteString(x.text + " ")
		}
		b.WriteByte('\f')
	}
	return b.String()
}

// sheets are the papers that booklets are tried on.
func sheets(t *testing.T) []pattern.Sheet {
	var out []pattern.Sheet
	for _, name := range pattern.SheetNames() {
		s, ok := pattern.SheetNamed(name)
		if !ok {
			t.Fatal(name)
		}
		out = append(out, s)
	}
	return append(out, pattern.Sheet{Name: "narrow", Paper: pattern.Size{W: 6, H: 9}, Margin: 0.5})
}

// wild is the boat with texts as no one should write them.
func wild() *pattern.Pattern {
	p := sample.Boat()
	p.Title = strings.Repeat("Harbour \U0001F6A2 ", 25)
	p.Blocks[0].Title = strings.Repeat("x", 200)
	p.About = pattern.About{Edition: 99_999_999, Author: strings.Repeat("A. Keeper & ", 20), Year: "\U0001F4C5", Contact: strings.Repeat("long", 60),
		Rights: "(\\) <b> \x00\x1b", Corrections: strings.Repeat("water ", 300), Notes: []string{"", strings.Repeat("note ", 2000), "\u202Ehtaerb"}}
	p.Fabrics[0].Words = strings.Repeat("shimmering", 12)
	p.Fabrics[1].Words = "\U0001F9F5"
	p.Fabrics[2].Words = strings.Repeat("many short words ", 30)
	p.Settings.Extra = 0.25
	cutting.Cut(p)
	return p
}

func patterns() map[string]func() *pattern.Pattern {
	return map[string]func() *pattern.Pattern{"boat": sample.Boat, "star": sample.Star, "wild": wild, "plain": plainBlock}
}

// plainBlock has one section of one piece: no paper, no joins.
func plainBlock() *pattern.Pattern {
	p := sample.Boat()
	s := &p.Blocks[0].Sizes[0]
	s.Drawings = []pattern.Drawing{sample.Section("A", s.Outline, 0, []int{0, 1, 2, 3})}
	s.Copies, s.Joins = s.Copies[:1], nil
	cutting.Cut(p)
	return p
}

// Nothing is printed outside the margins, and no text over another.
func TestEveryTextIsInItsPlace(t *testing.T) {
	for name, make := range patterns() {
		for _, paper := range sheets(t) {
			for _, language := range words.Languages() {
				p := make()
				p.Settings.Sheet = paper
				pages := own(Make(parts(t, p, language)))
				if len(pages) < 6 {
					t.Errorf("%s on %s: only %d pages", name, paper.Name, len(pages))
				}
				for _, page := range pages {
					placed(t, name+" on "+paper.Name+" in "+language+", "+page.Name, page.Page, float64(paper.Margin))
				}
			}
		}
	}
}

func placed(t *testing.T, name string, page *drawing.Page, margin float64) {
	t.Helper()
	const noise = 0.02 // in: a letter may lean that far over its place
	all := texts(page.Items)
	w, h := float64(page.Size.W), float64(page.Size.H)
	beside := "" // the inch in the margin, which rules may stand in, but not its outer half
	for _, item := range page.Items {
		if inch, ok := item.(*drawing.Group); ok && inch.ID == "inch" {
			beside = inch.Items[len(inch.Items)-1].(*drawing.Text).Text
		}
	}
	full := margin
	for i, a := range all {
		margin := full
		if a.text == beside {
			margin = full / 2
		}
		if a.box.X0 < margin-noise || a.box.Y0 < margin-noise || a.box.X1 > w-margin+noise || a.box.Y1 > h-margin+noise {
			t.Errorf("%s: %q is outside the margin: %v", name, a.text, a.box)
		}
		for _, b := range all[:i] {
			if min(a.box.X1, b.box.X1)-max(a.box.X0, b.box.X0) > noise && min(a.box.Y1, b.box.Y1)-max(a.box.Y0, b.box.Y0) > noise {
				t.Errorf("%s: %q stands on %q", name, a.text, b.text)
			}
		}
	}
}

// What a maker must be told is told, on every kind of pattern.
func TestWhatMustBeSaid(t *testing.T) {
	p := sample.Boat()
	p.About.Contact, p.About.Corrections, p.About.Rights = "letters@harbour.example", "harbour.example/errata", "Make one."
	all := text(Make(parts(t, p, "en")))
	flat := strings.Join(strings.Fields(all), " ")
	for _, want := range []string{"Harbour Boat", "Finishes 8 in (20.3 cm)", "measures 8 1/2 in", "by Harbour Sheets", "Edition 1",
		"about 1.5 mm (1.2 to 1.8)", // published 1.2 to 2.0 mm; what can be unpicked of it is common practice
		"size 90/14",                // published by most teachers of the technique; memory names no single source
		"Close the blade", "Stand the iron on its heel", "before your fingers come near the needle",
		"The 1/4 in outside the heavy outline is the seam allowance. It must stay on.", "Do not cut on any printed line yet.",
		"letters@harbour.example", "harbour.example/errata", "Make one.", "1. A to B", "2. A + B to C: match 2 points", "deep sea", "another cloth for every block"} {
		if !strings.Contains(flat, want) {
			t.Errorf("the booklet does not say %q", want)
		}
	}
}

// The print list names pages of the file: on them are the sheets that it means,
// with the number of copies that it tells.
func TestPrintListIsTrue(t *testing.T) {
	p := sample.Star()
	parts := parts(t, p, "en")
	pages := Make(parts)
	first := slices.IndexFunc(pages, func(p pdf.Page) bool { return strings.HasPrefix(p.Name, "sheet-") })
	if first < 1 {
		t.Fatal("no sheets")
	}
	list := strings.Join(strings.Fields(text(pages[first-1:first])), " ")
	want := "Page Print Sheet Sections " + strconv.Itoa(first+1) + " 4 times 1 A"
	if !strings.Contains(list, want) {
		t.Errorf("the list does not say %q:\n%s", want, list)
	}
	if parts.Sheets.Sheets[0].Print != 4 {
		t.Errorf("the sheet is printed %d times", parts.Sheets.Sheets[0].Print)
	}
	for i, page := range pages {
		if foot := "page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages)); strings.HasPrefix(page.Name, "page-") && !strings.Contains(text(pages[i:i+1]), foot) {
			t.Errorf("page %d is not %q", i+1, foot)
		}
	}
}

func TestTurnsInWords(t *testing.T) {
	flat := strings.Join(strings.Fields(text(Make(parts(t, sample.Star(), "en")))), " ")
	want := "A: 1 as printed, seen from its cloth side, 1 turned a quarter turn anticlockwise, 1 turned a half turn, 1 turned a quarter turn clockwise."
	if !strings.Contains(flat, want) {
		t.Errorf("it does not say %q", want)
	}
}

// The grades as their own rule puts them.
func TestGrade(t *testing.T) {
	for _, c := range []struct {
		pieces, points int
		narrowest      pattern.Length
		want           int
	}{{10, 2, 0.5, 0}, {21, 2, 0.5, 1}, {10, 5, 0.5, 1}, {10, 2, 0.49, 1}, {60, 16, 0.375, 1}, {120, 40, 0.25, 2}, {121, 0, 1, 3}, {5, 0, 0.2, 3}} {
		if got := grade(&pattern.Figures{Pieces: c.pieces, Points: c.points, Narrowest: c.narrowest}); got != c.want {
			t.Errorf("%+v: grade %d", c, got)
		}
		one := &maker{Parts: Parts{Sized: &pattern.Sized{Figures: pattern.Figures{Pieces: c.pieces, Points: c.points, Narrowest: c.narrowest}, Joins: []pattern.Join{{Begins: 2}}}}}
		if got := one.grade(); got != max(c.want, 1) {
			t.Errorf("%+v and a partial seam: grade %d", c, got)
		}
	}
}

func TestAuthorsOwnWords(t *testing.T) {
	p := sample.Boat()
	p.About.Sayings = []pattern.Saying{{Name: "trim_when", Text: "Breathe."}, {Name: "paper_when", Text: "Leave {it} on.", Instead: true}}
	flat := strings.Join(strings.Fields(text(Make(parts(t, p, "en")))), " ")
	if !strings.Contains(flat, "Breathe. Trim only when") || !strings.Contains(flat, "Leave {it} on.") || strings.Contains(flat, "Leave the paper on") {
		t.Error("the author's words are not where they belong")
	}
	if got := Check(p); len(got) != 0 {
		t.Errorf("%v", got)
	}
	p.About.Sayings[0].Name = "trim_hwo"
	p.Settings.Language = "qq"
	if got := Check(p); len(got) != 2 || got[0].Code != NoLanguage || got[1].Code != NoMessage {
		t.Errorf("%v", got)
	}
}

// The summary says what the last page says, needs no sheets, and ends below its
// last line.
func TestSummary(t *testing.T) {
	made := parts(t, sample.Boat(), "de")
	made.Sheets = nil
	made.Block.Doc = made.Block.Title + ". Ein Boot."
	page := Summary(made)
	flat := strings.Join(strings.Fields(text([]pdf.Page{{Page: page}})), " ")
	for _, want := range []string{"Ein Boot.", made.Words.Say("tools"), made.Words.Say("cloth_area"), made.Words.Say("from_front")} {
		if !strings.Contains(flat, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if strings.Contains(flat, made.Block.Title+". Ein") {
		t.Error("the title stands twice")
	}
	lowest := pattern.Length(0)
	for _, item := range page.Items {
		if s, ok := item.(*drawing.Text); ok {
			lowest = max(lowest, s.At.Y)
		}
	}
	if left := page.Size.H - lowest; left < 0.3 || left > 0.8 {
		t.Errorf("%.2f in are left below it", float64(left))
	}
}

func TestSameBytes(t *testing.T) {
	make := func() string {
		data, err := pdf.Render(&pdf.Document{Pages: Make(parts(t, sample.Star(), "de"))})
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	if make() != make() {
		t.Error("two booklets differ")
	}
}

func BenchmarkMake(b *testing.B) {
	made := parts(b, sample.Boat(), "en")
	n := 0
	for b.Loop() {
		pages := Make(made)
		if _, err := pdf.Render(&pdf.Document{Pages: pages}); err != nil {
			b.Fatal(err)
		}
		n += len(pages)
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "pages/s")
}

// The pictures of a scrappy block have as many colors as the words beside them say.
func TestScrappyPicturesHaveTheirCloths(t *testing.T) {
	count := func(f *diagram.Figure) int {
		seen := map[drawing.Colour]bool{}
		for _, item := range f.True(pattern.Pos{}) {
			seen[item.(*drawing.Path).Fill] = true
		}
		return len(seen)
	}
	for _, p := range []*pattern.Pattern{sample.Boat(), sample.Star()} {
		s := &p.Blocks[0].Sizes[0]
		for _, every := range []string{"", "piece", "section", "unit", "block"} {
			for i := range p.Fabrics {
				p.Fabrics[i].Scrappy = every
			}
			v := table.Different(p, s)
			if most, least := count(diagram.Varied(p, s)), count(diagram.Fewest(p, s)); most != v.Most || least != v.Least {
				t.Errorf("%s, by %s: %d and %d colors, of %+v", p.Title, every, most, least, v)
			}
		}
	}
}
