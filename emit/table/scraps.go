package table

import (
	"slices"
	"strconv"

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
		cuts := ""
		for i := range c.Rows {
			r := &c.Rows[i]
			if (s.Fabric != pattern.NoFabric && s.Fabric != r.Fabric) || !cutting.Fits(r.Size, s.Size) {
				continue
			}
			if gives := w.gives(r, s.Size); cuts == "" {
				cuts = gives
			} else {
				cuts = w.said.Say("scrap_or", "a", cuts, "b", gives)
			}
		}
		if cuts == "" {
			w.text("- ").say("scrap_none", "scrap", scrap).text("\n")
			continue
		}
		w.text("- ").say("scrap_gives", "scrap", scrap, "cuts", cuts).text("\n")
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

// gives says how many patches of a row a scrap gives, and for how many of its spaces.
func (w *writer) gives(r *Row, scrap pattern.Size) string {
	straight, reversed := r.Cloth()
	n := cutting.Gives(r.Size, scrap, straight+reversed)
	all := r.Patches + r.Reversed
	fill := []string{"n", strconv.Itoa(n), "size", w.local(Size(r.Size, w.metric)), "served", strconv.Itoa(n * r.Shape.Yield()),
		"all", strconv.Itoa(all), "spaces", SpaceList(w.s, r.Spaces, w.said.Say("reversed"))}
	if n == straight+reversed {
		return w.said.Say("scrap_cut_all", fill...)
	}
	return w.said.Say("scrap_cut", fill...)
}
