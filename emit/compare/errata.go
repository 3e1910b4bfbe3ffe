package compare

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/edition"
	"seamwright/emit/flow"
)

// A Reprint says which sections of a block at a size must be printed anew.
type Reprint struct {
	Block, Size string // its name; the finished size in words
	Sections    []string
}

// Reprints lists what must be printed anew to sew the new instead of the old.
func (r *Report) Reprints() []Reprint {
	all := false // everything
	for i := range r.Changes {
		c := &r.Changes[i]
		all = all || c.Kind == Settings && (c.Subject == "allowance" || c.Subject == "extra")
		all = all || c.Kind == Cloth && c.Aspect == "words" // they stand in the spaces
	}
	var out []Reprint
	for b := range r.New.Blocks {
		block := &r.New.Blocks[b]
		for k := range block.Sizes {
			s := &block.Sizes[k]
			again := Reprint{Block: block.Name, Size: s.Words()}
			for i := range s.Sections {
				if name := s.Sections[i].Name; all || r.matched[block.Name+"/"+s.Name] == nil || r.reprints(block.Name, again.Size, name) {
					again.Sections = append(again.Sections, name)
				}
			}
			if len(again.Sections) > 0 {
				out = append(out, again)
			}
		}
	}
	return out
}

// reprints reports whether what is printed of a section is otherwise.
func (r *Report) reprints(block, size, section string) bool {
	return slices.ContainsFunc(r.Changes, func(c Change) bool {
		if c.Block != block || c.Section != section || !slices.Contains(c.Sizes, size) {
			return false
		}
		switch c.Kind {
		case Geometry, Numbers, Marks, Fabrics, Program:
			return c.Old != "" || c.New != "" || c.Note != ""
		case Joining:
			return c.Aspect == "edges"
		}
		return false
	})
}

// Errata sets the page of corrections on paper. It speaks to makers: who hold the
// old edition, and have perhaps cut or sewn already.
func (r *Report) Errata(paper pattern.Sheet) []flow.Page {
	e := &errata{r: r, Flow: flow.New(paper.Paper, max(paper.Margin, pattern.Inch/2))}
	e.Break()
	e.begin()
	e.telling()
	e.corrections()
	e.remedies()
	e.sheets()
	return e.Pages(func(n int) (string, string) {
		return fmt.Sprintf("%s  -  corrections to edition %d", e.r.New.Title(), e.r.Old.Edition), "page " + strconv.Itoa(n)
	})
}

type errata struct {
	*flow.Flow
	r *Report
}

func (e *errata) begin() {
	e.Chapter("Corrections: " + e.r.New.Title())
	s := fmt.Sprintf("Edition %d is corrected by edition %d", e.r.Old.Edition, e.r.New.Edition)
	if year := edition.Find(e.r.New.Words, "year"); year != "" {
		s += " (" + year + ")"
	}
	if author := edition.Find(e.r.New.Words, "author"); author != "" {
		s += ", by " + author
	}
	e.Text(s + ". This page tells what is otherwise, and what to do if you have already cut or sewn. The sheets that changed follow it, to be printed alone.")
	var to []string
	for _, name := range []string{"contact", "corrections"} {
		if w := edition.Find(e.r.New.Words, name); w != "" {
			to = append(to, w)
		}
	}
	s = "With thanks to those who wrote."
	if len(to) > 0 {
		s += " Questions and further corrections: " + strings.Join(to, "; ") + "."
	}
	e.Text(s)
}

// telling says how to know which edition one holds.
func (e *errata) telling() {
	e.Heading("Which edition do you hold?")
	e.Text(fmt.Sprintf("Every section says it after its size, \"ed. %d\" or \"ed. %d\", and every sheet bears a mark at its upper right. These are the marks:", e.r.Old.Edition, e.r.New.Edition))
	t := &flow.Table{Columns: []flow.Column{{Head: "Block", Share: 3}, {Head: "Finishes", Share: 2}, {Head: "Paper", Share: 2},
		{Head: fmt.Sprintf("Edition %d", e.r.Old.Edition), Share: 2}, {Head: fmt.Sprintf("Edition %d", e.r.New.Edition), Share: 2}}}
	for _, b := range pairs(e.r.Old.Blocks, e.r.New.Blocks, func(b *edition.Block) string { return b.Name }) {
		var old, new []edition.Size
		title := ""
		if b.old != nil {
			old, title = b.old.Sizes, b.old.Title
		}
		if b.new != nil {
			new, title = b.new.Sizes, b.new.Title
		}
		for _, s := range pairs(old, new, func(s *edition.Size) string { return s.Name }) {
			var was, is []edition.Word
			size := ""
			if s.old != nil {
				was, size = s.old.Marks, s.old.Words()
			}
			if s.new != nil {
				is, size = s.new.Marks, s.new.Words()
			}
			for _, m := range pairs(was, is, func(w *edition.Word) string { return w.Name }) {
				row := []string{title, size, "", "-", "-"}
				if m.old != nil {
					row[2], row[3] = m.old.Name, m.old.Text
				}
				if m.new != nil {
					row[2], row[4] = m.new.Name, m.new.Text
				}
				t.Rows = append(t.Rows, row)
			}
		}
	}
	e.Table(t)
}

