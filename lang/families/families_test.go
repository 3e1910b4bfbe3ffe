package families_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/lang"
	"seamwright/lang/families"
	"seamwright/lang/problem"
)

var update = flag.Bool("update", false, "draw the expected pictures anew")

// shipped loads what a pattern may use here: the families and nothing else.
type shipped struct{}

func (shipped) Load(_ *problem.Source, path string) (*problem.Source, string) {
	name, std := strings.CutPrefix(path, "std/")
	text, ok := families.Source(name)
	if !std || !ok {
		return nil, "no such family"
	}
	return &problem.Source{Name: path, Text: text}, ""
}

// compile returns a pattern in which nothing at all was found to complain of.
func compile(t *testing.T, text string) *pattern.Pattern {
	t.Helper()
	src := &problem.Source{Name: "test", Text: text}
	p, problems := compiler.Compile(src, shipped{})
	for _, q := range problems {
		if q.Severity == problem.Note || q.Code == eval.Unused && src == q.At.Source {
			continue // the tests' own cloths need not all be used
		}
		line := q.At.Source.Position(q.At.Span.Start).Line
		t.Errorf("%s line %d: %v %s: %s", q.At.Source.Name, line, q.Severity, q.Code, q.Message)
	}
	if p == nil {
		t.FailNow()
	}
	return p
}

// Every family can be chosen from its description alone.
func TestDescriptions(t *testing.T) {
	list := families.List()
	if len(list) < 10 {
		t.Errorf("%d families, at least 10 are promised", len(list))
	}
	for _, f := range list {
		if f.Summary == "" || !strings.HasSuffix(f.Summary, ".") {
			t.Errorf("%s: the doc comment has no first sentence: %q", f.Name, f.Summary)
		}
		if len(f.Params) == 0 {
			t.Errorf("%s: the main unit has no parameters; it should take its fabrics", f.Name)
		}
		if !strings.Contains(f.Example, `from "std/`+f.Name+`"`) {
			t.Errorf("%s: the example does not show how the family is used:\n%s", f.Name, f.Example)
		}
	}
	if _, ok := families.Find("../families"); ok {
		t.Error("a path was taken for a family")
	}
}

// Families and their examples are written as the formatter writes them.
func TestFormatted(t *testing.T) {
	for _, f := range families.List() {
		text, _ := families.Source(f.Name)
		for _, text := range []string{text, f.Example} {
			file, problems := lang.Parse(&problem.Source{Name: f.Name, Text: text})
			if problem.Failed(problems) {
				t.Errorf("%s does not parse: %v", f.Name, problems)
				continue
			}
			if got := lang.Format(file); got != text {
				t.Errorf("%s is not formatted; it should be\n%s", f.Name, got)
			}
		}
	}
}

