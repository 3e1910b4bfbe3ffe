package testsew

import (
	"fmt"
	"math"
	"path"
	"slices"
	"strings"
)

// A File is one file of a build, by its path in the folder of the build.
type File struct {
	Path string
	Data []byte
}

// A Report is what was found of a pattern.
type Report struct {
	Title  string
	Blocks []Block // every block at every size
}

// Failed reports whether there are findings.
func (r *Report) Failed() bool {
	return slices.ContainsFunc(r.Blocks, func(b Block) bool { return len(b.Findings) > 0 })
}

// A Block is what was found of one block at one size. Lengths are inches.
type Block struct {
	Title    string
	Finished [2]float64
	Findings []string // faults, none if all is well

	Sections, Sheets, Prints int     // sections sewn; sheets, and pages printed for one block
	Printed                  int     // lines of the sheets that were looked for in the file to print
	Compared, Wrong          float64 // area of the front, and how much of it is not the picture
	LeastAllowance           float64 // of cloth behind any seam or edge
	LeastAllowanceAt         string
	LeastMargin              float64 // of any patch for paper beyond what it must cover
	LeastMarginOf            string
	Margins                  []Margin
	Points, Pins             int       // points that must match, and pairs of marks
	PinMiss                  float64   // the most that the marks of a pair are apart
	Layers                   []float64 // share of the front that has so many layers
	Thickest                 []Thick

	table *table // for what may go wrong
	unit  unit   // of the text
}

// A Margin is how far a patch, laid as the table says and folded over, reaches
// beyond what it must cover.
type Margin struct {
	Space string
	By    float64
}

// Sew sews every block of a build at every size. An error means that the files
// are not a whole build: sheets as SVG, tables and pattern.json.
func Sew(files []File) (*Report, error) {
	document := slices.IndexFunc(files, func(f File) bool { return f.Path == "pattern.json" })
	if document < 0 {
		return nil, fmt.Errorf("there is no pattern.json")
	}
	title, intents, err := readIntents(files[document].Data)
	if err != nil {
		return nil, err
	}
	r := &Report{Title: title}
	var folders []string // in the order of the pattern's blocks and sizes
	for _, f := range files {
		if path.Base(f.Path) == sectionTable {
			folders = append(folders, path.Dir(f.Path))
		}
	}
	if len(folders) != len(intents) {
		return nil, fmt.Errorf("pattern.json tells of %d sizes of blocks, and there are tables for %d", len(intents), len(folders))
	}
	for i, in := range intents {
		b, err := sewBlock(in, folders[i], files)
		if err != nil {
			return nil, err
		}
		r.Blocks = append(r.Blocks, *b)
	}
	return r, nil
}

const (
	sectionTable = "cutting-by-section.csv"
	fabricTable  = "cutting.csv"
	printFile    = "sheets.pdf"
)

func sewBlock(in *intent, folder string, files []File) (*Block, error) {
	b := &Block{Title: in.block, Finished: [2]float64{in.finished.x, in.finished.y}, unit: in.unit}
	w := &work{in: in, b: b}
	pages := map[string]*group{} // of the sheets
	var print []byte
	for _, f := range files {
		dir, name := path.Split(f.Path)
		var err error
		switch {
		case path.Clean(dir) != folder:
		case name == sectionTable:
			w.patches, err = readPatches(f.Data)
		case name == fabricTable:
			w.rows, err = readRows(f.Data)
		case strings.HasPrefix(name, "sheet-") && path.Ext(name) == ".svg":
			var read *sheet
			if read, err = readPaper(name, f.Data); err == nil {
				w.sheet(read)
				pages[name] = read.page
			}
		case name == printFile:
			print = f.Data
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", folder, err)
		}
	}
	if print != nil {
		sheets := make([]*group, 0, len(pages))
		for n := 1; pages[fmt.Sprintf("sheet-%d.svg", n)] != nil; n++ {
			sheets = append(sheets, pages[fmt.Sprintf("sheet-%d.svg", n)])
		}
		if err := w.printed(sheets, print); err != nil {
			return nil, fmt.Errorf("%s: %w", folder, err)
		}
	}
	w.glue()
	w.sewAll()
	w.checkTables()
	w.complete()
	w.assemble()
	return b, nil
}

// A work is the sewing of one block at one size.
type work struct {
	in      *intent
	b       *Block
	patches []patch
	rows    []row
	paper   []*section
	parts   []*sheetPart // of sections that are printed in parts
	sewn    map[string]*sewn
}

func (w *work) find(text string) { w.b.Findings = append(w.b.Findings, text) }

// sheet takes up the sections of one sheet.
func (w *work) sheet(read *sheet) {
	w.paper = append(w.paper, read.sections...)
	w.parts = append(w.parts, read.parts...)
	w.b.Sheets++
	if len(read.sections)+len(read.parts) > 0 {
		w.b.Prints += read.prints
	}
}

