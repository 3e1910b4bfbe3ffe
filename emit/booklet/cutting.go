package booklet

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/table"
)

// cutting sets the cutting table in both views.
func (m *maker) cutting() {
	m.Chapter(m.say("cutting"))
	m.Text(m.say("cutting_one", "size", m.finished(), "raw", m.raw()))
	if chooseWorked(m.Sized) >= 0 {
		set := &m.Pattern.Settings
		m.Text(m.say("cutting_ease", "ease", m.own(set.Ease), "step", m.own(set.PatchStep(false))))
	}
	m.Heading(m.say("cutting_day"))
	m.bought()
	rows := m.Cuts.Rows
	for i := 0; i < len(rows); {
		end := i + 1
		for end < len(rows) && rows[end].Fabric == rows[i].Fabric {
			end++
		}
		m.fabricRows(rows[i:end])
		i = end
	}
	m.diagonals()
	m.Heading(m.say("cutting_sewing"))
	m.Lead(m.say("cutting_along"))
	for d := range m.Sized.Drawings {
		m.sectionRows(&m.Sized.Drawings[d])
	}
	m.slanting()
}

// bought sets the strips that are cut across the cloth before anything else, and what
// is bought for them. What comes from a scrap has no strips.
func (m *maker) bought() {
	how, all := m.Cuts.Buying(m.Pattern, m.Block, m.Sized, m.tables())
	var striped []table.Purchase
	var cut [][]string
	for i := range all {
		if lines := append(slices.Clone(all[i].Sum), all[i].From...); len(lines) > 0 {
			striped, cut = append(striped, all[i]), append(cut, lines)
		}
	}
	if len(striped) == 0 {
		return
	}
	m.Lead(m.say("cutting_strips") + " " + how)
	m.clothTable(striped, cut, func(i int) (string, uint32) {
		f := &m.Pattern.Fabrics[striped[i].Fabric]
		return f.Words, f.Colour
	})
}

// fabricRows sets what is cut from one fabric, what is cut exact apart from what is
// larger than its space.
func (m *maker) fabricRows(rows []table.Row) {
	f := &m.Pattern.Fabrics[rows[0].Fabric]
	head := f.Words + " (" + m.value(f) + ")"
	if f.Scrappy != "" {
		head += ": " + m.say("scrappy_"+f.Scrappy)
	}
	for i := 0; i < len(rows); {
		end := i + 1
		for end < len(rows) && rows[end].Plain == rows[i].Plain {
			end++
		}
		title := head
		if rows[i].Plain {
			title += "; " + m.say("exact")
		}
		m.patchRows(title, f, rows[i:end])
		i = end
	}
}

// patchRows sets patches of one fabric. A count has brackets, so that none is read
// into a size.
func (m *maker) patchRows(title string, f *pattern.Fabric, rows []table.Row) {
	t := &flow.Table{Title: title, Columns: []flow.Column{{Head: m.say("count"), Share: 1.1}, {Head: m.say("cut_as"), Share: 4}}}
	t.Columns = append(t.Columns, m.sizeColumns()...)
	t.Columns = append(t.Columns, flow.Column{Head: m.say("for_spaces"), Share: 3.5})
	t.Swatch = func(_ int, at pattern.Pos, side pattern.Length) []drawing.Item { return diagram.Swatch(f, at, side) }
	for i := range rows {
		r := &rows[i]
		straight, reversed := r.Cloth()
		shape := m.shape(r.Shape, r.Template)
		switch {
		case straight == 0 && reversed > 0:
			straight, shape = reversed, shape+"; "+m.say("all_reversed")
		case reversed > 0:
			shape += "; " + m.say("and_reversed", "n", strconv.Itoa(reversed))
		}
		row := append([]string{brackets(straight), shape}, m.sizes(r.Size)...)
		t.Rows = append(t.Rows, append(row, table.SpaceList(m.Sized, r.Spaces, m.say("reversed"))))
	}
	m.Table(t)
}

