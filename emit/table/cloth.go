package table

import (
	"slices"
	"strconv"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
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

// A FabricCloth is what one fabric of a block takes.
type FabricCloth struct {
	Fabric int // index into Pattern.Fabrics
	Needs  []cutting.Need
	cutting.Cloth
}

// A reckoning is all that the cloth of the same patches depends on.
type reckoning struct {
	blocks             int
	metric             bool
	usable, straighten pattern.Length
	shrinkage          float64
	spare              int
}

// Cloth reckons what is bought of each fabric, in the order of the rows, for one
// block or for those of the quilt that is made of it alone; nothing where the
// pattern reckons none. It is kept: tables, booklet and report ask for it.
func (c *Cuts) Cloth(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []FabricCloth {
	if p.Settings.Buying.Usable <= 0 {
		return nil
	}
	c.reckon.Lock()
	defer c.reckon.Unlock()
	buying := &p.Settings.Buying
	by := reckoning{blocks(p, b, s), p.Settings.Metric, buying.Usable, buying.Straighten, buying.Shrinkage, buying.Spare}
	if c.by == by {
		return c.cloth
	}
	c.by, c.cloth = by, nil
	for i := 0; i < len(c.Rows); {
		f := FabricCloth{Fabric: c.Rows[i].Fabric}
		f.Needs, i = c.needs(i, by.blocks)
		f.Cloth = cutting.Proved(f.Needs, nil, &p.Settings)
		c.cloth = append(c.cloth, f)
	}
	return c.cloth
}

// A Purchase is what is bought of one fabric, and how that was reckoned.
type Purchase struct {
	Fabric int      // index into Pattern.Fabrics
	Words  string   // "1/4 yd"
	Note   string   // to it; "" for none
	Sum    []string // the strips, and how they add up
	Left   string   // how much of them is left over; "" where nothing is told
	From   []string // what else serves
}

// Lines are all that is told of a cloth beside what is bought.
func (b *Purchase) Lines() []string {
	all := slices.Clone(b.Sum)
	if b.Left != "" {
		all = append(all, b.Left)
	}
	return append(all, b.From...)
}

// Buying tells in the words of a catalogue how cloth to buy is reckoned, and what
// is bought of each fabric. Without a width of cloth, or without patches, there is
// nothing to tell.
func (c *Cuts) Buying(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, said *words.Catalogue) (how string, all []Purchase) {
	set := &p.Settings
	if set.Buying.Usable <= 0 || len(c.Rows) == 0 {
		return "", nil
	}
	w := newWriter(p, s, said)
	n := blocks(p, b, s)
	step := "1/8 yd"
	if w.metric {
		step = "10 cm"
	}
	how = said.Count("cloth_for", n) + " " + said.Say("cloth_width", "usable", w.inOwn(set.Buying.Usable), "step", step)
	cloth := c.Cloth(p, b, s)
	for i := range cloth {
		bought := w.bought(cloth[i].Cloth, cloth[i].Needs, nil)
		bought.Fabric = cloth[i].Fabric
		all = append(all, bought)
	}
	return how, all
}

// cloth writes what is bought of each fabric, and how that was reckoned.
func (w *writer) cloth(c *Cuts, b *pattern.Block) {
	how, all := c.Buying(w.p, b, w.s, w.said)
	if how == "" {
		return
	}
	w.text("\n## ").say("cloth_to_buy").text("\n\n").text(how).text("\n\n")
	for i := range all {
		f := &w.p.Fabrics[all[i].Fabric]
		w.purchase(f.Words, f.Value, &all[i])
	}
	for i := range w.p.Colorway {
		if way := &w.p.Colorway[i]; way.Name != "" {
			w.colorway(c, b, way)
		}
	}
}

// colorway writes what is bought of each cloth of another colorway.
func (w *writer) colorway(c *Cuts, b *pattern.Block, way *pattern.Colorway) {
	w.text("\n## ").say("cloth_to_buy").text(": ").author(way.Words).text("\n\n")
	for _, d := range c.Dressed(w.p, b, w.s, way, w.said) {
		w.purchase(d.Dress.Words, d.Dress.Value, &d.Purchase)
	}
}

// A Dressed is what is bought of one cloth of a colorway.
type Dressed struct {
	Dress pattern.Cloth
	Purchase
}

// Dressed tells what is bought of each cloth of a colorway: fabrics that are dressed in
// an equal cloth are bought together. Of a cloth that takes a fabric's place alone, all
// but the amount is that of [Cuts.Buying].
func (c *Cuts) Dressed(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, way *pattern.Colorway, said *words.Catalogue) (all []Dressed) {
	w := newWriter(p, s, said)
	own := c.Cloth(p, b, s)
	told := make([]bool, len(own))
	for i := range own {
		if told[i] {
			continue
		}
		dress, fabrics, needs := way.Dress[own[i].Fabric], 0, []cutting.Need(nil)
		for k := i; k < len(own); k++ {
			if way.Dress[own[k].Fabric] == dress {
				told[k], fabrics = true, fabrics+1
				needs = together(needs, own[k].Needs)
			}
		}
		bought := Purchase{Words: w.bought(own[i].Cloth, nil, nil).Words}
		if fabrics > 1 {
			bought = w.bought(cutting.Proved(needs, nil, &p.Settings), needs, nil)
		}
		all = append(all, Dressed{dress, bought})
	}
	return all
}

// together adds needs to others, equal sizes in one.
func together(all, more []cutting.Need) []cutting.Need {
	all = slices.Clone(all)
	for _, n := range more {
		same := func(o cutting.Need) bool {
			return thousandths(o.Size.W) == thousandths(n.Size.W) && thousandths(o.Size.H) == thousandths(n.Size.H)
		}
		if k := slices.IndexFunc(all, same); k >= 0 {
			all[k].Count += n.Count
		} else {
			all = append(all, n)
		}
	}
	return all
}

// purchase writes what is bought of one cloth.
func (w *writer) purchase(cloth, value string, bought *Purchase) {
	w.text("- **").author(cloth).text("** (").value(value).text("): ").text(bought.Words)
	if bought.Note != "" {
		w.text("; ").text(bought.Note)
	}
	w.text("\n")
	for _, line := range bought.Lines() {
		w.text("  - ").text(line).text("\n")
	}
}

// bought words one cloth, of which patches are cut, and long strips.
func (w *writer) bought(c cutting.Cloth, needs []cutting.Need, runs []pattern.Run) (b Purchase) {
	switch {
	case c.TooBig:
		b.Words = w.said.Say("cloth_too_wide")
	case c.Scrap.W > 0:
		b.Words = w.said.Say("cloth_scrap", "size", w.byOwn(pattern.Size{W: c.Scrap.H, H: c.Scrap.W}))
	default:
		b.Words = w.amount(c.Buy)
		if c.Mixed {
			b.Note = w.said.Say("cloth_mixed")
		}
		for i := range c.Strips {
			b.Sum = append(b.Sum, w.strip(&c.Strips[i]))
		}
		b.Sum = append(b.Sum, w.sum(&c))
		b.Left = w.left(&c)
	}
	for _, from := range w.p.Settings.Buying.From {
		if text := w.instead(from, needs, runs); text != "" {
			b.From = append(b.From, text)
		}
	}
	return b
}

// left tells how much of the strips is left over, and how little any plan takes.
func (w *writer) left(c *cutting.Cloth) string {
	if c.Least == 0 || c.Inches == 0 {
		return ""
	}
	percent := strconv.Itoa(int(100*c.Waste + 0.5))
	if least := pattern.RoundUp(c.Least, w.p.Settings.PatchStep(true)); least < c.Inches-0.001 {
		return w.said.Say("cloth_left", "percent", percent, "least", w.inOwn(least))
	}
	return w.said.Say("cloth_left_least", "percent", percent)
}

// instead tells how many of another cloth serve: fat quarters, pre-cut strips or
// squares. Long strips are cut from yardage all the same.
func (w *writer) instead(from pattern.Size, needs []cutting.Need, runs []pattern.Run) string {
	if len(needs) == 0 {
		return ""
	}
	set := &w.p.Settings
	shrunk := pattern.Length(1 + set.Buying.Shrinkage/100)
	what := w.source(from)
	n, ok := cutting.Pieces(needs, pattern.Size{W: from.W / shrunk, H: from.H / shrunk})
	if !ok {
		return w.said.Say("cloth_from_none", "what", what)
	}
	if len(runs) == 0 {
		return w.said.Say("cloth_from", "what", what, "n", strconv.Itoa(n))
	}
	long := cutting.Buy(nil, runs, set)
	if long.TooBig {
		return ""
	}
	return w.said.Say("cloth_from_part", "what", what, "n", strconv.Itoa(n), "amount", w.amount(long.Buy))
}

// source names a cloth that may serve instead of yardage: by what it is called in
// shops, where it has a name, with its size.
func (w *writer) source(from pattern.Size) string {
	return w.said.Say(sourceKey(from), "size", w.byOwn(from))
}

// sourceKey tells the pre-cut cloths apart. Of cloth that is sold 42 to 45 in wide a
// fat quarter is 18 x 21 to 22, a fat eighth 9 x 21 to 22 (Fat quarters,
// allpeoplequilt.com, 2017; sew4home.com); strips are cut across the width, squares
// are as wide as high (4-H Quilt Quest fair book, extension.unl.edu).
func sourceKey(from pattern.Size) string {
	long, short := max(from.W, from.H), min(from.W, from.H)
	switch {
	case long-short < 0.01:
		return "source_squares"
	case long >= 20 && long <= 22.5 && short >= 17 && short <= 18.5:
		return "source_quarters"
	case long >= 20 && long <= 22.5 && short >= 8.5 && short <= 9.5:
		return "source_eighths"
	case long >= 36 && short <= 9:
		return "source_strips"
	}
	return "source_cloths"
}

// byOwn tells a size in the pattern's own system, both measures.
func (w *writer) byOwn(s pattern.Size) string { return w.inOwn(s.W) + " x " + w.inOwn(s.H) }

// amount tells what is asked for in a shop.
func (w *writer) amount(l pattern.Length) string {
	if w.metric {
		return w.local(l.Cm())
	}
	return cutting.Yards(l)
}

// strip tells how many of a strip, and what is cut from it.
func (w *writer) strip(s *cutting.Strip) string {
	what := Part(w.said, s.For)
	for i, n := range s.Cuts {
		one := w.patches(n)
		if i == 0 && what == "" {
			what = one
		} else {
			what = w.said.Say("cloth_and", "a", what, "b", one)
		}
	}
	key := "cloth_strip"
	if s.Whole {
		key = "cloth_length"
	}
	return w.said.Count(key, s.Times, "height", w.inOwn(s.Height), "what", what)
}

// patches tells a count and a size: "(6) squares of 3 3/4 in".
func (w *writer) patches(n cutting.Need) string {
	size := w.local(Size(n.Size, w.metric))
	if thousandths(n.Size.W) == thousandths(n.Size.H) {
		return w.said.Count("cloth_squares", n.Count, "size", size)
	}
	return w.said.Say("cloth_patches", "n", strconv.Itoa(n.Count), "size", size)
}

// sum tells the sum, part by part.
func (w *writer) sum(c *cutting.Cloth) string {
	buying := &w.p.Settings.Buying
	sum := w.said.Say("cloth_sum", "strips", w.inSum(c.Inches))
	if c.Spare > 0 {
		sum += " " + w.said.Say("cloth_spare", "length", w.inOwn(c.Spare))
	}
	if buying.Straighten > 0 {
		sum += " " + w.said.Say("cloth_straighten", "length", w.inOwn(buying.Straighten))
	}
	if buying.Shrinkage > 0 {
		sum += w.said.Say("cloth_shrinks", "percent", w.local(strconv.FormatFloat(buying.Shrinkage, 'f', -1, 64)))
	}
	need := c.Need
	if buying.Shrinkage > 0 { // else the sum of what stands before it
		need = pattern.RoundUp(need, w.p.Settings.PatchStep(true))
	}
	sum += " = " + w.inSum(need)
	if !w.metric {
		sum += "; " + w.said.Say("cloth_yards", "yards", w.amount(c.Buy), "length", w.inOwn(c.Buy))
	}
	return sum
}

// inSum tells a sum of lengths in the pattern's own system.
func (w *writer) inSum(l pattern.Length) string {
	if w.metric {
		return w.local(l.CmSum())
	}
	return w.inOwn(l)
}