// The example of every family builds, without a warning, and looks as expected.
func TestPictures(t *testing.T) {
	for _, f := range families.List() {
		t.Run(f.Name, func(t *testing.T) {
			picture := front(t, compile(t, f.Example))
			golden := filepath.Join("testdata", f.Name+".svg")
			if *update {
				if err := os.WriteFile(golden, picture, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatalf("%v: run the test with -update and look at the picture", err)
			}
			if string(picture) != string(want) {
				t.Errorf("the picture differs from %s; if that is meant, run with -update and look at it", golden)
			}
		})
	}
}

// front makes everything that is made of a pattern, on letter paper, and returns
// the front picture.
func front(t *testing.T, p *pattern.Pattern) []byte {
	t.Helper()
	outputs, problems := emit.Build(p, emit.Options{})
	for _, q := range problems {
		if q.Severity != problem.Note {
			t.Errorf("%v %s: %s", q.Severity, q.Code, q.Message)
		}
	}
	for _, o := range outputs {
		if strings.Contains(o.Path, "front") && strings.HasSuffix(o.Path, ".svg") {
			return o.Data
		}
	}
	t.Fatal("no front picture was made")
	return nil
}

// What a family refuses, it refuses in its own words.
func TestChecks(t *testing.T) {
	const fabrics = "fabric a \"first cloth\" light #eeeeee\nfabric b \"second cloth\" dark #222222\n"
	for _, c := range []struct{ family, unit, args, size, says string }{
		{"log_cabin", "log_cabin", "rounds: 0, heart: a, warm: b, cool: b", "2 x 2", "at least one round"},
		{"log_cabin", "log_cabin", "hearth: -1, heart: a, warm: b, cool: b", "2 x 2", "above 0"},
		{"courthouse_steps", "courthouse_steps", "rounds: 0, heart: a, steps: b, walls: b", "2 x 2", "at least one round"},
		{"courthouse_steps", "courthouse_steps", "hearth: 0, heart: a, steps: b, walls: b", "2 x 2", "above 0"},
		{"flying_geese", "flying_geese", "flock: 0, goose: a, sky: b", "2 x 1", "at least one goose"},
		{"square_in_a_square", "square_in_a_square", "rings: 0, heart: a, inner: b", "4 x 4", "at least one ring"},
		{"square_in_a_square", "square_in_a_square", "rings: 5, heart: a, inner: b", "4 x 4", "more than 4 rings"},
		{"pineapple", "pineapple", "rounds: 0, heart: a, straight: b, slanting: a", "4 x 4", "at least one round"},
		{"pineapple", "pineapple", "rounds: 13, heart: a, straight: b, slanting: a", "28 x 28", "more than 12 rounds"},
		{"kaleidoscope_wedge", "kaleidoscope", "bands: 0, first: a, second: b, corner: a", "12 x 12", "at least one band"},
		{"kaleidoscope_wedge", "kaleidoscope", "bands: 7, first: a, second: b, corner: a", "12 x 12", "more than 6 bands"},
		{"kaleidoscope_wedge", "kaleidoscope", "reach: 0, first: a, second: b, corner: a", "12 x 12", "above 0"},
		{"compass_points", "compass_points", "points: 12, lit: a, shaded: b, ground: b", "12 x 12", "8 or 16 points"},
		{"fan_of_rays", "fan_of_rays", "rays: 1, hub: a, first: b, second: a", "8 x 8", "at least two rays"},
		{"fan_of_rays", "fan_of_rays", "rays: 17, hub: a, first: b, second: a", "8 x 8", "more than 16 rays"},
		{"rail_fence", "rail_fence", "rails: 1, first: a, second: b", "4 x 4", "at least two rails"},
		{"rail_fence", "rail_fence", "rails: 17, first: a, second: b", "4 x 4", "more than 16 rails"},
		{"checkerboard", "checkerboard", "squares: 1, first: a, second: b", "6 x 6", "at least two squares"},
		{"checkerboard", "checkerboard", "squares: 13, first: a, second: b", "6 x 6", "more than 12 squares"},
		{"snowball", "snowball", "cut: 0, ball: a, corners: b", "4 x 4", "above 0"},
		{"snowball", "snowball", "cut: 2.5, ball: a, corners: b", "4 x 4", "at most 2"},
		{"split_star", "split_star", "points: 3, lit: a, shaded: b, ground: b", "12 x 12", "at least 4 points"},
		{"split_star", "split_star", "points: 17, lit: a, shaded: b, ground: b", "12 x 12", "more than 16 points"},
		{"split_star", "split_star", "depth: 0.7, lit: a, shaded: b, ground: b", "12 x 12", "the depth is between"},
		{"twisted_log_cabin", "twisted_log_cabin", "rounds: 0, heart: a, first: a, second: b", "8 x 8", "at least one round"},
		{"twisted_log_cabin", "twisted_log_cabin", "rounds: 5, heart: a, first: a, second: b", "8 x 8", "more than 4 rounds"},
		{"twisted_log_cabin", "twisted_log_cabin", "twist: 0.6, heart: a, first: a, second: b", "8 x 8", "the twist lies between"},
		{"pine_tree", "pine_tree", "tiers: 0, tree: a, trunk: a, sky: b", "6 x 8", "at least one tier"},
		{"pine_tree", "pine_tree", "tiers: 7, tree: a, trunk: a, sky: b", "6 x 8", "more than 6 tiers"},
		{"string_block", "string_block", "strings: 4, first: a, second: b", "4 x 4", "an odd number"},
		{"string_block", "string_block", "strings: 15, first: a, second: b", "4 x 4", "more than 13 strings"},
		{"fan_of_rays", "fan_of_rays", "radius: 8, hub: a, first: b, second: a", "8 x 8", "between 0 and the size"},
	} {
		src := &problem.Source{Name: "test", Text: "use " + c.unit + " from \"std/" + c.family + "\"\n" + fabrics +
			"block t " + c.size + " finished 6in { place " + c.unit + "(" + c.args + ") at sw }\n"}
		_, problems := compiler.Compile(src, shipped{})
		said := false
		for _, q := range problems {
			said = said || q.Severity == problem.Error && strings.Contains(q.Message, c.says)
		}
		if !said {
			t.Errorf("%s(%s): wanted %q, got %v", c.unit, c.args, c.says, problems)
		}
	}
}
