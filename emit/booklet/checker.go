package booklet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/flow"
	"seamwright/emit/pdf"
	"seamwright/emit/table"
)

// Checker returns the copy of a second pair of eyes: every figure that is printed,
// with the sum it comes from and a box to tick, and every space by itself.
func Checker(parts Parts) []pdf.Page {
	m := &maker{Parts: parts, worked: -1}
	text := m.text(func() {
		m.Chapter(m.say("check"))
		m.Text(m.title() + ", " + m.finished() + ", " + m.edition())
		long, _ := m.units()
		m.Text(m.say("check_intro", "unit", long))
		m.checkFigures()
		m.checkSpaces()
		m.checkCutting()
		m.checkJoins()
		m.checkQuilts()
	})
	return m.pages(nil, text, 0, text.Count())
}

// tick is a box to tick.
const tick = "[  ]"

// exact writes a length in the pattern's own system as closely as sixteenths of an
// inch and hundredths of a millimetre are told without rounding, for sums.
func (m *maker) exact(l pattern.Length) string {
	const noise = 1e-6 // halves go up, whatever noise the length carries
	v, digits, unit := l.Inches(), 1e4, " in"
	if m.Pattern.Settings.Metric {
		v, digits, unit = l.MM()/10, 1e3, " cm"
	}
	return m.local(strconv.FormatFloat(math.Floor(v*digits+0.5+noise)/digits, 'f', -1, 64) + unit)
}

// squares is an area of the pattern's own system in thousandths, from square inches.
func (m *maker) squares(inches float64) int {
	const noise = 1e-6
	if m.Pattern.Settings.Metric {
		inches *= 2.54 * 2.54
	}
	return int(math.Floor(inches*1000 + 0.5 + noise))
}

// units name what lengths and areas of the pattern are told in.
func (m *maker) units() (long, square string) {
	if m.Pattern.Settings.Metric {
		return m.say("check_long_cm"), m.say("check_unit_cm")
	}
	return m.say("check_long_in"), m.say("check_unit_in")
}

// thousandths writes a count of them: "36.000".
func (m *maker) thousandths(n int) string { return m.local(fmt.Sprintf("%d.%03d", n/1000, n%1000)) }

// checkFigures sets the sums of the whole block.
func (m *maker) checkFigures() {
	s, set := m.Sized, &m.Pattern.Settings
	t := m.checkTable(m.say("test_what"), m.say("check_sum"))
	add := func(what, sum string) { t.Rows = append(t.Rows, []string{tick, what, sum}) }
	raw := func(l pattern.Length) string {
		return m.exact(l) + " + 2 x " + m.exact(set.Allowance) + " = " + m.exact(l+2*set.Allowance)
	}
	add(m.say("test_across"), raw(s.Finished.W))
	add(m.say("test_down"), raw(s.Finished.H))
	pieces, sections, area := 0, 0, 0 // the area as it is told, so that it adds up
	var sums, areas, makes []string
	for d := range s.Drawings {
		dr := &s.Drawings[d]
		one := 0.0
		for i := range dr.Pieces {
			one += polygonArea(dr.Pieces[i].Polygon)
		}
		pieces, sections, area = pieces+len(dr.Pieces)*dr.Make, sections+dr.Make, area+m.squares(one)*dr.Make
		sums = append(sums, fmt.Sprintf("%s %d x %d", dr.Name, len(dr.Pieces), dr.Make))
		makes = append(makes, fmt.Sprintf("%s %d", dr.Name, dr.Make))
		areas = append(areas, fmt.Sprintf("%s %s x %d", dr.Name, m.thousandths(m.squares(one)), dr.Make))
	}
	add(m.say("check_sections"), strings.Join(makes, " + ")+" = "+strconv.Itoa(sections))
	add(m.say("check_pieces"), strings.Join(sums, " + ")+" = "+strconv.Itoa(pieces))
	if joins := s.Joins; len(joins) > 0 {
		points := make([]string, len(joins))
		total := 0
		for i := range joins {
			points[i] = fmt.Sprintf("%d: %d", joins[i].Number, len(joins[i].Points))
			total += len(joins[i].Points)
		}
		add(m.say("check_points"), strings.Join(points, " + ")+" = "+strconv.Itoa(total))
	}
	add(m.say("check_narrowest"), s.Figures.NarrowestPiece+": "+m.exact(s.Figures.Narrowest))
	_, square := m.units()
	add(m.say("check_area", "unit", square), strings.Join(areas, " + ")+" = "+m.thousandths(area)+"; "+
		m.exact(s.Finished.W)+" x "+m.exact(s.Finished.H)+" = "+m.thousandths(m.squares(s.Finished.W.Inches()*s.Finished.H.Inches())))
	total, sheets := 0, []string{}
	for i := range m.Sheets.Sheets {
		total += m.Sheets.Sheets[i].Print
		sheets = append(sheets, fmt.Sprintf("%d x %d", i+1, m.Sheets.Sheets[i].Print))
	}
	if total > 0 {
		add(m.say("check_sheets"), strings.Join(sheets, " + ")+" = "+strconv.Itoa(total))
	}
	for i := range m.Pattern.Pads {
		if pad := &m.Pattern.Pads[i]; pad.Holds(m.Block, m.Sized) && total > 0 {
			add(m.count("blocks", pad.Copies), fmt.Sprintf("%d x %d + %d = %d", pad.Copies, total, pad.Spare, pad.Copies*total+pad.Spare))
		}
	}
	m.Table(t)
}

