package booklet

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/sheet"
)

// gluing tells how sections that are too large for a sheet are glued together
// from their parts, before anything is sewn.
func (m *maker) gluing() {
	glued := m.Sheets.Glued
	if len(glued) == 0 {
		return
	}
	m.Chapter(m.say("gluing"))
	m.Text(m.say("gluing_intro"))
	m.Item("1.", m.say("gluing_lay"))
	m.Item("2.", m.say("gluing_cut"))
	m.Item("3.", m.say("gluing_glue"))
	m.Item("4.", m.say("gluing_check"))
	m.Item("5.", m.say("gluing_sew"))
	const most = 2.6 * pattern.Inch
	columns := m.Columns(2.8 * pattern.Inch)
	width := (m.Width()+columnGap)/pattern.Length(columns) - columnGap
	height := pattern.Length(0)
	for i := range glued {
		height = max(height, min(most, width*pattern.Length(glued[i].Proportion())))
	}
	const lines = 3
	m.Grid(len(glued), columns, height+caption(lines)+captionGap, func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		g := &glued[i]
		draw := func(at pattern.Pos, size pattern.Size) []drawing.Item { return g.Picture(at, size) }
		text := m.say("gluing_parts", "name", m.Sized.Drawings[g.Drawing].Name, "n", strconv.Itoa(g.Parts), "sheets", m.sheetsOf(g.Drawing), "what", g.Check)
		return captioned(draw, text, lines, at, size)
	})
}

// sheetsOf names the sheets that a section's parts are on.
func (m *maker) sheetsOf(drawing int) string {
	names, last := "", -1
	for i := range m.Sheets.Sheets {
		for _, p := range m.Sheets.Sheets[i].Places {
			if p.Drawing != drawing || i == last {
				continue
			}
			if names != "" {
				names += ", "
			}
			names, last = names+strconv.Itoa(i+1), i
		}
	}
	return names
}

// placed names what is printed in a place of a sheet: a section, or a part of one.
func (m *maker) placed(p *sheet.Place) string {
	name := m.Sized.Drawings[p.Drawing].Name
	if p.Part == nil {
		return name
	}
	return m.say("part_name", "name", name, "n", strconv.Itoa(p.Part.Number), "m", strconv.Itoa(p.Part.Of))
}
