package booklet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/flow"
	"seamwright/emit/pdf"
	"seamwright/emit/table"
)

// classLetters is how much larger the letters of a handout are than a booklet's:
// it lies beside the machine of somebody who listens.
const classLetters = 1.2

// Class returns the handout of a class that sews one block: what to bring, a
// practice foundation, one section in full with room for notes, the joins; for
// the teacher how many sheets to copy, the kits and labels for their bags, and
// what usually goes wrong.
func Class(parts Parts) []pdf.Page {
	m := &maker{Parts: parts, worked: chooseWorked(parts.Sized), letters: classLetters}
	front := m.text(func() {
		m.Chapter(m.title())
		m.Text(m.say("class_intro", "size", m.finished()))
		m.tools()
		m.Text(m.say("stitch"))
		m.bring()
	})
	m.letters = 1 // at true scale
	practice := m.text(m.practice)
	m.letters = classLetters
	rest := m.text(func() {
		m.gluing()
		m.classSection()
		m.joining()
	})
	teacher := m.text(m.teacher)
	all := []*flow.Flow{front, practice, rest, teacher}
	of := 0
	for _, f := range all {
		of += f.Count()
	}
	var pages []pdf.Page
	for i, f := range all {
		m.letters = classLetters
		if i == 1 {
			m.letters = 1
		}
		pages = m.pages(pages, f, len(pages), of)
	}
	return pages
}

// bring lists the patches that are cut before a class; where there are many, the
// cloth for them.
func (m *maker) bring() {
	const most = 12 // rows that stand on the page of what is brought
	if len(m.Cuts.Rows) > most {
		m.Lead(m.say("class_cloth"))
		t, _ := m.buying()
		m.Table(t)
		return
	}
	m.Lead(m.say("class_patches"))
	m.Table(m.patches())
}

// practiceSpaces are the strips of the practice foundation: five, the outer ones
// and those between slanting, so that every step of the work comes up once.
const (
	practiceWidth  = 3 * pattern.Inch
	practiceHeight = 5 * pattern.Inch
	practiceSpaces = 5
)

// practice is a foundation of five spaces at true scale, drawn without a block:
// what goes wrong on it costs nothing.
func (m *maker) practice() {
	m.Chapter(m.say("practice"))
	m.Text(m.say("practice_how", "allowance", m.allowance(), "size", m.practiceStrip()))
	m.Bold(m.say("print_first"))
	m.care()
	a := m.Pattern.Settings.Allowance
	m.Picture(practiceHeight+4*a, func(at pattern.Pos, size pattern.Size) []drawing.Item {
		x, y := at.X+(size.W-practiceWidth)/2, at.Y+2*a
		rect := func(style drawing.Style, by pattern.Length) drawing.Item {
			return &drawing.Path{Style: style, Closed: true, Fill: drawing.NoColour, Points: []pattern.Pos{
				{X: x - by, Y: y - by}, {X: x + practiceWidth + by, Y: y - by}, {X: x + practiceWidth + by, Y: y + practiceHeight + by}, {X: x - by, Y: y + practiceHeight + by}}}
		}
		items := []drawing.Item{m.inch(at.X), rect(drawing.CuttingLine, a), rect(drawing.OutlineLine, 0)}
		lines := [4][2]pattern.Length{{1.1, 0.9}, {1.9, 2.2}, {3.1, 2.8}, {3.9, 4.2}} // heights at the left and the right
		before := [2]pattern.Length{}
		for i := range practiceSpaces {
			after := [2]pattern.Length{practiceHeight, practiceHeight}
			if i < len(lines) {
				after = lines[i]
				slope := (after[1] - after[0]) / practiceWidth
				l, r := pattern.Pos{X: x, Y: y + after[0]}, pattern.Pos{X: x + practiceWidth, Y: y + after[1]}
				items = append(items, stroke(drawing.SewingLine, l, r),
					stroke(drawing.RunOnLine, pattern.Pos{X: l.X - a, Y: l.Y - a*slope}, l),
					stroke(drawing.RunOnLine, r, pattern.Pos{X: r.X + a, Y: r.Y + a*slope}))
			}
			mid := (before[0] + before[1] + after[0] + after[1]) / 4
			label := &drawing.Text{Text: strconv.Itoa(i + 1), At: pattern.Pos{X: x + practiceWidth/2, Y: y + mid + flow.Heading*drawing.CapHeight/2},
				Size: flow.Heading, Bold: true, Anchor: drawing.Middle}
			items = append(items, label)
			if i == 0 {
				items = append(items, &drawing.Path{Style: drawing.FrameLine, Fill: drawing.NoColour, Circle: 0.13 * pattern.Inch, Points: []pattern.Pos{{X: label.At.X, Y: y + mid}}})
			}
			before = after
		}
		return items
	})
	size := pattern.Size{W: practiceWidth + 2*a, H: practiceHeight + 2*a}
	m.Note(m.say("practice_check", "size", m.local(size.Words(m.Pattern.Settings.Metric)), "allowance", m.allowance()))
}

