package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/internal/sample"
	"seamwright/emit/table"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func madeOf(p *pattern.Pattern) [][]Made {
	var made [][]Made
	for b := range p.Blocks {
		var sizes []Made
		for s := range p.Blocks[b].Sizes {
			sized := &p.Blocks[b].Sizes[s]
			m := Made{Cuts: table.List(p, sized)}
			for d := range sized.Drawings {
				m.Sheets = append(m.Sheets, Sheet{Number: d + 1, File: "sheet.svg", Copies: sized.Drawings[d].Make,
					Sections: []Printed{{Drawing: d, Turn: 90, Shift: pattern.Pos{X: 1, Y: 2}}}})
			}
			if len(m.Sheets) > 1 { // as if it were one of two parts
				m.Sheets[1].Sections[0].Part = &PartOf{Number: 1, Of: 2, Row: 1, Column: 1, Lower: pattern.Pos{X: 1, Y: 2}, Higher: pattern.Pos{X: 3, Y: 4}}
			}
			m.Pads = []Pad{{Blocks: 10, Each: 4, Spare: 2, Sheets: 42, Collated: true}}
			sizes = append(sizes, m)
		}
		made = append(made, sizes)
	}
	return made
}

func clothOf(p *pattern.Pattern) (all [][][]table.Cloth) {
	for i := range p.Quilts {
		all = append(all, table.QuiltCloth(p, p.Quilts[i].Layout))
	}
	return all
}

// busy is the boat with everything in it that the document has a place for.
func busy() *pattern.Pattern {
	p := sample.Boat()
	p.About.Notes = []string{"One.", "Two."}
	p.About.Pictures = []pattern.Picture{{File: "sewn.jpg", Words: "Sewn."}}
	p.Accepted = []pattern.Accepted{{Code: "R101", Message: "narrow", Reason: "it is a mast", Source: pattern.Source{File: "boat.seam", Line: 12}}}
	p.Limits = []pattern.Limit{{Code: "R104", Name: "near_miss", Unit: pattern.InInches, Value: 0.375, Set: true}, {Code: "R106", Name: "section_pieces", Value: 20}}
	p.Colorway = []pattern.Colorway{{Words: "as written", Dress: []pattern.Cloth{{Words: "sky", Value: "light", Colour: 0x00ff01}}}}
	for range p.Fabrics[1:] {
		p.Colorway[0].Dress = append(p.Colorway[0].Dress, pattern.Cloth{Words: "sea", Value: "dark"})
	}
	p.Quilts = []pattern.Quilt{{Title: "Flotilla", Layout: &pattern.Layout{
		Size: pattern.Size{W: 8, H: 8}, Placed: []pattern.Placed{{Row: 1, In: 1, OtherWay: true}},
		Areas: []pattern.Area{{Polygon: []pattern.Pos{{}, {X: 1}, {Y: 1}}}},
		Cuts:  []pattern.Cut{{For: "sashes", Shape: pattern.Rectangle, Size: pattern.Size{W: 8.5, H: 1.5}, Count: 4}},
		Rows:  []pattern.Row{{Parts: []pattern.Part{0, pattern.AreaPart(0)}}, {Sashing: true}},
		Joins: []pattern.QuiltJoin{{Step: pattern.InRow, Of: 1, A: pattern.Pos{X: 8}, B: pattern.Pos{X: 8, Y: 8}, Left: []pattern.Part{0}, Right: []pattern.Part{pattern.AreaPart(0)},
			Ends: []pattern.QuiltEnd{{Along: 2, Left: true, Index: 1}, {Along: 2, Kind: pattern.OfQuilt}}, Points: []pattern.Length{2}, Press: pattern.PressOpen, Why: pattern.SameWay, Meet: 4}},
		Two:  []pattern.TwoWays{{Joins: []int{0}}},
		Runs: []pattern.Run{{For: "binding", Height: 2.25, Lengths: []pattern.Length{44}, Loose: true}},
	}}}
	p.Settings.Buying.Usable = 40
	p.Blocks[0].Source = pattern.Source{File: filepath.Join("sea", "boat.seam"), Line: 3}
	d := &p.Blocks[0].Sizes[0].Drawings[0]
	d.Source = pattern.Source{File: p.Blocks[0].Source.File, Line: 4}
	d.Pieces[0].Source = pattern.Source{File: filepath.Join("sea", "families", "wave.seam"), Line: 5}
	p.Blocks[0].Sizes[0].Copies[0].Source = pattern.Source{File: "std/log_cabin", Line: 6}
	p.Blocks[0].Sizes[0].Joins[0].Source = pattern.Source{File: "land.seam", Line: 7}
	d.Edges[1].Letter = "a"
	d.Edges[1].Partners = []pattern.Partner{{Drawing: 1, Edge: 3, Letter: "b"}}
	d.Edges[1].Marks = []pattern.Mark{{At: pattern.Pos{X: 3.75, Y: 2.5}, Kind: pattern.SeamEnd, Match: true, Letter: "p"}}
	return p
}