func (m *maker) checkTable(heads ...string) *flow.Table {
	t := &flow.Table{Columns: []flow.Column{{Share: 0.5}}}
	for i, h := range heads {
		t.Columns = append(t.Columns, flow.Column{Head: h, Share: float64(3 + i%2)})
	}
	return t
}

// checkSpaces lists every space: its number, its fabric, what is cut for it.
func (m *maker) checkSpaces() {
	m.Heading(m.say("check_spaces"))
	for d := range m.Sized.Drawings {
		dr := &m.Sized.Drawings[d]
		t := &flow.Table{Title: m.sectionHead(dr), Columns: []flow.Column{{Share: 0.5}, {Head: m.say("space"), Share: 1}, {Head: m.say("fabric"), Share: 2},
			{Head: m.say("check_space"), Share: 2.2}, {Head: m.say("cut_as"), Share: 2.4}, m.sizeColumns()[0]}}
		for i := range dr.Pieces {
			p := &dr.Pieces[i]
			w, h := extent(p.Polygon)
			t.Rows = append(t.Rows, []string{tick, dr.Label(i), m.Pattern.Fabrics[p.Fabric].Words, m.exact(w) + " x " + m.exact(h),
				m.shape(p.Patch.Shape, dr.Name), m.sizes(p.Patch.Size)[0]})
		}
		m.Table(t)
	}
}

// checkCutting adds up how many of each patch are cut.
func (m *maker) checkCutting() {
	m.Heading(m.say("check_cut"))
	t := m.checkTable(m.say("cut_as"), m.say("check_sum"))
	for i := range m.Cuts.Rows {
		r := &m.Cuts.Rows[i]
		n := 0
		var parts []string
		for _, s := range r.Spaces {
			d := &m.Sized.Drawings[s.Drawing]
			parts = append(parts, fmt.Sprintf("%s x %d", d.Label(s.Piece), s.Times))
			n += s.Times
		}
		straight, reversed := r.Cloth()
		share := ""
		if yield := r.Shape.Yield(); yield > 1 && n == yield*(straight+reversed) { // triangles, and none is left over
			share = fmt.Sprintf("%d / %d = ", n, yield)
		}
		t.Rows = append(t.Rows, []string{tick, m.Pattern.Fabrics[r.Fabric].Words + ", " + m.shape(r.Shape, r.Template) + ", " + m.sizes(r.Size)[0],
			strings.Join(parts, " + ") + " = " + strconv.Itoa(n) + "; " + share + m.say("check_cloths", "n", strconv.Itoa(straight+reversed))})
	}
	m.Table(t)
	_, bought := m.Cuts.Buying(m.Pattern, m.Block, m.Sized, m.tables())
	m.checkCloth(m.say("check_cloth"), bought, func(i int) string { return m.Pattern.Fabrics[bought[i].Fabric].Words })
}

