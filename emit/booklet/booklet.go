package booklet

import (
	"cmp"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/pdf"
	"seamwright/emit/sheet"
	"seamwright/emit/table"
)

// Parts are what a booklet is made of.
type Parts struct {
	Pattern  *pattern.Pattern
	Block    *pattern.Block
	Sized    *pattern.Sized
	Sheets   *sheet.Set
	Cuts     *table.Cuts
	Words    *words.Catalogue
	Pictures []Picture // of the author
	Quilts   []Quilt   // those that are laid out

	// Early is told of every page that is complete but for its foot, and may take
	// its items away; the foot is drawn over it. Nil for nobody.
	Early func(*drawing.Page)
}

// A maker is the work on one booklet.
type maker struct {
	Parts
	*flow.Flow
	worked  int            // index of the section that is shown in full; -1 for none
	margin  pattern.Length // at least; 0: that of the paper
	printed bool           // the sheets are: nothing is told of printing them
	several bool           // the pages are for several sizes: nothing is told of one
	others  []Parts        // these sizes beside its own
	letters pattern.Length // how much larger than usual; 0: as usual

	early map[*drawing.Page]bool // pages of which Early was told
	said  *words.Catalogue       // see tables; nil until they are asked for
}

// leastMargin is kept free on pages that are only read: every common printer
// reaches there.
const leastMargin = 0.5 * pattern.Inch

// Make returns the pages of a booklet, in order.
func Make(parts Parts) []pdf.Page { return bound(parts, 0) }

// bound returns the pages of a booklet behind which so many more are bound.
func bound(parts Parts, more int) []pdf.Page {
	m := &maker{Parts: parts, worked: chooseWorked(parts.Sized)}
	front := m.text(func() {
		m.cover()
		m.begin()
		m.fabrics()
		m.cutting()
		m.reading()
		m.gluing()
		m.sewing()
		m.trimming()
		m.joining()
		m.quilts()
		m.coloring()
		m.fullSize()
	})
	sheets := len(parts.Sheets.Sheets)
	list := m.text(func() { m.printing(front.Count() + 1) })
	if n := list.Count(); n > 1 { // the list itself stands before the sheets
		list = m.text(func() { m.printing(front.Count() + n) })
	}
	back := m.text(m.back)
	before := front.Count() + list.Count()
	of := before + sheets + back.Count() + more
	pages := m.pages(nil, front, 0, of)
	pages = m.pages(pages, list, front.Count(), of)
	for i := range parts.Sheets.Sheets {
		pages = append(pages, pdf.Page{Page: &parts.Sheets.Sheets[i].Page, Shared: true, Bookmark: m.say("sheet_name", "n", strconv.Itoa(i+1))})
	}
	return m.pages(pages, back, before+sheets, of)
}

// text runs what sets chapters on new pages.
func (m *maker) text(set func()) *flow.Flow {
	paper := m.Pattern.Settings.Sheet
	k := cmp.Or(m.letters, 1) // set on smaller paper, then enlarged
	size := pattern.Size{W: paper.Paper.W / k, H: paper.Paper.H / k}
	m.Flow = flow.New(size, max(paper.Margin, leastMargin, m.margin)/k)
	if m.Early != nil {
		m.Flow.Full = func(p *drawing.Page) {
			if m.early == nil {
				m.early = map[*drawing.Page]bool{}
			}
			m.early[p] = true
			m.Early(p)
		}
	}
	m.Break()
	set()
	return m.Flow
}

// pages appends the pages of a text, which come after so many others, with
// their feet.
func (m *maker) pages(to []pdf.Page, text *flow.Flow, after, of int) []pdf.Page {
	size := m.finished()
	if m.several {
		size = m.everySize()
	}
	left := m.title() + "  -  " + size
	if edition := m.edition(); edition != "" {
		left += "  -  " + edition
	}
	for i, p := range text.Pages(func(n int) (string, string) {
		return left, m.say("page", "n", strconv.Itoa(after+n), "m", strconv.Itoa(of))
	}) {
		p.Name = "page-" + strconv.Itoa(after+i+1)
		p.Title = left
		if k := cmp.Or(m.letters, 1); k != 1 {
			p.Size = m.Pattern.Settings.Sheet.Paper
			p.Items = enlarged(p.Items, k)
		}
		page := pdf.Page{Page: p.Page, Bookmark: p.Chapter}
		if m.early[p.Page] {
			page.Shared, page.Over = true, p.Items
		}
		to = append(to, page)
	}
	return to
}