func read(t *testing.T, text []byte) document {
	t.Helper()
	var doc document
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// encoding/json reads the document, knows every member of it, and writing it
// again by reflection gives the same members and values.
func TestRoundTrip(t *testing.T) {
	p := busy()
	text := JSON(p, madeOf(p), clothOf(p))
	again, err := json.Marshal(read(t, text))
	if err != nil {
		t.Fatal(err)
	}
	var got, want any
	if json.Unmarshal(text, &got) != nil || json.Unmarshal(again, &want) != nil {
		t.Fatal("not JSON")
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("encoding/json writes it otherwise (-encoding/json +ours):\n%s", diff)
	}
}

// What is read is what the pattern says.
func TestValues(t *testing.T) {
	p := busy()
	doc := read(t, JSON(p, madeOf(p), clothOf(p)))
	s, want := doc.Blocks[0].Sizes[0], &p.Blocks[0].Sizes[0]
	if doc.Schema != Schema || doc.Title != p.Title || doc.Fabrics[0].Color != "#dfeaf0" || doc.Colorways[0].Cloths[0].Color != "#00ff01" {
		t.Errorf("head: %+v", doc.Fabrics)
	}
	if s.Unfinished != (point{8.5, 8.5}) {
		t.Errorf("unfinished %v", s.Unfinished)
	}
	for d := range want.Drawings {
		for i, piece := range want.Drawings[d].Pieces {
			got := s.Sections[d].Pieces[i]
			if got.Space != want.Drawings[d].Label(i) || got.Fabric != p.Fabrics[piece.Fabric].Name || len(got.Polygon) != len(piece.Polygon) {
				t.Errorf("piece %+v", got)
			}
			for k, q := range piece.Polygon {
				if math.Abs(got.Polygon[k][0]-float64(q.X)) > 1e-6 || math.Abs(got.Polygon[k][1]-float64(q.Y)) > 1e-6 {
					t.Errorf("%s: corner %v, want %v", got.Space, got.Polygon[k], q)
				}
			}
		}
	}
	for _, at := range []struct{ got, want sourceJSON }{
		{s.Sections[0].sourceJSON, sourceJSON{4, ""}},
		{s.Sections[0].Pieces[0].sourceJSON, sourceJSON{5, "families/wave.seam"}},
		{s.Copies[0].sourceJSON, sourceJSON{6, "std/log_cabin"}},
		{s.Joins[0].sourceJSON, sourceJSON{7, "../land.seam"}},
		{s.Sections[1].sourceJSON, sourceJSON{}},
	} {
		if at.got != at.want {
			t.Errorf("written at %+v, want %+v", at.got, at.want)
		}
	}
	mark := s.Sections[0].Edges[1].Marks[0]
	if mark.Kind != "seam end" || !mark.Match || mark.At != (point{3.75, 2.5}) || s.Sections[0].Edges[1].Partners[0].Section != "B" {
		t.Errorf("edge %+v", s.Sections[0].Edges[1])
	}
	if got := s.Sections[1].Printed[0]; got.Sheet != 2 || got.Turn != 90 || got.Shift != (point{1, 2}) {
		t.Errorf("printed %+v", got)
	} else if p := got.Part; p == nil || p.Number != 1 || p.Parts != 2 || p.Row != 1 || p.Column != 1 || len(p.Own) != 2 || p.Own[1] != (point{3, 4}) {
		t.Errorf("part %+v", p)
	}
	if got := s.Sections[0].Printed[0]; got.Part != nil {
		t.Errorf("the whole section is a part: %+v", got.Part)
	}
}

// The document describes each member that is written, and nothing else.
func TestSchemaIsDocumented(t *testing.T) {
	page, err := os.ReadFile("SCHEMA.md")
	if err != nil {
		t.Fatal(err)
	}
	p := busy()
	joins := p.Blocks[0].Sizes[0].Joins
	joins[0].Begins, joins[1].Begun = 2, 1
	written := map[string]bool{}
	for _, m := range regexp.MustCompile(`"(\w+)":`).FindAllSubmatch(JSON(p, madeOf(p), clothOf(p)), -1) {
		written[string(m[1])] = true
	}
	told := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^\\| `(\\w+)`").FindAllSubmatch(page, -1) {
		told[string(m[1])] = true
	}
	if diff := cmp.Diff(written, told); diff != "" {
		t.Errorf("SCHEMA.md (-written +told):\n%s", diff)
	}
	if !strings.Contains(string(page), Schema) {
		t.Error("SCHEMA.md does not name the schema")
	}
}

