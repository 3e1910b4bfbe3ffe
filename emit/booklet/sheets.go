package booklet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/tiling"
)

// mostOfPage is how much of a page is left at least where a large picture begins with
// a title: a few lines that are left of the chapter before may stand above it.
const mostOfPage = 0.8

// coloring is a page to color in.
func (m *maker) coloring() {
	m.Need(m.Height() * mostOfPage)
	m.Chapter(m.say("coloring"))
	m.Text(m.say("coloring_intro"))
	figure := diagram.Lines(m.Sized)
	// Below it stand the words of the block at full size.
	m.Picture(min(m.Left()-fullWords-flow.RowGap, m.Width()*pattern.Length(figure.Proportion())), figure.In)
}

// fullWords is what the title and the words of the block at full size take: as a
// chapter, and as a part of one.
const (
	fullChapter = 1.6 * pattern.Inch
	fullWords   = fullChapter - 0.3*pattern.Inch
)

// mostFull is on how many pages the front is printed at full size at the most: a
// block of ten feet on letter paper.
const mostFull = 400

// fullSize is the front at true size, on as many pages as it takes.
func (m *maker) fullSize() {
	figure := diagram.Full(m.Sized, m.Pattern.Settings.Allowance)
	size := figure.Size()
	const note = 0.25 * pattern.Inch
	divide := func(height pattern.Length) (*tiling.Tiling, bool) {
		edge := []pattern.Pos{{}, {X: size.W}, {X: size.W, Y: size.H}, {Y: size.H}}
		return tiling.Divide(edge, pattern.Size{W: m.Width(), H: height}, mostFull, nil)
	}
	t, ok := divide(max(m.Height()-fullChapter, m.Height()/2))
	apart, some := divide(m.Height() - note) // where the words stand on the page before
	alone := some && (!ok || len(apart.Parts)+1 < len(t.Parts))
	switch {
	case alone: // on the page before, where there is room
		t = apart
		m.Need(fullWords)
		m.Heading(m.say("full_size"))
	case !ok:
		return
	default:
		m.Break()
		m.Chapter(m.say("full_size"))
	}
	m.Text(m.say("full_size_intro"))
	if len(t.Parts) > 1 {
		m.Text(m.say("full_size_tiles", "n", strconv.Itoa(len(t.Parts)), "across", strconv.Itoa(t.Columns)))
	}
	whole := drawing.NewWide(figure.True(pattern.Pos{}))
	for i := range t.Parts {
		p := &t.Parts[i]
		if i > 0 || alone {
			m.Break()
		}
		if i == 0 {
			m.Name(m.say("full_size"))
		}
		if len(t.Parts) > 1 {
			m.Note(m.say("full_size_at", "row", strconv.Itoa(p.Row), "column", strconv.Itoa(p.Column)))
		}
		m.Picture(p.Shown.Y1-p.Shown.Y0, func(at pattern.Pos, _ pattern.Size) []drawing.Item {
			return append(t.Page(i, whole, at), m.inch(at.X))
		})
	}
}

// inch is a corner one inch wide and high in the margin of a page that is true to
// scale, so that the page can be measured by itself in both directions.
func (m *maker) inch(margin pattern.Length) drawing.Item {
	const tick = 1.2 * pattern.Millimetre
	at := margin * 0.64 // a third of an inch of half an inch: every printer reaches it
	end := at + pattern.Inch
	line := func(x1, y1, x2, y2 pattern.Length) drawing.Item {
		return stroke(drawing.RuleLine, pattern.Pos{X: x1, Y: y1}, pattern.Pos{X: x2, Y: y2})
	}
	return &drawing.Group{ID: "inch", Items: []drawing.Item{
		line(at, at, end, at), line(at, at, at, end), line(end, at-tick, end, at+tick), line(at-tick, end, at+tick, end),
		&drawing.Text{Text: m.say("full_size_inch"), At: pattern.Pos{X: end + 2*tick, Y: at + flow.Small*drawing.CapHeight/2}, Size: flow.Small},
	}}
}

// printing lists which pages of the file are printed how often; so many pages
// stand before the sheets.
func (m *maker) printing(before int) {
	m.Chapter(m.say("printing"))
	sheets := m.Sheets.Sheets
	if len(sheets) == 0 {
		m.Text(m.say("no_sheets"))
		return
	}
	m.Bold(m.say("print_first"))
	m.Text(m.say("printing_one"))
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("printing_page"), Share: 1.5}, {Head: m.say("printing_times"), Share: 1.5},
		{Head: m.say("printing_sheet"), Share: 1.5}, {Head: m.say("printing_sections"), Share: 5}}}
	quilts := m.forQuilts()
	for _, q := range quilts {
		t.Columns = append(t.Columns, flow.Column{Head: m.say("quilt_sheets", "title", q.title), Share: 1.8})
	}
	total := 0
	for i := 0; i < len(sheets); {
		end := i + 1
		for end < len(sheets) && sheets[end].Print == sheets[i].Print {
			end++
		}
		var on []string
		for k := i; k < end; k++ {
			on = append(on, m.onSheet(k))
			total += sheets[k].Print
		}
		row := []string{m.span(before+i+1, before+end), m.count("times", sheets[i].Print), m.span(i+1, end), strings.Join(on, "; ")}
		for _, q := range quilts {
			row = append(row, m.count("times", q.blocks*sheets[i].Print))
		}
		t.Rows = append(t.Rows, row)
		i = end
	}
	m.Table(t)
	m.Text(m.count("printing_sum", total))
	if len(quilts) > 0 {
		return
	}
	most := 0 // the sheet that is printed most often shows best what is meant
	for i := range sheets {
		if sheets[i].Print > sheets[most].Print {
			most = i
		}
	}
	m.Text(m.say("printing_more", "page", strconv.Itoa(before+most+1), "times", strconv.Itoa(12*sheets[most].Print)))
}

// A printing is how many blocks of a quilt are sewn from the sheets.
type printing struct {
	title  string
	blocks int
}

// forQuilts lists the quilts that the print list counts sheets for, as many as its
// table has room for. Reversed blocks are not sewn from these sheets.
func (m *maker) forQuilts() (all []printing) {
	const most = 2
	for _, q := range m.mine() {
		if n, reversed := m.times(q.Of); n > reversed && len(all) < most {
			all = append(all, printing{q.Of.Title, n - reversed})
		}
	}
	return all
}

// span names one page or a range of them.
func (m *maker) span(from, to int) string {
	if from == to {
		return strconv.Itoa(from)
	}
	return m.say("sheet_name_range", "from", strconv.Itoa(from), "to", strconv.Itoa(to))
}
