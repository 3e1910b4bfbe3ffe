package booklet

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
)

const (
	// mostWorked pieces of a section are shown in full; by then it is clear.
	mostWorked = 5

	// mostStrip pieces make a strip for a section, and mostSmall are all small
	// pictures of a booklet: nobody prints more (practice). Beyond, the sheets'
	// own numbers do.
	mostStrip = 24
	mostSmall = 240
)

// chooseWorked returns the section that is shown in full: the first whose number
// of pieces is nearest to four, enough to see the way and short enough to read.
func chooseWorked(s *pattern.Sized) int {
	best, far := -1, 0
	for d := range s.Drawings {
		n := len(s.Drawings[d].Pieces) - 4
		if n < 0 {
			n = -2 * n // too short shows less than too long
		}
		if !s.Drawings[d].Plain && (best < 0 || n < far) {
			best, far = d, n
		}
	}
	return best
}

// sewing shows one section in full, then the others as strips of small pictures.
func (m *maker) sewing() {
	if m.worked < 0 {
		return
	}
	d := &m.Sized.Drawings[m.worked]
	m.Chapter(m.say("sewing"))
	m.Text(m.say("sewing_intro", "name", d.Name))
	m.Item("1.", m.say("cut_roughly"))
	n := min(len(d.Pieces), mostWorked)
	for k := range n {
		m.step(d, k, 0)
	}
	if more := len(d.Pieces) - n; more > 0 {
		m.Text(m.count("sewing_more", more))
	}
	m.strips()
}

func (m *maker) fabric(d *pattern.Drawing, i int) string {
	return m.Pattern.Fabrics[d.Pieces[i].Fabric].Words
}

// A shown is a picture with its words.
type shown struct {
	figure *diagram.Figure
	text   string
}

// step tells and shows how a piece is sewn, all of it on one page where it fits, with
// what is to stand below it.
func (m *maker) step(d *pattern.Drawing, k int, below pattern.Length) {
	const (
		one, several = 0.3 * pattern.Inch, 0.6 * pattern.Inch // lines of words above the pictures
		high, low    = 1.9 * pattern.Inch, 0.9 * pattern.Inch // of a picture, at the most and at the least
	)
	text, words := m.say("next_piece", "space", d.Label(k), "fabric", m.fabric(d, k)), pattern.Length(one)
	if k == 0 {
		text, words = m.say("first_piece", "space", d.Label(0), "fabric", m.fabric(d, 0), "allowance", m.allowance()), several
	}
	steps, columns := m.steps(d, k), m.stepColumns(d)
	set := m.arrange(steps, columns, high, 8)
	if len(steps) > columns { // two rows: two pieces are to stand on a page
		row := (m.Height()/2-words-below-flow.RowGap)/2 - flow.RowGap
		set = m.arrange(steps, columns, max(low, min(high, row-caption(set.lines)-captionGap)), 8)
	}
	m.Need(min(words+set.all+below, m.Height()))
	m.Item(strconv.Itoa(k+2)+".", text)
	m.show(set)
}

// steps are the pictures of how a piece is sewn: lay, sew, fold back and trim, press.
func (m *maker) steps(d *pattern.Drawing, k int) []shown {
	space, cloth, print := d.Label(k), m.say("cloth_side"), m.say("print_side")
	step := func(of diagram.Step, side, text string) shown {
		return shown{diagram.Piecing(m.Pattern, d, k, of), side + ": " + text}
	}
	if k == 0 {
		return []shown{
			{diagram.Faced(d), print + ": " + m.say("reading_numbers", "name", d.Name)},
			step(diagram.Lay, cloth, m.say("step_first", "space", space)),
		}
	}
	lay := m.say("step_lay", "space", space, "allowance", m.allowance())
	if patch := &d.Pieces[k].Patch; patch.Along && patch.Shape == pattern.HalfSquare {
		lay = m.say("step_lay_long", "space", space, "allowance", m.allowance())
	}
	return []shown{
		step(diagram.Lay, cloth, lay),
		step(diagram.Sew, print, m.say("step_sew", "allowance", m.allowance())),
		step(diagram.Trim, print, m.say("step_trim", "allowance", m.allowance())),
		step(diagram.Press, cloth, m.say("step_press", "space", space)),
	}
}

