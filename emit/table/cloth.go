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

// A Purchase is what is bought of one fabric, and how that was reckoned.
type Purchase struct {
	Fabric int    // index into Pattern.Fabrics
	Words  string // "1/4 yd.", in a sentence
	Sum    []string
}

// Buying tells how cloth to buy is reckoned, and what is bought of each fabric.
// Without a width of cloth, or without patches, there is nothing to tell.
func (c *Cuts) Buying(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) (how string, all []Purchase) {
	set := &p.Settings
	if set.Buying.Usable <= 0 || len(c.Rows) == 0 {
		return "", nil
	}
	w := writer{p: p, s: s, metric: set.Metric}
	n := blocks(p, b, s)
	w.text("For ")
	if n == 1 {
		w.text("one block")
	} else {
		w.text("the ").number(n).text(" blocks of the quilt, without what is set between and around them")
	}
	w.text(". Strips are cut across the cloth, of which ").own(set.Buying.Usable).
		text(" are usable between the selvages; what is bought is rounded up to the next ")
	if w.metric {
		w.text("10 cm.")
	} else {
		w.text("1/8 yd.")
	}
	how = w.take()
	for i := 0; i < len(c.Rows); {
		bought := Purchase{Fabric: c.Rows[i].Fabric}
		var needs []cutting.Need
		needs, i = c.needs(i, n)
		w.bought(&bought, cutting.Buy(needs, nil, set))
		w.instead(&bought, needs)
		all = append(all, bought)
	}
	return how, all
}

// take returns what was written and begins anew.
func (w *writer) take() string {
	s := string(w.b)
	w.b = w.b[:0]
	return s
}

// cloth writes what is bought of each fabric, and how that was reckoned.
func (w *writer) cloth(c *Cuts, b *pattern.Block) {
	how, all := c.Buying(w.p, b, w.s)
	if how == "" {
		return
	}
	w.text("\n## Cloth to buy\n\n").text(how).text("\n\n")
	for i := range all {
		f := &w.p.Fabrics[all[i].Fabric]
		w.text("- **").author(f.Words).text("** (").author(f.Value).text("): ").text(all[i].Words).text("\n")
		for _, line := range all[i].Sum {
			w.text("  - ").text(line).text("\n")
		}
	}
}

// instead tells how many other cloths serve, without the long strips of a quilt.
func (w *writer) instead(b *Purchase, needs []cutting.Need) {
	for _, from := range w.p.Settings.Buying.From {
		shrunk := pattern.Length(1 + w.p.Settings.Buying.Shrinkage/100)
		if n, ok := cutting.Pieces(needs, pattern.Size{W: from.W / shrunk, H: from.H / shrunk}); ok && n > 0 {
			b.Sum = append(b.Sum, w.text("Or from cloths of ").own(from.W).text(" x ").own(from.H).text(": ").count(n).take())
		}
	}
}

// bought words one cloth.
func (w *writer) bought(b *Purchase, c cutting.Cloth) {
	if c.TooBig {
		b.Words = "a patch is larger than the cloth is wide; choose wider cloth, or cut that patch along its length."
		return
	}
	if c.Scrap.W > 0 {
		b.Words = w.text("a scrap of at least ").own(c.Scrap.H).text(" x ").own(c.Scrap.W).text(" will do.").take()
		return
	}
	w.amount(c.Buy).text(".")
	if c.Mixed {
		w.text(" Some strips hold two sizes, which saves a step.")
	}
	b.Words = w.take()
	for i := range c.Strips {
		b.Sum = append(b.Sum, w.strip(&c.Strips[i]).take())
	}
	b.Sum = append(b.Sum, w.sum(&c).take())
}

// amount writes what is asked for in a shop.
func (w *writer) amount(l pattern.Length) *writer {
	if w.metric {
		return w.text(l.Cm())
	}
	return w.text(cutting.Yards(l))
}

func (w *writer) strip(s *cutting.Strip) *writer {
	what := ") strip"
	if s.Whole {
		what = ") length"
	}
	w.text("(").number(s.Times).text(what)
	if s.Times > 1 {
		w.text("s")
	}
	w.text(" of ").own(s.Height).text(", for ").text(s.For)
	for i, n := range s.Cuts {
		if i > 0 {
			w.text(" and ")
		}
		w.count(n.Count).text(" ").text(Size(n.Size, w.metric))
	}
	return w
}

// sum writes the sum, part by part.
func (w *writer) sum(c *cutting.Cloth) *writer {
	buying := &w.p.Settings.Buying
	w.text("Sum: ").own(c.Inches).text(" of strips")
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
	return w
}
