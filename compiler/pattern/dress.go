package pattern

import "slices"

// Dressed returns the pattern in one of its colorways: its fabrics have the
// words, the value and the color of the cloths that stand for them. It shares
// everything else with p. The index is that of [Pattern.Colorway].
func (p *Pattern) Dressed(colorway int) *Pattern {
	dressed := *p
	dressed.Fabrics = slices.Clone(p.Fabrics)
	for i, cloth := range p.Colorway[colorway].Dress {
		f := &dressed.Fabrics[i]
		f.Words, f.Value, f.Colour = cloth.Words, cloth.Value, cloth.Colour
	}
	return &dressed
}
