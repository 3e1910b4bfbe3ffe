package flow

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

func pages(f *Flow) []Page {
	return f.Pages(func(n int) (string, string) { return "Harbour Boat", "page" })
}

func texts(p Page) (out []*drawing.Text) {
	for _, item := range p.Items {
		if t, ok := item.(*drawing.Text); ok {
			out = append(out, t)
		}
	}
	return out
}

// Whatever the texts, nothing leaves the margins.
func TestNothingLeavesTheMargins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := pattern.Size{W: pattern.Length(rapid.Float64Range(3, 12).Draw(t, "w")), H: pattern.Length(rapid.Float64Range(3, 17).Draw(t, "h"))}
		f := New(paper, 0.5)
		word := rapid.StringMatching(`[a-zé ]{0,60}`)
		for range rapid.IntRange(1, 40).Draw(t, "parts") {
			switch rapid.IntRange(0, 5).Draw(t, "kind") {
			case 0:
				f.Chapter(word.Draw(t, "chapter"))
			case 1:
				f.Heading(word.Draw(t, "heading"))
			case 2:
				f.Text(strings.Repeat(word.Draw(t, "text")+" ", 20))
			case 3:
				f.Item("12.", word.Draw(t, "item"))
			case 4:
				f.Table(&Table{Columns: []Column{{"A", 1, false}, {"B", 2, true}}, Rows: [][]string{{word.Draw(t, "a"), strings.Repeat(word.Draw(t, "b")+" ", 9)}, {"c"}}})
			case 5:
				f.Picture(pattern.Length(rapid.Float64Range(0, 20).Draw(t, "picture")), func(at pattern.Pos, size pattern.Size) []drawing.Item {
					return []drawing.Item{&drawing.Text{Text: "x", At: pattern.Pos{X: at.X, Y: at.Y + size.H}, Size: Small}}
				})
			}
		}
		for _, p := range pages(f) {
			for _, x := range texts(p) {
				e := x.Extent()
				left, right := float64(x.At.X)+e.Ink.X0, float64(x.At.X)+e.Ink.X1
				if !e.Ink.Empty() && (left < 0.5-0.02 || right > float64(paper.W)-0.5+0.02 || x.At.Y > paper.H-0.5 || x.At.Y < 0.5) {
					t.Fatalf("%q stands at %v on %v", x.Text, x.At, paper)
				}
			}
		}
	})
}

func TestTableGoesOnWithItsHead(t *testing.T) {
	f := New(pattern.Size{W: 8.5, H: 11}, 0.5)
	table := &Table{Columns: []Column{{Head: "Space", Share: 1}, {Head: "Fabric", Share: 3}}}
	for range 200 {
		table.Rows = append(table.Rows, []string{"A1", "shallows"})
	}
	f.Table(table)
	all := pages(f)
	if len(all) < 3 {
		t.Fatalf("%d pages", len(all))
	}
	rows := 0
	for i, p := range all {
		head := texts(p)[0]
		if head.Text != "Space" || !head.Bold {
			t.Errorf("page %d begins with %q", i+1, head.Text)
		}
		for _, x := range texts(p) {
			if x.Text == "shallows" {
				rows++
			}
		}
	}
	if rows != 200 {
		t.Errorf("%d rows of 200", rows)
	}
}

func TestHeadingStaysWithItsText(t *testing.T) {
	for lines := range 60 {
		f := New(pattern.Size{W: 8.5, H: 11}, 0.5)
		for range lines {
			f.Text("one line")
		}
		f.Heading("Heading")
		f.Text("after it")
		for i, p := range pages(f) {
			all := texts(p)
			if last := all[len(all)-3]; last.Text == "Heading" { // the foot has two
				t.Errorf("after %d lines, page %d ends with the heading", lines, i+1)
			}
		}
	}
}

