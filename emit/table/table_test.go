package table

import (
	"bytes"
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

var update = flag.Bool("update", false, "rewrite the golden files")

type pos = pattern.Pos

// harbour is a small pattern: a section on paper that is made twice, one of two
// pieces, and three plain patches, two of them of opposite hands.
func harbour(words string) *pattern.Pattern {
	triangle := func(name string, o []pos) pattern.Drawing {
		return pattern.Drawing{Name: name, Make: 2, Plain: true, Reversed: -1, Outline: o,
			Edges: make([]pattern.Edge, len(o)), Pieces: []pattern.Piece{{Number: 1, Fabric: 1, Polygon: o}}}
	}
	outline := []pos{{}, {X: 4}, {X: 4, Y: 4}, {Y: 4}}
	p := &pattern.Pattern{
		Title:    "Harbour",
		Settings: pattern.Settings{Allowance: .25, Ease: .5, Buying: pattern.Buying{Usable: 40, Straighten: 1}},
		Fabrics:  []pattern.Fabric{{Name: "sky", Words: words, Value: "light"}, {Name: "sea", Words: "sea", Value: "dark", Scrappy: "piece"}},
		Blocks: []pattern.Block{{Name: "pier", Title: "Pier", Sizes: []pattern.Sized{{
			Finished: pattern.Size{W: 8, H: 8},
			Drawings: []pattern.Drawing{
				{Name: "A", Make: 2, Reversed: -1, Outline: outline, Edges: make([]pattern.Edge, 4), Pieces: []pattern.Piece{
					{Number: 1, Fabric: 0, Polygon: []pos{{}, {X: 4}, {X: 4, Y: 1}, {Y: 1}}},
					{Number: 2, Fabric: 1, Polygon: []pos{{Y: 1}, {X: 4, Y: 1}, {X: 4, Y: 2}, {Y: 2}}, Seam: [2]pos{{Y: 1}, {X: 4, Y: 1}}},
					{Number: 3, Fabric: 0, Polygon: []pos{{Y: 2}, {X: 4, Y: 2}, {X: 4, Y: 3}, {Y: 3}}, Seam: [2]pos{{Y: 2}, {X: 4, Y: 2}}},
					{Number: 4, Fabric: 0, Polygon: []pos{{Y: 3}, {X: 4, Y: 3}, {X: 4, Y: 4}, {Y: 4}}, Seam: [2]pos{{Y: 3}, {X: 4, Y: 3}}},
				}},
				triangle("B", []pos{{}, {X: 4}, {Y: 3}}),
				triangle("C", []pos{{}, {X: 3}, {Y: 4}}),
				{Name: "D", Make: 3, Plain: true, Reversed: -1, Outline: []pos{{}, {X: 2}, {Y: 2}}, Edges: make([]pattern.Edge, 3),
					Pieces: []pattern.Piece{{Number: 1, Fabric: 0, Polygon: []pos{{}, {X: 2}, {Y: 2}}}}},
			},
		}}}},
	}
	cutting.Cut(p)
	return p
}

func english() *words.Catalogue { return words.InTables(words.Default) }

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

func TestGoldens(t *testing.T) {
	p := harbour("sky")
	b, s := &p.Blocks[0], &p.Blocks[0].Sizes[0]
	cuts := List(p, s)
	golden(t, "cutting.md", cuts.Markdown(p, b, s, english()))
	golden(t, "cutting.csv", cuts.CSV(p, s))
	golden(t, "sections.csv", SectionsCSV(p, s))
	p.Settings.Metric = true
	golden(t, "cutting-metric.md", cuts.Markdown(p, b, s, english()))
	golden(t, "cutting-german.md", cuts.Markdown(p, b, s, words.InTables("de")))
}

// Every space is counted once in the merged rows, as often as it is made.
func TestRowsCountEverySpace(t *testing.T) {
	p := harbour("sky")
	s := &p.Blocks[0].Sizes[0]
	want, got := map[string]int{}, map[string]int{}
	for d := range s.Drawings {
		for i := range s.Drawings[d].Pieces {
			want[s.Drawings[d].Label(i)] = s.Drawings[d].Make
		}
	}
	patches := 0
	for _, r := range List(p, s).Rows {
		patches += r.Patches + r.Reversed
		for _, space := range r.Spaces {
			got[s.Drawings[space.Drawing].Label(space.Piece)] += space.Times
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("spaces (-want +got):\n%s", diff)
	}
	if patches != 2*4+2+2+3 {
		t.Errorf("%d patches", patches)
	}
}

// Triangles come in twos: 3 of them take 2 squares; 2 and 2 reversed take one
// rectangle of either hand.
func TestClothForTriangles(t *testing.T) {
	p := harbour("sky")
	for _, r := range List(p, &p.Blocks[0].Sizes[0]).Rows {
		straight, reversed := r.Cloth()
		switch {
		case r.Shape == pattern.HalfSquare && (straight != 2 || reversed != 0),
			r.Shape == pattern.HalfRectangle && (straight != 1 || reversed != 1):
			t.Errorf("%+v: %d and %d reversed", r, straight, reversed)
		}
	}
}

var hostile = []string{
	"=HYPERLINK(\"http://x\")", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "a,b", "say \"so\"", "line\nbreak\r\n=2", "|x|",
	"<script>", "`code`", "[l](x)", "\u202e4 x 2", "\x00\x1b[31m", "# head", "&lt;", "\u200f=1",
}

// A spreadsheet reads back one cell for each field, and none is a formula.
func TestHostileCSV(t *testing.T) {
	for _, words := range hostile {
		p := harbour(words)
		s := &p.Blocks[0].Sizes[0]
		for _, text := range [][]byte{List(p, s).CSV(p, s), SectionsCSV(p, s)} {
			records, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
			if err != nil {
				t.Fatalf("%q: %v", words, err)
			}
			for _, record := range records {
				if len(record) != 9 {
					t.Errorf("%q: %d cells in %q", words, len(record), record)
				}
				for _, cell := range record {
					if cell := strings.TrimSpace(cell); cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
						t.Errorf("%q: a formula, %q", words, cell)
					}
					if strings.ContainsAny(cell, "\n\r\t\x00\x1b\u202e") {
						t.Errorf("%q: a control character in %q", words, cell)
					}
				}
			}
		}
	}
}

// Every line of a Markdown table has the cells of its head, and no mark-up of
// the author's comes alive.
func TestHostileMarkdown(t *testing.T) {
	for _, words := range hostile {
		p := harbour(words)
		p.Blocks[0].Title = words
		s := &p.Blocks[0].Sizes[0]
		text := string(List(p, s).Markdown(p, &p.Blocks[0], s, english()))
		for _, line := range strings.Split(text, "\n") {
			if bars := strings.Count(strings.ReplaceAll(line, `\|`, ""), "|"); bars != 0 && bars != 6 && bars != 7 {
				t.Errorf("%q: %d bars in %q", words, bars, line)
			}
			if strings.ContainsAny(line, "<>\r\t\x00\x1b\u202e") {
				t.Errorf("%q: comes alive in %q", words, line)
			}
		}
	}
}

// Cloth is bought for the blocks of the one quilt that is made of this block, at
// its size; triangles of two blocks share a square. Else for one block.
func TestClothForTheQuilt(t *testing.T) {
	for _, c := range []struct {
		quilts []pattern.Quilt
		want   string
	}{
		{nil, "For one block."},
		{[]pattern.Quilt{{Block: "pier", Blocks: 30, Finished: 8}}, "For the 30 blocks of the quilt"},
		{[]pattern.Quilt{{Block: "pier", Blocks: 30, Finished: 6}}, "For one block."},
		{[]pattern.Quilt{{Block: "pier", Blocks: 30}, {Block: "pier", Blocks: 2}}, "For one block."},
		{[]pattern.Quilt{{Block: "other", Blocks: 30}}, "For one block."},
	} {
		p := harbour("sky")
		p.Quilts = c.quilts
		s := &p.Blocks[0].Sizes[0]
		if text := string(List(p, s).Markdown(p, &p.Blocks[0], s, english())); !strings.Contains(text, c.want) {
			t.Errorf("%+v: no %q in\n%s", c.quilts, c.want, text)
		}
	}
	p := harbour("sky")
	cuts := List(p, &p.Blocks[0].Sizes[0])
	for i := 0; i < len(cuts.Rows); {
		needs, next := cuts.needs(i, 4)
		for _, r := range cuts.Rows[i:next] {
			if r.Shape == pattern.HalfSquare && needs[len(needs)-1].Count != (4*r.Patches+1)/2 {
				t.Errorf("%d squares for 4 times %d triangles", needs[len(needs)-1].Count, r.Patches)
			}
		}
		i = next
	}
}
