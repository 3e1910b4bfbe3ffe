package emit

import (
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/compare"
	"seamwright/emit/edition"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/lang/problem"
)

// Errata makes the page of corrections from one edition to the one that p is, with
// the sheets that changed after it, alone and at true size. Paper is that of the
// pattern unless it is given.
func Errata(p *pattern.Pattern, r *compare.Report, paper *pattern.Sheet) ([]byte, []problem.Problem) {
	on := p.Settings.Sheet
	if paper != nil {
		on = *paper
	}
	d := &pdf.Document{Title: p.Title + ", corrections", Author: p.About.Author, Subject: "print at 100 %, on one side"}
	for _, page := range r.Errata(on) {
		d.Pages = append(d.Pages, pdf.Page{Page: page.Page, Bookmark: page.Chapter})
	}
	var problems []problem.Problem
	again := r.Reprints()
	for b := range p.Blocks {
		block := &p.Blocks[b]
		for s := range block.Sizes {
			sized := &block.Sizes[s]
			at := slices.IndexFunc(again, func(a compare.Reprint) bool { return a.Block == block.Name && a.Size == sized.Finished.Exact() })
			if at < 0 {
				continue
			}
			set, ps := sheet.Lay(p, block, sized, on)
			problems = append(problems, ps...)
			for i := range set.Sheets {
				if holds(sized, &set.Sheets[i], again[at].Sections) {
					name := block.Title + ", " + sized.Finished.Exact() + ", sheet"
					d.Pages = append(d.Pages, pdf.Page{Page: &set.Sheets[i].Page, Bookmark: name})
				}
			}
		}
	}
	if problem.Failed(problems) {
		return nil, problems
	}
	data, err := pdf.NewWriter(&pdf.Store{}).Close(d)
	if err != nil { // the record of the old edition holds places that are on no paper
		return nil, []problem.Problem{{Code: edition.Unreadable, Severity: problem.Error,
			Message: "the corrections can't be drawn: " + err.Error(), Help: "the record of the old edition is damaged; bring it back as `release` wrote it"}}
	}
	return data, problems
}

// holds reports whether one of the sections is on a sheet.
func holds(s *pattern.Sized, sh *sheet.Sheet, sections []string) bool {
	return slices.ContainsFunc(sh.Places, func(p sheet.Place) bool { return slices.Contains(sections, s.Drawings[p.Drawing].Name) })
}
