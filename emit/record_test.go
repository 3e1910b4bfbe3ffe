package emit_test

import (
	"bytes"
	"fmt"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit"
)

// What a maker's letter says of a sheet leads to the edition only if the marks that
// are recorded are those that are printed: in every language, on every paper, and of
// the blocks that are made because a quilt has one reversed.
func TestMarksAreRecordedAsPrinted(t *testing.T) {
	for language, word := range map[string]string{"en": "mark", "de": "Kennung"} {
		p, _ := compiled(t, cloths+fmt.Sprintf(`pattern "Pier" {
  language %s
}
block pier 4 x 4 finished 4in, 6in {
  section { 1 hull at (2, 2); 2 sky along (1, 0) -- (2, 4) }
}
quilt "Two" {
  row pier, pier reversed
}
`, language))
		record, ps := emit.Record(p)
		if record == nil {
			t.Fatal(ps)
		}
		seen := 0
		for _, paper := range []string{"letter", "a4"} {
			sheet, _ := pattern.SheetNamed(paper)
			printed, ps := emit.Build(p, emit.Options{Sheet: &sheet, Only: []string{"sheets"}, Forms: []string{"svg"}})
			if len(printed) == 0 {
				t.Fatal(ps)
			}
			for _, b := range record.Blocks {
				for _, s := range b.Sizes {
					for _, m := range s.Marks {
						if m.Name != paper {
							continue
						}
						found := 0
						for _, o := range printed {
							found += bytes.Count(o.Data, []byte("<desc>"+word+" "+m.Text+"</desc>"))
						}
						if seen++; found != 1 {
							t.Errorf("%s, %s at %s on %s: the mark %s is printed on %d sheets", language, b.Name, s.Name, paper, m.Text, found)
						}
					}
				}
			}
		}
		if seen != 6 { // two sizes and one that is reversed, on two papers
			t.Errorf("%s: %d marks are recorded", language, seen)
		}
	}
}
