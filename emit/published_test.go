package emit_test

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// What a maker reads of sizes, from the text of a pattern to its cutting table,
// against the arithmetic of seam allowances as it is published.

// cloths dresses the strips of these tests.
const cloths = `fabric hull "hull" dark #303030
fabric sky "sky" light #f0f0f0
`

// compiled returns the pattern of a text and what the program says of it.
func compiled(t *testing.T, text string) (*pattern.Pattern, []problem.Problem) {
	t.Helper()
	p, ps := compiler.Compile(&problem.Source{Name: "t.seam", Text: text}, nil)
	if p == nil {
		t.Fatalf("%v\n%s", ps, text)
	}
	return p, ps
}

// cuttingTable returns the cutting table of a block as it is written.
func cuttingTable(t *testing.T, p *pattern.Pattern) string {
	t.Helper()
	outputs, _ := emit.Build(p, emit.Options{})
	for _, o := range outputs {
		if strings.HasSuffix(o.Path, "/cutting.md") {
			return string(o.Data)
		}
	}
	t.Fatal("no cutting table")
	return ""
}

// row is a block of n strips side by side, cut exact; each finishes wide x high, in
// inches or as the unit says.
func row(n int, wide, high float64, unit string) string {
	return cloths + fmt.Sprintf(`block row %g x %g finished %[1]g%[3]s {
  for i in 1..%[4]d { section { piece if odd(i) then hull else sky at ((i - 0.5) * %[5]g, %[2]g / 2) } }
  for i in 2..%[4]d { join ((i - 1) * %[5]g, 0) -- ((i - 1) * %[5]g, %[2]g) }
}
`, float64(n)*wide, high, unit, n, wide)
}

// says reports every text that the table lacks.
func says(t *testing.T, what, table string, texts ...string) {
	t.Helper()
	for _, s := range texts {
		if !strings.Contains(table, s) {
			t.Errorf("%s: the table does not say %q:\n%s", what, s, table)
		}
	}
}

// Strips of a width as cut, so many of them: what they measure when they are sewn
// together, (width - 1/2) x n + 1/2. Nine of 3 1/4 and sixteen of 2 3/8: Strip
// sets (vickisfabriccreations.blogspot.com, 2013). Three of 1 1/2: Testing your
// scant quarter (quiltcentric.com, 2012). Two of 2 and of 2 1/2: Making perfect
// blocks (patchworktimes.com, 2009); Day 2 sewing strips (avalanden, 2010). Ten of
// 1 1/2: That pesky seam allowance (hqstitch.com).
func TestPublishedStripSets(t *testing.T) {
	for _, c := range []struct {
		n         int
		wide      float64 // finished
		cut, sewn string
	}{
		{9, 2.75, "3 1/4 in", "25 1/4 in"},
		{16, 1.875, "2 3/8 in", "30 1/2 in"},
		{3, 1, "1 1/2 in", "3 1/2 in"},
		{2, 1.5, "2 in", "3 1/2 in"},
		{2, 2, "2 1/2 in", "4 1/2 in"},
		{10, 1, "1 1/2 in", "10 1/2 in"},
	} {
		p, _ := compiled(t, row(c.n, c.wide, 6, "in"))
		says(t, fmt.Sprintf("%d strips of %s", c.n, c.cut), cuttingTable(t, p),
			"| 6 1/2 in x "+c.cut+" |", "measures "+c.sewn+" x 6 1/2 in")
	}
}

// Twelve squares cut 4 in never make 12 in a row of three: that is the classic
// mistake (Tackling the quarter-inch seam, sweetpotatoquiltsblog.com, ?p=2317).
// Computed: a row of three cut 4 in measures 11 in. For 12 in finished the program
// cuts 4 1/2 in: Easy math (quilton.blogspot.com, 2012), which also halves 16 in to
// squares cut 8 1/2 and quarters it to 4 1/2; Quilt blocks easy math 4
// (quiltmaker.com, 2013) quarters 12 in to 3 1/2 and has 6 1/2 for two quarters.
func TestSquaresAreNotCutAtTheirFinishedSize(t *testing.T) {
	p, _ := compiled(t, row(3, 3.5, 3.5, "in"))
	says(t, "cut 4 in", cuttingTable(t, p), "| square | 4 in |", "measures 11 in x 4 in")
	for _, c := range []struct {
		n                   int
		wide, high          float64
		cut, finishes, sewn string
	}{
		{3, 4, 4, "| square | 4 1/2 in |", "12 in", "12 1/2 in"},
		{2, 8, 8, "| square | 8 1/2 in |", "16 in", "16 1/2 in"},
		{4, 4, 4, "| square | 4 1/2 in |", "16 in", "16 1/2 in"},
		{4, 3, 3, "| square | 3 1/2 in |", "12 in", "12 1/2 in"},
		{2, 6, 3, "| rectangle | 6 1/2 in x 3 1/2 in |", "12 in", "12 1/2 in"},
		{5, 3, 3, "| square | 3 1/2 in |", "15 in", "15 1/2 in"},
	} {
		p, _ := compiled(t, row(c.n, c.wide, c.high, "in"))
		says(t, fmt.Sprintf("%d of %s", c.n, c.finishes), cuttingTable(t, p), c.cut, "It finishes "+c.finishes, "measures "+c.sewn)
	}
}

