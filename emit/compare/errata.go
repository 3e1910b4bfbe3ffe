package compare

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
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
	all := false         // everything
	var renamed []string // fabrics whose words are others: they stand in their spaces
	for i := range r.Changes {
		c := &r.Changes[i]
		all = all || c.Kind == Settings && (c.Subject == "allowance" || c.Subject == "extra")
		if c.Kind == Cloth && c.Aspect == "words" {
			for k := range r.New.Fabrics {
				if r.New.Fabrics[k].Words == c.New {
					renamed = append(renamed, r.New.Fabrics[k].Name)
				}
			}
		}
	}
	var out []Reprint
	for b := range r.New.Blocks {
		block := &r.New.Blocks[b]
		for k := range block.Sizes {
			s := &block.Sizes[k]
			again := Reprint{Block: block.Name, Size: s.Words()}
			for i := range s.Sections {
				of := func(space edition.Space) bool { return slices.Contains(renamed, space.Fabric) }
				if name := s.Sections[i].Name; all || r.matched[block.Name+"/"+s.Name] == nil || r.reprints(block.Name, again.Size, name) || slices.ContainsFunc(s.Sections[i].Spaces, of) {
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
	e := &errata{r: r, words: words.ToMakers(cmp.Or(edition.Find(r.New.Settings, "language"), words.Default)), Flow: flow.New(paper.Paper, max(paper.Margin, pattern.Inch/2))}
	e.Break()
	e.begin()
	e.telling()
	e.corrections()
	e.remedies()
	e.sheets()
	return e.Pages(func(n int) (string, string) {
		return e.say("foot", "title", e.r.New.Title(), "n", strconv.Itoa(e.r.Old.Edition)), e.say("page", "n", strconv.Itoa(n))
	})
}

type errata struct {
	*flow.Flow
	r     *Report
	words *words.Catalogue // in the pattern's language
}

func (e *errata) say(key string, fill ...string) string { return e.words.Say(key, fill...) }

// both are the numbers of the editions, to be filled in.
func (e *errata) both() []string {
	return []string{"old", strconv.Itoa(e.r.Old.Edition), "new", strconv.Itoa(e.r.New.Edition)}
}

func (e *errata) begin() {
	e.Chapter(e.say("title", "title", e.r.New.Title()))
	more := ""
	if year := edition.Find(e.r.New.Words, "year"); year != "" {
		more += " (" + year + ")"
	}
	if author := edition.Find(e.r.New.Words, "author"); author != "" {
		more += e.say("by", "author", author)
	}
	e.Text(e.say("corrected", append(e.both(), "more", more)...))
	var to []string
	for _, name := range []string{"contact", "corrections"} {
		if w := edition.Find(e.r.New.Words, name); w != "" {
			to = append(to, w)
		}
	}
	s := e.say("thanks")
	if len(to) > 0 {
		s += " " + e.say("questions", "to", strings.Join(to, "; "))
	}
	e.Text(s)
}

// telling says how to know which edition one holds.
func (e *errata) telling() {
	e.Heading(e.say("which"))
	e.Text(e.say("which_text", e.both()...))
	t := &flow.Table{Columns: []flow.Column{{Head: e.say("head_block"), Share: 3}, {Head: e.say("head_finishes"), Share: 2}, {Head: e.say("head_paper"), Share: 2},
		{Head: e.say("head_edition", "n", strconv.Itoa(e.r.Old.Edition)), Share: 2}, {Head: e.say("head_edition", "n", strconv.Itoa(e.r.New.Edition)), Share: 2}}}
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
	e.Heading(e.say("what"))
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
			t = &flow.Table{Title: e.heading(block), Columns: []flow.Column{{Head: e.say("head_where"), Share: 2.4}, {Head: e.say("head_sheet"), Share: 0.8},
				{Head: e.say("head_printed"), Share: 2.4}, {Head: e.say("head_should"), Share: 2.8}, {Head: e.say("head_affects"), Share: 1.1}}}
		}
		where := e.name(c)
		if at := e.r.at(c); len(at) > 0 {
			where = e.say("at", "what", where, "sizes", e.list(at))
		}
		t.Rows = append(t.Rows, []string{where, e.sheetOf(c), e.printed(c), e.shouldBe(c), e.say("affects_" + c.Affects)})
	}
	set()
	if e.r.Untold() {
		e.Note(e.say("untold", e.both()...))
	}
	e.overlays()
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
				n := ""
				for _, part := range at {
					if n != "" {
						n += ", "
					}
					n += strconv.Itoa(part.sheet + 1)
				}
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
			e.Text(e.say("overlay", "title", b.Title))
			e.Picture(high, func(at pattern.Pos, size pattern.Size) []drawing.Item { return m.overlay(at, size) })
			break
		}
	}
}

// sheets says which pages follow.
func (e *errata) sheets() {
	again := e.r.Reprints()
	if len(again) == 0 {
		e.Text(e.say("again_none"))
		return
	}
	e.Heading(e.say("again"))
	e.Text(e.say("again_text"))
	for _, a := range again {
		e.Item("-", e.words.Count("again_item", len(a.Sections), "block", e.heading(a.Block), "size", a.Size, "sections", strings.Join(a.Sections, ", ")))
	}
}