func BenchmarkFlow(b *testing.B) {
	n := 0
	for b.Loop() {
		f := New(pattern.Size{W: 8.5, H: 11}, 0.5)
		for range 500 {
			f.Heading("Joining")
			f.Text(strings.Repeat("Lay the ruler's 1/4 in line on the heavy outline and trim on the dashed line. ", 12))
			f.Table(&Table{Columns: []Column{{"Space", 1, false}, {"Fabric", 3, false}}, Rows: [][]string{{"A1", "sky"}, {"A2", "jib"}, {"A3", "sail"}}})
		}
		n += len(pages(f))
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "pages/s")
}

// Rows that go on with the one above stay on its page, without a rule between them.
func TestRowsThatGoOnStayTogether(t *testing.T) {
	f := New(pattern.Size{W: 6, H: 4}, 0.5)
	table := &Table{Columns: []Column{{Head: "Cloth", Share: 1}, {Head: "Strips", Share: 3}}}
	for i := range 9 {
		table.Rows = append(table.Rows, []string{strconv.Itoa(i), "first"}, []string{"", "second of " + strconv.Itoa(i)}, []string{"", "third of " + strconv.Itoa(i)})
	}
	f.Table(table)
	rules := 0
	for _, page := range f.pages {
		on := map[string]bool{}
		for _, item := range page.Items {
			switch item := item.(type) {
			case *drawing.Text:
				on[item.Text] = true
			case *drawing.Path:
				rules++
			}
		}
		for i := range 9 {
			n := strconv.Itoa(i)
			if on[n] != on["second of "+n] || on[n] != on["third of "+n] {
				t.Errorf("row %d is divided", i)
			}
		}
	}
	if want := 9 + len(f.pages); rules != want || len(f.pages) < 2 {
		t.Errorf("%d rules on %d pages, want one below each cloth and each head", rules, len(f.pages))
	}
}

// An address that is wider than the column goes on in the next line, whole.
func TestLongWordIsDivided(t *testing.T) {
	address := "https://example.org/" + strings.Repeat("harbour", 40)
	f := New(pattern.Size{W: 6, H: 9}, 0.5)
	f.Text("Corrections: " + address)
	whole := ""
	for _, text := range texts(f.pages[0]) {
		whole += text.Text
		if w := drawing.Measure(text.Text, text.Size, text.Bold).Width; w > f.Width() {
			t.Errorf("a line is %v wide", w)
		}
	}
	if !strings.Contains(whole, address) {
		t.Errorf("%q is not whole", whole)
	}
}

// A table that fills no more than a quarter of a page is on one page, under the heading
// and the words that lead to it; of a larger one no row is alone on a page.
func TestTableIsWholeOrHasTwoRowsOnAPage(t *testing.T) {
	for _, n := range []int{1, 2, 3, 8, 12, 13, 14, 40, 120} {
		for lines := range 60 {
			f := New(pattern.Size{W: 8.5, H: 11}, 0.5)
			for range lines {
				f.Text("one line")
			}
			f.Heading("Heading")
			f.Lead("Leads to it.")
			table := &Table{Title: "Title", Columns: []Column{{Head: "Space", Share: 1}}}
			for range n {
				table.Rows = append(table.Rows, []string{"A1"})
			}
			f.Table(table)
			var on []int
			for i, p := range pages(f) {
				rows, heads, above := 0, 0, 0
				for _, x := range texts(p) {
					switch x.Text {
					case "A1":
						rows++
					case "Space":
						heads++
					case "Heading", "Leads to it.", "Title":
						above++
					}
				}
				if rows == 0 && above > 0 || above%3 != 0 || min(rows, 1) != heads {
					t.Errorf("%d rows after %d lines, page %d: %d of them with %d heads and %d lines above", n, lines, i+1, rows, heads, above)
				}
				if rows > 0 {
					on = append(on, rows)
				}
			}
			whole := 10.0-float64(footRoom) > 4*(float64(n)*0.215+0.6)
			if whole && len(on) > 1 || n > 1 && slices.Min(on) < 2 {
				t.Errorf("%d rows after %d lines stand on pages as %d", n, lines, on)
			}
		}
	}
}