// corrections lists what was printed and what should be, one table for a block.
func (e *errata) corrections() {
	e.Heading("What is corrected")
	block, t := "\x00", (*flow.Table)(nil)
	set := func() {
		if t != nil {
			e.Table(t)
		}
	}
	for i := range e.r.Changes {
		c := &e.r.Changes[i]
		if c.Block != block {
			set()
			block = c.Block
			t = &flow.Table{Title: e.r.heading(block), Columns: []flow.Column{{Head: "Where", Share: 2.4}, {Head: "Sheet", Share: 0.8},
				{Head: "Printed", Share: 2.4}, {Head: "Should be", Share: 2.8}, {Head: "Affects", Share: 1.1}}}
		}
		where := c.Name()
		if at := e.r.at(c); at != "" {
			where += ", at " + at
		}
		t.Rows = append(t.Rows, []string{where, e.sheetOf(c), printedWords(c), shouldBe(c), c.Affects})
	}
	set()
	e.overlays()
}

func printedWords(c *Change) string {
	if c.Old == "" && c.Note == "" {
		return "nothing"
	}
	return c.Old
}

func shouldBe(c *Change) string {
	switch {
	case c.New == "" && c.Note == "":
		return "nothing"
	case c.New == "":
		return c.Note
	case c.Note == "":
		return c.New
	}
	return c.New + "; " + c.Note
}

// sheetOf tells on which sheet of the old a section is printed, where that is the
// same at all sizes of the change.
func (e *errata) sheetOf(c *Change) string {
	found := ""
	for i := range e.r.Old.Blocks {
		b := &e.r.Old.Blocks[i]
		for k := range b.Sizes {
			s := &b.Sizes[k]
			m := e.r.matched[c.Block+"/"+s.Name]
			if b.Name != c.Block || m == nil || !slices.Contains(c.Sizes, s.Words()) || c.Section == "" {
				continue
			}
			for name, at := range printed(s) {
				if name != e.wasCalled(m, c.Section) {
					continue
				}
				n := strconv.Itoa(at.sheet + 1)
				if found != "" && found != n {
					return "-"
				}
				found = n
			}
		}
	}
	if found == "" {
		return "-"
	}
	return found
}

// wasCalled is the letter that a section had in the old.
func (e *errata) wasCalled(m *matching, section string) string {
	for i, k := range m.from {
		if k >= 0 && m.new.Sections[m.is[i].section].Name == section {
			return m.old.Sections[m.was[k].section].Name
		}
	}
	return section
}

// overlays draws each block that looks otherwise, at the first size where it does.
func (e *errata) overlays() {
	for i := range e.r.New.Blocks {
		b := &e.r.New.Blocks[i]
		for k := range b.Sizes {
			m := e.r.matched[b.Name+"/"+b.Sizes[k].Name]
			if m == nil || m.signs() == "" {
				continue
			}
			const high = 3 * pattern.Inch
			e.Need(high + pattern.Inch/2)
			e.Text(b.Title + ", finished, from the front. Filled: what is corrected. Dashed: where a line was.")
			e.Picture(high, func(at pattern.Pos, size pattern.Size) []drawing.Item { return m.overlay(at, size) })
			break
		}
	}
}

// sheets says which pages follow.
func (e *errata) sheets() {
	again := e.r.Reprints()
	if len(again) == 0 {
		e.Text("No section has to be printed again.")
		return
	}
	e.Heading("To print again")
	e.Text("Print the pages after this at 100 %, on one side, and measure the 1-inch square before you sew. They hold:")
	for _, a := range again {
		e.Item("-", fmt.Sprintf("%s, finishes %s: section%s %s", e.r.heading(a.Block), a.Size, plural(len(a.Sections)), strings.Join(a.Sections, ", ")))
	}
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}