func TestAnyTextSurvives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"</script>", "a\"b\\c", "\x00\x1b", "\u202edeep", "\xff\xfe", "\u2028"})).Draw(t, "s")
		e := &encoder{}
		e.string(s)
		var got string
		if err := json.Unmarshal(e.b, &got); err != nil {
			t.Fatalf("%q: %v", e.b, err)
		}
		if want := strings.ToValidUTF8(s, "\ufffd"); strings.ReplaceAll(got, "\ufffd", "") != strings.ReplaceAll(want, "\ufffd", "") {
			t.Fatalf("%q became %q", s, got)
		}
		if bytes.ContainsAny(e.b, "<>&\u2028\u202e\x00") {
			t.Fatalf("%q comes alive", e.b)
		}
	})
}

func TestAnyNumberIsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), -1e-9, 0.1, 1e300})).Draw(t, "f")
		e := &encoder{}
		e.float(f)
		var got *float64
		if err := json.Unmarshal(e.b, &got); err != nil {
			t.Fatalf("%v wrote %q: %v", f, e.b, err)
		}
		none := math.IsNaN(f) || math.IsInf(f, 0)
		if (got == nil) != none || got != nil && math.Abs(*got-f) > 0.5001e-6+1e-15*math.Abs(f) {
			t.Fatalf("%v wrote %q", f, e.b)
		}
	})
}

func TestTextGolden(t *testing.T) {
	other := busy()
	other.Settings.Language, other.Settings.Metric = "de", true
	other.Blocks[0].Sizes[0].Joins[0].Press, other.Blocks[0].Sizes[0].Joins[0].Why = pattern.PressOpen, pattern.SameWay
	for name, p := range map[string]*pattern.Pattern{"boat.txt": busy(), "star.txt": sample.Star(), "boat_de.txt": other} {
		got := Text(p, madeOf(p))
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
		for _, line := range strings.Split(string(got), "\n") {
			if n := utf8.RuneCountInString(line); n > lineWidth {
				t.Errorf("%s: %d characters in %q", name, n, line)
			}
		}
	}
}
