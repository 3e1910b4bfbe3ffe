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
	var needs [][2]int // fabric, its first row
	for i := 0; i < len(c.Rows); {
		needs = append(needs, [2]int{c.Rows[i].Fabric, i})
		_, i = c.needs(i, 1)
	}
	nameless := false
	for _, of := range needs {
		var own []cutting.Scrap
		for _, s := range all {
			nameless = nameless || s.Fabric == pattern.NoFabric
			if s.Fabric == of[0] {
				own = append(own, cutting.Scrap{Size: s.Size})
			}
		}
		if len(own) > 0 {
			blocks, perhaps := w.served(c, [][2]int{of}, own)
			words := escaped(w.p.Fabrics[of[0]].Words)
			line := w.said.Say("scrap_blocks_none", "fabric", words)
			if blocks > 0 {
				line = w.said.Count("scrap_blocks", blocks, "fabric", words)
			}
			w.text("- ").text(line).text(perhaps).text("\n")
		}
	}
	if !nameless {
		return
	}
	var every []cutting.Scrap
	for _, s := range all {
		of := slices.IndexFunc(needs, func(of [2]int) bool { return of[0] == s.Fabric })
		switch {
		case s.Fabric == pattern.NoFabric:
			every = append(every, cutting.Scrap{Size: s.Size, Of: cutting.Any})
		case of >= 0:
			every = append(every, cutting.Scrap{Size: s.Size, Of: of})
		}
	}
	blocks, perhaps := w.served(c, needs, every)
	line := w.said.Say("scrap_all_none")
	if blocks > 0 {
		line = w.said.Count("scrap_all", blocks)
	}
	w.text("- ").text(line).text(perhaps).text("\n")
}

// served returns for how many blocks scraps serve all the spaces of some fabrics, and
// what is said where they may serve for more. What serves for a number of blocks serves
// for fewer, so that the last is found in steps that are first doubled, then halved.
func (w *writer) served(c *Cuts, of [][2]int, scraps []cutting.Scrap) (blocks int, perhaps string) {
	sure := true // of the least number that they do not serve
	for fewer, step, up := mostServed+1, 1, true; fewer-blocks > 1; {
		try := min(blocks+step, fewer-1)
		if !up {
			try = (blocks + fewer) / 2
		}
		needs := make([][]cutting.Need, len(of))
		for i := range of {
			needs[i], _ = c.needs(of[i][1], try)
		}
		serve, proved := cutting.Serve(needs, scraps, w.p.Settings.PatchStep(true))
		if serve {
			blocks, step = try, 2*step
		} else {
			fewer, sure, up = try, proved, false
		}
	}
	if !sure {
		perhaps = " " + w.said.Say("scrap_perhaps")
	}
	return blocks, perhaps
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
