package emit

import (
	"fmt"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet"
	"seamwright/emit/booklet/words"
	"seamwright/emit/pdf"
	"seamwright/emit/report"
	"seamwright/emit/sheet"
	"seamwright/lang/problem"
)

// A padRun is a pad of one block at one size.
type padRun struct {
	pad      *pattern.Pad
	sized    *pattern.Sized
	set      sheet.Set
	problems []problem.Problem
}

// pads reports whether pads are worked out.
func (o *Options) pads(p *pattern.Pattern) bool {
	return len(p.Pads) > 0 && (o.wants("pads") && o.writes("pdf") || o.wants("report") || o.wants("json"))
}

// padsOf begins the pads of a block at a size.
func (w *work) padsOf(b *pattern.Block, s *pattern.Sized) (runs []*padRun) {
	for i := range w.p.Pads {
		if pad := &w.p.Pads[i]; pad.Holds(b, s) {
			runs = append(runs, &padRun{pad: pad, sized: s})
		}
	}
	w.pads = append(w.pads, runs...)
	return runs
}

// lay lays the sheets out clear of the glue and of the press. Where a section has
// no room there is no pad of this size, and all else is made.
func (r *padRun) lay(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized) {
	r.set, r.problems = sheet.Lay(p, b, s, booklet.PadSheet(p.Settings.Sheet, r.pad))
	if problem.Failed(r.problems) {
		r.set, r.problems = sheet.Set{}, []problem.Problem{booklet.NoRoom(p, b, s, r.pad)}
	}
	for i := range r.problems {
		r.problems[i].Help = "a pad leaves its glue edge and where the press holds the paper free on every side; " + r.problems[i].Help
	}
}

// tellPads tells what is wrong with pads, and gives the report their sums.
func (w *work) tellPads() {
	for _, r := range w.pads {
		w.tell(r.problems)
	}
	for b := range w.p.Blocks {
		for i := range w.p.Blocks[b].Sizes {
			w.made[b][i].Pads = w.padsFor(&w.p.Blocks[b].Sizes[i])
		}
	}
	if len(w.options.Sizes) == 0 {
		w.tell(booklet.CheckPads(w.p))
	}
}

// padsFor are the pads of a size, as the report tells them.
func (w *work) padsFor(s *pattern.Sized) (all []report.Pad) {
	for _, r := range w.padsAt(s) {
		sheets := 0
		var times []int
		for i := range r.set.Sheets {
			sheets += r.set.Sheets[i].Print
			times = append(times, r.set.Sheets[i].Print)
		}
		all = append(all, report.Pad{Blocks: r.pad.Copies, Each: sheets, Spare: r.pad.Spare, Sheets: len(r.pad.Order(times)), Collated: !r.pad.Loose})
	}
	return all
}

// padsAt are the pads that are made of a size.
func (w *work) padsAt(s *pattern.Sized) (all []*padRun) {
	for _, r := range w.pads {
		if r.sized == s && len(r.set.Sheets) > 0 {
			all = append(all, r)
		}
	}
	return all
}

// copies makes what is printed for others than makers: pads for the printer, and
// papers for testing, checking and teaching.
func (w *work) copies(f *files, folder string, parts booklet.Parts) {
	if w.options.wants("pads") && w.options.writes("pdf") {
		told := w.padsFor(parts.Sized)
		for i, r := range w.padsAt(parts.Sized) {
			name := folder + "/pad.pdf"
			if i > 0 {
				name = fmt.Sprintf("%s/pad-%d.pdf", folder, i+1)
			}
			on := parts
			on.Sheets = &r.set
			file := f.add(name, func() []byte {
				return w.copy(on, func(p booklet.Parts) []pdf.Page { return booklet.Pad(p, r.pad) })
			})
			file.Holds = told[i].Words(words.InReport(words.Default)) // to be told on a terminal
		}
	}
	for _, paper := range [...]struct {
		kind, file string
		pages      func(booklet.Parts) []pdf.Page
	}{
		{"tester", "tester", booklet.Tester},
		{"tester", "tester-key", booklet.Key},
		{"checker", "checker", booklet.Checker},
		{"class", "class", booklet.Class},
	} {
		if w.options.asks(paper.kind) {
			f.add(folder+"/"+paper.file+".pdf", func() []byte { return w.copy(parts, paper.pages) })
		}
	}
}
