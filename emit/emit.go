package emit

import (
	"math"
	"slices"
	"strconv"
	"sync"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/edition"
	"seamwright/emit/html"
	"seamwright/emit/pdf"
	"seamwright/emit/png"
	"seamwright/emit/report"
	"seamwright/emit/sheet"
	"seamwright/emit/svg"
	"seamwright/emit/table"
	"seamwright/lang/problem"
)

// An Output is one file to be written.
type Output struct {
	Path   string // relative to the output folder, with forward slashes
	Data   []byte // nil where it is left to be made: see [Output.Give]
	Holds  string // of a pad: what is in it, "10 blocks, 42 sheets"
	Prints []int  // of foundation sheets: how often each page in it is printed for one block

	late func(put func([]byte) error) error
}

// Give calls put with the file's bytes. Where they were left to be made they are
// made now, and are put's until it returns. Several may be given side by side, and
// each again when it has been given.
func (o *Output) Give(put func(data []byte) error) error {
	if o.late != nil {
		return o.late(put)
	}
	return put(o.Data)
}

// Options choose what is made.
type Options struct {
	Sizes []pattern.Length // finished widths; empty: all. One that no block has chooses nothing
	Sheet *pattern.Sheet   // instead of the pattern's own
	Only  []string         // sheets, diagrams, tables, booklet, pads, report, json; empty: all of these; together, tester, checker, class
	Forms []string         // svg, pdf: how sheets are written; empty: both. Pictures are always SVG, booklets PDF; png: plain pictures too
	Width int              // of plain pictures, in dots; 0: [Width]
	Late  bool             // leave files to be made when they are given, so that not all are held at a time; not where the report's page holds them
	Soon  bool             // leave out what a plan of a quilt's cloth is looked for: its tables, and its cloth in pattern.json
	Store *pdf.Store       // what was packed for the last build of the same pattern; nil: nothing
}

// Width is how wide plain pictures are, in dots, unless it is said: enough for
// the large view of a shop page, and 100 to 200 KB.
const Width = 1200

// Build makes every output of a pattern, in an order that is always the same.
// Problems are those of paper: a section too large for the sheet. Where one is
// an error there are no outputs. The pattern is not changed.
//
// Paths are BLOCK/front.svg and the other pictures, BLOCK/front.png, quilt-NAME/quilt.png, BLOCK/SIZE/sheets.pdf
// and sheet-1.svg, BLOCK/SIZE/cutting.md and .csv, BLOCK/SIZE/cutting-by-section.csv,
// BLOCK/SIZE/booklet.pdf, report.txt, report.html and pattern.json.
func Build(p *pattern.Pattern, o Options) ([]Output, []problem.Problem) {
	chosen := choose(p, o)
	o.Late = o.Late && !o.wants("report")
	w := &work{p: chosen, options: o, store: o.Store}
	if w.store == nil {
		w.store = &pdf.Store{}
	}
	w.store.Next()
	w.prepare()
	if problem.Failed(w.problems) {
		return nil, w.problems
	}
	return w.write(), w.problems
}

// Check returns the problems of paper that [Build] would.
func Check(p *pattern.Pattern, o Options) []problem.Problem {
	o.Only = []string{"sheets", "pads"}
	w := &work{p: choose(p, o), options: o, unseen: true}
	w.prepare()
	w.readPictures()
	return w.problems
}

// A work is one run of Build.
type work struct {
	p        *pattern.Pattern
	options  Options
	sets     [][]sheet.Set   // by block and size
	folders  [][]string      // the same: where their files are written
	made     [][]report.Made // the same
	pads     []*padRun
	pictures []booklet.Picture
	problems []problem.Problem
	unseen   bool         // only the problems are wanted
	svg      svg.Renderer // of all pages: what is the same on many is written once
	room     room
	pens     sync.Pool // of pictures that are written
	store    *pdf.Store
	cloth    []func() [][]table.Cloth // of each quilt, worked out once
	quilted  []booklet.Quilt          // those that are laid out
}

func (o *Options) wants(kind string) bool {
	return len(o.Only) == 0 || slices.Contains(o.Only, kind)
}

func (o *Options) writes(form string) bool {
	return len(o.Forms) == 0 || slices.Contains(o.Forms, form)
}

// shows reports whether plain pictures are made.
func (o *Options) shows() bool { return o.wants("diagrams") && slices.Contains(o.Forms, "png") }

// asks reports whether something is made that is made only for the asking.
func (o *Options) asks(kind string) bool { return slices.Contains(o.Only, kind) && o.writes("pdf") }

// copies reports whether any of the papers is made that are only for the asking:
// for testing and teaching, or one booklet for all sizes.
func (o *Options) copies() bool {
	return o.asks("tester") || o.asks("checker") || o.asks("class") || o.asks("together")
}

