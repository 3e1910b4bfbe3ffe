package table

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/cutting"
	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
)

// A Counted is how often a block is made at one size: indices into Blocks and
// Sizes. Turned is how many of them are reversed.
type Counted struct {
	Block, Size, Count, Turned int
}

// Counts lists the blocks of a quilt, in the order of the pattern.
func Counts(p *pattern.Pattern, l *pattern.Layout) (all []Counted) {
	for b := range p.Blocks {
		for s := range p.Blocks[b].Sizes {
			c := Counted{Block: b, Size: s}
			for i := range l.Placed {
				if l.Placed[i].Block != b || l.Placed[i].Size != s {
					continue
				}
				c.Count++
				if l.Placed[i].Reversed {
					c.Turned++
				}
			}
			if c.Count > 0 {
				all = append(all, c)
			}
		}
	}
	return all
}

// A Cloth is what one cloth of a colorway is bought for.
type Cloth struct {
	Dress  pattern.Cloth
	Needs  []cutting.Need
	Runs   []pattern.Run
	Bought cutting.Cloth
}

// QuiltCloth reckons the cloth of a whole quilt, for every colorway: fabrics that
// are dressed in an equal cloth are bought together. None where the pattern reckons
// none. It takes the time of a small build, so it is asked for once.
func QuiltCloth(p *pattern.Pattern, l *pattern.Layout) [][]Cloth {
	all := make([][]Cloth, len(p.Colorway))
	if p.Settings.Buying.Usable <= 0 || l == nil {
		return all
	}
	var known []Cloth
	for i := range p.Colorway {
		all[i] = dressed(p, l, &p.Colorway[i])
		for k := range all[i] {
			c := &all[i][k]
			at := slices.IndexFunc(known, func(o Cloth) bool { return slices.Equal(o.Needs, c.Needs) && slices.EqualFunc(o.Runs, c.Runs, sameRun) })
			if at < 0 {
				at = len(known)
				c.Bought = cutting.Plan(c.Needs, c.Runs, &p.Settings)
				known = append(known, *c)
			}
			c.Bought = known[at].Bought
		}
	}
	return all
}

func sameRun(a, b pattern.Run) bool {
	return a.For == b.For && a.Height == b.Height && a.Bias == b.Bias && slices.Equal(a.Lengths, b.Lengths)
}

// dressed collects what is cut from each cloth of a colorway.
func dressed(p *pattern.Pattern, l *pattern.Layout, way *pattern.Colorway) []Cloth {
	var all []Cloth
	of := make([]int, len(p.Fabrics)) // cloth of each fabric
	for i := range p.Fabrics {
		of[i] = -1
		for k := range all {
			if all[k].Dress == way.Dress[i] {
				of[i] = k
			}
		}
		if of[i] < 0 {
			of[i] = len(all)
			all = append(all, Cloth{Dress: way.Dress[i]})
		}
	}
	add := func(fabric int, size pattern.Size, n int) {
		c := &all[of[fabric]]
		for k := range c.Needs {
			if thousandths(c.Needs[k].Size.W) == thousandths(size.W) && thousandths(c.Needs[k].Size.H) == thousandths(size.H) {
				c.Needs[k].Count += n
				return
			}
		}
		if n > 0 {
			c.Needs = append(c.Needs, cutting.Need{Size: size, Count: n})
		}
	}
	for _, n := range Counts(p, l) {
		rows := List(p, &p.Blocks[n.Block].Sizes[n.Size]).Rows
		for i := range rows {
			r := &rows[i]
			yield, straight := r.Shape.Yield(), n.Count-n.Turned // of a reversed block every patch is of the other hand
			add(r.Fabric, r.Size, cloths(r.Patches*straight+r.Reversed*n.Turned, yield)+cloths(r.Reversed*straight+r.Patches*n.Turned, yield))
		}
	}
	for i := range l.Cuts {
		c := &l.Cuts[i]
		add(c.Fabric, c.Size, cloths(c.Count, c.Shape.Yield()))
	}
	for i := range l.Runs {
		c := &all[of[l.Runs[i].Fabric]]
		c.Runs = append(c.Runs, l.Runs[i])
	}
	used := all[:0]
	for _, c := range all {
		if len(c.Needs)+len(c.Runs) > 0 {
			used = append(used, c)
		}
	}
	return used
}