// practiceStrip is the size of the strips for the practice foundation: at least half
// an inch larger than its largest space on every side.
func (m *maker) practiceStrip() string {
	in, cm := pattern.Size{W: 2.5 * pattern.Inch, H: 4.5 * pattern.Inch}.In(8), pattern.Size{W: 6.5 * pattern.Centimetre, H: 11.5 * pattern.Centimetre}.Cm()
	if m.Pattern.Settings.Metric {
		in, cm = cm, in
	}
	return m.local(in + " (" + cm + ")")
}

// classSection is one section in full, with lines for notes.
func (m *maker) classSection() {
	if m.worked < 0 {
		return
	}
	d := &m.Sized.Drawings[m.worked]
	m.Chapter(m.say("sewing"))
	m.Text(m.say("sewing_intro", "name", d.Name))
	m.Item("1.", m.say("cut_roughly"))
	for k := range min(len(d.Pieces), mostWorked) {
		m.step(d, k, notesRoom)
		m.notesLine()
	}
	m.trimming()
	m.notesLine()
}

// notesRoom is what a line for notes takes.
const notesRoom = 0.25 * pattern.Inch

// blank is where a teacher writes.
const blank = "____________________________"

func (m *maker) notesLine() {
	m.Note(m.say("class_notes") + " " + strings.Repeat("_", int(m.Width()*0.75/(flow.Small*0.5))))
}

// teacher is what the teacher keeps.
func (m *maker) teacher() {
	m.Chapter(m.say("teacher"))
	sheets := 0
	for _, n := range prints(m.Parts) {
		sheets += n
	}
	m.Text(m.count("teacher_sheets", sheets))
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("teacher_students"), Share: 2}, {Head: m.say("teacher_one"), Share: 3}, {Head: m.say("teacher_two"), Share: 3}}}
	for _, students := range [...]int{4, 6, 8, 10, 12} {
		t.Rows = append(t.Rows, []string{strconv.Itoa(students), fmtSheets(students, 1, sheets), fmtSheets(students, 2, sheets)})
	}
	m.Table(t)
	m.Note(m.Pattern.About.Rights)
	m.Note(m.say("class_copies") + " " + blank)
	m.Heading(m.say("teacher_stages"))
	for _, s := range [...]string{m.say("teacher_stage_1"), m.say("teacher_stage_2"), m.say("teacher_stage_3"), m.say("teacher_stage_4")} {
		m.Item("-", s)
	}
	m.timings()
	m.Heading(m.say("teacher_slips"))
	for _, s := range [...]string{m.say("teacher_slip_1"), m.say("teacher_slip_2"), m.say("teacher_slip_3"), m.say("teacher_slip_4")} {
		m.Item("-", s)
	}
	m.kits()
}

// fmtSheets is the sum of sheets for a class: one block more than each sews, for
// what goes wrong.
func fmtSheets(students, blocks, sheets int) string {
	return strconv.Itoa(students) + " x (" + strconv.Itoa(blocks) + " + 1) x " + strconv.Itoa(sheets) + " = " + strconv.Itoa(students*(blocks+1)*sheets)
}

// Minutes that a piece and a join take beginners, press and trim included. Common
// practice, no source.
const (
	pieceMinutes = 5
	joinMinutes  = 8
)

// timings tell how long each part of a class takes, and by what rule.
func (m *maker) timings() {
	m.Heading(m.say("teacher_time"))
	m.Text(m.say("teacher_rule", "piece", strconv.Itoa(pieceMinutes), "join", strconv.Itoa(joinMinutes)))
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("teacher_part"), Share: 3}, {Head: m.say("check_sum"), Share: 3}, {Head: m.say("teacher_minutes"), Share: 1.5}}}
	total := 0
	add := func(part, how string, n int) {
		total += n
		t.Rows = append(t.Rows, []string{part, how, strconv.Itoa(n)})
	}
	times := func(n, each int) (string, int) { return strconv.Itoa(n) + " x " + strconv.Itoa(each), n * each }
	how, n := times(practiceSpaces, pieceMinutes)
	add(m.say("practice"), how, n)
	for d := range m.Sized.Drawings {
		s := &m.Sized.Drawings[d]
		if s.Plain { // it is cut, and sewn as it is joined
			continue
		}
		how, n := times(s.Make*len(s.Pieces), pieceMinutes)
		add(m.sectionHead(s), how, n)
	}
	if joins := len(m.Sized.Joins); joins > 0 {
		how, n := times(joins, joinMinutes)
		add(m.say("joining"), how, n)
	}
	t.Rows = append(t.Rows, []string{m.say("teacher_all"), "", strconv.Itoa(total)})
	m.Table(t)
}

