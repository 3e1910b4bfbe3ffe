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

// cover is the first page: what it is, what it looks like, whose it is.
func (m *maker) cover() {
	about := &m.Pattern.About
	m.Chapter(m.title())
	if block := drawing.Clean(m.Block.Title); !strings.Contains(strings.ToLower(m.title()), strings.ToLower(block)) {
		m.Text(block)
	}
	for _, one := range m.eachSize() {
		m.Text(m.say("finishes", "size", one.finished(), "raw", one.raw()))
	}
	by, line := "", m.edition()
	if about.Author != "" {
		by = m.say("by", "author", about.Author)
	}
	if about.Year != "" {
		line = strings.TrimSuffix(about.Year+"  -  "+line, "  -  ")
	}
	// All of it stands on the page, and the picture takes what is left.
	const least, gap = 2 * pattern.Inch, 0.2 * pattern.Inch
	below := m.Tall(m.say("from_front"), flow.Small, false) + m.Tall(by, flow.Body, true) + m.Tall(line, flow.Body, false) + m.Tall(about.Rights, flow.Small, false)
	figure := diagram.Colored(m.Pattern, m.Sized)
	m.Picture(min(m.Width()*pattern.Length(figure.Proportion()), max(least, m.Left()-below-gap)), figure.In)
	m.Note(m.say("from_front"))
	m.Bold(by)
	m.Text(line)
	m.Note(about.Rights)
}

// back is the last page, which shoppers read first.
func (m *maker) back() {
	about := &m.Pattern.About
	m.Chapter(m.say("back"))
	m.Bold(m.title())
	by, ask, fixes, hold := "", "", "", ""
	if about.Author != "" {
		by = m.say("by", "author", strings.TrimSpace(about.Author+" "+about.Year))
	}
	if about.Contact != "" {
		ask = m.say("contact", "contact", about.Contact)
	}
	if about.Corrections != "" {
		fixes = m.say("corrections", "corrections", about.Corrections)
	}
	if edition := m.edition(); edition != "" {
		hold = m.say("corrections_tell", "edition", edition)
	}
	m.glance(m.Tall(by, flow.Body, false) + m.Tall(about.Rights, flow.Small, false) + m.Tall(ask, flow.Body, false) + m.Tall(fixes, flow.Body, false) + m.Tall(hold, flow.Small, false))
	m.Text(by)
	m.Note(about.Rights)
	m.Text(ask)
	m.Text(fixes)
	m.Note(hold)
}

// everySize lists the finished sizes of the block.
func (m *maker) everySize() string {
	sizes := ""
	for i := range m.Block.Sizes {
		if i > 0 {
			sizes += ", "
		}
		sizes += m.local(m.Block.Sizes[i].Finished.Exact())
	}
	return sizes
}

// glance tells what somebody wants to know before they choose a pattern: sizes,
// how much work and skill it takes, cloth, tools. What stands below it is so high.
func (m *maker) glance(below pattern.Length) {
	if len(m.Block.Sizes) > 1 {
		m.Text(m.say("back_sizes", "sizes", m.everySize()))
	}
	all := m.eachSize()
	for i, one := range all {
		if len(all) > 1 {
			m.Heading(m.say("size_chapter", "size", one.finished()))
		}
		one.glanceSize(i == 0)
	}
	tools := strings.Join(m.toolWords(), " ")
	m.Need(m.Tall(m.say("tools"), flow.Body, true) + m.Tall(tools, flow.Small, false) + below)
	m.Bold(m.say("tools"))
	m.Note(tools)
}

// eachSize are makers on the same pages for every size that is told of.
func (m *maker) eachSize() []*maker {
	all := []*maker{m}
	for i := range m.others {
		all = append(all, &maker{Parts: m.others[i], Flow: m.Flow})
	}
	return all
}

// glanceSize tells of one size how much work it is, by which rule if that is not told
// yet, and what is bought for it.
func (m *maker) glanceSize(rule bool) {
	f := &m.Sized.Figures
	m.Text(m.say("finishes", "size", m.finished(), "raw", m.raw()))
	m.Text(m.say("back_figures", "pieces", m.count("pieces", f.Pieces), "sections", m.count("sections", f.Sections),
		"points", m.count("points_n", f.Points), "narrowest", m.length(f.Narrowest)))
	m.Text(m.say("skill", "grade", m.say("grade_"+strconv.Itoa(m.grade()+1))))
	if rule {
		m.Note(m.skillRule())
	}
	m.cloth()
	for _, q := range m.mine() {
		m.quiltGlance(q)
	}
}

// A limit is how far a grade of skill reaches.
type limit struct {
	pieces, points int
	narrowest      pattern.Length
}

// limits are the first three grades; the fourth is beyond. They are printed with
// the grade, so that it can be disputed. Common practice, no source.
func limits() [3]limit {
	return [3]limit{
		{20, 4, pattern.Inch / 2},
		{60, 16, 3 * pattern.Inch / 8},
		{120, 40, pattern.Inch / 4},
	}
}

