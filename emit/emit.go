package emit

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/report"
	"seamwright/emit/svg"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

// An Output is one file to be written.
type Output struct {
	Path string // relative to the output folder, with forward slashes
	Data []byte
}

// Options choose what is made.
type Options struct {
	Sizes []pattern.Length // finished widths; empty: all. One that no block has chooses nothing
	Sheet *pattern.Sheet   // instead of the pattern's own
	Only  []string         // sheets, diagrams, tables, report, json; empty: all
}

// Build makes every output of a pattern, in an order that is always the same.
// Problems are those of paper: a section too large for the sheet. Where one is
// an error there are no outputs. The pattern is not changed.
//
// Paths are BLOCK/front.svg and the other pictures, BLOCK/SIZE/sheet-1.svg,
// BLOCK/SIZE/cutting.md and .csv, BLOCK/SIZE/cutting-by-section.csv, report.txt
// and pattern.json.
func Build(p *pattern.Pattern, o Options) ([]Output, []problem.Problem) {
	chosen := choose(p, o)
	w := &work{p: chosen, options: o}
	w.prepare()
	if problem.Failed(w.problems) {
		return nil, w.problems
	}
	return w.write(), w.problems
}

// A work is one run of Build.
type work struct {
	p        *pattern.Pattern
	options  Options
	made     [][]report.Made // by block and size
	problems []problem.Problem
}

func (o *Options) wants(kind string) bool {
	return len(o.Only) == 0 || slices.Contains(o.Only, kind)
}

// choose returns a pattern of the sizes and on the sheet that are asked for. It
// shares everything else with p.
func choose(p *pattern.Pattern, o Options) *pattern.Pattern {
	c := *p
	if o.Sheet != nil {
		c.Settings.Sheet = *o.Sheet
	}
	if len(o.Sizes) == 0 {
		return &c
	}
	c.Blocks = nil
	for i := range p.Blocks {
		b := p.Blocks[i]
		b.Sizes = slices.DeleteFunc(slices.Clone(b.Sizes), func(s pattern.Sized) bool { return !o.hasSize(s.Finished.W) })
		if len(b.Sizes) > 0 {
			c.Blocks = append(c.Blocks, b)
		}
	}
	return &c
}

// sameSize is how near two finished widths must be to be one: it forgives 20cm
// against 7.874in, far below a thread of cloth.
const sameSize = 0.001

func (o *Options) hasSize(w pattern.Length) bool {
	return slices.ContainsFunc(o.Sizes, func(l pattern.Length) bool { return math.Abs(float64(l-w)) < sameSize })
}

// prepare works out what the written files have in common.
func (w *work) prepare() {
	var tasks []func()
	for b := range w.p.Blocks {
		sizes := w.p.Blocks[b].Sizes
		made := make([]report.Made, len(sizes))
		w.made = append(w.made, made)
		for s := range sizes {
			tasks = append(tasks, func() { made[s].Cuts = table.List(w.p, &sizes[s]) })
		}
	}
	inParallel(tasks)
}

// write makes the files.
func (w *work) write() []Output {
	f := &files{}
	for b := range w.p.Blocks {
		block := &w.p.Blocks[b]
		folder := f.unique(safeName(block.Name))
		if w.options.wants("diagrams") {
			for _, picture := range diagram.Pictures(w.p, block) {
				name := picture.Name
				if picture.Of != nil {
					name += "-" + sizeName(picture.Of.Finished)
				}
				f.add(folder+"/"+name+".svg", func() []byte { return render(picture.Make()) })
			}
		}
		for s := range block.Sizes {
			sized, cuts := &block.Sizes[s], w.made[b][s].Cuts
			sub := f.unique(folder + "/" + sizeName(sized.Finished))
			if w.options.wants("tables") {
				f.add(sub+"/cutting.md", func() []byte { return cuts.Markdown(w.p, block, sized) })
				f.add(sub+"/cutting.csv", func() []byte { return cuts.CSV(w.p, sized) })
				f.add(sub+"/cutting-by-section.csv", func() []byte { return table.SectionsCSV(w.p, sized) })
			}
		}
	}
	if w.options.wants("report") {
		f.add("report.txt", func() []byte { return report.Text(w.p, w.made) })
	}
	if w.options.wants("json") {
		f.add("pattern.json", func() []byte { return report.JSON(w.p, w.made) })
	}
	inParallel(f.tasks)
	out := make([]Output, len(f.outputs))
	for i, o := range f.outputs {
		out[i] = *o
	}
	return out
}

// render writes a page as SVG. A page that cannot be written is a fault of this
// program, not of the pattern.
func render(page *drawing.Page) []byte {
	data, err := svg.Render(page)
	if err != nil {
		panic(err)
	}
	return data
}
