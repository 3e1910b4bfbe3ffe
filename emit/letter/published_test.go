package letter_test

import (
	"strings"
	"testing"

	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/edition"
	"seamwright/emit/letter"
	"seamwright/lang/problem"
)

// Ten strips cut 1 1/2 in, sewn with "a normal quarter inch", measured 10 1/8 in
// where they should measure 10 1/2: so 15 of a class of 18 (That pesky seam
// allowance, hqstitch.com). Computed: 3/8 in over nine joins are 1/24 in to a join,
// 1/48 to an allowance, which is told to the next 64th.
func TestThreeEighthsOverNineJoins(t *testing.T) {
	p, ps := compiler.Compile(&problem.Source{Name: "strips.seam", Text: `pattern "Strips" { edition 1 }
fabric lamp "lamp" light #f0dca0
fabric tide "tide" dark  #1f3440
block strips 10 x 6 finished 10in {
  for i in 0..9 { section { piece if odd(i) then lamp else tide at (i + 0.5, 3) } }
  for i in 1..9 { join (i, 0) -- (i, 6) }
}
`}, nil)
	if p == nil {
		t.Fatal(ps)
	}
	r, _ := emit.Record(p)
	a, err := letter.Write(letter.Letter{Size: 10, Rule: 6, RuleCm: 15 * pattern.Centimetre, Measures: [2]pattern.Length{10.125, 6.5}}, []*edition.Record{r}, p)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []string{"3/8 in short", "9 joins across", "1/64 in too much in each"} {
		if !strings.Contains(a.Reply, s) {
			t.Errorf("the reply does not say %q:\n%s", s, a.Reply)
		}
	}
}
