package compiler_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"seamwright/compiler"
	"seamwright/lang/problem"
)

// A pattern measured in the other system is the one that its text would give if it
// said so, and the one it comes from stays as it was. Back again it is itself.
func TestMeasured(t *testing.T) {
	const text = `pattern "Wave" { METRIC edition 1 }
fabric sea "sea" dark #25525e
fabric sky "sky" light #dfeaf0
block wave 4 x 4 finished 6in, 15cm {
  section A {
    1 sea at (1, 1)
    2 sky along (0, 3) -- (3, 0)
  }
}
quilt "Swell" { blocks wave, 2 x 2, 6in border 3in of sea }
`
	read := func(metric string) string { return strings.ReplaceAll(text, "METRIC", metric) }
	for _, c := range []struct{ from, to string }{{"", "metric yes"}, {"metric yes", ""}} {
		p, ps := compiler.Compile(&problem.Source{Name: "wave.seam", Text: read(c.from)}, nil)
		again, _ := compiler.Compile(&problem.Source{Name: "wave.seam", Text: read(c.from)}, nil)
		want, _ := compiler.Compile(&problem.Source{Name: "wave.seam", Text: read(c.to)}, nil)
		if p == nil || want == nil {
			t.Fatal(ps)
		}
		got := compiler.Measured(p, c.to != "")
		skipPlaces := cmp.FilterPath(func(p cmp.Path) bool {
			return strings.Contains(p.String(), "Source") || strings.HasSuffix(p.String(), ".At")
		}, cmp.Ignore())
		if diff := cmp.Diff(want.Blocks, got.Blocks, skipPlaces); diff != "" {
			t.Errorf("%q to %q (-want +got):\n%s", c.from, c.to, diff)
		}
		if diff := cmp.Diff(want.Settings, got.Settings, skipPlaces); diff != "" {
			t.Errorf("%q to %q (-want +got):\n%s", c.from, c.to, diff)
		}
		if p.Blocks[0].Sizes[0].Drawings[0].Pieces[0].Patch == got.Blocks[0].Sizes[0].Drawings[0].Pieces[0].Patch {
			t.Error("no patch is rounded otherwise")
		}
		if diff := cmp.Diff(again.Blocks, p.Blocks); diff != "" {
			t.Errorf("the pattern was changed:\n%s", diff)
		}
		if compiler.Measured(p, p.Settings.Metric) != p {
			t.Error("it is made anew for its own system")
		}
	}
}
