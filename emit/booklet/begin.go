package booklet

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/table"
)

// begin tells what is needed and where it can hurt.
func (m *maker) begin() {
	if !m.printed { // a pad begins otherwise
		m.Break()
	}
	m.Chapter(m.say("begin"))
	if notes := m.Pattern.About.Notes; len(notes)+len(m.Pictures) > 0 {
		m.Heading(m.say("from_designer"))
		for _, note := range notes {
			m.Text(note)
		}
		if !m.printed { // a pad has one color
			m.pictures()
		}
	}
	m.tools()
	m.Text(m.say("stitch"))
	if !m.printed {
		m.Bold(m.say("print_first"))
	}
	m.care()
}

// care tells where it can hurt.
func (m *maker) care() {
	m.Heading(m.say("care"))
	m.Item("!", m.say("care_blade"))
	m.Item("!", m.say("care_iron"))
	m.Item("!", m.say("care_needle"))
}

func (m *maker) tools() {
	m.Heading(m.say("tools"))
	for _, text := range m.toolWords() {
		m.Item("-", text)
	}
}

// toolWords name what is needed; a pad is the paper.
func (m *maker) toolWords() []string {
	all := []string{m.say("tools_machine"), m.say("tools_needle")}
	if !m.printed {
		all = append(all, m.say("tools_paper"))
	}
	all = append(all, m.say("tools_cutter", "allowance", m.allowance()), m.say("tools_iron"), m.say("tools_pins"))
	if m.Sheets != nil && len(m.Sheets.Glued) > 0 {
		all = append(all, m.say("tools_glue"))
	}
	return all
}

// fabrics is the key to the fabrics, a box for a snip of each.
func (m *maker) fabrics() {
	const cell = 0.95 * pattern.Inch
	m.Chapter(m.say("fabrics"))
	m.Text(m.say("fabrics_intro"))
	used := m.used()
	m.Grid(len(used), m.Columns(3.2*pattern.Inch), cell, func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		f := &m.Pattern.Fabrics[used[i]]
		side := cell - 0.1*pattern.Inch
		items := diagram.Swatch(f, at, side/2)
		items = append(items, diagram.Hatched(f.Value, pattern.Pos{X: at.X, Y: at.Y + side/2}, pattern.Size{W: side / 2, H: side / 2})...)
		snip := pattern.Pos{X: at.X + side/2 + 0.08*pattern.Inch, Y: at.Y}
		items = append(items, box(snip, side), &drawing.Text{Text: m.fit(m.say("snip"), flow.Small, side),
			At: pattern.Pos{X: snip.X + side/2, Y: snip.Y + side/2}, Size: flow.Small, Anchor: drawing.Middle, Colour: 0x808080})
		x := snip.X + side + 0.1*pattern.Inch
		room := at.X + size.W - x
		y := at.Y
		write := func(text string, size pattern.Length, bold bool, most int) {
			for _, line := range flow.Lines(text, size, bold, room, most) {
				y += size * 1.25
				items = append(items, &drawing.Text{Text: line, At: pattern.Pos{X: x, Y: y}, Size: size, Bold: bold})
			}
		}
		write(f.Words, flow.Body, true, 2)
		write(m.value(f), flow.Small, false, 1)
		if f.Scrappy != "" {
			write(m.say("scrappy_"+f.Scrappy), flow.Small, false, 2)
		}
		return items
	})
	m.variety()
}

// variety tells and shows how many different cloths a scrappy block takes. What
// changes from block to block alone looks the same in one.
func (m *maker) variety() {
	text := table.VarietyWords(m.Pattern, m.Sized, m.tables())
	v := table.Different(m.Pattern, m.Sized)
	if text == "" || v.Most == len(m.used()) || m.printed { // a pad has one color
		m.Text(text)
		return
	}
	m.Lead(text)
	m.shownIn([]shown{
		{diagram.Varied(m.Pattern, m.Sized), m.say("variety_changing")},
		{diagram.Fewest(m.Pattern, m.Sized), m.count("variety_few", v.Least)},
	}, 2, 2.2*pattern.Inch, 2)
}

func (m *maker) fit(text string, size, width pattern.Length) string {
	return drawing.Shorten(text, size, false, width)
}

// value is the word for how light a fabric is.
func (m *maker) value(f *pattern.Fabric) string {
	if m.Words.Has(f.Value) {
		return m.say(f.Value)
	}
	return f.Value
}

// box is an empty square.
func box(at pattern.Pos, side pattern.Length) *drawing.Path {
	return &drawing.Path{Style: drawing.FrameLine, Fill: drawing.NoColour, Closed: true, Points: []pattern.Pos{at,
		{X: at.X + side, Y: at.Y}, {X: at.X + side, Y: at.Y + side}, {X: at.X, Y: at.Y + side}}}
}

// used lists the fabrics of this block, in the pattern's order.
func (m *maker) used() []int {
	var used []int
	for i, inches := range m.Cuts.Areas {
		if inches > 0 {
			used = append(used, i)
		}
	}
	return used
}