// binds reports whether booklets are made.
func (o *Options) binds() bool { return o.wants("booklet") && o.writes("pdf") }

// choose returns a pattern of the sizes and on the sheet that are asked for. It
// shares everything else with p.
func choose(p *pattern.Pattern, o Options) *pattern.Pattern {
	c := *p
	c.Blocks = titled(p)
	if o.Sheet != nil {
		c.Settings.Sheet = *o.Sheet
	}
	if len(o.Sizes) == 0 {
		return &c
	}
	all := c.Blocks
	c.Blocks = nil
	for _, b := range all {
		b.Sizes = slices.DeleteFunc(slices.Clone(b.Sizes), func(s pattern.Sized) bool { return !o.hasSize(s.Finished.W) })
		if len(b.Sizes) > 0 {
			c.Blocks = append(c.Blocks, b)
		}
	}
	chooseQuilts(p, &c)
	return &c
}

// titled returns the blocks, those that are made because a quilt has a block reversed
// with titles in the pattern's language.
func titled(p *pattern.Pattern) []pattern.Block {
	if !slices.ContainsFunc(p.Blocks, func(b pattern.Block) bool { return b.Reverses != "" }) {
		return p.Blocks
	}
	blocks := slices.Clone(p.Blocks)
	for i := range blocks {
		blocks[i].Title = table.BlockTitle(words.InTables(p.Settings.Language), p, &p.Blocks[i])
	}
	return blocks
}

// sameSize is how near two finished widths must be to be one: it forgives 20cm
// against 7.874in, far below a thread of cloth.
const sameSize = 0.001

func (o *Options) hasSize(w pattern.Length) bool {
	return slices.ContainsFunc(o.Sizes, func(l pattern.Length) bool { return math.Abs(float64(l-w)) < sameSize })
}

// prepare works out what the written files have in common.
func (w *work) prepare() {
	o := &w.options
	paper := o.wants("sheets") || o.wants("report") || o.wants("json") || o.binds() || o.copies()
	rows := o.wants("tables") || o.wants("report") || o.wants("json") || o.binds() || o.shows() || o.copies() || o.pads(w.p)
	var tasks []func()
	var told [][][]problem.Problem
	for b := range w.p.Blocks {
		block := &w.p.Blocks[b]
		n := len(block.Sizes)
		sets, made, problems := make([]sheet.Set, n), make([]report.Made, n), make([][]problem.Problem, n)
		w.sets, w.made, told = append(w.sets, sets), append(w.made, made), append(told, problems)
		for i := range block.Sizes {
			s := &block.Sizes[i]
			if paper {
				tasks = append(tasks, func() {
					if w.unseen {
						problems[i] = sheet.Check(w.p, block, s, w.p.Settings.Sheet)
						return
					}
					sets[i], problems[i] = sheet.Lay(w.p, block, s, w.p.Settings.Sheet)
					made[i].Sheets = printed(&sets[i])
				})
			}
			if o.pads(w.p) {
				for _, run := range w.padsOf(block, s) {
					tasks = append(tasks, func() { run.lay(w.p, block, s) })
				}
			}
			if rows {
				tasks = append(tasks, func() { made[i].Cuts = table.List(w.p, s) })
			}
		}
	}
	inParallel(tasks, w.p.Pieces() > Few)
	w.tellPads()
	w.tell(sheet.CheckTexts(w.p))
	w.tell(booklet.Check(w.p))
	if o.binds() || o.asks("together") || o.wants("report") {
		w.readPictures()
	}
	for _, sizes := range told {
		for _, problems := range sizes {
			w.tell(problems)
		}
	}
}

func (w *work) readPictures() {
	pictures, problems := booklet.Pictures(w.p)
	w.pictures = pictures
	w.tell(problems)
}

// tell keeps the problems that have not been told of another size.
func (w *work) tell(problems []problem.Problem) {
	for _, p := range problems {
		same := func(q problem.Problem) bool { return q.Code == p.Code && q.At == p.At && q.Message == p.Message }
		if !slices.ContainsFunc(w.problems, same) {
			w.problems = append(w.problems, p)
		}
	}
}

// printed tells where a set's sections lie: on paper y runs down from the upper
// edge, in the report up from the lower one.
func printed(set *sheet.Set) []report.Sheet {
	out := make([]report.Sheet, len(set.Sheets))
	for i := range set.Sheets {
		s := &set.Sheets[i]
		out[i] = report.Sheet{Number: i + 1, File: sheetFile(i), Copies: s.Print}
		for _, p := range s.Places {
			shift := pattern.Pos{X: p.Shift.X, Y: s.Page.Size.H - p.Shift.Y}
			at := report.Printed{Drawing: p.Drawing, Turn: p.Turn, Shift: shift}
			if part := p.Part; part != nil {
				at.Part = &report.PartOf{Number: part.Number, Of: part.Of, Row: part.Row, Column: part.Column,
					Lower: pattern.Pos{X: part.Own.X0, Y: s.Page.Size.H - part.Own.Y1}, Higher: pattern.Pos{X: part.Own.X1, Y: s.Page.Size.H - part.Own.Y0}}
			}
			out[i].Sections = append(out[i].Sections, at)
		}
	}
	return out
}

