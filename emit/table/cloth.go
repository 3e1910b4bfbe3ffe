package table

import (
	"strconv"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
)

// blocks returns for how many blocks cloth is bought: those of the one quilt that
// is made of this block alone, else one.
func blocks(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) int {
	if len(p.Quilts) != 1 {
		return 1
	}
	q := &p.Quilts[0]
	if q.Block != b.Name || q.Blocks == 0 || q.Finished > 0 && thousandths(q.Finished) != thousandths(s.Finished.W) {
		return 1
	}
	return q.Blocks
}

// needs collects the sizes of one fabric, from row i, for a number of blocks,
// and returns the next row.
func (c *Cuts) needs(i, blocks int) ([]cutting.Need, int) {
	var all []cutting.Need
	fabric := c.Rows[i].Fabric
	for ; i < len(c.Rows) && c.Rows[i].Fabric == fabric; i++ {
		r := &c.Rows[i]
		yield := r.Shape.Yield() // triangles of the next block come from the same square
		n := (r.Patches*blocks+yield-1)/yield + (r.Reversed*blocks+yield-1)/yield
		known := false
		for k := range all {
			if thousandths(all[k].Size.W) == thousandths(r.Size.W) && thousandths(all[k].Size.H) == thousandths(r.Size.H) {
				all[k].Count += n
				known = true
			}
		}
		if !known {
			all = append(all, cutting.Need{Size: r.Size, Count: n})
		}
	}
	return all, i
}

// cloth writes what is bought of each fabric, and how that was reckoned.
func (w *writer) cloth(c *Cuts, b *pattern.Block) {
	set := &w.p.Settings
	if set.Buying.Usable <= 0 || len(c.Rows) == 0 {
		return
	}
	n := blocks(w.p, b, w.s)
	w.text("\n## Cloth to buy\n\nFor ")
	if n == 1 {
		w.text("one block")
	} else {
		w.text("the ").number(n).text(" blocks of the quilt, without what is set between and around them")
	}
	w.text(". Strips are cut across the cloth, of which ").own(set.Buying.Usable).
		text(" are usable between the selvages; what is bought is rounded up to the next ")
	if w.metric {
		w.text("10 cm.\n\n")
	} else {
		w.text("1/8 yd.\n\n")
	}
	for i := 0; i < len(c.Rows); {
		f := &w.p.Fabrics[c.Rows[i].Fabric]
		w.text("- **").author(f.Words).text("** (").author(f.Value).text("): ")
		var needs []cutting.Need
		needs, i = c.needs(i, n)
		w.bought(cutting.Buy(needs, set))
	}
}

// bought writes one cloth.
func (w *writer) bought(c cutting.Cloth) {
	if c.TooBig {
		w.text("a patch is larger than the cloth is wide; choose wider cloth, or cut that patch along its length.\n")
		return
	}
	if c.Scrap.W > 0 {
		w.text("a scrap of at least ").own(c.Scrap.H).text(" x ").own(c.Scrap.W).text(" will do.\n")
		return
	}
	w.amount(c.Buy).text(".")
	if c.Mixed {
		w.text(" Some strips hold two sizes, which saves a step.")
	}
	w.text("\n")
	for i := range c.Strips {
		w.strip(&c.Strips[i])
	}
	w.sum(&c)
}

// amount writes what is asked for in a shop.
func (w *writer) amount(l pattern.Length) *writer {
	if w.metric {
		return w.text(l.Cm())
	}
	return w.text(cutting.Yards(l))
}

func (w *writer) strip(s *cutting.Strip) {
	w.text("  - (").number(s.Times).text(") strip")
	if s.Times > 1 {
		w.text("s")
	}
	w.text(" of ").own(s.Height).text(", for ")
	for i, n := range s.Cuts {
		if i > 0 {
			w.text(" and ")
		}
		w.count(n.Count).text(" ").text(Size(n.Size, w.metric))
	}
	w.text("\n")
}

// sum writes the sum, part by part.
func (w *writer) sum(c *cutting.Cloth) {
	buying := &w.p.Settings.Buying
	w.text("  - Sum: ").own(c.Inches).text(" of strips")
	if c.Spare > 0 {
		w.text(" + ").own(c.Spare).text(" to spare")
	}
	if buying.Straighten > 0 {
		w.text(" + ").own(buying.Straighten).text(" to straighten")
	}
	if buying.Shrinkage > 0 {
		w.text(", and ").text(strconv.FormatFloat(buying.Shrinkage, 'f', -1, 64)).text(" % that shrinks away")
	}
	w.text(" = ").own(pattern.RoundUp(c.Need, w.p.Settings.PatchStep(true)))
	if !w.metric {
		w.text("; ").amount(c.Buy).text(" is ").own(c.Buy)
	}
	w.text("\n")
}
