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

// Bought lists the cloth to buy that the cutting table tells of; none where the
// pattern reckons none.
func (c *Cuts) Bought(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []Bought {
	if p.Settings.Buying.Usable <= 0 {
		return nil
	}
	var all []Bought
	n := blocks(p, b, s)
	for i := 0; i < len(c.Rows); {
		fabric := c.Rows[i].Fabric
		var needs []cutting.Need
		needs, i = c.needs(i, n)
		w := &writer{p: p, s: s, metric: p.Settings.Metric}
		switch cloth := cutting.Buy(needs, nil, &p.Settings); {
		case cloth.TooBig:
			w.text("wider cloth")
		case cloth.Scrap.W > 0:
			w.text("a scrap of ").own(cloth.Scrap.H).text(" x ").own(cloth.Scrap.W)
		default:
			w.amount(cloth.Buy)
		}
		all = append(all, Bought{fabric, string(w.b)})
	}
	return all
}
