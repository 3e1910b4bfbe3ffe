package booklet

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/table"
)

// joining shows the joins in sewing order, how repeats are turned, what is
// pressed which way, and when the paper comes off.
func (m *maker) joining() {
	s := m.Sized
	if len(s.Joins) > 0 {
		m.Need(m.apartHeight() + titleRoom)
	}
	m.Chapter(m.say("joining"))
	if len(s.Joins) == 0 {
		m.Text(m.say("joining_none"))
	} else {
		m.apart()
		m.turns()
		m.joins()
	}
	m.Heading(m.say("pressing"))
	m.Text(m.say("pressing_space"))
	if len(s.Joins) > 0 {
		m.Text(m.say("pressing_join"))
		if s.Figures.MostSeams > 4 { // common practice, no source
			m.Text(m.say("pressing_open", "n", strconv.Itoa(s.Figures.MostSeams)))
		}
	}
	if !m.several { // of several, each tells its own
		m.Bold(m.say("measure", "raw", m.raw()))
	}
	if m.worked >= 0 {
		m.Heading(m.say("paper"))
		m.Text(m.say("paper_when"))
		m.Text(m.say("paper_how"))
	}
}

// titleRoom is what a chapter's title takes, the gap before it included.
const titleRoom = 0.8 * pattern.Inch

// apartHeight is how high the sections are shown: few pieces are read in a small
// picture, with what follows below it.
func (m *maker) apartHeight() pattern.Length {
	high := 6 * pattern.Inch
	switch n := m.Sized.Figures.Pieces; {
	case n <= 16:
		high = 2.2 * pattern.Inch
	case n <= 30:
		high = 3 * pattern.Inch
	}
	return min(high, m.Height()*0.65)
}

// apart shows the sections where they belong.
func (m *maker) apart() {
	numbered := true
	m.Picture(m.apartHeight(), func(at pattern.Pos, size pattern.Size) []drawing.Item {
		var items []drawing.Item
		items, numbered = diagram.Apart(m.Sized, at, size)
		return items
	})
	if !numbered {
		m.Note(m.say("apart_small"))
	}
}

func (m *maker) joins() {
	joins := diagram.Joinings(m.Sized)
	m.Heading(m.say("joining_order"))
	m.Text(m.say("joining_intro"))
	m.Text(m.say("joining_pins"))
	if m.Sized.Partial() {
		m.Text(m.say("joining_partial"))
	}
	all := make([]shown, len(joins))
	for i := range joins {
		j := joins[i].Join
		all[i] = shown{&joins[i].Figure, m.say("join_of", "n", strconv.Itoa(j.Number), "left", m.side(j.Left), "right", m.side(j.Right)) + ": " + m.points(j) + m.press(j)}
	}
	m.shownIn(all, m.Columns(1.3*pattern.Inch), 1.5*pattern.Inch, 8)
	rest := m.Sized.Joins[len(joins):]
	if len(rest) == 0 {
		return
	}
	m.Heading(m.say("joining_table"))
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("join_number"), Share: 1}, {Head: m.say("join_left"), Share: 4},
		{Head: m.say("join_right"), Share: 4}, {Head: m.say("join_match"), Share: 3}}}
	for i := range rest {
		t.Rows = append(t.Rows, []string{strconv.Itoa(rest[i].Number), m.side(rest[i].Left), m.side(rest[i].Right), m.points(&rest[i]) + m.press(&rest[i])})
	}
	m.Table(t)
}

// side names what lies on one side of a join.
func (m *maker) side(copies []int) string {
	names, more := diagram.SideNames(m.Sized, copies)
	if more > 0 {
		return m.say("join_more", "names", names, "n", strconv.Itoa(more))
	}
	return names
}

// points says what is to match, and of a partial seam how far it is sewn.
func (m *maker) points(j *pattern.Join) string {
	words := m.partial(j)
	switch {
	case len(j.Points) > 0 && words != "":
		return words + "; " + m.count("join_points", len(j.Points))
	case len(j.Points) > 0:
		return m.count("join_points", len(j.Points))
	case words == "":
		return m.say("join_no_points")
	}
	return words
}

// partial says how far a partial seam is sewn, and when the rest of it is.
func (m *maker) partial(j *pattern.Join) string {
	from, to := m.Sized.Rest(j)
	long := m.length(pattern.Length(math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y))))
	switch {
	case j.Begins > 0:
		return m.say("join_begins", "long", long, "n", strconv.Itoa(j.Begins))
	case j.Begun > 0:
		return m.say("join_finishes", "long", long, "n", strconv.Itoa(j.Begun))
	}
	return ""
}

// press says which way a join is pressed, and why.
func (m *maker) press(j *pattern.Join) string {
	why := table.WhyWords(m.tables(), j.Why, j.Meet)
	switch j.Press {
	case pattern.PressLeft:
		return "; " + m.say("press_toward", "side", m.side(j.Left), "why", why)
	case pattern.PressRight:
		return "; " + m.say("press_toward", "side", m.side(j.Right), "why", why)
	case pattern.PressOpen:
		return "; " + m.say("press_open", "why", why)
	}
	return ""
}

// turns tells in words how the copies of a section are turned.
func (m *maker) turns() {
	began := false
	for d := range m.Sized.Drawings {
		turns := m.turnsOf(d)
		if turns == "" {
			continue
		}
		if !began {
			m.Heading(m.say("turns"))
			m.Lead(m.say("turns_intro"))
			began = true
		}
		m.Item("-", m.say("turns_of", "name", m.Sized.Drawings[d].Name, "turns", turns))
	}
}

// turnsOf tells how often a drawing is used at each turn, "" where it is used
// once or is never turned.
func (m *maker) turnsOf(drawing int) string {
	var order []float64
	count := map[float64]int{}
	for i := range m.Sized.Copies {
		c := &m.Sized.Copies[i]
		if c.Drawing != drawing {
			continue
		}
		turn := math.Mod(math.Mod(math.Round(c.Turn*100)/100, 360)+360, 360)
		if count[turn] == 0 {
			order = append(order, turn)
		}
		count[turn]++
	}
	if len(order) == 0 || len(order) == 1 && order[0] == 0 {
		return ""
	}
	const most = 12 // more is told by the picture
	var parts []string
	for _, turn := range order[:min(most, len(order))] {
		n := strconv.Itoa(count[turn])
		switch turn {
		case 0:
			parts = append(parts, m.say("turn_none", "n", n))
		case 90:
			parts = append(parts, m.say("turn_left", "n", n))
		case 180:
			parts = append(parts, m.say("turn_half", "n", n))
		case 270:
			parts = append(parts, m.say("turn_right", "n", n))
		default:
			parts = append(parts, m.say("turn_angle", "n", n, "angle", strconv.FormatFloat(turn, 'f', -1, 64)))
		}
	}
	return strings.Join(parts, ", ")
}
