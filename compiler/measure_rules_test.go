package compiler_test

import (
	"fmt"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/lang/problem"
)

// Where the rules about measures begin and end: 6 mm is 1/4 in as it is charted
// in metric (echidnasewing.com.au, 2022), others take 7.5 mm
// (lonesockproductions.blogspot.com, 2010), miniatures go down to 1/8 in
// (nightquilter.com, 2016), rulers are marked in eighths (thesprucecrafts.com). An early
// manual prefers 3/16 in, and 1/8 for fine work (easyquilting.info; R. S. McKim, 101
// Patchwork Patterns, ch. III): today that is warned of.
func TestMeasuresThatRulesAskFor(t *testing.T) {
	const text = `pattern "Tender" { %s }
fabric hull "hull" dark #25525e
fabric sea "sea" light #dfeaf0
block tender 8 x 8 finished %s {
  section A { 1 hull at (1, 1) }
  section B { 1 sea at (7, 7) }
  join (%s, 0) -- (%s, 8)
}
`
	for _, c := range []struct{ setting, finished, split, code string }{
		{"allowance 1/4in", "8in", "4", ""},
		{"allowance 6mm", "20cm", "4", ""},
		{"allowance 7.5mm", "20cm", "4", ""},
		{"allowance 5.9mm", "20cm", "4", "R108 warning"},
		{"allowance 3/16in", "20cm", "4", "R108 warning"},
		{"allowance 3/16in miniature yes", "8in", "4", ""},
		{"allowance 1/8in miniature yes", "8in", "4", ""},
		{"allowance 1/8in", "8in", "4", "R108 warning"},
		{"allowance 0.12in miniature yes", "20cm", "4", "R108 error"},
		{"", "8in", "4.125", ""},
		{"", "8in", "4.1", "R109 warning"}, // one finding a plain section
		{"metric yes", "8in", "4.1", ""},
		{"", "7.3in", "4", "R109 warning"}, // of the block alone
		{"", "203mm", "4", ""},
		{"", "203.4mm", "4", "R109 warning"},
	} {
		source := fmt.Sprintf(text, c.setting, c.finished, c.split, c.split)
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: source}, nil)
		found := ""
		for _, p := range got {
			if p.Code != "R108" && p.Code != "R109" {
				t.Fatalf("%+v: %s %s", c, p.Code, p.Message)
			}
			found = fmt.Sprintf("%s %s", p.Code, p.Severity)
			if p.At.Source == nil {
				t.Errorf("%+v: no place", c)
			}
		}
		if found != c.code {
			t.Errorf("%+v: %q", c, found)
		}
	}
}

// Sections that are trimmed on a printed line have no need of a ruler's marks, and a
// maker can't measure them without: a note tells of those that are rectangles.
func TestSectionsBetweenTheMarks(t *testing.T) {
	const text = `%s
fabric hull "hull" dark #25525e
fabric sea "sea" light #dfeaf0
block tender 8 x 8 finished 8in {
  section A {
    1 hull at (1, 1)
    2 sea along (0, 4) -- (%s, 4)
  }
  section B {
    1 sea at (7, 7)
    2 hull along (%[2]s, 3) -- (8, 3)
  }
  join (%[2]s, 0) -- (%[3]s, 8)
}
`
	for _, c := range []struct{ settings, foot, head, note string }{
		{"", "4", "4", ""},
		{"", "4.125", "4.125", ""},
		{"", "3.0625", "3.0625", ""}, // the middle between two marks is found by eye
		{"", "3.03125", "3.03125", "section A is trimmed to 3.53 in x 8 1/2 in at 8 in finished, between the marks of a ruler; so are 1 more"},
		{"", "3.1", "3.1", "section A is trimmed to 3.60 in x 8 1/2 in at 8 in finished, between the marks of a ruler; so are 1 more"},
		{`pattern "T" { limit ruler_mark, 1/16in }`, "3.03125", "3.03125", ""},
		{`pattern "T" { metric yes }`, "3.1", "3.1", ""},
		{"", "3.1", "5", ""}, // no rectangles
	} {
		source := fmt.Sprintf(text, c.settings, c.foot, c.head)
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: source}, nil)
		found := ""
		for _, p := range got {
			if p.Code == "R109" {
				found = p.Message
				if p.Severity != problem.Note {
					t.Errorf("%+v: %s", c, p.Severity)
				}
			}
		}
		if found != c.note {
			t.Errorf("%+v: %q", c, found)
		}
	}
}

// At least 1/4 in on all sides (Foundation piecing directions,
// sewkaren-lycreated.blogspot.com; What is paper piecing, ajpadilla.com), 1/4 to 1/2
// (Quilter's World, Nov 2017), 1/2 (Cutting rules, gailgarber.com), or 3/4 after patches
// came short (Discoveries, sunflowerquilts.blogspot.com, 2008): all of these pass.
func TestEasesThatRulesAskFor(t *testing.T) {
	for _, c := range []struct{ settings, code string }{
		{"", ""},
		{"ease 1/4in", ""},
		{"ease 1/2in", ""},
		{"ease 3/4in", ""},
		{"ease 6mm allowance 6mm", ""},
		{"ease 6mm", ""}, // 1/4 in, as it is charted
		{"ease 5.9mm allowance 5.9mm", "R118 warning"},
		{"ease 3/16in", "R118 error"},
		{"ease 1/8in allowance 1/8in miniature yes", ""},
		{"ease 1/8in miniature yes", "R118 error"},
		{"ease 3/8in limit ease_least, 1/2in", "R118 warning"},
		{`ease 1/8in accept R118 "they are cut on a machine"`, ""},
	} {
		_, got := compiler.Compile(&problem.Source{Name: "example.seam", Text: "pattern \"T\" { " + c.settings + " }\n" + `fabric hull "hull" dark #25525e
fabric sea "sea" light #dfeaf0
block tender 8 x 8 finished 20cm {
  section A { 1 hull at (1, 1)  2 sea along w -- e }
}
`}, nil)
		found := ""
		for _, p := range got {
			if p.Code == "R118" {
				found = fmt.Sprintf("%s %s", p.Code, p.Severity)
			}
		}
		if found != c.code {
			t.Errorf("%q: %q, want %q; %v", c.settings, found, c.code, got)
		}
	}
}

// Joins are pressed open where points must meet (common practice, no source). In the
// middle of a windmill eight seams meet: the last join is pressed open, the others are
// free to nest.
func TestWindmillsMiddleIsPressedOpen(t *testing.T) {
	p, ps := compile(`fabric vane "vane" dark #25525e
fabric sky "sky" light #dfeaf0
unit quarter 2 x 2 { section { 1 vane at (1.5, 0.5)  2 sky along sw -- ne } }
block windmill 4 x 4 finished 6in {
  for i in 0..3 { place quarter at c turn 90deg * i }
  join w -- c, c -- e
  join n -- s
}
`)
	if p == nil {
		t.Fatal(ps)
	}
	for _, j := range p.Blocks[0].Sizes[0].Joins {
		if open := j.Press == pattern.PressOpen; open != (len(j.Points) > 0) || open && j.Why != pattern.ManyMeet {
			t.Errorf("join %d: %v, %s", j.Number, j.Press, j.PressWords())
		}
	}
}
