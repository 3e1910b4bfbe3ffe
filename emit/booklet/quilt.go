package booklet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/diagram"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/table"
)

// A Quilt is one that is laid out, and its cloth in every colorway. That is dear,
// and worked out once for all booklets.
type Quilt struct {
	Of    *pattern.Quilt
	Cloth func() [][]table.Cloth
}

// mine lists the quilts that hold the booklet's block at its size.
func (m *maker) mine() (all []Quilt) {
	for _, q := range m.Quilts {
		if n, _ := m.times(q.Of); n > 0 {
			all = append(all, q)
		}
	}
	return all
}

// times is how often a quilt holds the booklet's block at its size, and how many of
// these are reversed.
func (m *maker) times(q *pattern.Quilt) (count, reversed int) {
	for _, c := range table.Counts(m.Pattern, q.Layout) {
		if b := &m.Pattern.Blocks[c.Block]; b.Name == m.Block.Name && &b.Sizes[c.Size] == m.Sized {
			return c.Count, c.Turned
		}
	}
	return 0, 0
}

// quilts shows every quilt that is made of this block at this size: its picture,
// its blocks, what is cut beside them, the cloth of the whole, how it is sewn.
func (m *maker) quilts() {
	for _, q := range m.mine() {
		m.quiltFront(q.Of)
		m.quiltBlocks(q.Of)
		m.setting(q.Of.Layout)
		cloth := q.Cloth()
		for i := range m.Pattern.Colorway {
			m.quiltCloth(&m.Pattern.Colorway[i], cloth[i])
		}
		m.sewingOrder(q.Of)
		m.quiltJoins(q.Of)
	}
}

// QuiltPages returns the pages about quilts that a booklet has, without their feet:
// first what its back cover says of them.
func QuiltPages(parts Parts) (pages []*drawing.Page) {
	m := &maker{Parts: parts}
	text := m.text(func() {
		for _, q := range m.mine() {
			m.quiltGlance(q)
		}
		m.quilts()
	})
	for _, p := range text.Pages(func(int) (string, string) { return "", "" }) {
		pages = append(pages, p.Page)
	}
	return pages
}

func (m *maker) quiltFront(q *pattern.Quilt) {
	m.Need(m.Height() * mostOfPage)
	m.Chapter(m.say("quilt", "title", q.Title))
	size := m.around(q.Layout.Size)
	if q.Binding.Width > 0 {
		m.Text(m.say("quilt_finishes_bound", "size", size))
	} else {
		m.Text(m.say("quilt_finishes", "size", size))
	}
	figure, whole := diagram.Quilted(m.Pattern, q, &m.Pattern.Colorway[0])
	const most, below = 6 * pattern.Inch, 1.6 * pattern.Inch // what is below it belongs to it
	m.Picture(min(m.Width()*pattern.Length(figure.Proportion()), most, m.Height()*0.7, m.Left()-below), figure.In)
	m.Note(m.say("quilt_picture"))
	if !whole {
		m.Note(m.say("quilt_fine"))
	}
}

// around tells a size in both systems to the nearest eighth, for on point none lies
// on a ruler.
func (m *maker) around(s pattern.Size) string {
	in, cm := s.W.In(8)+" x "+s.H.In(8), m.local(s.W.Cm()+" x "+s.H.Cm())
	if m.Pattern.Settings.Metric {
		in, cm = cm, in
	}
	return in + " (" + cm + ")"
}

func (m *maker) quiltBlocks(q *pattern.Quilt) {
	t := &flow.Table{Title: m.say("quilt_blocks"), Columns: []flow.Column{{Head: m.say("count"), Share: 1}, {Head: m.say("quilt_block"), Share: 3},
		{Head: m.say("quilt_size"), Share: 3}, {Head: m.say("quilt_raw"), Share: 3}}}
	turned := 0
	a := 2 * m.Pattern.Settings.Allowance
	for _, c := range table.Counts(m.Pattern, q.Layout) {
		s := &m.Pattern.Blocks[c.Block].Sizes[c.Size]
		raw := pattern.Size{W: s.Finished.W + a, H: s.Finished.H + a}
		t.Rows = append(t.Rows, []string{brackets(c.Count), m.Pattern.Blocks[c.Block].Title,
			m.local(s.Finished.Words(m.Pattern.Settings.Metric)), m.local(raw.Words(m.Pattern.Settings.Metric))})
		turned += c.Turned
	}
	m.Table(t)
	if turned > 0 {
		m.Text(m.count("quilt_turned", turned))
	}
	m.Text(m.say("quilt_print"))
	if len(t.Rows) > 1 {
		m.Text(m.say("quilt_others"))
	}
}

