package eval

import (
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/lang/problem"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const plainBlock = sky + "block b 4 x 4 finished 4in { section { 1 sky at c } }\n"

func TestDefaults(t *testing.T) {
	p := good(t, plainBlock).Pattern
	letter, _ := pattern.SheetNamed("letter")
	// A pattern that says nothing means a seam allowance of 1/4 in ("Lesson 1: Allowing
	// for Seam Allowances", docslib.org/doc/4718373). Patches 1/2 in larger on every side
	// are within the published spread of 1/4 to 3/4 in; the rest is common practice, no
	// source. 40 in of cloth are what one plans on after selvages and shrinkage (How to
	// figure yardage, featheredstar.wordpress.com).
	want := pattern.Settings{Allowance: 0.25, Ease: 0.5, Sheet: letter, Buying: pattern.Buying{Usable: 40, Straighten: 1}}
	if d := cmp.Diff(want, p.Settings); d != "" {
		t.Error(d)
	}
	if p.Title != "test" || p.File != "test" {
		t.Errorf("title %q, file %q", p.Title, p.File)
	}
}

func TestSettings(t *testing.T) {
	p := good(t, `pattern "Harbour \"Light\"" {
  edition 3  author "A. Keeper"  year 2026
  rights "one" contact "two" corrections "three"
  note "first", "second"
  note "third"
  allowance 3/8in
  extra 1/4in; ease 1.5cm
  margin 10mm
  sheet 9in x 12in
  cloth_width 42in straighten 2in shrinkage 2.5 spare_strips 1
  miniature yes metric true tint no tile yes language de
  before trim_how, "Breathe."
  instead paper_when, "Now."
}
`+plainBlock).Pattern
	about := pattern.About{Edition: 3, Author: "A. Keeper", Year: "2026", Rights: "one", Contact: "two", Corrections: "three", Notes: []string{"first", "second", "third"},
		Sayings:   []pattern.Saying{{Name: "trim_how", Text: "Breathe."}, {Name: "paper_when", Text: "Now.", Instead: true}},
		EditionAt: pattern.Source{File: "test.seam", Line: 2, Column: 3}}
	at := map[string]problem.Place{"de": p.About.LanguageAt}
	for i := range p.About.Sayings {
		at[p.About.Sayings[i].Name] = p.About.Sayings[i].At
	}
	for words, place := range at {
		if got := place.Source.Text[place.Span.Start:place.Span.End]; got != words {
			t.Errorf("%s is told where %q stands", words, got)
		}
	}
	if d := cmp.Diff(about, p.About, cmpopts.IgnoreTypes(problem.Place{})); d != "" {
		t.Error(d)
	}
	set := pattern.Settings{Allowance: 0.375, Extra: 0.25, Ease: pattern.Length(1.5 / 2.54), Miniature: true, Metric: true, Tile: true, Language: "de", BraceAt: pattern.Source{File: "test.seam", Line: 1, Column: 29},
		AllowanceAt: pattern.Source{File: "test.seam", Line: 6, Column: 3},
		EaseAt:      pattern.Source{File: "test.seam", Line: 7, Column: 16},
		Buying:      pattern.Buying{Usable: 42, Straighten: 2, Shrinkage: 2.5, Spare: 1},
		Sheet:       pattern.Sheet{Name: "9in x 12in", Paper: pattern.Size{W: 9, H: 12}, Margin: pattern.Length(10 / 25.4)}}
	near := cmp.Comparer(func(a, b pattern.Length) bool { return (a-b) < 1e-12 && (b-a) < 1e-12 })
	if d := cmp.Diff(set, p.Settings, near); d != "" {
		t.Error(d)
	}
	if p.Title != `Harbour "Light"` {
		t.Errorf("title %q", p.Title)
	}
}

func TestPictures(t *testing.T) {
	got := good(t, "pattern \"P\" { picture \"a.png\"\npicture \"b/c.jpg\", \"Sewn.\" }\n"+plainBlock).Pattern.About.Pictures
	if len(got) != 2 || got[0].File != "a.png" || got[0].Words != "" || got[1].File != "b/c.jpg" || got[1].Words != "Sewn." {
		t.Fatalf("%+v", got)
	}
	if at := got[1].At; at.Source == nil || at.Source.Text[at.Span.Start:at.Span.End] != `"b/c.jpg"` {
		t.Errorf("at %+v", at.Span)
	}
}

// Texts that are printed are kept with their places, unless they are plain ASCII or
// nothing shows them.
func TestPrintedTexts(t *testing.T) {
	text := "pattern \"H\u00e4fen\" { author \"\u00c5sa\" year \"2026\" note \"\u00e9\", \"e\" before trim_how, \"\u00df\" picture \"\u00f1.png\", \"\u00e7\" }\n" +
		"fabric sky \"\u00fc\" light #dfeaf0\nfabric ghost \"\u00f8\" light #dfeaf0\n/// \u0142\nblock b 4 x 4 finished 4in { section { 1 sky at c } }\n" +
		"colorway two \"\u0153\" { sky \"\u015f\" }\n"
	var got []string
	for _, s := range evaluate(text, nil).Pattern.Texts {
		got = append(got, s.Words)
		if at := s.At.Source.Text[s.At.Span.Start:s.At.Span.End]; at != "\""+s.Words+"\"" && at != "b" {
			t.Errorf("%s stands at %s", s.Words, at)
		}
	}
	if d := cmp.Diff([]string{"H\u00e4fen", "\u00c5sa", "\u00e9", "\u00df", "\u00e7", "\u0153", "\u015f", "\u0142", "\u00fc"}, got); d != "" {
		t.Error(d)
	}
}

// A margin stays, whether it is written before the sheet or after it.
func TestMarginAndSheetInEitherOrder(t *testing.T) {
	a := good(t, "pattern \"P\" { margin 1in sheet a4 }\n"+plainBlock).Pattern.Settings
	b := good(t, "pattern \"P\" { sheet a4 margin 1in }\n"+plainBlock).Pattern.Settings
	if !cmp.Equal(a, b) || a.Sheet.Margin != 1 {
		t.Errorf("%+v, %+v", a, b)
	}
}

func TestSettingFaults(t *testing.T) {
	for setting, code := range map[string]string{
		"alowance 1/4in": "L211 1 no setting `alowance`", "edition 0": "L212 1 from 1", "edition 1.5": "L212 1", "edition \"one\"": "L221 1",
		"author 1in": "L212 1 in quotes", "allowance 1/4*1": "L221 1 a length", "allowance 2in": "L212 1 between 0in and 1in", "allowance -1in": "L212 1",
		"sheet a9": "L212 1 no paper called `a9`", "sheet 1in x 1in": "L212 1 at least", "sheet 8in": "L212 1", "sheet 8in x 10": "L221 1", "sheet a4, a3": "L212 1 one value",
		"metric maybe": "L212 1 yes or no", "metric 1": "L212 1 yes or no", "note 3": "L212 1", "year 2026 x 3": "L212 1 no `x`", "ease 1in of sky": "L212 1 no `of`",
		"tint yes turn 90deg": "L212 1 no `turn`", "tint yes reversed": "L212 1 no `reversed`",
		"limit near_miss": "L212 1 a comma", "limit 3, 1in": "L212 1 the name of a limit", "limit near_miss, 1in limit near_miss, 2in": "L212 1 before",
		"limit near_miss, (1, 2)": "L212 1 a length", "limit near_miss, -1in": "L212 1 below 0", "ease 1in ease 1in": "L214 1 on line 1",
		"cloth_width 8in": "L212 1 at least 9in", "straighten 10in": "L212 1", "shrinkage 26": "L212 1 per cent", "shrinkage 3in": "L221 1", "spare_strips -1": "L212 1",
		"picture 3": "L212 1 name of a file", "picture \"a.png\", 3": "L212 1 name of a file", "picture \"a.png\", \"b\", \"c\"": "L212 1 another line",
		"language \"de\"": "L212 1 short name", "before \"Breathe.\"": "L212 1 a comma", "instead trim_how, 3": "L212 1 in quotes", "instead 3, \"Now.\"": "L212 1 name",
	} {
		r := evaluate("pattern \"P\" { "+setting+" }\n"+plainBlock, nil)
		if len(r.Problems) == 0 {
			t.Errorf("%s: no problem", setting)
			continue
		}
		want(t, "pattern \"P\" { "+setting+" }\n"+plainBlock, nil, code)
	}
}

const three = `fabric jib "jib" medium #b8432f
fabric sail "sail" light #f3ecdd
fabric hull dark #33312e scrappy by block
block boat 4 x 4 finished 4in {
  section { 1 jib at (1, 3.5)
    2 sail along (0, 3) -- (4, 3)
    3 hull along (0, 2) -- (4, 2) }
}
`

func TestFabrics(t *testing.T) {
	f := good(t, three).Pattern.Fabrics
	if len(f) != 3 || f[2].Words != "hull" || f[2].Scrappy != "block" || f[2].Value != "dark" || f[0].Colour != 0xb8432f {
		t.Errorf("%+v", f)
	}
	if s := f[1].Source; s != (pattern.Source{File: "test.seam", Line: 2, Column: 8}) {
		t.Errorf("%+v", s)
	}
}

// Only what is cut, recoloured or named by a quilt is in the pattern.
func TestFabricsThatAreKept(t *testing.T) {
	r := good(t, "fabric ghost light #aaaaaa\nfabric tape dark #bbbbbb\nfabric spare light #cccccc\n"+three+
		"unit never(f: fabric = ghost) 4 x 4 { section { 1 f at c } }\n"+
		"block other 4 x 4 finished 4in {\n  if false { place never(ghost) at sw } else { section { 1 sail at c } }\n}\n"+
		"quilt { blocks boat, 2 x 2 binding 2in of tape }\ncolorway red { spare #ff0000 }\n")
	var names []string
	for _, f := range r.Pattern.Fabrics {
		names = append(names, f.Name)
	}
	// The unit can be worked out by itself, so its cloth counts.
	if d := cmp.Diff([]string{"ghost", "tape", "spare", "jib", "sail", "hull"}, names); d != "" {
		t.Error(d)
	}
	r = good(t, "fabric ghost light #aaaaaa\n"+three+"block other 4 x 4 finished 4in { section { 1 if true then sail else ghost at c } }")
	if len(r.Pattern.Fabrics) != 3 || r.Blocks[1].Sections[0].Pieces[0].Fabric != 1 {
		t.Errorf("%+v", r.Pattern.Fabrics)
	}
}

func TestColorways(t *testing.T) {
	p := good(t, three+`
colorway two "Two fabrics" { jib as sail  hull "water" medium #20406a }
colorway swap { jib as hull  hull as jib }
colorway sea { jib as hull  hull "tar" #000000 }
`).Pattern
	jib := pattern.Cloth{Words: "jib", Value: "medium", Colour: 0xb8432f}
	sail := pattern.Cloth{Words: "sail", Value: "light", Colour: 0xf3ecdd}
	hull := pattern.Cloth{Words: "hull", Value: "dark", Colour: 0x33312e}
	tar := pattern.Cloth{Words: "tar", Value: "dark", Colour: 0}
	want := []pattern.Colorway{
		{Dress: []pattern.Cloth{jib, sail, hull}},
		{Name: "two", Words: "Two fabrics", Dress: []pattern.Cloth{sail, sail, {Words: "water", Value: "medium", Colour: 0x20406a}}},
		{Name: "swap", Words: "swap", Dress: []pattern.Cloth{hull, sail, jib}},
		{Name: "sea", Words: "sea", Dress: []pattern.Cloth{tar, sail, tar}},
	}
	if d := cmp.Diff(want, p.Colorway); d != "" {
		t.Error(d)
	}
}

func TestColorwayFaults(t *testing.T) {
	for way, code := range map[string]string{
		"colorway w { tar as jib }": "L206 9", "colorway w { jib as tar }": "L206 9", "colorway w { jib #000000 jib as sail }": "L219 9",
		"colorway w { jib pale #000000 }": "L217 9", "colorway w { jib as sail } colorway w { jib as hull }": "L205 9",
	} {
		want(t, three+way, nil, code)
	}
}

func TestQuiltsAndPads(t *testing.T) {
	p := good(t, three+`
quilt "Flotilla" {
  blocks boat, 5 x 6, 8in
  sashing 1in of jib
  cornerstones sail
  border 3in of hull
  border 2in
  binding 2 1/4in of hull
}
quilt { binding hull, bias row boat, boat turn 90deg, boat reversed
  row boat turn -180deg, boat }
pad { copies 10 spare 2 }
pad { }
`).Pattern
	if len(p.Quilts) != 2 || p.Quilts[0].Title != "Flotilla" || p.Quilts[0].Source.Line != 10 || p.Quilts[1].Title == "" {
		t.Errorf("%+v", p.Quilts)
	}
	if b := p.Quilts[1]; b.Binding.Width != 2.25 || b.Binding.Fabric < 0 || !b.Bias || p.Quilts[0].Bias {
		t.Errorf("binding %+v, bias %v", b.Binding, b.Bias)
	}
	if len(p.Pads) != 2 || p.Pads[0].Copies != 10 || p.Pads[0].Spare != 2 || p.Pads[1].Copies != 1 || p.Pads[1].Spare != 0 {
		t.Errorf("%+v", p.Pads)
	}
}

func TestQuiltFaults(t *testing.T) {
	for text, code := range map[string]string{
		"quilt { blocks boot, 5 x 6 }":                  "L215 9 no block called `boot`",
		"quilt { blocks 5 x 6 }":                        "L212 9 needs the name of a block",
		"quilt { blocks boat, 0 x 6 }":                  "L212 9 from 1 up",
		"quilt { blocks boat, 5in x 6 }":                "L221 9",
		"quilt { blocks boat, 7 }":                      "L221 9",
		"quilt { blocks boat border 3 of hull }":        "L221 9",
		"quilt { blocks boat border 3in of tar }":       "L206 9",
		"quilt { blocks boat border hull }":             "L221 9", // only a binding has a usual width
		"quilt { blocks boat binding tar }":             "L201 9",
		"quilt { blocks boat boarder 3in of hull }":     "L211 9",
		"quilt { blocks boat sashing 1in sashing 2in }": "L214 9",
		"quilt { row boat turn 45deg }":                 "L212 9 by quarters",
		"quilt { row boat turn 90 }":                    "L221 9",
		"quilt { row 5 }":                               "L212 9",
		"quilt { blocks boat turn 90deg }":              "L212 9",
		"pad { copies 0 }":                              "L212 9",
		"pad { copies 1.5 }":                            "L212 9",
		"pad { coppies 10 }":                            "L211 9",
		"pad { copies 10 copies 11 }":                   "L214 9",
		"accept R301 \"\"":                              "L218 9 for a reason",
		"accept r301 \"because\"":                       "L218 9 not the code",
		"pattern \"A\" { } pattern \"B\" { }":           "L216 9",
	} {
		want(t, three+text, nil, code)
	}
}

func TestAccepts(t *testing.T) {
	r := good(t, "accept R300 \"file\"\n"+sky+`block b 4 x 4 finished 4in {
  accept R301 "block"
  section {
    accept R302 "section"
    1 sky at c
    for i in 1..2 {
      if i > 0 { accept R303 "loop" }
    }
  }
}`)
	reasons := func(as []Accept) (s []string) {
		for _, a := range as {
			s = append(s, string(a.Code)+" "+a.Reason)
		}
		return s
	}
	b := r.Blocks[0]
	if d := cmp.Diff([][]string{{"R300 file"}, {"R301 block"}, {"R302 section", "R303 loop"}},
		[][]string{reasons(r.Accepts), reasons(b.Accepts), reasons(b.Sections[0].Accepts)}); d != "" {
		t.Error(d)
	}
}

// Of a quilt of one block it is known how many there are, and how large.
func TestBlocksOfAQuilt(t *testing.T) {
	for text, want := range map[string]pattern.Quilt{
		"blocks boat, 5 x 6, 4in": {Block: "boat", Blocks: 30, Finished: 4},
		"blocks boat, 2 x 2":      {Block: "boat", Blocks: 4},
		"row boat, boat":          {},
	} {
		q := good(t, three+"quilt \"Q\" { "+text+" }\n").Pattern.Quilts[0]
		if q.Block != want.Block || q.Blocks != want.Blocks || q.Finished != want.Finished {
			t.Errorf("%s: %+v", text, q)
		}
	}
}

// What is cut off to straighten cloth is an inch, or as even a measure in metric
// patterns; what the author says stays.
func TestStraightening(t *testing.T) {
	for text, want := range map[string]pattern.Length{"": 1, "metric yes": 25 * pattern.Millimetre, "straighten 1in metric yes": 1, "metric yes straighten 2in": 2} {
		if got := good(t, "pattern \"P\" { "+text+" }\n"+plainBlock).Pattern.Settings.Buying.Straighten; got-want > 1e-9 || want-got > 1e-9 {
			t.Errorf("%q: %v in, want %v", text, got, want)
		}
	}
}
