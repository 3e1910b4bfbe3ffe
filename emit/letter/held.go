package letter

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamwright/emit/compare"
	"seamwright/emit/edition"
)

// held finds the edition that the maker holds: by its mark, else by its number,
// else the newest.
func (a *answer) held() error {
	l := &a.letter
	a.record = a.newest
	if l.Edition > 0 {
		i := slices.IndexFunc(a.records, func(r *edition.Record) bool { return r.Edition == l.Edition })
		if i < 0 {
			return fmt.Errorf("nothing is known of edition %d; there is %s", l.Edition, a.numbers())
		}
		a.record = a.records[i]
	}
	if l.Mark == "" {
		return nil
	}
	mark := readMark(l.Mark)
	for i := len(a.records) - 1; i >= 0; i-- {
		r := a.records[i]
		for b := range r.Blocks {
			for s := range r.Blocks[b].Sizes {
				for _, m := range r.Blocks[b].Sizes[s].Marks {
					if m.Text == mark {
						a.marked(r, &r.Blocks[b], &r.Blocks[b].Sizes[s], m.Name)
						return nil
					}
				}
			}
		}
	}
	a.cause("a mark that no recorded edition has", "mark "+mark+"; known: "+strings.Join(a.marks(), ", "), a.say("mark_unknown", "mark", mark))
	return nil
}

// readMark reads a mark as it is written by hand: the letters that it never has
// are figures.
func readMark(s string) string {
	return strings.NewReplacer("O", "0", "I", "1", "L", "1", "U", "V", " ", "", "-", "").Replace(strings.ToUpper(s))
}

func (a *answer) marks() []string {
	var all []string
	for _, r := range a.records {
		for b := range r.Blocks {
			for s := range r.Blocks[b].Sizes {
				for _, m := range r.Blocks[b].Sizes[s].Marks {
					all = append(all, fmt.Sprintf("%s (edition %d, %s, %s)", m.Text, r.Edition, r.Blocks[b].Sizes[s].Words(), m.Name))
				}
			}
		}
	}
	return all
}

func (a *answer) numbers() string {
	var all []string
	for _, r := range a.records {
		all = append(all, strconv.Itoa(r.Edition))
	}
	return "edition " + strings.Join(all, ", ")
}

// marked takes what a mark tells: all of it.
func (a *answer) marked(r *edition.Record, b *edition.Block, s *edition.Size, paper string) {
	if a.letter.Edition > 0 && a.letter.Edition != r.Edition {
		a.cause("the mark is of another edition than the letter says", fmt.Sprintf("the mark is of edition %d, the letter says %d", r.Edition, a.letter.Edition),
			a.say("mark_edition", "is", strconv.Itoa(r.Edition), "said", strconv.Itoa(a.letter.Edition)))
	}
	if width := length(s.Finished[0]); a.letter.Size > 0 && !near(a.letter.Size, width, ruler) {
		a.cause("the sheet is of another size than the letter says", fmt.Sprintf("the mark is of the size %s, the letter says %s", s.Words(), a.letter.Size.Exact()),
			a.say("mark_size", "is", s.Words(), "said", a.letter.Size.Exact()))
	}
	a.record, a.block, a.size, a.paper = r, b, s, paper
}

// reversed ends the name of a block that is made because a quilt has it reversed.
const reversed = " reversed"

