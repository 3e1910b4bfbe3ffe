package table

import (
	"slices"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

// mostServed is the number of blocks beyond which scraps are not counted on.
const mostServed = 99

// scraps writes which spaces the author's scraps serve, and for how many blocks.
func (w *writer) scraps(c *Cuts) {
	all := w.p.Settings.Buying.Scraps
	if len(all) == 0 {
		return
	}
	w.text("\n## From scraps\n\n")
	for _, s := range all {
		w.text("- ").own(s.Size.W).text(" x ").own(s.Size.H)
		if s.Fabric != pattern.NoFabric {
			w.text(" of ").author(w.p.Fabrics[s.Fabric].Words)
		}
		var spaces []Space
		for i := range c.Rows {
			r := &c.Rows[i]
			if (s.Fabric == pattern.NoFabric || s.Fabric == r.Fabric) && cutting.Fits(r.Size, s.Size) {
				spaces = append(spaces, r.Spaces...)
			}
		}
		if len(spaces) == 0 {
			w.text(" serves no space: it is smaller than every patch.\n")
			continue
		}
		w.text(" serves ")
		w.b = appendSpaces(w.b, w.s, spaces, "reversed")
		w.text("\n")
	}
	w.text("\n")
	for i := 0; i < len(c.Rows); {
		fabric, from := c.Rows[i].Fabric, i
		_, i = c.needs(i, 1)
		var own []pattern.Size
		for _, s := range all {
			if s.Fabric == fabric {
				own = append(own, s.Size)
			}
		}
		if len(own) == 0 {
			continue
		}
		blocks := 0
		for blocks < mostServed {
			needs, _ := c.needs(from, blocks+1)
			if !cutting.Serve(needs, own, w.p.Settings.PatchStep(true)) {
				break
			}
			blocks++
		}
		w.text("- All of ").author(w.p.Fabrics[fabric].Words).text(" for ")
		switch blocks {
		case 0:
			w.text("one block is more than these scraps give.\n")
		case 1:
			w.text("one block comes from these scraps.\n")
		default:
			w.count(blocks).text(" blocks comes from these scraps.\n")
		}
	}
	if !slices.ContainsFunc(all, func(s pattern.Scrap) bool { return s.Fabric != pattern.NoFabric }) {
		w.text("Say of which fabric a scrap is, and the blocks that it serves are counted.\n")
	}
}
