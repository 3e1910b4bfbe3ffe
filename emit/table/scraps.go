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
	w.text("\n## ").say("scraps").text("\n\n")
	for _, s := range all {
		scrap := w.said.Say("scrap", "size", w.byOwn(s.Size))
		if s.Fabric != pattern.NoFabric {
			scrap = w.said.Say("scrap_of", "size", w.byOwn(s.Size), "fabric", escaped(w.p.Fabrics[s.Fabric].Words))
		}
		var spaces []Space
		for i := range c.Rows {
			r := &c.Rows[i]
			if (s.Fabric == pattern.NoFabric || s.Fabric == r.Fabric) && cutting.Fits(r.Size, s.Size) {
				spaces = append(spaces, r.Spaces...)
			}
		}
		if len(spaces) == 0 {
			w.text("- ").say("scrap_none", "scrap", scrap).text("\n")
			continue
		}
		w.text("- ").say("scrap_serves", "scrap", scrap, "spaces", SpaceList(w.s, spaces, w.said.Say("reversed"))).text("\n")
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
		words := escaped(w.p.Fabrics[fabric].Words)
		if blocks == 0 {
			w.text("- ").say("scrap_blocks_none", "fabric", words).text("\n")
		} else {
			w.text("- ").text(w.said.Count("scrap_blocks", blocks, "fabric", words)).text("\n")
		}
	}
	if !slices.ContainsFunc(all, func(s pattern.Scrap) bool { return s.Fabric != pattern.NoFabric }) {
		w.say("scrap_name").text("\n")
	}
}