// grade returns the first grade whose limits a block keeps, from 0.
func grade(f *pattern.Figures) int {
	const noise = 1e-6 // of a width that is computed
	all := limits()
	for i, l := range all {
		if f.Pieces <= l.pieces && f.Points <= l.points && f.Narrowest >= l.narrowest-noise {
			return i
		}
	}
	return len(all)
}

// partialGrade is the least of a block with partial seams, which are seldom the first
// thing that anybody sews. Common practice, no source.
const partialGrade = 1

// grade is that of the block.
func (m *maker) grade() int {
	g := grade(&m.Sized.Figures)
	if m.Sized.Partial() {
		g = max(g, partialGrade)
	}
	return g
}

func (m *maker) skillRule() string {
	var fill []string
	for i, l := range limits() {
		n := strconv.Itoa(i + 1)
		fill = append(fill, "pieces"+n, strconv.Itoa(l.pieces), "points"+n, strconv.Itoa(l.points), "width"+n, m.own(l.narrowest))
	}
	for i := range 4 {
		n := strconv.Itoa(i + 1)
		fill = append(fill, "grade"+n, m.say("grade_"+n))
	}
	rule := m.say("skill_rule", fill...)
	if m.Sized.Partial() {
		rule += " " + m.say("skill_partial", fill...)
	}
	return rule
}

// cloth tells what is bought for the block, and how that was reckoned.
func (m *maker) cloth() {
	t, how := m.buying()
	m.Table(t)
	m.Note(how)
	for i := range m.Pattern.Colorway {
		way := &m.Pattern.Colorway[i]
		if way.Name == "" {
			continue
		}
		var all []string
		for _, d := range m.Cuts.Dressed(m.Pattern, m.Block, m.Sized, way, m.tables()) {
			all = append(all, d.Dress.Words+" "+d.Words)
		}
		if len(all) > 0 {
			m.Note(way.Words + ": " + strings.Join(all, ", "))
		}
	}
}

// buying is the table of what is bought for the block; where the pattern reckons no
// cloth, of the area of the patches of each fabric.
func (m *maker) buying() (*flow.Table, string) {
	how, all := m.Cuts.Buying(m.Pattern, m.Block, m.Sized, m.tables())
	if how == "" {
		return m.areas()
	}
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("fabric"), Share: 3}, {Head: m.say("value"), Share: 1}, {Head: m.say("cloth_to_buy"), Share: 3}}}
	for i := range all {
		f := &m.Pattern.Fabrics[all[i].Fabric]
		t.Rows = append(t.Rows, []string{f.Words, m.value(f), all[i].Words})
	}
	t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
		return diagram.Swatch(&m.Pattern.Fabrics[all[row].Fabric], at, side)
	}
	return t, how
}

// quiltGlance tells of a quilt what somebody wants to know before they begin it.
func (m *maker) quiltGlance(q Quilt) {
	m.Bold(m.say("quilt_glance", "title", q.Of.Title, "size", m.around(q.Of.Layout.Size), "blocks", m.count("blocks", len(q.Of.Layout.Placed))))
	cloth := q.Cloth()
	if len(cloth) == 0 {
		return
	}
	how, all := table.QuiltBuying(m.Pattern, cloth[0], m.tables())
	if how == "" {
		return
	}
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("fabric"), Share: 3}, {Head: m.say("value"), Share: 1}, {Head: m.say("cloth_to_buy"), Share: 3}}}
	for i := range all {
		dress := &cloth[0][i].Dress
		t.Rows = append(t.Rows, []string{dress.Words, m.value(&pattern.Fabric{Value: dress.Value}), all[i].Words})
	}
	t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
		return diagram.Swatch(&pattern.Fabric{Colour: cloth[0][row].Dress.Colour}, at, side)
	}
	m.Table(t)
}

// areas tells the cloth in the patches of each fabric.
func (m *maker) areas() (*flow.Table, string) {
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("fabric"), Share: 3}, {Head: m.say("value"), Share: 1}, {Head: m.say("cloth_area"), Share: 3}}}
	var used []int
	for i, inches := range m.Cuts.Areas {
		if inches <= 0 {
			continue
		}
		f := &m.Pattern.Fabrics[i]
		used = append(used, i)
		t.Rows = append(t.Rows, []string{f.Words, m.value(f), m.area(inches)})
	}
	t.Swatch = func(row int, at pattern.Pos, side pattern.Length) []drawing.Item {
		return diagram.Swatch(&m.Pattern.Fabrics[used[row]], at, side)
	}
	return t, m.say("cloth_note")
}

// area tells square inches, rounded up, and square centimetres.
func (m *maker) area(inches float64) string {
	const noise = 1e-6
	in := m.say("square_inches", "n", strconv.Itoa(int(math.Ceil(inches-noise))))
	cm := m.say("square_cm", "n", strconv.Itoa(int(math.Ceil(inches*2.54*2.54-noise))))
	if m.Pattern.Settings.Metric {
		return cm + " (" + in + ")"
	}
	return in + " (" + cm + ")"
}
