package compiler_test

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/compiler/rules"
	"seamwright/emit"
	"seamwright/emit/testsew"
	"seamwright/lang/problem"
)

// folder loads what stands beside the examples.
type folder struct{}

func (folder) Load(_ *problem.Source, path string) (*problem.Source, string) {
	for _, name := range []string{"../examples/" + path + ".seam", "../lang/families/" + filepath.Base(path) + ".seam"} {
		if text, err := os.ReadFile(name); err == nil {
			return &problem.Source{Name: name, Text: string(text)}, ""
		}
	}
	return nil, "there is no such file"
}

// layersOf returns how many layers the rule counts, by block, at its smallest size.
func layersOf(t *testing.T, p *pattern.Pattern) map[string]int {
	t.Helper()
	p.Settings.Limits = append(p.Settings.Limits, pattern.Limit{Name: "layers_note", Unit: pattern.Count, Value: 1})
	layers := map[string]int{}
	for _, f := range rules.Check(p) {
		if f.Code != "R117" {
			continue
		}
		n, err := strconv.Atoi(regexp.MustCompile(`^\d+`).FindString(f.Message))
		if err != nil {
			t.Fatal(f.Message)
		}
		layers[f.Block] = n
	}
	return layers
}

// Four squares at a point, worked out with squares of paper: rows that nest and the
// long join to a side are 7 layers thick, 3 and 3 of the row above that is folded
// over on itself and 1 of the row below.
func TestLayersOfAFourPatch(t *testing.T) {
	p, ps := compile(`fabric sail "sail" light #f3ecdd
fabric sea "sea" dark #25525e
block four 4 x 4 finished 4in {
  section { 1 sail at (1, 3) }
  section { 1 sea at (3, 3) }
  section { 1 sea at (1, 1) }
  section { 1 sail at (3, 1) }
  join n -- c
  join s -- c
  join w -- e
}
`)
	if p == nil {
		t.Fatal(ps)
	}
	if got := layersOf(t, p); got["four"] != 7 {
		t.Errorf("%v layers, want 7", got)
	}
}

// Test sewing, which lays every patch and folds it, counts all over the block, at
// points 1/32 in apart. The rule counts only where seams meet: never more than that,
// and in these blocks the same.
func TestLayersAsTestSewn(t *testing.T) {
	same, all := 0, 0
	for _, name := range []string{"flag_hoist", "flood_tide", "guiding_star", "harbour_beacon", "harbour_compass", "homing_geese", "pole_star", "striped_light"} {
		name = "../examples/" + name + ".seam"
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, ps := compiler.Compile(&problem.Source{Name: name, Text: string(text)}, folder{})
		if p == nil {
			t.Fatal(ps)
		}
		outputs, _ := emit.Build(p, emit.Options{Only: []string{"sheets", "tables", "json"}, Forms: []string{"svg"}})
		var files []testsew.File
		for _, o := range outputs {
			files = append(files, testsew.File{Path: o.Path, Data: o.Data})
		}
		report, err := testsew.Sew(files)
		if err != nil {
			t.Fatal(name, err)
		}
		counted := layersOf(t, p)
		for i := range p.Blocks {
			n, ok := counted[p.Blocks[i].Name]
			least := p.Blocks[i].Sizes[0].Finished.W
			for _, s := range p.Blocks[i].Sizes {
				least = min(least, s.Finished.W)
			}
			for _, b := range report.Blocks {
				if !ok || b.Title != p.Blocks[i].Title || math.Abs(b.Finished[0]-float64(least)) > 0.01 || len(b.Thickest) == 0 {
					continue
				}
				most := b.Thickest[0].Layers
				if n > most {
					t.Errorf("%s: %s has %d layers, sewn %d", filepath.Base(name), b.Title, n, most)
				}
				if all++; n == most {
					same++
				}
			}
		}
	}
	if all < 8 || same < all {
		t.Errorf("of %d blocks %d have as many layers as when they are sewn", all, same)
	}
}
