package flow

import (
	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// A Column of a table: its head, and its part of the width.
type Column struct {
	Head  string
	Share float64
	Right bool // figures stand at its right edge
}

// A Table has cells that are broken into lines where they are long.
type Table struct {
	Title   string // stands above it, on the same page; "" for none
	Columns []Column
	Rows    [][]string // as many cells as columns; missing ones are empty. One whose first is empty goes on with the row above

	// Swatch draws in the first column of a row, before its words, in a square
	// of a side; nil for none.
	Swatch func(row int, at pattern.Pos, side pattern.Length) []drawing.Item
}

const (
	cellPad   = 0.05 * pattern.Inch
	swatch    = 0.14 * pattern.Inch
	mostLines = 12 // of a cell: a row is not divided
)

// Table sets a table: on one page where that leaves no more than a quarter of a page
// free, else with two rows at least on each. Its head is repeated on every page
// that it takes.
func (f *Flow) Table(t *Table) {
	s := &setter{flow: f, table: t, most: mostLines}
	total := 0.0
	for _, c := range t.Columns {
		total += c.Share
	}
	for _, c := range t.Columns {
		s.widths = append(s.widths, f.Width()*length(c.Share/total))
		s.heads = append(s.heads, c.Head)
	}
	head := s.cells(s.heads, true, 0)
	title := Lines(t.Title, Body, true, f.Width(), 2)
	above := length(len(title))*Body*leading + height(head)
	room := f.Height() - above - cellPad // small paper holds few
	s.most = max(1, min(mostLines, int(room/(tableText*leading))))
	s.measure()
	for i, cells := range s.rows {
		need := s.together(i)
		switch {
		case i == 0:
			if all := s.high(0, len(s.rows)); above+all <= f.Height()/4 {
				need = all
			}
			f.Need(above + need)
			f.line(title, Body, true, 0)
			s.set(head, true, -1)
			s.rule(drawing.SewingLine)
		case f.Left() < need:
			if t.goesOn(i) {
				s.rule(drawing.FrameLine)
			}
			f.Need(height(head) + need)
			s.set(head, true, -1)
			s.rule(drawing.SewingLine)
		}
		s.set(cells, false, i)
		if !t.goesOn(i + 1) {
			s.rule(drawing.FrameLine)
		}
	}
	f.Gap(partGap)
}

// goesOn reports whether a row goes on with the one above it.
func (t *Table) goesOn(i int) bool {
	return i < len(t.Rows) && len(t.Rows[i]) > 0 && t.Rows[i][0] == ""
}

// A setter sets the rows of one table.
type setter struct {
	flow   *Flow
	table  *Table
	heads  []string
	widths []length
	most   int // lines of a cell
	rows   [][][]string
}

// measure breaks all rows into lines.
func (s *setter) measure() {
	indent := length(0)
	if s.table.Swatch != nil {
		indent = swatch + cellPad
	}
	s.rows = make([][][]string, len(s.table.Rows))
	for i, row := range s.table.Rows {
		s.rows[i] = s.cells(row, false, indent)
	}
}

// high is how high some rows are.
func (s *setter) high(from, to int) (all length) {
	for _, cells := range s.rows[from:to] {
		all += height(cells)
	}
	return all
}

// together is how much room a row is to have: with those that go on with it, and
// with the second one, the first and the last but one, unless they fill half a page.
func (s *setter) together(i int) length {
	own := height(s.rows[i])
	if s.table.goesOn(i) {
		return own
	}
	end := s.after(i)
	group := s.high(i, end)
	if next := s.after(end); end < len(s.rows) && (i == 0 || next == len(s.rows)) {
		if both := group + s.high(end, next); both < s.flow.Height()/2 {
			return both
		}
	}
	if group < s.flow.Height()/2 {
		return group
	}
	return own
}

// after is the next row that does not go on with a row.
func (s *setter) after(i int) int {
	for i++; s.table.goesOn(i); i++ {
	}
	return min(i, len(s.rows))
}

// cells breaks the cells of a row into lines.
func (s *setter) cells(row []string, bold bool, indent length) [][]string {
	out := make([][]string, len(s.widths))
	for i := range out {
		if i < len(row) {
			room := s.widths[i] - 2*cellPad
			if i == 0 {
				room -= indent
			}
			out[i] = Lines(row[i], tableText, bold, room, s.most)
		}
	}
	return out
}

const tableText = 9 * pattern.Point

func height(cells [][]string) length {
	most := 1
	for _, lines := range cells {
		most = max(most, len(lines))
	}
	return length(most)*tableText*leading + cellPad
}

func (s *setter) set(cells [][]string, bold bool, row int) {
	f, t := s.flow, s.table
	h := height(cells)
	x := f.margin
	for i, lines := range cells {
		from := x
		if i == 0 && row >= 0 && t.Swatch != nil {
			f.Put(t.Swatch(row, pos{X: x + cellPad/2, Y: f.y + cellPad/2}, swatch)...)
			from += swatch + cellPad
		}
		for k, line := range lines {
			text := &drawing.Text{Text: line, At: pos{X: from + cellPad, Y: f.y + tableText*(1+leading*length(k))}, Size: tableText, Bold: bold}
			if t.Columns[i].Right {
				text.At.X, text.Anchor = x+s.widths[i]-2*cellPad, drawing.End
			}
			f.Put(text)
		}
		x += s.widths[i]
	}
	f.y += h
}

// rule draws a line below what is set.
func (s *setter) rule(style drawing.Style) {
	f := s.flow
	f.Put(&drawing.Path{Style: style, Fill: drawing.NoColour, Points: []pos{{X: f.margin, Y: f.y}, {X: f.margin + f.Width(), Y: f.y}}})
}
