package booklet_test

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

// withQuilts prepares the booklet of an example at one of its sizes.
func withQuilts(t *testing.T, p *pattern.Pattern, size int, language string) booklet.Parts {
	t.Helper()
	p.Settings.Language = language
	b := &p.Blocks[0]
	set, problems := sheet.Lay(p, b, &b.Sizes[size], p.Settings.Sheet)
	if problem.Failed(problems) {
		t.Fatal(problems)
	}
	c, _ := words.In(language)
	parts := booklet.Parts{Pattern: p, Block: b, Sized: &b.Sizes[size], Sheets: &set, Cuts: table.List(p, &b.Sizes[size]), Words: c}
	for i := range p.Quilts {
		if q := &p.Quilts[i]; q.Layout != nil {
			parts.Quilts = append(parts.Quilts, booklet.Quilt{Of: q, Cloth: func() [][]table.Cloth { return table.QuiltCloth(p, q.Layout) }})
		}
	}
	return parts
}

// said is all that stands on pages, in one line.
func said(pages []pdf.Page) string {
	var all []string
	var take func(items []drawing.Item)
	take = func(items []drawing.Item) {
		for _, item := range items {
			switch item := item.(type) {
			case *drawing.Text:
				all = append(all, item.Text)
			case *drawing.Group:
				take(item.Items)
			}
		}
	}
	for _, page := range pages {
		take(page.Items)
	}
	return strings.Join(all, " ")
}

// The booklet tells of the quilt that its block is for, and only at that size. The
// figures are worked out by hand: thirty blocks of 8 in, five across, sashes of 1 in
// between them and a border of 3 in round them make 5 x 8 + 4 + 6 = 50 in and
// 6 x 8 + 5 + 6 = 59 in; a binding as long as its edge and 12 in is 230 in.
func TestBookletTellsOfItsQuilt(t *testing.T) {
	p := compile(t, filepath.Join(examples, "harbour_boat.seam"))
	text := said(booklet.Make(withQuilts(t, p, 1, "en")))
	for _, want := range []string{"The quilt: Flotilla", "It finishes 50 in x 59 in (127 cm x 150 cm), measured inside the binding.",
		"(30) Harbour Boat 8 in (20.3 cm) 8 1/2 in (21.6 cm)", "(1) of 230 in in all", "Times for Flotilla", "once 1 to 3 C; B; A 30 times",
		"Sew sashes and cornerstones by turns", "Border: measure through the middle", "Flotilla: 50 in x 59 in (127 cm x 150 cm), 30 blocks."} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing", want)
		}
	}
	small := said(booklet.Make(withQuilts(t, p, 0, "en")))
	if strings.Contains(small, "Flotilla: 50") || !strings.Contains(small, "The quilt: Race") || !strings.Contains(small, "(3) Harbour Boat, reversed 6 in") {
		t.Error("the booklet of 6 in tells of a quilt of 8 in, or not of its own")
	}
}

// A quilt whose place in the text is not of the booklet's block is not told of.
func TestOtherQuiltsStayOut(t *testing.T) {
	p := compile(t, filepath.Join(examples, "keepers_hearth.seam"))
	parts := withQuilts(t, p, 0, "en")
	for i := range parts.Quilts {
		for k := range parts.Quilts[i].Of.Layout.Placed {
			parts.Quilts[i].Of.Layout.Placed[k].Size = len(p.Blocks[0].Sizes) - 1
		}
	}
	if parts.Sized == &p.Blocks[0].Sizes[len(p.Blocks[0].Sizes)-1] {
		t.Skip("the example has one size")
	}
	if text := said(booklet.Make(parts)); strings.Contains(text, "The quilt:") {
		t.Error("a quilt of another size is told of")
	}
}

// english are words that no German text has: articles, prepositions, what is often
// said of sewing. Some that both languages have ("in", "an", "die") are not here.
var english = regexp.MustCompile(`(?i)\b(the|of|and|with|for|to|from|is|are|at least|sewn?|cut|cloths?|strips?|pages?|sheets?|times|once|press|make|print|trim|block's|left over|sash\w*|cornerstones?|borders?|rows?|toward|open|joins?|seams?|binding|backing)\b`)

// Nothing of all that is printed for a German pattern is in English: every list of
// pages, the tables and the pictures, for every example. The author's own words are
// replaced by one that is in no language.
func TestGermanIsGerman(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(examples, "*.seam"))
	if err != nil || len(names) < 8 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		p := compile(t, name)
		nameless(p)
		parts := withQuilts(t, p, 0, "de")
		all := map[string]string{
			"booklet": said(booklet.Make(parts)), "together": said(booklet.Together([]booklet.Parts{parts})),
			"tester": said(booklet.Tester(parts)), "key": said(booklet.Key(parts)), "checker": said(booklet.Checker(parts)), "class": said(booklet.Class(parts)),
			"table": string(parts.Cuts.Markdown(p, parts.Block, parts.Sized, words.InTables("de"))),
		}
		for i := range p.Pads {
			all["pad"] += said(booklet.Pad(parts, &p.Pads[i]))
		}
		for i := range parts.Quilts {
			q := parts.Quilts[i]
			all["quilt"] += string(table.QuiltMarkdown(p, q.Of, q.Cloth(), []table.Print{{Folder: "b/6in", Sheet: 1, Times: 3}, {Folder: "b/6in", Sheet: 2, Times: 3}}, words.InTables("de")))
		}
		for what, text := range all {
			for _, at := range english.FindAllStringIndex(text, 3) {
				t.Errorf("%s, %s: %q", filepath.Base(name), what, text[max(0, at[0]-40):min(len(text), at[1]+40)])
			}
		}
	}
}

// nameless replaces what the author wrote.
func nameless(p *pattern.Pattern) {
	const name = "Xyyx"
	p.Title = name
	p.About = pattern.About{Edition: 1}
	for i := range p.Fabrics {
		p.Fabrics[i].Words = name
	}
	for i := range p.Colorway {
		p.Colorway[i].Words = name
		for k := range p.Colorway[i].Dress {
			p.Colorway[i].Dress[k].Words = name
		}
	}
	for i := range p.Blocks {
		p.Blocks[i].Title, p.Blocks[i].Doc = name, name
	}
	for i := range p.Quilts {
		p.Quilts[i].Title = name
	}
}