func sheetFile(i int) string { return "sheet-" + strconv.Itoa(i+1) + ".svg" }

// write makes the files.
func (w *work) write() []Output {
	f := &files{}
	w.layOut()
	var said *words.Catalogue
	if w.options.binds() || w.options.shows() || w.options.copies() || w.options.pads(w.p) {
		said = w.words()
	}
	drawn := make([]html.Block, len(w.p.Blocks))
	w.folders = make([][]string, len(w.p.Blocks))
	for b := range w.p.Blocks {
		block := &w.p.Blocks[b]
		folder := f.unique(safeName(block.Name))
		for _, picture := range diagram.Pictures(w.p, block) {
			name := picture.Name
			if picture.Of != nil {
				name += "-" + edition.SizeName(picture.Of.Finished)
			}
			var file *Output
			data := func() []byte { return w.picture(&picture) }
			if w.options.wants("diagrams") {
				file = f.draw(folder+"/"+name+".svg", data)
			}
			if picture.Name == "sections" || picture.Name == "joining" {
				drawn[b].Pictures = append(drawn[b].Pictures, html.Picture{Of: picture.Of, SVG: w.drawn(file, data)})
			}
		}
		if w.options.shows() {
			for _, picture := range diagram.Plain(w.p, block) {
				f.add(folder+"/"+picture.Name+".png", func() []byte { return dots(picture.Make(nil), w.options.Width) })
			}
		}
		var together []booklet.Parts
		for s := range block.Sizes {
			sized, cuts := &block.Sizes[s], w.made[b][s].Cuts
			sub := f.unique(folder + "/" + edition.SizeName(sized.Finished))
			w.folders[b] = append(w.folders[b], sub)
			drawn[b].Sheets = append(drawn[b].Sheets, w.sheets(f, sub, block, sized, &w.sets[b][s]))
			if w.options.wants("tables") {
				f.add(sub+"/cutting.md", func() []byte { return cuts.Markdown(w.p, block, sized, w.inTables()) })
				f.add(sub+"/cutting.csv", func() []byte { return cuts.CSV(w.p, sized) })
				f.add(sub+"/cutting-by-section.csv", func() []byte { return table.SectionsCSV(w.p, sized) })
			}
			if w.options.shows() {
				parts := booklet.Parts{Pattern: w.p, Block: block, Sized: sized, Cuts: cuts, Words: said}
				f.add(sub+"/summary.png", func() []byte { return dots(booklet.Summary(parts), w.options.Width) })
			}
			parts := booklet.Parts{Pattern: w.p, Block: block, Sized: sized, Sheets: &w.sets[b][s], Cuts: cuts, Words: said, Pictures: w.pictures, Quilts: w.quilted}
			if w.options.binds() {
				f.add(sub+"/booklet.pdf", func() []byte { return w.booklet(parts) })
			}
			w.copies(f, sub, parts)
			together = append(together, parts)
		}
		if w.options.asks("together") && len(together) > 0 {
			f.add(folder+"/booklet.pdf", func() []byte {
				return w.copy(together[0], func(booklet.Parts) []pdf.Page { return booklet.Together(together) })
			})
		}
	}
	beside := html.Beside{Quilts: w.quilts(f)}
	for _, p := range w.pictures {
		beside.Photos = append(beside.Photos, html.Photo{Of: p.Of, Words: p.Words})
	}
	if w.options.wants("report") {
		f.add("report.txt", func() []byte { return report.Text(w.p, w.made) })
	}
	if w.options.wants("json") {
		f.add("pattern.json", func() []byte { return report.JSON(w.p, w.made, w.allCloth()) })
	}
	if w.options.wants("report") {
		f.add("report.html", func() []byte {
			f.drawn.Wait() // tasks are begun in order, so every drawing is under way
			return w.page(drawn, beside)
		})
	}
	if w.options.Late {
		return f.later(&w.room)
	}
	inParallel(f.tasks, true)
	return f.all()
}