// cloths is how many squares or rectangles give so many patches.
func cloths(patches, yield int) int { return (patches + yield - 1) / yield }

// QuiltMarkdown tells how a quilt is set, what is cut for it beside its blocks, and
// the cloth of the whole, for people to read and to print.
func QuiltMarkdown(p *pattern.Pattern, q *pattern.Quilt, cloth [][]Cloth, prints []Print, said *words.Catalogue) []byte {
	l := q.Layout
	w := newWriter(p, nil, said)
	w.text("# ").say("quilt", "title", escaped(q.Title)).text("\n\n")
	if size := w.measures(l.Size); q.Binding.Width > 0 {
		w.say("quilt_finishes_bound", "size", size)
	} else {
		w.say("quilt_finishes", "size", size)
	}
	w.text(" ").say("quilt_beside").text("\n\n## ").say("quilt_blocks").text("\n\n| ").say("count").text(" | ").say("quilt_block").
		text(" | ").say("quilt_size").text(" | ").say("quilt_raw").text(" |\n|---:|---|---|---|\n")
	turned := 0
	for _, c := range Counts(p, l) {
		b := &p.Blocks[c.Block]
		s := &b.Sizes[c.Size]
		w.text("| ").count(c.Count).text(" | ").author(b.Title).text(" | ").text(w.inBoth(s.Finished)).text(" | ").text(w.inBoth(unfinished(p, s))).text(" |\n")
		turned += c.Turned
	}
	if len(prints) == 0 {
		w.text("\n").say("quilt_print").text("\n")
	}
	if turned > 0 {
		w.text("\n").text(said.Count("quilt_turned", turned)).text("\n")
	}
	w.prints(prints)
	w.setting(l)
	w.joining(q)
	for i := range p.Colorway {
		w.quiltCloth(cloth[i], &p.Colorway[i])
	}
	w.text("\n").say("quilt_care").text("\n")
	return w.b
}

// A Print is a foundation sheet of a block that is printed so often for a whole quilt.
type Print struct {
	Folder       string // where it is written
	Sheet, Times int
}

// prints lists how often sheets are printed; those that follow each other and are
// printed alike stand together.
func (w *writer) prints(all []Print) {
	if len(all) == 0 {
		return
	}
	w.text("\n").say("quilt_sheets_all").text("\n\n| ").say("quilt_sheet_times").text(" | ").say("quilt_sheet").text(" | ").say("quilt_sheet_in").text(" |\n|---:|---|---|\n")
	total := 0
	for i := 0; i < len(all); {
		end := i
		for end+1 < len(all) && all[end+1].Folder == all[i].Folder && all[end+1].Times == all[i].Times {
			end++
		}
		total += (end - i + 1) * all[i].Times
		sheets := strconv.Itoa(all[i].Sheet)
		if end > i {
			sheets = w.said.Say("quilt_sheet_range", "from", sheets, "to", strconv.Itoa(all[end].Sheet))
		}
		w.text("| ").count(all[i].Times).text(" | ").text(sheets).text(" | ").author(all[i].Folder).text(" |\n")
		i = end + 1
	}
	w.text("\n").text(w.said.Count("quilt_sheets_sum", total)).text("\n")
}

// measures tells a size to the nearest eighth, for on point none lies on a ruler.
func (w *writer) measures(s pattern.Size) string { return w.byOwn(s) }

// Bordered reports whether a quilt has borders, which are cut to its measure.
func Bordered(l *pattern.Layout) bool {
	return slices.ContainsFunc(l.Runs, func(r pattern.Run) bool { return strings.HasPrefix(r.For, "border") })
}

