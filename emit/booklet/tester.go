package booklet

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/pdf"
)

// Tester returns the copy of somebody who sews the pattern before it is sold: the
// booklet, marked on every page, and a form without what is expected, for people
// copy what they read. Key is that form with what is expected, for the designer.
func Tester(parts Parts) []pdf.Page {
	m := &maker{Parts: parts, worked: -1}
	form := m.text(func() { m.form(false) })
	pages := bound(parts, form.Count())
	pages = m.pages(pages, form, len(pages), len(pages)+form.Count())
	for i := range pages {
		pages[i].Page = m.marked(pages[i].Page)
		pages[i].Shared = false
	}
	return pages
}

// Key returns the tester's form with what is expected.
func Key(parts Parts) []pdf.Page {
	m := &maker{Parts: parts, worked: -1}
	form := m.text(func() { m.form(true) })
	return m.pages(nil, form, 0, form.Count())
}

// testGround is a grey that is read past, and gone after a photocopy.
const testGround drawing.Colour = 0xE4E4E4

// marked is a page with the mark of a test copy in its ground, and above its foot.
func (m *maker) marked(p *drawing.Page) *drawing.Page {
	marked := *p
	words := m.say("test_mark")
	size := p.Size.W * 0.8 / max(drawing.Measure(words, 1, true).Width, 1)
	ground := &drawing.Text{Text: words, At: pattern.Pos{X: p.Size.W / 2, Y: p.Size.H / 2}, Size: size, Bold: true, Turn: 45, Anchor: drawing.Middle, Colour: testGround}
	marked.Items = append([]drawing.Item{ground}, p.Items...)
	if strings.HasPrefix(p.Name, "page-") { // a picture may hide the ground: above the foot is nothing
		margin := max(m.Pattern.Settings.Sheet.Margin, leastMargin)
		marked.Items = append(marked.Items, &drawing.Text{Text: words, At: pattern.Pos{X: p.Size.W - margin, Y: p.Size.H - margin - flow.AboveFoot},
			Size: flow.Small, Bold: true, Anchor: drawing.End})
	}
	return &marked
}

// line is where a tester writes.
const line = "______________________"

// form asks what only somebody who has sewn the block can tell.
func (m *maker) form(key bool) {
	m.Break()
	if key {
		m.Chapter(m.say("test_key"))
		m.Text(m.say("test_key_intro"))
	} else {
		m.Chapter(m.say("test_form"))
		m.Text(m.say("test_form_intro"))
	}
	m.Text(m.title() + ", " + m.finished() + ", " + m.edition())
	t := m.formTable(key)
	ask := func(question, expected string) { t.Rows = append(t.Rows, m.formRow(key, question, expected)) }
	ask(m.say("test_printer"), "")
	ask(m.say("test_paper"), "")
	ask(m.say("test_rule_across"), m.length(6*pattern.Inch))
	ask(m.say("test_rule_along"), m.local("15 cm"))
	m.Table(t)

	m.Heading(m.say("test_sections"))
	t = m.formTable(key)
	for d := range m.Sized.Drawings {
		if s := &m.Sized.Drawings[d]; !s.Plain {
			ask(m.say("test_section", "name", s.Name), m.length(longest(s)+2*m.Pattern.Settings.Allowance))
		}
	}
	m.Table(t)

	if len(m.Sized.Joins) > 0 {
		m.Heading(m.say("test_joins"))
		t = m.formTable(key)
		for i := range m.Sized.Joins {
			j := &m.Sized.Joins[i]
			ask(m.say("test_join", "n", strconv.Itoa(j.Number), "left", m.side(j.Left), "right", m.side(j.Right)), m.points(j))
		}
		m.Table(t)
	}

	m.Heading(m.say("test_block"))
	t = m.formTable(key)
	a := 2 * m.Pattern.Settings.Allowance
	ask(m.say("test_across"), m.length(m.Sized.Finished.W+a))
	ask(m.say("test_down"), m.length(m.Sized.Finished.H+a))
	m.Table(t)

	m.Heading(m.say("test_cloth"))
	t = &flow.Table{Columns: []flow.Column{{Head: m.say("fabric"), Share: 2}, {Head: m.say("test_bought"), Share: 2}, {Head: m.say("test_left"), Share: 2}}}
	buy := map[int]string{}
	if key {
		t.Columns = append(t.Columns, flow.Column{Head: m.say("test_expected"), Share: 2.4})
		_, all := m.Cuts.Buying(m.Pattern, m.Block, m.Sized, m.tables())
		for i := range all {
			buy[all[i].Fabric] = all[i].Words
		}
	}
	for _, f := range m.used() {
		row := []string{m.Pattern.Fabrics[f].Words, line, line}
		if key {
			row = []string{row[0], "", "", buy[f]}
		}
		t.Rows = append(t.Rows, row)
	}
	m.Table(t)
	for _, question := range [...]string{m.say("test_short"), m.say("test_words"), m.say("test_time"), m.say("test_again"), m.say("test_pictures")} {
		if key {
			m.Note(question)
		} else {
			m.Need(0.7 * pattern.Inch)
			m.Text(question)
			m.Text(strings.Repeat("_", int(m.Width()/(flow.Body*0.5))))
		}
	}
}

func (m *maker) formTable(key bool) *flow.Table {
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("test_what"), Share: 4}, {Head: m.say("test_measured"), Share: 2.4}}}
	if key {
		t.Columns = append(t.Columns, flow.Column{Head: m.say("test_expected"), Share: 2.4})
	}
	return t
}

func (m *maker) formRow(key bool, question, expected string) []string {
	if key {
		return []string{question, "", expected}
	}
	return []string{question, line}
}

// longest is the longest edge of a section, finished.
func longest(d *pattern.Drawing) (most pattern.Length) {
	for i, p := range d.Outline {
		q := d.Outline[(i+1)%len(d.Outline)]
		most = max(most, pattern.Length(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))))
	}
	return most
}