// patches is the table of what is cut for one block.
func (m *maker) patches() *flow.Table {
	t := &flow.Table{Columns: []flow.Column{{Head: m.say("count"), Share: 1.3}, {Head: m.say("fabric"), Share: 2.4}, {Head: m.say("cut_as"), Share: 3.2}, m.sizeColumns()[0], {Head: m.say("for_spaces"), Share: 3}}}
	for i := range m.Cuts.Rows {
		r := &m.Cuts.Rows[i]
		straight, reversed := r.Cloth()
		t.Rows = append(t.Rows, []string{"(" + strconv.Itoa(straight+reversed) + ")", m.Pattern.Fabrics[r.Fabric].Words, m.shape(r.Shape, r.Template),
			m.sizes(r.Size)[0], table.SpaceList(m.Sized, r.Spaces, m.say("reversed"))})
	}
	return t
}

// kits lists what goes into a student's bag, and the labels of the bags.
func (m *maker) kits() {
	m.Chapter(m.say("kits"))
	m.Lead(m.say("kits_intro"))
	m.Table(m.patches())
	m.Heading(m.say("labels"))
	m.Note(m.say("labels_intro"))
	const (
		high        = 1.35 * pattern.Inch // three lines of spaces, three of words and the title
		labelSpaces = 1.2 * flow.Body
	)
	m.Grid(len(m.Cuts.Rows), m.Columns(2.2*pattern.Inch), high, func(i int, at pattern.Pos, size pattern.Size) []drawing.Item {
		r := &m.Cuts.Rows[i]
		frame := &drawing.Path{Style: drawing.CuttingLine, Closed: true, Fill: drawing.NoColour, Points: []pattern.Pos{
			at, {X: at.X + size.W, Y: at.Y}, {X: at.X + size.W, Y: at.Y + size.H}, {X: at.X, Y: at.Y + size.H}}}
		items := []drawing.Item{frame}
		y := at.Y + 0.06*pattern.Inch
		const pad = 0.1 * pattern.Inch
		put := func(text string, letters pattern.Length, bold bool) {
			y += letters * 1.3
			items = append(items, &drawing.Text{Text: drawing.Shorten(text, letters, bold, size.W-2*pad), At: pattern.Pos{X: at.X + pad, Y: y}, Size: letters, Bold: bold})
		}
		for _, spaces := range flow.Lines(table.SpaceList(m.Sized, r.Spaces, m.say("reversed")), labelSpaces, true, size.W-2*pad, 3) {
			put(spaces, labelSpaces, true)
		}
		for _, text := range [...]string{m.Pattern.Fabrics[r.Fabric].Words,
			m.count("labels_pieces", r.Patches+r.Reversed) + ", " + m.sizes(r.Size)[0], m.shape(r.Shape, r.Template)} {
			put(text, flow.Body, false)
		}
		put(m.title()+", "+m.finished(), flow.Small, false)
		return items
	})
}

// enlarged is a page with everything on it larger.
func enlarged(items []drawing.Item, k pattern.Length) []drawing.Item {
	grow := func(p pattern.Pos) pattern.Pos { return pattern.Pos{X: p.X * k, Y: p.Y * k} }
	all := func(ps []pattern.Pos) []pattern.Pos {
		if ps == nil {
			return nil
		}
		out := make([]pattern.Pos, len(ps))
		for i, p := range ps {
			out[i] = grow(p)
		}
		return out
	}
	out := make([]drawing.Item, len(items))
	for i, item := range items {
		switch item := item.(type) {
		case *drawing.Path:
			larger := *item
			larger.Points, larger.Circle = all(item.Points), item.Circle*k
			out[i] = &larger
		case *drawing.Text:
			larger := *item
			larger.At, larger.Size = grow(item.At), item.Size*k
			out[i] = &larger
		case *drawing.Image:
			larger := *item
			larger.At, larger.Size = grow(item.At), pattern.Size{W: item.Size.W * k, H: item.Size.H * k}
			out[i] = &larger
		case *drawing.Group:
			larger := *item
			larger.Clip, larger.Items = all(item.Clip), enlarged(item.Items, k)
			out[i] = &larger
		default:
			out[i] = item
		}
	}
	return out
}