// choose finds the block and the size that the letter is about.
func (a *answer) choose() error {
	l := &a.letter
	if a.size != nil {
		return nil
	}
	var may []*edition.Block
	for i := range a.record.Blocks {
		if b := &a.record.Blocks[i]; l.Block == "" || b.Name == l.Block {
			may = append(may, b)
		}
	}
	if len(may) == 0 {
		return fmt.Errorf("edition %d has no block %q", a.record.Edition, l.Block)
	}
	var have []string
	for _, b := range may {
		for i := range b.Sizes {
			if s := b.Sizes[i].Words(); !slices.Contains(have, s) {
				have = append(have, s)
			}
		}
	}
	if may = fitting(may, a.meant); len(may) == 0 {
		return fmt.Errorf("edition %d has no size of %s; there is %s", a.record.Edition, l.Size.Exact(), strings.Join(have, ", "))
	}
	if having := fitting(may, func(s *edition.Size) bool { return a.meant(s) && has(s, l.Space) }); l.Space != "" && len(having) > 0 {
		may = having
	}
	if all := may; len(all) > 1 { // one that a quilt has reversed measures what the written one does
		may = slices.DeleteFunc(slices.Clone(all), func(b *edition.Block) bool {
			return slices.ContainsFunc(all, func(o *edition.Block) bool { return b.Name == o.Name+reversed })
		})
	}
	if len(may) > 1 {
		return nil
	}
	a.block = may[0]
	if first := slices.IndexFunc(a.block.Sizes, func(s edition.Size) bool { return a.meant(&s) }); l.Size > 0 || len(a.block.Sizes) == 1 {
		a.size = &a.block.Sizes[first]
	}
	return nil
}

// meant reports whether a size is the one that the letter tells, if it tells one.
func (a *answer) meant(s *edition.Size) bool {
	return a.letter.Size == 0 || near(a.letter.Size, length(s.Finished[0]), ruler)
}

// fitting returns the blocks of which a size is good.
func fitting(blocks []*edition.Block, good func(*edition.Size) bool) (all []*edition.Block) {
	for _, b := range blocks {
		if slices.ContainsFunc(b.Sizes, func(s edition.Size) bool { return good(&s) }) {
			all = append(all, b)
		}
	}
	return all
}

// unknown asks for the block or the size, where the letter leaves that open. Figures
// are what it tells of it.
func (a *answer) unknown(figures string) {
	if a.block == nil {
		var names []string
		for i := range a.record.Blocks {
			names = append(names, a.record.Blocks[i].Title)
		}
		a.cause("the block that was meant is not known", figures, a.say("block_unknown", "blocks", strings.Join(names, ", ")))
		return
	}
	a.cause("the size that was meant is not known", figures, a.say("size_unknown"))
}

// far says how far a change is from what the letter asks about: its space, then its
// block, then all else.
func (a *answer) far(c *compare.Change) int {
	switch {
	case c.Space != "" && strings.EqualFold(c.Space, a.letter.Space):
		return 0
	case c.Block != "":
		return 1
	}
	return 2
}

// editions tells what is corrected in what the maker holds.
func (a *answer) editions() {
	if a.record == a.newest || a.record.Edition >= a.newest.Edition {
		return
	}
	r := compare.Compare(a.record, a.newest)
	var mine []*compare.Change
	for i := range r.Changes {
		c := &r.Changes[i]
		fits := a.size == nil || len(c.Sizes) == 0 || slices.Contains(c.Sizes, a.size.Words())
		if fits && (c.Affects == "cutting" || c.Affects == "sewing") && (c.Block == "" || a.block == nil || c.Block == a.block.Name) {
			mine = append(mine, c)
		}
	}
	slices.SortStableFunc(mine, func(c, d *compare.Change) int { return a.far(c) - a.far(d) })
	var said []string
	for _, c := range mine {
		said = append(said, r.Said(c, a.words))
	}
	if len(said) == 0 {
		return
	}
	const most = 6
	more := ""
	if len(said) > most {
		more = a.say("changes_more", "n", strconv.Itoa(len(said)-most))
	}
	where := a.say("where_enclosed")
	if at := edition.Find(a.newest.Words, "corrections"); at != "" {
		where = a.say("where_at", "where", at)
	}
	say := a.say("edition_old", "old", strconv.Itoa(a.record.Edition), "new", strconv.Itoa(a.newest.Edition),
		"changes", strings.Join(said[:min(most, len(said))], "; "), "more", more, "where", where)
	a.cause("an edition that was corrected since", fmt.Sprintf("edition %d is held, %d is the newest: %s", a.record.Edition, a.newest.Edition, r.InShort()), say)
}
