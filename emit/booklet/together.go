package booklet

import (
	"strconv"

	"seamwright/emit/flow"
	"seamwright/emit/pdf"
)

// Together returns the pages of one booklet for several sizes of a block, the
// first of which is shown: what is the same for all sizes once, then for each its
// cutting tables, the block at full size, its print list and its sheets. A size
// that is divided otherwise than the first has its own sewing and joining too.
func Together(all []Parts) []pdf.Page {
	first := &maker{Parts: all[0], worked: chooseWorked(all[0].Sized), several: len(all) > 1, others: all[1:]}
	front := first.text(func() {
		first.cover()
		first.begin()
		first.fabrics()
		first.reading()
		first.sewing()
		first.trimming()
		first.joining()
		first.coloring()
	})
	count := front.Count()
	chapters := make([]sized, len(all))
	for i := range all {
		c := &chapters[i]
		c.maker = &maker{Parts: all[i], worked: chooseWorked(all[i].Sized)}
		c.set(count, !alike(&all[0], &all[i]))
		count += c.text.Count() + c.list.Count() + len(all[i].Sheets.Sheets)
	}
	back := first.text(first.back)
	of := count + back.Count()
	pages := first.pages(nil, front, 0, of)
	for i := range chapters {
		pages = chapters[i].append(pages, of)
	}
	return first.pages(pages, back, count, of)
}

// A sized is what a booklet of several sizes has for one of them.
type sized struct {
	*maker
	text, list *flow.Flow
	before     int // pages
}

// set sets the chapters, which come after so many pages.
func (c *sized) set(before int, own bool) {
	c.before = before
	c.text = c.maker.text(func() {
		c.Chapter(c.say("size_chapter", "size", c.finished()))
		c.Bold(c.say("measure", "raw", c.raw()))
		c.cutting()
		c.gluing()
		if own {
			c.sewing()
			c.several = true // it has told what it measures
			c.joining()
			c.several = false
		}
		c.quilts()
		c.fullSize()
	})
	c.list = c.maker.text(func() { c.printing(before + c.text.Count() + 1) })
	if n := c.list.Count(); n > 1 {
		c.list = c.maker.text(func() { c.printing(before + c.text.Count() + n) })
	}
}

// append adds the pages. Bookmarks begin with the size, for there are several of
// each name.
func (c *sized) append(to []pdf.Page, of int) []pdf.Page {
	from := len(to)
	to = c.pages(to, c.text, c.before, of)
	to = c.pages(to, c.list, c.before+c.text.Count(), of)
	for i := range c.Sheets.Sheets {
		to = append(to, pdf.Page{Page: &c.Sheets.Sheets[i].Page, Shared: true, Bookmark: c.say("sheet_name", "n", strconv.Itoa(i+1))})
	}
	for i := from + 1; i < len(to); i++ { // the first is the size's own
		if to[i].Bookmark != "" {
			to[i].Bookmark = c.Sized.Finished.Exact() + ": " + to[i].Bookmark
		}
	}
	return to
}

// alike reports whether two sizes are sewn and joined in the same way.
func alike(a, b *Parts) bool {
	if len(a.Sized.Drawings) != len(b.Sized.Drawings) || len(a.Sized.Joins) != len(b.Sized.Joins) {
		return false
	}
	for i := range a.Sized.Drawings {
		if x, y := &a.Sized.Drawings[i], &b.Sized.Drawings[i]; x.Name != y.Name || len(x.Pieces) != len(y.Pieces) || x.Make != y.Make {
			return false
		}
	}
	return true
}
