package booklet

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/pdf"
)

// A printer's marks stand outside the page, on paper that is cut off.
const (
	slug     = 0.5 * pattern.Inch
	markLong = 0.25 * pattern.Inch
)

// PadSheet is the paper of a pad: the pattern's own, with a margin that keeps all
// print clear of the glue and of where the press holds the paper. Rules and notes
// stand up to a quarter inch outside the margin, so it is that much wider.
func PadSheet(paper pattern.Sheet, pad *pattern.Pad) pattern.Sheet {
	const band = pattern.Inch / 4
	paper.Bound = true
	paper.Margin = max(paper.Margin, max(pad.Glue, pad.Gripper)+band)
	return paper
}

// Pad returns the pages of a pad, as they lie on each other from the top: the
// cover with how to sew, the cutting list and a drawing to color in, then every
// sheet as often as it is in the pad, all in one color. Parts.Sheets were laid out
// on [PadSheet], and are the pad's own: what is grey in them is made so here.
func Pad(parts Parts, pad *pattern.Pad) []pdf.Page {
	sheet := PadSheet(parts.Pattern.Settings.Sheet, pad)
	m := &maker{Parts: parts, worked: chooseWorked(parts.Sized), margin: sheet.Margin, printed: true}
	order := pad.Order(prints(parts))
	front := m.text(func() {
		m.padCover(pad, len(order))
		m.Break()
		m.reading()
		m.begin()
		m.gluing()
		m.trimming()
		m.joining()
		m.Break()
		m.cutting()
		m.coloring()
	})
	of := front.Count() + len(order)
	pages := m.pages(nil, front, 0, of)
	for i := range pages {
		inBlack(pages[i].Items)
	}
	for i := range parts.Sheets.Sheets {
		inBlack(parts.Sheets.Sheets[i].Page.Items)
	}
	for _, i := range order {
		pages = append(pages, pdf.Page{Page: &parts.Sheets.Sheets[i].Page, Shared: true})
	}
	if len(order) > 0 {
		pages[front.Count()].Bookmark = m.say("pad_sheets")
	}
	for i := range pages {
		words := m.say("pad_slug", "n", strconv.Itoa(i+1), "m", strconv.Itoa(of), "title", m.title(), "edition", m.edition())
		pages[i].Slug, pages[i].Bleed = slug, min(pad.Bleed, slug-markLong)
		pages[i].Over = cropMarks(pages[i].Size, pages[i].Bleed, words)
	}
	return pages
}

// inBlack turns colors into greys: one ink must do.
func inBlack(items []drawing.Item) {
	grey := func(c drawing.Colour) drawing.Colour {
		if c < 0 {
			return c
		}
		// How light a color looks (ITU-R BT.601).
		y := (299*(c>>16&0xFF) + 587*(c>>8&0xFF) + 114*(c&0xFF) + 500) / 1000
		return y<<16 | y<<8 | y
	}
	for _, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			item.Fill = grey(item.Fill)
		case *drawing.Text:
			item.Colour = grey(item.Colour)
		case *drawing.Group:
			inBlack(item.Items)
		}
	}
}

// prints is how often each sheet is printed for one block.
func prints(parts Parts) []int {
	times := make([]int, len(parts.Sheets.Sheets))
	for i := range times {
		times[i] = parts.Sheets.Sheets[i].Print
	}
	return times
}

// padCover tells what is in the pad.
func (m *maker) padCover(pad *pattern.Pad, sheets int) {
	m.Chapter(m.title())
	m.Text(m.say("finishes", "size", m.finished(), "raw", m.raw()))
	figure := diagram.Values(m.Pattern, m.Sized)
	m.Picture(min(m.Width()*pattern.Length(figure.Proportion()), m.Height()/2), figure.In)
	m.Note(m.say("from_front"))
	blocks := m.count("blocks", pad.Copies)
	if all := m.count("sheets_all", sheets); pad.Spare > 0 {
		m.Bold(m.say("pad_holds_spare", "blocks", blocks, "spare", m.count("pad_spare", pad.Spare), "sheets", all))
	} else {
		m.Bold(m.say("pad_holds", "blocks", blocks, "sheets", all))
	}
	if pad.Loose {
		m.Text(m.say("pad_loose"))
	} else {
		m.Text(m.count("pad_collated", (sheets-pad.Spare)/max(1, pad.Copies)))
	}
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("printing_sheet"), Share: 1}, {Head: m.say("printing_sections"), Share: 4},
		{Head: m.say("pad_block"), Share: 1.5}, {Head: m.say("pad_all"), Share: 1.5}}}
	in := make([]int, len(m.Sheets.Sheets))
	for _, i := range pad.Order(prints(m.Parts)) {
		in[i]++
	}
	for i := range m.Sheets.Sheets {
		t.Rows = append(t.Rows, []string{strconv.Itoa(i + 1), m.onSheet(i), strconv.Itoa(m.Sheets.Sheets[i].Print), strconv.Itoa(in[i])})
	}
	m.Table(t)
	if about := &m.Pattern.About; about.Author != "" {
		m.Text(m.say("by", "author", about.Author+" "+about.Year))
	}
	m.Note(m.Pattern.About.Rights)
	m.Note(m.edition())
}

// onSheet names the sections of a sheet.
func (m *maker) onSheet(i int) string {
	names := ""
	places := m.Sheets.Sheets[i].Places
	for k := range places {
		if k > 0 {
			names += ", "
		}
		names += m.placed(&places[k])
	}
	return names
}

// cropMarks show where a page is cut, outside of what may be printed; words say
// which page it is.
func cropMarks(page pattern.Size, bleed pattern.Length, words string) []drawing.Item {
	var items []drawing.Item
	mark := func(x, y, dx, dy pattern.Length) {
		from := pattern.Pos{X: x + dx*bleed, Y: y + dy*bleed}
		to := pattern.Pos{X: from.X + dx*markLong, Y: from.Y + dy*markLong}
		items = append(items, stroke(drawing.RuleLine, from, to))
	}
	for _, x := range [2]pattern.Length{0, page.W} {
		for _, y := range [2]pattern.Length{0, page.H} {
			dx, dy := pattern.Length(-1), pattern.Length(-1)
			if x > 0 {
				dx = 1
			}
			if y > 0 {
				dy = 1
			}
			mark(x, y, dx, 0)
			mark(x, y, 0, dy)
		}
	}
	at := pattern.Pos{X: page.W / 2, Y: -bleed - markLong/4}
	return append(items, &drawing.Text{Text: drawing.Shorten(words, flow.Small, false, page.W*0.9), At: at, Size: flow.Small, Anchor: drawing.Middle})
}
