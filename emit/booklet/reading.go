package booklet

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
)

// reading explains the sheets: that they are reversed, and what each line means.
func (m *maker) reading() {
	if m.worked < 0 {
		return
	}
	d := &m.Sized.Drawings[m.worked]
	set := &m.Pattern.Settings
	m.Chapter(m.say("reading"))
	m.Bold(m.say("reading_reversed"))
	m.shownIn([]shown{
		{diagram.Faced(d), m.say("reading_print_side", "name", d.Name)},
		{diagram.Sewn(m.Pattern, d), m.say("reading_cloth_side", "name", d.Name)},
	}, 2, 2.2*pattern.Inch, 2)
	m.Text(m.say("reading_numbers", "name", d.Name))
	m.sample(drawing.SewingLine, m.say("line_sewing"))
	m.sample(drawing.OutlineLine, m.say("line_outline"))
	m.sample(drawing.CuttingLine, m.say("line_cutting", "allowance", m.allowance()))
	if set.Extra > 0 {
		m.sample(drawing.ExtraLine, m.say("line_extra", "extra", m.own(set.Extra)))
	}
	m.Sample(sampleWidth+sampleGap, m.say("line_mark"), func(at pattern.Pos) []drawing.Item {
		y, x := at.Y+0.12*pattern.Inch, at.X+sampleWidth/2
		return []drawing.Item{
			stroke(drawing.OutlineLine, pattern.Pos{X: at.X, Y: y}, pattern.Pos{X: at.X + sampleWidth, Y: y}),
			&drawing.Path{Style: drawing.MarkLine, Points: []pattern.Pos{{X: x, Y: y}}, Circle: pattern.Millimetre, Fill: 0xffffff},
			stroke(drawing.MarkLine, pattern.Pos{X: x, Y: y}, pattern.Pos{X: x, Y: y - 3*pattern.Millimetre}),
		}
	})
	if m.Sized.Partial() {
		m.Sample(sampleWidth+sampleGap, m.say("line_stop"), func(at pattern.Pos) []drawing.Item {
			y, x := at.Y+0.12*pattern.Inch, at.X+sampleWidth/2
			bar, half := y-1.5*pattern.Millimetre, 1.3*pattern.Millimetre
			return []drawing.Item{
				stroke(drawing.OutlineLine, pattern.Pos{X: at.X, Y: y}, pattern.Pos{X: at.X + sampleWidth, Y: y}),
				stroke(drawing.MarkLine, pattern.Pos{X: x, Y: y}, pattern.Pos{X: x, Y: y - 3*pattern.Millimetre}),
				stroke(drawing.MarkLine, pattern.Pos{X: x - half, Y: bar}, pattern.Pos{X: x + half, Y: bar}),
			}
		})
	}
	m.sample(drawing.LeaderLine, m.say("line_leader"))
	if set.Placement {
		m.sample(drawing.PlaceLine, m.say("line_place", "allowance", m.allowance()))
	}
}

const (
	sampleWidth = 0.6 * pattern.Inch
	sampleGap   = 0.15 * pattern.Inch
)

// sample shows a kind of line before its words.
func (m *maker) sample(style drawing.Style, text string) {
	m.Sample(sampleWidth+sampleGap, text, func(at pattern.Pos) []drawing.Item {
		y := at.Y + 0.09*pattern.Inch
		return []drawing.Item{stroke(style, pattern.Pos{X: at.X, Y: y}, pattern.Pos{X: at.X + sampleWidth, Y: y})}
	})
}

func stroke(style drawing.Style, a, b pattern.Pos) *drawing.Path {
	return &drawing.Path{Style: style, Points: []pattern.Pos{a, b}, Fill: drawing.NoColour}
}