// checkCloth sets the sums of what is bought of each cloth, whose words of tells.
func (m *maker) checkCloth(head string, bought []table.Purchase, of func(i int) string) {
	if len(bought) == 0 {
		return
	}
	m.Heading(head)
	t := m.checkTable(m.say("fabric"), m.say("check_sum"))
	for i := range bought {
		t.Rows = append(t.Rows, []string{tick, of(i) + ": " + bought[i].Words, strings.Join(bought[i].Lines(), "; ")})
	}
	m.Table(t)
}

// checkQuilts sets what is counted and bought for each quilt of the block.
func (m *maker) checkQuilts() {
	for _, q := range m.mine() {
		m.Heading(m.say("quilt", "title", q.Of.Title))
		t := m.checkTable(m.say("test_what"), m.say("check_sum"))
		rows := []string{}
		for _, row := range q.Of.Rows {
			n := 0
			for i := range row {
				if row[i].Block != "" {
					n++
				}
			}
			rows = append(rows, strconv.Itoa(n))
		}
		placed := len(q.Of.Layout.Placed)
		t.Rows = append(t.Rows, []string{tick, m.count("blocks", placed), strings.Join(rows, " + ") + " = " + strconv.Itoa(placed)},
			[]string{tick, m.around(q.Of.Layout.Size), ""})
		for i := range q.Of.Layout.Runs {
			r := &q.Of.Layout.Runs[i]
			width, lengths := table.RunWords(m.Pattern, r, m.tables())
			t.Rows = append(t.Rows, []string{tick, m.part(r.For) + ", " + width, lengths})
		}
		for i := range q.Of.Layout.Cuts {
			c := &q.Of.Layout.Cuts[i]
			t.Rows = append(t.Rows, []string{tick, m.part(c.For) + ", " + m.shape(c.Shape, "") + ", " + m.sizes(c.Size)[0], m.say("check_cloths", "n", strconv.Itoa(table.Squares(c)))})
		}
		m.Table(t)
		for i, cloth := range q.Cloth() {
			_, bought := table.QuiltBuying(m.Pattern, cloth, m.tables())
			head := m.say("check_cloth")
			if way := &m.Pattern.Colorway[i]; way.Name != "" {
				head += ": " + way.Words
			}
			m.checkCloth(head, bought, func(k int) string { return cloth[k].Dress.Words })
		}
	}
}

// checkJoins lists the joins with their lengths.
func (m *maker) checkJoins() {
	if len(m.Sized.Joins) == 0 {
		return
	}
	m.Heading(m.say("joining"))
	t := &flow.Table{Columns: []flow.Column{{Share: 0.5}, {Head: m.say("join_number"), Share: 0.6}, {Head: m.say("join_left"), Share: 2},
		{Head: m.say("join_right"), Share: 2}, {Head: m.say("check_long"), Share: 1.4}, {Head: m.say("join_match"), Share: 1.8}, {Head: m.say("pressing"), Share: 2.6}}}
	for i := range m.Sized.Joins {
		j := &m.Sized.Joins[i]
		long := pattern.Length(math.Hypot(float64(j.B.X-j.A.X), float64(j.B.Y-j.A.Y)))
		t.Rows = append(t.Rows, []string{tick, strconv.Itoa(j.Number), m.side(j.Left), m.side(j.Right), m.exact(long), m.points(j), strings.TrimPrefix(m.press(j), "; ")})
	}
	m.Table(t)
}

// extent is how wide and high a polygon is.
func extent(ps []pattern.Pos) (w, h pattern.Length) {
	low, high := ps[0], ps[0]
	for _, p := range ps {
		low = pattern.Pos{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = pattern.Pos{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return high.X - low.X, high.Y - low.Y
}

// polygonArea is the area of a polygon in square inches.
func polygonArea(ps []pattern.Pos) float64 {
	sum := 0.0
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		sum += float64(p.X*q.Y) - float64(q.X*p.Y) // each rounded, on every processor alike
	}
	return math.Abs(sum) / 2
}
