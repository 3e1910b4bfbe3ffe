package compiler_test

import (
	"fmt"
	"testing"

	"seamwright/compiler/pattern"
)

// Repeats that are alike when they are turned are one drawing, made so many times,
// whatever lies between them.
func TestRepeatsAreOneDrawing(t *testing.T) {
	const fabrics = "fabric sky light #dfeaf0\nfabric sea dark #25525e\nfabric sand medium #a08060\n"
	for _, c := range []struct {
		name, text string
		makes      []int
	}{
		{"four about one that is not the same on all sides", `block b 4 x 4 finished 8in {
  join (1, 0) -- (1, 4), (3, 0) -- (3, 4)
  join (0, 1) -- (4, 1), (0, 3) -- (4, 3)
  section { 1 sky at c; 2 sea along (1, 1.5) -- (1.5, 1); 3 sea along (2.5, 1) -- (3, 1.5); 4 sea along (3, 2.5) -- (2.5, 3); 5 sea along (1.5, 3) -- (1, 2.5) }
  for p in (0.5, 0.5), (3.5, 0.5), (0.5, 3.5), (3.5, 3.5) { section { 1 sky at p } }
  for p in w, e { section { 1 sand at (if p.x < 2 then 0.25 else 3.75, 2); 2 sea along (if p.x < 2 then 0.5 else 3.5, 1) -- (if p.x < 2 then 0.5 else 3.5, 3) } }
  for p in s, n { section { 1 sand at (2, if p.y < 2 then 0.25 else 3.75); 2 sea along (1, if p.y < 2 then 0.5 else 3.5) -- (3, if p.y < 2 then 0.5 else 3.5) } }
}
`, []int{1, 4, 4}},
		{"a drawing divided so that its sides are turned copies", `block b 8 x 8 finished 6in {
  line (2, 0) -- (0, 6), (2, 8) -- (0, 2), (6, 0) -- (8, 6), (6, 8) -- (8, 2)
  piece sea  at c
  piece sky  at (1, 1), (7, 1), (1, 7), (7, 7)
  piece sand at (0.2, 4), (7.8, 4)
}
`, []int{2, 1}},
		{"the same, where the middle gets too large", `block b 8 x 8 finished 8in {
  line (2, 0) -- (0, 6), (2, 8) -- (0, 2), (6, 0) -- (8, 6), (6, 8) -- (8, 2)
  piece sea  at c
  piece sky  at (1, 1), (7, 1), (1, 7), (7, 7)
  piece sand at (0.2, 4), (7.8, 4)
}
`, []int{2, 1, 2}},
	} {
		p, ps := pieced(fabrics + c.text)
		if p == nil {
			t.Errorf("%s: %s", c.name, show(ps))
			continue
		}
		var got []int
		for _, d := range p.Blocks[0].Sizes[0].Drawings {
			got = append(got, d.Make)
		}
		if fmt.Sprint(got) != fmt.Sprint(c.makes) {
			t.Errorf("%s: %v, want %v: %s", c.name, got, c.makes, labels(p))
		}
	}
}

func labels(p *pattern.Pattern) (out string) {
	for _, d := range p.Blocks[0].Sizes[0].Drawings {
		out += fmt.Sprint(d.Name, " of ", len(d.Pieces), ", ")
	}
	return out
}