// sewAll sews every section that is on paper.
func (w *work) sewAll() {
	w.sewn = map[string]*sewn{}
	w.b.LeastAllowance, w.b.LeastMargin = math.Inf(1), math.Inf(1)
	for _, s := range w.paper {
		if w.sewn[s.name] != nil {
			w.find("section " + s.name + " is on the sheets twice")
			continue
		}
		faults := s.findSpaces()
		faults = append(faults, s.findSeams()...)
		w.checkWords(s)
		if s.cut == nil {
			w.find("section " + s.name + " has no cutting line")
			s.cut = s.outline
		}
		out, more := sew(s, w.patches, w.in.allowance)
		w.b.Findings = append(append(w.b.Findings, faults...), more...)
		w.sewn[s.name] = out
		if out.behind.where != "" && out.behind.least < w.b.LeastAllowance {
			w.b.LeastAllowance, w.b.LeastAllowanceAt = out.behind.least, out.behind.where
		}
		if out.behind.where != "" && out.behind.least < w.in.allowance-allowanceSlack {
			w.find("behind the " + out.behind.where + " there is only " + figure(out.behind.least) + " in of cloth, not " + figure(w.in.allowance))
		}
		if len(s.spaces) < 2 { // cut round a template, not sewn
			continue
		}
		for _, m := range out.margins {
			w.b.Margins = append(w.b.Margins, Margin{m.space, m.by})
			if m.by < w.b.LeastMargin {
				w.b.LeastMargin, w.b.LeastMarginOf = m.by, m.space
			}
			if m.by < -same {
				w.find("the patch of " + m.space + " is " + figure(-m.by) + " in too small to cover its space and allowances")
			}
		}
	}
}

// allowanceSlack is how much less than the allowance counts as whole: what
// drawing to 0.01 mm loses on both sides.
const allowanceSlack = 0.002

// assemble puts the sections into the block and joins them.
func (w *work) assemble() {
	t := &table{in: w.in}
	w.b.table = t
	for _, c := range w.in.copies {
		sh := &w.in.shapes[c.shape]
		areas := make([]coloured, len(sh.areas))
		for i, a := range sh.areas {
			areas[i] = coloured{a.area.mapped(c.move), a.fabric, a.space}
		}
		p, ok := w.put(sh, c, areas)
		if !ok {
			return
		}
		p.of = c.of
		inner := p.outline.convex()
		for _, s := range p.shown {
			for _, c := range inner {
				w.b.Compared += s.area.common(c).area()
			}
		}
		t.placed = append(t.placed, p)
	}
	w.b.Sections = len(t.placed)
	w.front(t)
	if len(t.placed) == 0 {
		return
	}
	t.join()
	w.b.Findings = append(w.b.Findings, t.faults...)
	w.b.Points, w.b.Pins = t.points, t.pinned
	if t.pinMiss.where != "" {
		w.b.PinMiss = -t.pinMiss.least
	}
	if t.points != w.in.points {
		w.find(count(t.points) + " points match in all, pattern.json says " + count(w.in.points))
	}
	w.b.Layers, w.b.Thickest = t.layers()
}

// put brings one section into its place.
func (w *work) put(sh *shape, c copied, areas []coloured) (placed, bool) {
	if s := w.sewn[sh.name]; s != nil {
		p, ok := settle(s, sh.outline.mapped(c.move), areas, w.misread)
		if !ok {
			w.find("section " + sh.name + ", turned over from its sheet, does not fit its place in the block")
		}
		return p, ok
	}
	i := slices.IndexFunc(w.patches, func(p patch) bool { return p.section == sh.name })
	if i < 0 || !w.patches[i].exact {
		w.find("section " + sh.name + " is on no sheet")
		return placed{}, false
	}
	p := plain(sh, c.move, w.patches[i].fabric, w.in.allowance)
	p.compare(areas)
	return p, true
}

// front compares the whole block with the picture: what shows on each place,
// and that the sections leave no hole.
func (w *work) front(t *table) {
	worst := part{}
	for i := range t.placed {
		p := &t.placed[i]
		w.b.Wrong += p.wrong
		if p.wrong > 0 && (worst.area == nil || p.worst.area.width() > worst.area.width()) {
			worst = p.worst
		}
	}
	if worst.area != nil {
		w.find("the front is not the picture: " + worst.fabric + " (" + place(worst.area.middle()) + "); " + figure(w.b.Wrong) + " sq in in all")
	}
	for i := range t.placed {
		if p := &t.placed[i]; p.strays > 0 {
			w.find("the seams are not where the picture has them: pieces of one cloth share " + p.stray)
			break
		}
	}
	whole := 0.0
	for i := range t.placed {
		whole += t.placed[i].outline.area()
	}
	if want := w.in.outline.area(); math.Abs(whole-want) > thin*(w.in.finished.x+w.in.finished.y) {
		w.find("the sections are " + figure(whole) + " sq in together, the block is " + figure(want))
	}
}