// setting writes what is cut beside the blocks.
func (w *writer) setting(l *pattern.Layout) {
	if len(l.Cuts)+len(l.Runs) > 0 {
		w.text("\n## ").say("setting").text("\n\n").say("setting_exact").text("\n")
	}
	if len(l.Cuts) > 0 {
		w.text("\n| ").say("count").text(" | ").say("setting_for").text(" | ").say("fabric").text(" | ").say("cut_as").text(" | ").say("size").
			text(" | ").other().text(" |\n|---:|---|---|---|---|---|\n")
		for i := range l.Cuts {
			c := &l.Cuts[i]
			w.text("| ").count(Squares(c)).text(" | ").text(Part(w.said, c.For))
			if c.Shape.Yield() > 1 {
				w.text(" ").count(c.Count)
			}
			w.text(" | ").author(w.p.Fabrics[c.Fabric].Words).text(" | ").text(Shape(w.said, c.Shape, "")).text(" | ").cells(c.Size).text(" |\n")
		}
	}
	if len(l.Runs) > 0 {
		w.text("\n| ").say("setting_strips").text(" | ").say("fabric").text(" | ").say("setting_width").text(" | ").say("setting_lengths").text(" |\n|---|---|---|---|\n")
		for i := range l.Runs {
			width, lengths := RunWords(w.p, &l.Runs[i], w.said)
			w.text("| ").text(Part(w.said, l.Runs[i].For)).text(" | ").author(w.p.Fabrics[l.Runs[i].Fabric].Words).text(" | ").text(width).text(" | ").text(lengths).text(" |\n")
		}
		if Bordered(l) {
			w.text("\n").say("setting_measure").text("\n")
		}
	}
	if l.Backing.W > 0 {
		w.text("\n").say("setting_backing", "size", w.measures(l.Backing)).text("\n")
	}
	if l.Batting.W > 0 {
		w.text("\n").say("setting_batting", "size", w.measures(l.Batting)).text("\n")
	}
}

// quiltCloth writes the cloth of one colorway.
func (w *writer) quiltCloth(all []Cloth, way *pattern.Colorway) {
	if len(all) == 0 {
		return
	}
	w.text("\n## ").say("cloth_to_buy")
	if way.Name != "" {
		w.text(": ").author(way.Words)
	}
	w.text("\n\n").say("cloth_quilt", "usable", w.inOwn(w.p.Settings.Buying.Usable)).text("\n\n")
	for i := range all {
		bought := w.bought(all[i].Bought, all[i].Needs, all[i].Runs)
		w.purchase(all[i].Dress.Words, all[i].Dress.Value, &bought)
	}
}

// QuiltCSV writes what is cut for a quilt beside its blocks, then what is bought.
func QuiltCSV(p *pattern.Pattern, q *pattern.Quilt, cloth [][]Cloth) []byte {
	b := []byte("What,Fabric,Count,Shape,Size,Metric size\r\n")
	row := func(what, fabric string, n int, shape, size, metric string) {
		b = AppendCSV(b, what)
		b = AppendCSV(append(b, ','), fabric)
		b = strconv.AppendInt(append(b, ','), int64(n), 10)
		for _, text := range [3]string{shape, size, metric} {
			b = AppendCSV(append(b, ','), text)
		}
		b = append(b, "\r\n"...)
	}
	l := q.Layout
	for _, c := range Counts(p, l) {
		s := unfinished(p, &p.Blocks[c.Block].Sizes[c.Size])
		row("block", p.Blocks[c.Block].Title, c.Count, "as joined", Size(s, false), Size(s, true))
	}
	for i := range l.Cuts {
		c := &l.Cuts[i]
		row(c.For, p.Fabrics[c.Fabric].Words, cloths(c.Count, c.Shape.Yield()), shapeWords(c.Shape), Size(c.Size, false), Size(c.Size, true))
	}
	for i := range l.Runs {
		r := &l.Runs[i]
		for _, length := range r.Lengths {
			s := pattern.Size{W: length, H: r.Height}
			row(r.For, p.Fabrics[r.Fabric].Words, 1, "strip", Size(s, false), Size(s, true))
		}
	}
	for i := range p.Colorway {
		way := &p.Colorway[i]
		for _, c := range cloth[i] {
			what := "cloth"
			if way.Name != "" {
				what += ", " + way.Words
			}
			row(what, c.Dress.Words, 1, "to buy", c.Bought.Buy.In(8), c.Bought.Buy.Cm())
		}
	}
	return b
}