// brackets writes a count so that none is read into a size.
func brackets(n int) string { return "(" + strconv.Itoa(n) + ")" }

// setting tells what is cut between and around the blocks.
func (m *maker) setting(l *pattern.Layout) {
	if len(l.Cuts)+len(l.Runs) == 0 {
		return
	}
	m.Heading(m.say("setting"))
	m.Lead(m.say("setting_exact"))
	if len(l.Cuts) > 0 {
		t := &flow.Table{Columns: []flow.Column{{Head: m.say("count"), Share: 1.2}, {Head: m.say("setting_for"), Share: 2.2}, {Head: m.say("fabric"), Share: 2}, {Head: m.say("cut_as"), Share: 3}}}
		t.Columns = append(t.Columns, m.sizeColumns()...)
		t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
			return diagram.Swatch(&m.Pattern.Fabrics[l.Cuts[row].Fabric], at, side)
		}
		for i := range l.Cuts {
			c := &l.Cuts[i]
			what := m.part(c.For)
			if c.Shape.Yield() > 1 {
				what += " " + brackets(c.Count)
			}
			row := []string{brackets(table.Squares(c)), what, m.Pattern.Fabrics[c.Fabric].Words, m.shape(c.Shape, "")}
			t.Rows = append(t.Rows, append(row, m.sizes(c.Size)...))
		}
		m.Table(t)
	}
	if len(l.Runs) > 0 {
		t := &flow.Table{Columns: []flow.Column{{Head: m.say("setting_strips"), Share: 2}, {Head: m.say("fabric"), Share: 2}, {Head: m.say("setting_width"), Share: 2.2}, {Head: m.say("setting_lengths"), Share: 4}}}
		t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
			return diagram.Swatch(&m.Pattern.Fabrics[l.Runs[row].Fabric], at, side)
		}
		for i := range l.Runs {
			width, lengths := table.RunWords(m.Pattern, &l.Runs[i], m.tables())
			t.Rows = append(t.Rows, []string{m.part(l.Runs[i].For), m.Pattern.Fabrics[l.Runs[i].Fabric].Words, width, lengths})
		}
		m.Table(t)
		if table.Bordered(l) {
			m.Text(m.say("setting_measure"))
		}
	}
	if l.Backing.W > 0 {
		m.Text(m.say("setting_backing", "size", m.around(l.Backing)))
	}
	if l.Batting.W > 0 {
		m.Text(m.say("setting_batting", "size", m.around(l.Batting)))
	}
}

func (m *maker) part(name string) string { return table.Part(m.tables(), name) }

// quiltCloth tells what is bought for the whole quilt in a colorway, and from which
// strips it is cut.
func (m *maker) quiltCloth(way *pattern.Colorway, cloth []table.Cloth) {
	how, all := table.QuiltBuying(m.Pattern, cloth, m.tables())
	if how == "" {
		return
	}
	head := m.say("cloth_to_buy")
	if way.Name != "" {
		head += ": " + way.Words
	}
	m.Heading(head)
	m.Lead(how)
	lines := make([][]string, len(all))
	for i := range all {
		lines[i] = all[i].Lines()
	}
	m.clothTable(all, lines, func(i int) (string, uint32) { return cloth[i].Dress.Words, cloth[i].Dress.Colour })
}

// clothTable sets what is bought of each cloth and lines that tell what is cut from
// it; of tells a cloth's words and color.
func (m *maker) clothTable(all []table.Purchase, cut [][]string, of func(int) (string, uint32)) {
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("fabric"), Share: 2.2}, {Head: m.say("cloth_buy"), Share: 1.9}, {Head: m.say("cloth_strips"), Share: 6}}}
	var begins []int // the cloth of each row that begins one, else -1
	for i := range all {
		lines := cut[i]
		if all[i].Note != "" {
			lines = append([]string{all[i].Note}, lines...)
		}
		first := ""
		if len(lines) > 0 {
			first, lines = lines[0], lines[1:]
		}
		words, _ := of(i)
		t.Rows, begins = append(t.Rows, []string{words, all[i].Words, first}), append(begins, i)
		for _, line := range lines {
			t.Rows, begins = append(t.Rows, []string{"", "", line}), append(begins, -1)
		}
	}
	t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
		if begins[row] < 0 {
			return nil
		}
		_, colour := of(begins[row])
		return diagram.Swatch(&pattern.Fabric{Colour: colour}, at, side)
	}
	m.Table(t)
}

