package emit

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/emit/edition"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

// markPapers are the papers whose version marks are recorded beside that of the
// pattern's own and those of its pads: what buyers have.
func markPapers() []string { return []string{"letter", "a4"} }

// Record tells what a pattern prints, on its own paper and at all its sizes.
// Problems are those of paper; where one is an error there is no record.
func Record(p *pattern.Pattern) (*edition.Record, []problem.Problem) {
	first := *p // nothing but the number may change with the number
	first.About.Edition = 1
	first.Blocks = titled(p)
	named := *p // as it is printed: a mark answers to titles too
	named.Blocks = first.Blocks
	p = &named
	w := &work{p: &first, options: Options{Only: []string{"sheets", "tables"}}}
	w.prepare()
	if problem.Failed(w.problems) {
		return nil, w.problems
	}
	w.layOut()
	said := w.words()
	all := make([][]edition.Made, len(p.Blocks))
	var tasks []func()
	for b := range p.Blocks {
		all[b] = make([]edition.Made, len(p.Blocks[b].Sizes))
		for s := range p.Blocks[b].Sizes {
			tasks = append(tasks, func() { all[b][s] = w.recorded(p, b, s, said) })
		}
	}
	quilts := make([]edition.MadeQuilt, len(p.Quilts))
	for i := range p.Quilts {
		if p.Quilts[i].Layout != nil {
			tasks = append(tasks, func() { quilts[i] = w.quiltRecorded(i, said) })
		}
	}
	inParallel(tasks, true)
	return edition.Of(p, all, quilts), w.problems
}

// quiltRecorded makes what is recorded of a quilt that is laid out. Its pages are the
// same in the booklets of all its blocks.
func (w *work) quiltRecorded(i int, said *words.Catalogue) (made edition.MadeQuilt) {
	q, cloth := &w.p.Quilts[i], w.cloth[i]()
	tables := w.inTables()
	made.Table = string(table.QuiltMarkdown(w.p, q, cloth, nil, tables))
	taken := map[string]int{} // by name: two cloths may have the same words
	for k := range w.p.Colorway {
		way := &w.p.Colorway[k]
		_, bought := table.QuiltBuying(w.p, cloth[k], tables)
		for n := range bought {
			name := cloth[k][n].Dress.Words
			if way.Name != "" {
				name = way.Name + ": " + name
			}
			if taken[name]++; taken[name] > 1 {
				name += " (" + strconv.Itoa(taken[name]) + ")"
			}
			made.Cloth = append(made.Cloth, edition.Word{Name: name, Text: bought[n].Words})
		}
	}
	if first := table.Counts(w.p, q.Layout); len(first) > 0 {
		block, size := first[0].Block, first[0].Size
		made.Pages = booklet.QuiltPages(booklet.Parts{Pattern: w.p, Block: &w.p.Blocks[block], Sized: &w.p.Blocks[block].Sizes[size],
			Sheets: &w.sets[block][size], Cuts: w.made[block][size].Cuts, Words: said, Quilts: []booklet.Quilt{{Of: q, Cloth: w.cloth[i]}}})
	}
	return made
}

// recorded makes what is recorded of one size.
func (w *work) recorded(p *pattern.Pattern, b, s int, said *words.Catalogue) edition.Made {
	block, sized, set, cuts := &w.p.Blocks[b], &w.p.Blocks[b].Sizes[s], &w.sets[b][s], w.made[b][s].Cuts
	made := edition.Made{Sheets: *set, Table: string(cuts.Markdown(w.p, block, sized, said)), Marks: marks(p, &p.Blocks[b], &p.Blocks[b].Sizes[s])}
	for _, c := range cuts.Bought(w.p, block, sized) {
		made.Cloth = append(made.Cloth, edition.Word{Name: w.p.Fabrics[c.Fabric].Name, Text: c.Words})
	}
	sheets := map[*drawing.Page]bool{}
	for i := range set.Sheets {
		sheets[&set.Sheets[i].Page] = true
	}
	for _, page := range booklet.Make(booklet.Parts{Pattern: w.p, Block: block, Sized: sized, Sheets: set, Cuts: cuts, Words: said}) {
		if !sheets[page.Page] {
			made.Booklet = append(made.Booklet, page.Page)
			made.Chapter = append(made.Chapter, page.Bookmark)
		}
	}
	return made
}

// marks are those that stand on the sheets of a size, by paper and by pad. A paper
// that has no room has none.
func marks(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) []edition.Word {
	own := p.Settings.Sheet
	var out []edition.Word
	add := func(name string, paper pattern.Sheet) {
		if set, problems := sheet.Lay(p, b, s, paper); !problem.Failed(problems) && len(set.Sheets) > 0 {
			out = append(out, edition.Word{Name: name, Text: set.Mark})
		}
	}
	add(own.Name, own)
	for _, name := range markPapers() {
		if named, ok := pattern.SheetNamed(name); ok && name != own.Name {
			add(name, named)
		}
	}
	for i := range p.Pads {
		if pad := &p.Pads[i]; pad.Holds(b, s) {
			add("pad "+strconv.Itoa(i+1), booklet.PadSheet(own, pad))
		}
	}
	return out
}