// A published mistake (quilton.blogspot.com, 2011): a piece cut 11 x 20 beside one
// cut 9 x 20 was expected to make a square of 20 in. It is 19 1/2 wide.
func TestTwoPiecesLoseASeam(t *testing.T) {
	p, _ := compiled(t, cloths+`block two 19 x 19.5 finished 19in {
  section { piece hull at (1, 1) }
  section { piece sky at (18, 1) }
  join (10.5, 0) -- (10.5, 19.5)
}
`)
	says(t, "two pieces", cuttingTable(t, p), "| 20 in x 11 in |", "| 20 in x 9 in |", "measures 19 1/2 in x 20 in")
}

// Measure the patchwork, not the seam: of three strips cut 1 1/2 the middle one
// shows 1 in (Testing your scant quarter, quiltcentric.com, 2012); of three cut 2 in
// it shows 1 1/2, and the outer ones measure 1 3/4 to their raw edges (Testing 1/4
// accuracy, quiltingaffection.blogspot.com, 2014; Quarter inch seam,
// quilting.about.com).
func TestStripsToMeasureASeamBy(t *testing.T) {
	for wide, outer := range map[float64]float64{1: 1.25, 1.5: 1.75} {
		p, _ := compiled(t, row(3, wide, 6, "in"))
		s := &p.Blocks[0].Sizes[0]
		for i, c := range s.Copies {
			var low, high pattern.Length = 100, 0
			for _, q := range s.Drawings[c.Drawing].Outline {
				q = c.Motion()(q)
				low, high = min(low, q.X), max(high, q.X)
			}
			if shows := float64(high - low); shows != wide || i != 1 && shows+float64(p.Settings.Allowance) != outer {
				t.Errorf("strip %d shows %v in and a seam to its raw edge; want %v and %v", i+1, shows, wide, outer)
			}
		}
	}
}

// A border of 24 half-square triangles of 2 in is 48 in long finished, and half of
// it measures 24 1/2 until it is joined (Accurate piecing,
// catbirdquilts.wordpress.com, 2017).
func TestBorderOfTriangles(t *testing.T) {
	for n, want := range map[int][2]string{24: {"It finishes 48 in", "measures 48 1/2 in"}, 12: {"It finishes 24 in", "measures 24 1/2 in"}} {
		p, _ := compiled(t, cloths+fmt.Sprintf(`unit half 2 x 2 {
  section {
    piece hull at (1.5, 0.5)
    piece sky along (0, 0) -- (2, 2)
  }
}
block border %d x 2 finished %[1]din {
  for i in 1..%d { place half at ((i - 1) * 2, 0) }
  for i in 2..%[2]d { join ((i - 1) * 2, 0) -- ((i - 1) * 2, 2) }
}
`, 2*n, n))
		says(t, fmt.Sprint(n), cuttingTable(t, p), want[:]...)
	}
}

// Makers who work in metric take 6 mm (Imperial to metric guide,
// echidnasewing.com.au, 2022) or 7.5 mm for 1/4 in, the latter so that two are 15 mm
// (Metric maths, lonesockproductions.blogspot.com, 2010). 1/4 in is 6.35 mm.
func TestMetricAllowances(t *testing.T) {
	for allowance, c := range map[string][2]string{
		"6mm":    {"| square | 11.2 cm |", "measures 31.2 cm"},
		"7.5mm":  {"| square | 11.5 cm |", "measures 31.5 cm"},
		"6.35mm": {"| square | 11.3 cm |", "measures 31.3 cm"}, // 11.27: cut up to the millimeter
	} {
		p, ps := compiled(t, `pattern "T" { metric yes allowance `+allowance+" }\n"+row(3, 10, 10, "cm"))
		says(t, allowance, cuttingTable(t, p), c[0], c[1])
		for _, q := range ps {
			if q.Code == "R108" {
				t.Errorf("%s: %s", allowance, q.Message)
			}
		}
	}
}

// What a block finishes and what it measures before it is joined: an 8 in block
// measures 8 1/2 in, for a seam is 1/4 in all round (common practice, no source). A
// pattern that says nothing means 1/4 in (Lesson 1: Allowing for Seam Allowances,
// docslib.org/doc/4718373).
func TestEightInchesMeasureEightAndAHalf(t *testing.T) {
	p, _ := compiled(t, row(2, 4, 8, "in"))
	if p.Settings.Allowance != 0.25 {
		t.Errorf("a seam is %v in", p.Settings.Allowance)
	}
	says(t, "8 in", cuttingTable(t, p), "It finishes 8 in", "measures 8 1/2 in")
}

// Fraction glyphs get lost when a text is copied: a "14-inch-wide seam", "3 x 3" for
// 3 1/2 (How to Make a Quilt, Storey 2014; thequiltercommunity.com, 2005). Nothing that
// is made writes one.
func TestFractionsArePlain(t *testing.T) {
	p, _ := compiled(t, "pattern \"T\" { edition 1 author \"A. Keeper\" }\n"+row(5, 1.625, 3.125, "in"))
	outputs, _ := emit.Build(p, emit.Options{Only: []string{"sheets", "diagrams", "tables", "report", "json"}, Forms: []string{"svg"}})
	plain := 0
	for _, o := range outputs {
		if strings.ContainsAny(string(o.Data), "\u00bc\u00bd\u00be\u2044\u215b\u215c\u215d\u215e") {
			t.Errorf("%s has a fraction glyph", o.Path)
		}
		if strings.Contains(string(o.Data), "3 5/8 in") {
			plain++
		}
	}
	if plain == 0 {
		t.Error("no output tells that the block measures 3 5/8 in high")
	}
}