// sewingOrder tells in which order blocks, sashing, borders and layers are sewn.
func (m *maker) sewingOrder(q *pattern.Quilt) {
	m.Heading(m.say("quilt_order"))
	steps := append([]string{m.say("order_lay")}, m.rowSteps(q)...)
	for i := range q.Borders {
		border := m.part("border")
		if len(q.Borders) > 1 {
			border = m.part("border " + strconv.Itoa(i+1))
		}
		border = strings.ToUpper(border[:1]) + border[1:]
		switch q.Borders[i].Corner {
		case pattern.ButtedCorner:
			steps = append(steps, m.say("order_butted", "border", border))
		case pattern.StoneCorner:
			steps = append(steps, m.say("order_corners", "border", border))
		case pattern.MitredCorner:
			steps = append(steps, m.say("order_mitred", "border", border, "allowance", m.allowance()))
		}
	}
	steps = append(steps, m.say("order_paper"))
	if q.Layout.Backing.W > 0 {
		steps = append(steps, m.say("order_layers"))
	}
	if q.Binding.Width > 0 {
		steps = append(steps, m.say("order_binding", "allowance", m.allowance()))
	}
	for i, step := range steps {
		m.Item(strconv.Itoa(i+1)+".", step)
	}
}

// slantingSteps tell how blocks on point are joined with sashing.
func (m *maker) slantingSteps(q *pattern.Quilt) []string {
	rows, strips := m.say("order_point_sashes"), m.say("order_point_long")
	if q.Around {
		rows = m.say("order_point_sashes_ends")
	}
	switch {
	case q.Cornerstones != pattern.NoFabric && q.Around:
		strips = m.say("order_point_stones_halves")
	case q.Cornerstones != pattern.NoFabric:
		strips = m.say("order_point_stones")
	}
	return []string{rows, strips}
}

// quiltJoins shows how the parts are joined and to which side each join is pressed,
// lists the joins, and the seams of neighboring blocks that must meet.
func (m *maker) quiltJoins(q *pattern.Quilt) {
	l := q.Layout
	if len(l.Joins) == 0 {
		return
	}
	m.Need(m.Height() * 0.7)
	m.Heading(m.say("quilt_pressing"))
	m.Text(m.say("quilt_arrows"))
	if len(l.Two) > 0 {
		m.Text(m.say("quilt_arrows_gray"))
	}
	all := true
	const most = 6 * pattern.Inch
	m.Picture(min(m.Width()*pattern.Length(float64(l.Size.H/max(l.Size.W, 1e-6))), most, m.Height()*0.7), func(at pattern.Pos, size pattern.Size) (items []drawing.Item) {
		items, all = diagram.Pressing(m.Pattern, q, at, size)
		return items
	})
	if !all {
		m.Note(m.say("quilt_arrows_fine"))
	}
	said := m.tables()
	rows := table.JoinRows(l, said)
	m.Text(table.JoiningWords(q, said) + " " + table.JoinSums(l, rows, said))
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("joins_head"), Share: 1}, {Head: m.say("joins_where"), Share: 2.4}, {Head: m.say("joins_what"), Share: 2.6},
		{Head: m.say("joins_match"), Share: 1.8}, {Head: m.say("joins_press"), Share: 2.2}, {Head: m.say("joins_why"), Share: 3}}}
	for _, r := range rows {
		t.Rows = append(t.Rows, []string{brackets(r.Count), r.Where, r.What, strconv.Itoa(r.Points), r.Press, r.Why})
	}
	m.Table(t)
	for _, text := range table.TwoWays(m.Pattern, l, said) {
		m.Text(text)
	}
	met := table.Meetings(m.Pattern, l, said)
	if len(met) == 0 {
		return
	}
	t = &flow.Table{Title: m.say("meet"), Columns: []flow.Column{{Head: m.say("meet_times"), Share: 1}, {Head: m.say("meet_seam"), Share: 4}, {Head: m.say("meet_with"), Share: 4}}}
	for _, seams := range met {
		t.Rows = append(t.Rows, []string{brackets(seams.Times), seams.A, seams.B})
	}
	m.Table(t)
}

// rowSteps tell how the blocks are joined.
func (m *maker) rowSteps(q *pattern.Quilt) []string {
	switch {
	case q.OnPoint && q.Sashing.Width <= 0:
		return []string{m.say("order_point")}
	case q.OnPoint:
		return m.slantingSteps(q)
	case q.Sashing.Width <= 0:
		return []string{m.say("order_rows")}
	}
	sashes, long := m.say("order_sashes"), m.say("order_long")
	if q.Around {
		sashes, long = m.say("order_sashes_ends"), m.say("order_long_ends")
	}
	if q.Cornerstones != pattern.NoFabric {
		long = m.say("order_stones")
	}
	return []string{sashes, long}
}