// diagonals show how the squares and rectangles that give triangles are cut.
func (m *maker) diagonals() {
	type cut struct {
		shape pattern.Shape
		size  pattern.Size
	}
	const most = 12 // more are found in the table
	var all []cut
	for i := range m.Cuts.Rows {
		r := &m.Cuts.Rows[i]
		c := cut{r.Shape, r.Size}
		if r.Shape != pattern.HalfRectangle {
			c.size = pattern.Size{W: 1, H: 1} // all squares are cut alike
		}
		if r.Shape.Yield() > 1 && len(all) < most && !slices.Contains(all, c) {
			all = append(all, c)
		}
	}
	if len(all) == 0 {
		return
	}
	m.Lead(m.say("cutting_diagonal"))
	pictures := make([]shown, len(all))
	for i, c := range all {
		text := m.shape(c.shape, "")
		if c.shape == pattern.HalfRectangle {
			text = m.sizes(c.size)[0] + ": " + text
		}
		pictures[i] = shown{diagram.Diagonal(c.shape, c.size), text}
	}
	m.shownIn(pictures, m.Columns(1.5*pattern.Inch), 0.8*pattern.Inch, 3)
}

func (m *maker) sizeColumns() []flow.Column {
	in, cm := flow.Column{Head: m.say("size_inches"), Share: 2.3}, flow.Column{Head: m.say("size_metric"), Share: 2.3}
	if m.Pattern.Settings.Metric {
		return []flow.Column{cm, in}
	}
	return []flow.Column{in, cm}
}

// sizes tells a size in both systems, the pattern's own first.
func (m *maker) sizes(s pattern.Size) []string {
	metric := m.Pattern.Settings.Metric
	return []string{m.local(table.Size(s, metric)), m.local(table.Size(s, !metric))}
}

func (m *maker) shape(s pattern.Shape, template string) string {
	return table.Shape(m.tables(), s, template)
}

// sectionRows sets what goes into one section.
func (m *maker) sectionRows(d *pattern.Drawing) {
	head := m.sectionHead(d)
	if d.Plain {
		head += "; " + m.say("exact")
	}
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("space"), Share: 1.2}, {Head: m.say("fabric"), Share: 2.6}, {Head: m.say("cut_as"), Share: 3}}}
	t.Columns = append(t.Columns, m.sizeColumns()...)
	t.Columns = append(t.Columns, flow.Column{Head: m.say("lay"), Share: 1.8})
	t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
		return diagram.Swatch(&m.Pattern.Fabrics[d.Pieces[row].Fabric], at, side)
	}
	for i := range d.Pieces {
		piece := &d.Pieces[i]
		shape := m.shape(piece.Patch.Shape, d.Name)
		if piece.Patch.Reversed {
			shape += "; " + m.say("reversed")
		}
		row := append([]string{d.Label(i), m.Pattern.Fabrics[piece.Fabric].Words, shape}, m.sizes(piece.Patch.Size)...)
		t.Rows = append(t.Rows, append(row, table.Lay(m.tables(), piece, i)))
	}
	t.Title = head
	m.Table(t)
}

// sectionHead names a section and how often it is made.
func (m *maker) sectionHead(d *pattern.Drawing) string {
	head := m.say("section_head", "n", strconv.Itoa(d.Make), "name", d.Name)
	if d.Reversed >= 0 {
		head += " (" + m.say("section_reversed", "name", m.Sized.Drawings[d.Reversed].Name) + ")"
	}
	return head
}

// slanting shows the patches that have no edge along their line.
func (m *maker) slanting() {
	const most = 30 // more are found in the table
	all := diagram.Slants(m.Sized)
	if len(all) == 0 {
		return
	}
	m.Heading(m.say("slanting"))
	m.Lead(m.say("cutting_slant"))
	columns := m.Columns(1.5 * pattern.Inch)
	m.Grid(min(most, len(all)), columns, m.Width()/pattern.Length(columns), func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		d := &m.Sized.Drawings[all[i].Drawing]
		return captioned(diagram.Slanting(d, all[i].Piece).In, d.Label(all[i].Piece)+": "+m.sizes(d.Pieces[all[i].Piece].Patch.Size)[0], 1, at, size)
	})
}

// plain names the sections without paper, "C, D".
func (m *maker) plain() string {
	var names []string
	for d := range m.Sized.Drawings {
		if m.Sized.Drawings[d].Plain {
			names = append(names, m.Sized.Drawings[d].Name)
		}
	}
	return strings.Join(names, ", ")
}
