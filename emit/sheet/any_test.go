package sheet

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/svg"
	"seamwright/lang/problem"
)

// Whatever the paper, the allowance, the words: sheets are laid or the problem
// is told; what is laid can be written and lies on the paper.
func TestAnySettings(t *testing.T) {
	sets := all(t)
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(sets).Draw(t, "block")
		p := *l.p
		inch := func(name string, lo, hi float64) length { return length(rapid.Float64Range(lo, hi).Draw(t, name)) }
		paper := pattern.Sheet{Name: "any", Paper: pattern.Size{W: inch("w", 1, 24), H: inch("h", 1, 24)}, Margin: inch("margin", 0, 2)}
		p.Settings.Allowance = inch("allowance", 0.01, 1)
		p.Settings.Extra = rapid.SampledFrom([]length{0, 0.1, 0.25, 1}).Draw(t, "extra")
		p.Settings.Tint = rapid.Bool().Draw(t, "tint")
		p.Title = rapid.String().Draw(t, "title")
		p.About.Rights = rapid.String().Draw(t, "rights")
		p.Fabrics = append([]pattern.Fabric(nil), p.Fabrics...)
		for i := range p.Fabrics {
			p.Fabrics[i].Words = rapid.String().Draw(t, "words")
		}
		set, problems := Lay(&p, &p.Blocks[0], l.sized, paper)
		if problem.Failed(problems) != (len(set.Sheets) == 0) {
			t.Fatalf("%d sheets, problems %v", len(set.Sheets), problems)
		}
		if alone := Check(&p, &p.Blocks[0], l.sized, paper); !reflect.DeepEqual(alone, problems) {
			t.Fatalf("checked alone it has the problems %v, not %v", alone, problems)
		}
		for i := range set.Sheets {
			page := &set.Sheets[i].Page
			if _, err := svg.Render(page); err != nil {
				t.Fatal(err)
			}
			strokes(page.Items, func(p *drawing.Path) {
				b := boxOf(p.Points).grown(p.Circle)
				if low := math.Min(float64(b.x0), float64(b.y0)); low < 0 || b.x1 > paper.Paper.W || b.y1 > paper.Paper.H {
					t.Fatalf("a path of style %d lies at %v", p.Style, b)
				}
			})
		}
	})
}