// stepColumns is how many steps stand beside each other: all four, or two of a
// wide section or on narrow paper.
func (m *maker) stepColumns(d *pattern.Drawing) int {
	const wide = 0.6 // height for a width of 1
	if m.Columns(1.5*pattern.Inch) < 4 || diagram.Piecing(m.Pattern, d, 0, diagram.Lay).Proportion() < wide {
		return 2
	}
	return 4
}

// An arranged is pictures that are to stand in columns: how many lines of words
// are below each, how high a row is and all rows are.
type arranged struct {
	pictures       []shown
	columns, lines int
	row, all       pattern.Length
}

// arrange makes pictures as high as the highest needs but no higher than a height,
// and their words below them of at most so many lines.
func (m *maker) arrange(pictures []shown, columns int, most pattern.Length, mostLines int) arranged {
	width := (m.Width()+columnGap)/pattern.Length(columns) - columnGap
	height, lines := pattern.Length(0), 1
	for _, s := range pictures {
		height = max(height, min(most, width*pattern.Length(s.figure.Proportion())))
		lines = max(lines, len(flow.Lines(s.text, flow.Small, false, width, mostLines)))
	}
	row := height + caption(lines) + captionGap
	rows := pattern.Length((len(pictures) + columns - 1) / columns)
	return arranged{pictures, columns, lines, row, rows*row + (rows-1)*flow.RowGap}
}

func (m *maker) show(a arranged) {
	m.Grid(len(a.pictures), a.columns, a.row, func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		return captioned(a.pictures[i].figure.In, a.pictures[i].text, a.lines, at, size)
	})
}

// shownIn arranges pictures and shows them.
func (m *maker) shownIn(all []shown, columns int, most pattern.Length, mostLines int) {
	m.show(m.arrange(all, columns, most, mostLines))
}

// strips shows the sections piece by piece, small; not the one that is shown in full,
// if all of it is.
func (m *maker) strips() {
	title, left, whole := m.say("others"), mostSmall, true
	var all []*pattern.Drawing
	for i := range m.Sized.Drawings {
		d := &m.Sized.Drawings[i]
		switch n := len(d.Pieces); {
		case d.Plain:
		case i == m.worked && n <= mostWorked:
			title = m.say("others_only")
		case n > mostStrip || n > left:
			whole = false
		default:
			left -= n
			all = append(all, d)
		}
	}
	if len(all) == 0 && whole {
		return
	}
	m.Chapter(title)
	m.Text(m.say("others_intro"))
	for _, d := range all {
		m.strip(d)
	}
	if !whole {
		m.Text(m.say("others_rest"))
	}
}

// strip shows one section piece by piece.
func (m *maker) strip(d *pattern.Drawing) {
	all := make([]shown, len(d.Pieces))
	for k := range all {
		all[k] = shown{diagram.Small(m.Pattern, d, k), d.Label(k) + " " + m.fabric(d, k)}
	}
	set := m.arrange(all, m.Columns(0.8*pattern.Inch), 1.3*pattern.Inch, 2)
	m.Need(m.Tall(m.sectionHead(d), flow.Body, true) + set.row)
	m.Bold(m.sectionHead(d))
	m.show(set)
}

// trimming says where a section is cut, in words that nobody can read as "trim
// on the sewing line".
func (m *maker) trimming() {
	if m.worked < 0 {
		return
	}
	m.Chapter(m.say("trimming"))
	m.Bold(m.say("trim_when"))
	m.Text(m.say("trim_how", "allowance", m.allowance()))
	if m.Pattern.Settings.Extra > 0 {
		m.Text(m.say("trim_extra"))
	}
	if names := m.plain(); names != "" {
		m.Text(m.say("trim_plain", "names", names))
	}
}
