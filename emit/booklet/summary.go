package booklet

import (
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
)

// The summary is a picture, not a sheet of paper: as wide as letter and A4 share,
// and as high as what is on it.
const (
	summaryWidth  = 8.25 * pattern.Inch
	summaryMost   = 60 * pattern.Inch // far more than any block fills
	summaryMargin = 0.4 * pattern.Inch
)

// Summary returns one page for those who have not yet bought the pattern: its
// pictures, a short description, what it needs.
func Summary(parts Parts) *drawing.Page {
	m := &maker{Parts: parts}
	m.Flow = flow.New(pattern.Size{W: summaryWidth, H: summaryMost}, summaryMargin)
	m.Break()
	m.Chapter(m.title())
	m.Text(m.description())
	m.fronts()
	m.glance(0)
	if author := m.Pattern.About.Author; author != "" {
		m.Text(m.say("by", "author", author))
	}
	page := m.Whole()
	page.Name, page.Title = "summary", m.title()
	return page
}

// description is what the author says of the block, without a title before it.
func (m *maker) description() string {
	doc := drawing.Clean(m.Block.Doc)
	if rest, ok := strings.CutPrefix(doc, drawing.Clean(m.Block.Title)); ok && (rest == "" || rest[0] == '.') {
		return strings.TrimSpace(strings.TrimPrefix(rest, "."))
	}
	return doc
}

// fronts shows the block in its own cloths and in each other colorway.
func (m *maker) fronts() {
	figures := []*diagram.Figure{diagram.Colored(m.Pattern, m.Sized)}
	captions := []string{m.say("from_front")}
	for i := 1; i < len(m.Pattern.Colorway); i++ {
		figures = append(figures, diagram.Colored(m.Pattern.Dressed(i), m.Sized))
		captions = append(captions, m.Pattern.Colorway[i].Words)
	}
	columns := min(len(figures), 3)
	width := m.Width() / pattern.Length(max(columns, 2))
	height := width*pattern.Length(min(figures[0].Proportion(), 1.5)) + 2*flow.Small
	m.Grid(len(figures), columns, height, func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		return captioned(figures[i].In, captions[i], 1, at, size)
	})
}
