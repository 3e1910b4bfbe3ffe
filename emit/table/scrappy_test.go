package table

import (
	"testing"

	"seamwright/compiler/pattern"
)

// One block of four turned quarters, each of seven different fabrics at its
// scrappiest, takes 28, or as few as 2 (common practice, no source).
func TestPublishedVariety(t *testing.T) {
	p := &pattern.Pattern{}
	quarter := pattern.Drawing{Name: "A", Make: 4}
	for i := range 7 {
		p.Fabrics = append(p.Fabrics, pattern.Fabric{Value: [2]string{"light", "dark"}[i%2], Scrappy: "unit"})
		quarter.Pieces = append(quarter.Pieces, pattern.Piece{Number: i + 1, Fabric: i})
	}
	s := &pattern.Sized{Drawings: []pattern.Drawing{quarter},
		Copies: []pattern.Copy{{Of: "quarter 1"}, {Of: "quarter 2"}, {Of: "quarter 3"}, {Of: "quarter 4"}}}
	for scrappy, most := range map[string]int{"unit": 28, "section": 28, "piece": 28, "block": 7, "": 7} {
		for i := range p.Fabrics {
			p.Fabrics[i].Scrappy = scrappy
		}
		if v := Different(p, s); v.Most != most || v.Least != 2 {
			t.Errorf("by %q: %d at most, %d at least", scrappy, v.Most, v.Least)
		}
	}
}