// sheets makes the files of one set, where they are wanted, and returns its pages
// for the report. Both forms come from the same pages.
func (w *work) sheets(f *files, folder string, b *pattern.Block, s *pattern.Sized, set *sheet.Set) []html.SVG {
	if len(set.Sheets) == 0 {
		return nil
	}
	wanted := w.options.wants("sheets")
	if wanted && w.options.writes("pdf") {
		o := f.add(folder+"/sheets.pdf", func() []byte { return w.bound(b, s, set) })
		for i := range set.Sheets {
			o.Prints = append(o.Prints, set.Sheets[i].Print)
		}
	}
	drawn := make([]html.SVG, len(set.Sheets))
	for i := range set.Sheets {
		page := &set.Sheets[i].Page
		var file *Output
		if wanted && w.options.writes("svg") {
			file = f.draw(folder+"/"+sheetFile(i), func() []byte { return w.render(page) })
			file.Prints = []int{set.Sheets[i].Print}
		}
		drawn[i] = w.drawn(file, func() []byte { return w.render(page) })
	}
	return drawn
}

// drawn gives a page as SVG: the bytes of its file where it has one.
func (w *work) drawn(file *Output, data func() []byte) html.SVG {
	if file == nil {
		return data
	}
	return func() []byte { return file.Data }
}

// page makes the report for a browser. One that cannot be written is a fault of
// this program.
func (w *work) page(drawn []html.Block, beside html.Beside) []byte {
	data, err := html.Page(w.p, w.made, drawn, beside)
	if err != nil {
		panic(err)
	}
	return data
}

// bound puts a set of sheets into one file for the printer.
func (w *work) bound(b *pattern.Block, s *pattern.Sized, set *sheet.Set) []byte {
	said := words.OnSheets(w.p.Settings.Language)
	d := &pdf.Document{
		Title:    b.Title + ", " + s.Finished.W.Exact() + ", " + said.Say("foundation"),
		Author:   w.p.About.Author,
		Subject:  said.Say("print_short") + " " + said.Say("mark", "mark", set.Mark),
		Language: said.Language,
	}
	for i := range set.Sheets {
		sh := &set.Sheets[i]
		name := said.Say("sheet", "n", strconv.Itoa(i+1), "m", strconv.Itoa(len(set.Sheets))) + ", " + said.Count("times", sh.Print)
		d.Pages = append(d.Pages, pdf.Page{Page: &sh.Page, Bookmark: name, Shared: true})
	}
	return bind(pdf.NewWriter(w.store), d)
}

// inTables returns the messages of the tables.
func (w *work) inTables() *words.Catalogue { return words.InTables(w.p.Settings.Language) }

// words returns the messages in the pattern's language, in English where there
// are none.
func (w *work) words() *words.Catalogue {
	c, ok := words.In(w.p.Settings.Language)
	if !ok {
		c, _ = words.In(words.Default)
	}
	return c
}

// booklet binds the booklet of a size. Its pages are rendered while the next are
// set, and not held as drawings: there may be hundreds.
func (w *work) booklet(parts booklet.Parts) []byte {
	to := pdf.NewWriter(w.store)
	parts.Early = to.Early
	return w.finish(to, parts, booklet.Make(parts))
}

// copy binds another of the lists of pages that there are for a size.
func (w *work) copy(parts booklet.Parts, list func(booklet.Parts) []pdf.Page) []byte {
	return w.finish(pdf.NewWriter(w.store), parts, list(parts))
}

func (w *work) finish(to *pdf.Writer, parts booklet.Parts, pages []pdf.Page) []byte {
	return bind(to, &pdf.Document{
		Title:    parts.Block.Title + ", " + parts.Sized.Finished.W.Exact(),
		Author:   w.p.About.Author,
		Subject:  parts.Words.Say("print_first") + " " + parts.Words.Say("mark", "mark", parts.Sheets.Mark),
		Language: parts.Words.Language,
		Pages:    pages,
	})
}

// bind writes a document. One that cannot be written is a fault of this program.
func bind(to *pdf.Writer, d *pdf.Document) []byte {
	data, err := to.Close(d)
	if err != nil {
		panic(err)
	}
	return data
}

// dots writes a page as PNG. One that cannot be written is a fault of this
// program.
func dots(page *drawing.Page, width int) []byte {
	if width == 0 {
		width = Width
	}
	data, err := png.Render(page, width)
	if err != nil {
		panic(err)
	}
	return data
}

// picture draws a picture of a block as SVG, with a pen that has drawn others.
func (w *work) picture(of *diagram.Picture) []byte {
	pen, ok := w.pens.Get().(*drawing.Pen)
	if !ok {
		pen = &drawing.Pen{}
	}
	data := w.render(of.Make(pen))
	pen.Again()
	w.pens.Put(pen)
	return data
}

// render writes a page as SVG. A page that cannot be written is a fault of this
// program, not of the pattern.
func (w *work) render(page *drawing.Page) []byte {
	at := w.room.take()
	data, err := w.svg.Append(at, page)
	if err != nil {
		panic(err)
	}
	if w.options.Late {
		return data // with all its room, to be taken back
	}
	w.room.give(data)
	return data[:len(data):len(data)]
}
