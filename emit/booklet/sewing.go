package booklet

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
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

// sewing shows one section in full, then all as strips of small pictures.
func (m *maker) sewing() {
	if m.worked < 0 {
		return
	}
	d := &m.Sized.Drawings[m.worked]
	m.Break()
	m.Chapter(m.say("sewing"))
	m.Text(m.say("sewing_intro", "name", d.Name))
	m.Item("1.", m.say("cut_roughly"))
	m.Item("2.", m.say("first_piece", "space", d.Label(0), "fabric", m.fabric(d, 0), "allowance", m.allowance()))
	m.steps(d, 0)
	n := min(len(d.Pieces), mostWorked)
	for k := 1; k < n; k++ {
		m.Need(m.stepHeight(d) + 0.5*pattern.Inch)
		m.Item(strconv.Itoa(k+2)+".", m.say("next_piece", "space", d.Label(k), "fabric", m.fabric(d, k)))
		m.steps(d, k)
	}
	if more := len(d.Pieces) - n; more > 0 {
		m.Text(m.count("sewing_more", more))
	}
	m.strips()
}

func (m *maker) fabric(d *pattern.Drawing, i int) string {
	return m.Pattern.Fabrics[d.Pieces[i].Fabric].Words
}

// stepLines is the room for words below a picture of a step.
const stepLines = 6

// stepColumns is how many pictures stand beside each other: all four, or two on
// narrow paper.
func (m *maker) stepColumns() int {
	if m.Columns(1.5*pattern.Inch) >= 4 {
		return 4
	}
	return 2
}

func (m *maker) stepHeight(d *pattern.Drawing) pattern.Length {
	figure := diagram.Piecing(m.Pattern, d, 0, diagram.Lay)
	width := m.Width()/pattern.Length(m.stepColumns()) - 0.2*pattern.Inch
	return min(2.4*pattern.Inch, width*pattern.Length(figure.Proportion())) + caption(stepLines)
}

// steps shows how a piece is sewn: lay, sew, fold back and trim, press.
func (m *maker) steps(d *pattern.Drawing, k int) {
	type shown struct {
		step diagram.Step
		side string
		text string
	}
	space, cloth, print := d.Label(k), m.say("cloth_side"), m.say("print_side")
	all := []shown{
		{diagram.Lay, cloth, m.say("step_lay", "space", space, "allowance", m.allowance())},
		{diagram.Sew, print, m.say("step_sew", "allowance", m.allowance())},
		{diagram.Trim, print, m.say("step_trim", "allowance", m.allowance())},
		{diagram.Press, cloth, m.say("step_press", "space", space)},
	}
	if k == 0 {
		all = []shown{{diagram.Lay, cloth, m.say("step_first", "space", space)}}
	}
	m.Grid(len(all), m.stepColumns(), m.stepHeight(d), func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		s := &all[i]
		return captioned(diagram.Piecing(m.Pattern, d, k, s.step).In, s.side+": "+s.text, stepLines, at, size)
	})
}

// strips shows every section piece by piece, small.
func (m *maker) strips() {
	m.Chapter(m.say("others"))
	m.Text(m.say("others_intro"))
	left := mostSmall
	for i := range m.Sized.Drawings {
		d := &m.Sized.Drawings[i]
		if d.Plain {
			continue
		}
		n := len(d.Pieces)
		if n > mostStrip || n > left {
			continue
		}
		left -= n
		columns := m.Columns(0.8 * pattern.Inch)
		last := diagram.Small(m.Pattern, d, n-1)
		width := m.Width()/pattern.Length(columns) - 0.2*pattern.Inch
		height := min(1.3*pattern.Inch, width*pattern.Length(last.Proportion())) + caption(2) + 3*pattern.Point
		m.Need(height + 0.5*pattern.Inch)
		m.Bold(m.sectionHead(d))
		m.Grid(n, columns, height, func(k int, at pattern.Pos, size pattern.Size) []drawing.Item {
			return captioned(diagram.Small(m.Pattern, d, k).In, d.Label(k)+" "+m.fabric(d, k), 2, at, size)
		})
	}
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