func (m *maker) title() string {
	if title := drawing.Clean(m.Pattern.Title); title != "" {
		return title
	}
	return drawing.Clean(m.Block.Title)
}

func (m *maker) edition() string {
	var told []string
	if n := m.Pattern.About.Edition; n > 0 {
		told = append(told, m.say("edition", "edition", strconv.Itoa(n)))
	}
	if len(m.Sheets.Sheets) > 0 && m.Sheets.Mark != "" && !m.several { // of what is on sheets
		told = append(told, m.say("mark", "mark", m.Sheets.Mark))
	}
	return strings.Join(told, ", ")
}

// say returns a message of the catalogue, filled in, or what the author says
// instead or before it.
func (m *maker) say(key string, fill ...string) string {
	return m.authored(key, m.Words.Say(key, fill...), fill)
}

// count returns a message that depends on a number.
func (m *maker) count(key string, n int, fill ...string) string {
	return m.authored(key, m.Words.Count(key, n, fill...), append([]string{"n", strconv.Itoa(n)}, fill...))
}

func (m *maker) authored(key, text string, fill []string) string {
	for _, s := range m.Pattern.About.Sayings {
		switch {
		case s.Name != key:
		case s.Instead:
			text = words.Fill(s.Text, fill...)
		default:
			text = words.Fill(s.Text, fill...) + " " + text
		}
	}
	return text
}

// tables are the messages that tables say, with what the author says instead or
// before.
func (m *maker) tables() *words.Catalogue {
	if m.said == nil {
		m.said = m.Words
		for _, s := range m.Pattern.About.Sayings {
			m.said = m.said.With(s.Name, s.Text, s.Instead)
		}
	}
	return m.said
}

// local writes a number as the language does.
func (m *maker) local(measure string) string {
	return strings.ReplaceAll(measure, ".", m.say("decimal_mark"))
}

// length tells a length in both systems.
func (m *maker) length(l pattern.Length) string {
	return m.local(l.Words(m.Pattern.Settings.Metric, 16))
}

// own tells a length in the pattern's own system: for short ones that are told
// often.
func (m *maker) own(l pattern.Length) string {
	if m.Pattern.Settings.Metric {
		return m.local(l.Cm())
	}
	return l.In(16)
}

// allowance is told as the line of a ruler.
func (m *maker) allowance() string {
	set := &m.Pattern.Settings
	return m.local(set.Allowance.OnRuler(set.Metric))
}

func (m *maker) finished() string {
	return m.local(m.Sized.Finished.Words(m.Pattern.Settings.Metric))
}

// raw tells what the block measures until it is joined.
func (m *maker) raw() string {
	a := 2 * m.Pattern.Settings.Allowance
	size := pattern.Size{W: m.Sized.Finished.W + a, H: m.Sized.Finished.H + a}
	return m.local(size.Words(m.Pattern.Settings.Metric))
}

// caption is the height of lines of small text below a picture.
func caption(lines int) pattern.Length { return pattern.Length(lines) * flow.Small * 1.25 }

const (
	captionGap = 3 * pattern.Point
	columnGap  = flow.ColumnGap
)

// captioned draws a figure with words below it, at most so many lines.
func captioned(draw func(pattern.Pos, pattern.Size) []drawing.Item, text string, lines int, at pattern.Pos, size pattern.Size) []drawing.Item {
	under := caption(lines)
	items := draw(at, pattern.Size{W: size.W, H: max(0, size.H-under-captionGap)})
	for i, line := range flow.Lines(text, flow.Small, false, size.W, lines) {
		y := at.Y + size.H - under + flow.Small*(1+1.25*pattern.Length(i))
		items = append(items, &drawing.Text{Text: line, At: pattern.Pos{X: at.X, Y: y}, Size: flow.Small})
	}
	return items
}
