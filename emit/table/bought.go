package table

import (
	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

// A Bought is what is asked for of one fabric in a shop, in words.
type Bought struct {
	Fabric int // index into Pattern.Fabrics
	Words  string
}

// Bought lists the cloth to buy that the cutting table tells of, for records: in
// words that stay the same in every language; none where the pattern reckons none.
func (c *Cuts) Bought(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []Bought {
	own := func(l pattern.Length) string {
		if p.Settings.Metric {
			return l.Cm()
		}
		return l.In(8)
	}
	var all []Bought
	for _, cloth := range c.Cloth(p, b, s) {
		words := ""
		switch {
		case cloth.TooBig:
			words = "wider cloth"
		case cloth.Scrap.W > 0:
			words = "a scrap of " + own(cloth.Scrap.H) + " x " + own(cloth.Scrap.W)
		case p.Settings.Metric:
			words = cloth.Buy.Cm()
		default:
			words = cutting.Yards(cloth.Buy)
		}
		all = append(all, Bought{cloth.Fabric, words})
	}
	return all
}
