package table

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

// Squares returns how many squares or rectangles are cut for the patches of a cut.
func Squares(c *pattern.Cut) int { return cloths(c.Count, c.Shape.Yield()) }

// RunWords tells in the words of a catalogue how wide the strips of a run are cut,
// and in which lengths.
func RunWords(p *pattern.Pattern, r *pattern.Run, said *words.Catalogue) (width, lengths string) {
	w := newWriter(p, nil, said)
	width = w.inOwn(r.Height)
	switch {
	case r.Lengthy:
		return said.Say("setting_whole"), said.Say("setting_beside", "n", strconv.Itoa(len(r.Lengths)), "length", width)
	case r.Bias:
		width = said.Say("setting_bias", "width", width)
	}
	for i := 0; i < len(r.Lengths); {
		n := 1
		for i+n < len(r.Lengths) && thousandths(r.Lengths[i+n]) == thousandths(r.Lengths[i]) {
			n++
		}
		if i > 0 {
			lengths += ", "
		}
		lengths += said.Say("setting_of", "n", strconv.Itoa(n), "length", w.inOwn(r.Lengths[i]))
		i += n
	}
	if r.Loose {
		lengths = said.Say("setting_loose", "lengths", lengths)
	}
	return width, lengths
}

// QuiltBuying tells in the words of a catalogue how the cloth of a whole quilt is
// reckoned, and what is bought of each cloth of a colorway, in their order; its
// Fabric is not used. Nothing where the pattern reckons none.
func QuiltBuying(p *pattern.Pattern, cloth []Cloth, said *words.Catalogue) (how string, all []Purchase) {
	if p.Settings.Buying.Usable <= 0 || len(cloth) == 0 {
		return "", nil
	}
	w := newWriter(p, nil, said)
	for i := range cloth {
		all = append(all, w.bought(cloth[i].Bought, cloth[i].Needs, cloth[i].Runs))
	}
	return said.Say("cloth_quilt", "usable", w.inOwn(p.Settings.Buying.Usable)), all
}
