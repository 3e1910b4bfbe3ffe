package flow

import (
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

type pos = pattern.Pos
type length = pattern.Length

// Sizes of text. Ten points is what instructions are read in beside a machine
// (common practice, no source).
const (
	Body    = 10 * pattern.Point
	Small   = 8 * pattern.Point
	Heading = 13 * pattern.Point
	Title   = 19 * pattern.Point
)

const (
	leading   = 1.32 // distance of lines as a part of the text's size
	footRoom  = 0.32 * pattern.Inch
	partGap   = 0.11 * pattern.Inch // after a paragraph, a table, a picture
	headGap   = 0.16 * pattern.Inch // before a heading within a page
	withHead  = 1.2 * pattern.Inch  // what must fit below a heading
	leastPage = 2 * pattern.Inch    // of a column: less holds nothing
)

// A Page is a page with its place in the text.
type Page struct {
	*drawing.Page
	Chapter string // the first one that begins on it; else ""
}

// A Flow is a text under way.
type Flow struct {
	paper  pattern.Size
	margin length
	y      length // how far down the current page is filled
	fresh  bool   // nothing stands on the current page
	pages  []Page
	held   []held // stands where what follows it begins

	// Full is told of each page when the next one begins; nothing but its foot is
	// added to it after. It may take the page's items away. Nil for nobody.
	Full func(*drawing.Page)
}

// New begins a text on paper of a size, inside a margin. Where that leaves less
// than two inches, the margin gives way.
func New(paper pattern.Size, margin pattern.Length) *Flow {
	margin = max(0, min(margin, (paper.W-leastPage)/2, (paper.H-leastPage)/2))
	return &Flow{paper: paper, margin: margin}
}

// Width is that of the column.
func (f *Flow) Width() pattern.Length { return f.paper.W - 2*f.margin }

// Height is that of a column that has nothing in it.
func (f *Flow) Height() pattern.Length { return f.paper.H - 2*f.margin - footRoom }

// Left is what is left of the current page.
func (f *Flow) Left() pattern.Length {
	if len(f.pages) == 0 {
		return 0
	}
	f.release()
	return f.bottom() - f.y
}

func (f *Flow) bottom() length { return f.paper.H - f.margin - footRoom }

// Break begins a new page unless the current one is new.
func (f *Flow) Break() {
	f.release()
	f.turn()
}

// turn begins a new page unless the current one is new; what is held goes there.
func (f *Flow) turn() {
	if len(f.pages) > 0 && f.fresh {
		return
	}
	if n := len(f.pages); n > 0 && f.Full != nil {
		f.Full(f.pages[n-1].Page)
	}
	f.pages = append(f.pages, Page{Page: &drawing.Page{Size: f.paper}})
	f.y, f.fresh = f.margin, true
}

// Need begins a new page where less than a height is left on this one. Headings
// and texts that lead to what is set next stand above it, wherever that is.
func (f *Flow) Need(height pattern.Length) {
	with := length(0)
	for i := range f.held {
		with += f.held[i].height()
	}
	if with+height > f.Height() { // no page holds both
		f.release()
		with = 0
	}
	if len(f.pages) == 0 || f.bottom()-f.y < with+height {
		f.turn()
	}
	f.release()
}

// A held is a heading or a text that is not yet set.
type held struct {
	lines         []string
	size          length
	bold          bool
	before, after length // gaps
}

func (h *held) height() length { return h.before + length(len(h.lines))*h.size*leading + h.after }

// release sets what is held.
func (f *Flow) release() {
	all := f.held
	f.held = nil
	for i := range all {
		h := &all[i]
		f.Gap(h.before)
		f.line(h.lines, h.size, h.bold, 0)
		f.Gap(h.after)
	}
}

// Gap leaves a height free, except at the head of a page.
func (f *Flow) Gap(height pattern.Length) {
	if !f.fresh {
		f.y += height
	}
}

// Put adds what is drawn at places of the current page.
func (f *Flow) Put(items ...drawing.Item) {
	if len(f.pages) == 0 {
		f.Break()
	}
	page := f.pages[len(f.pages)-1]
	page.Items = append(page.Items, items...)
	f.fresh = false
}

// Chapter begins a chapter, on a new page where less than a third of this one
// is left.
func (f *Flow) Chapter(title string) {
	f.Need(f.Height() / 3)
	f.Gap(2 * headGap)
	f.Name(title)
	f.lines(title, Title, true, 0, 2)
	f.Gap(partGap / 2)
}

// Name has the current page found under a title, unless a chapter begins on it.
func (f *Flow) Name(title string) {
	f.Need(0)
	if last := &f.pages[len(f.pages)-1]; last.Chapter == "" {
		last.Chapter = drawing.Clean(title)
	}
}

// Heading begins a part of a chapter.
func (f *Flow) Heading(title string) {
	f.Need(withHead)
	f.held = append(f.held, held{Lines(title, Heading, true, f.Width(), 2), Heading, true, headGap, partGap / 3})
}

// Lead sets a short paragraph that is read with what follows it, as before a table.
func (f *Flow) Lead(text string) {
	if drawing.Clean(text) != "" {
		f.held = append(f.held, held{Lines(divided(text, Body, false, f.Width()), Body, false, f.Width(), 0), Body, false, 0, partGap})
	}
}

// Text sets a paragraph.
func (f *Flow) Text(text string) { f.paragraph(text, Body, false, 0) }

// Bold sets a paragraph that must not be missed.
func (f *Flow) Bold(text string) { f.paragraph(text, Body, true, 0) }

// Note sets a paragraph in small letters.
func (f *Flow) Note(text string) { f.paragraph(text, Small, false, 0) }

// Item sets one entry of a list, its mark ("1.", "-") before it.
func (f *Flow) Item(mark, text string) {
	const indent = 0.28 * pattern.Inch
	f.Sample(indent, text, func(at pos) []drawing.Item {
		return []drawing.Item{&drawing.Text{Text: drawing.Shorten(mark, Body, true, indent), At: pos{X: at.X, Y: at.Y + Body}, Size: Body, Bold: true}}
	})
}

// Sample sets a paragraph with something drawn before it, in a width: draw is
// told the upper left corner.
func (f *Flow) Sample(width pattern.Length, text string, draw func(at pattern.Pos) []drawing.Item) {
	f.Need(2 * Body * leading)
	f.Put(draw(pos{X: f.margin, Y: f.y})...)
	f.paragraph(text, Body, false, width)
}

func (f *Flow) paragraph(text string, size length, bold bool, indent length) {
	if drawing.Clean(text) == "" {
		return
	}
	f.lines(divided(text, size, bold, f.Width()-indent), size, bold, indent, 0)
	f.Gap(partGap)
}

// divided parts words that are wider than a line, as addresses may be, so that none
// of it is lost.
func divided(text string, size length, bold bool, width length) string {
	if len(text) < shortest || drawing.Measure(text, size, bold).Width <= width {
		return text
	}
	words := strings.Fields(text)
	for i, word := range words {
		if drawing.Measure(word, size, bold).Width <= width {
			continue
		}
		out := ""
		from := 0
		for at := range word {
			if at > from && drawing.Measure(word[from:at+1], size, bold).Width > width {
				out, from = out+word[from:at]+" ", at
			}
		}
		words[i] = out + word[from:]
	}
	return strings.Join(words, " ")
}

// shortest is how many bytes a text has that may be wider than a line: shorter ones
// are not measured.
const shortest = 16

// Tall is how high a paragraph gets: [Flow.Text], [Flow.Bold] in the body's size,
// [Flow.Note] in the small one.
func (f *Flow) Tall(text string, size pattern.Length, bold bool) pattern.Length {
	if drawing.Clean(text) == "" {
		return 0
	}
	return length(len(Lines(divided(text, size, bold, f.Width()), size, bold, f.Width(), 0)))*size*leading + partGap
}

// lines sets a text in at most a number of lines, as many as it takes where that
// is 0. It goes on overleaf with two lines at least.
func (f *Flow) lines(text string, size length, bold bool, indent length, most int) {
	lines := Lines(text, size, bold, f.Width()-indent, most)
	step := size * leading
	for i := range lines {
		need := step
		if i == 0 {
			need = step * length(min(2, len(lines)))
		} else if i == len(lines)-2 {
			need = 2 * step
		}
		f.Need(need)
		f.line(lines[i:i+1], size, bold, indent)
	}
}

// line sets lines where there is room for them.
func (f *Flow) line(lines []string, size length, bold bool, indent length) {
	for _, line := range lines {
		f.Put(&drawing.Text{Text: line, At: pos{X: f.margin + indent, Y: f.y + size}, Size: size, Bold: bold})
		f.y += size * leading
	}
}

// Lines breaks a text into lines that fit a width; where there are more than
// most, and most is not 0, the last is shortened.
func Lines(text string, size pattern.Length, bold bool, width pattern.Length, most int) []string {
	lines := drawing.Wrap(text, size, bold, width)
	if most > 0 && len(lines) > most {
		lines = lines[:most]
		lines[most-1] = drawing.Shorten(lines[most-1]+" ...", size, bold, width)
	}
	return lines
}

// Picture takes a part of the column and draws in it. One that is higher than a
// page gets a page.
func (f *Flow) Picture(height pattern.Length, draw func(at pattern.Pos, size pattern.Size) []drawing.Item) {
	height = min(height, f.Height())
	f.Need(height)
	f.Put(draw(pos{X: f.margin, Y: f.y}, pattern.Size{W: f.Width(), H: height})...)
	f.y += height
	f.Gap(partGap)
}

// Columns returns how many columns of at least a width fit beside each other.
func (f *Flow) Columns(width pattern.Length) int {
	return max(1, int((f.Width()+ColumnGap)/(width+ColumnGap)))
}

// ColumnGap is between columns, RowGap between the rows of a grid.
const (
	ColumnGap = 0.2 * pattern.Inch
	RowGap    = partGap
)

// Grid draws n cells in rows of so many columns, all of one height. A row stays
// on one page.
func (f *Flow) Grid(n, columns int, height pattern.Length, draw func(i int, at pattern.Pos, size pattern.Size) []drawing.Item) {
	height = min(height, f.Height())
	width := (f.Width() - ColumnGap*length(columns-1)) / length(columns)
	for i := 0; i < n; i += columns {
		f.Need(height)
		for k := i; k < min(i+columns, n); k++ {
			f.Put(draw(k, pos{X: f.margin + length(k-i)*(width+ColumnGap), Y: f.y}, pattern.Size{W: width, H: height})...)
		}
		f.y += height
		f.Gap(partGap)
	}
}

// Whole closes a text that is shown as one picture: its only page, without a foot,
// cut off below what is on it.
func (f *Flow) Whole() *drawing.Page {
	f.release()
	page := f.pages[0].Page
	page.Size.H = f.y + f.margin
	return page
}

// Count is the number of pages so far.
func (f *Flow) Count() int { return len(f.pages) }

// AboveFoot is how far above the margin a line stands that is neither text nor foot.
const AboveFoot = 0.22 * pattern.Inch

// Pages closes the text. Foot says what stands at the left and at the right
// below page n of the text, counted from 1.
func (f *Flow) Pages(foot func(n int) (left, right string)) []Page {
	f.release()
	for i := range f.pages {
		left, right := foot(i + 1)
		y := f.paper.H - f.margin
		right = drawing.Shorten(right, Small, false, f.Width()*0.5)
		room := f.Width() - drawing.Measure(right, Small, false).Width - ColumnGap
		f.pages[i].Items = append(f.pages[i].Items,
			&drawing.Path{Style: drawing.FrameLine, Fill: drawing.NoColour, Points: []pos{{X: f.margin, Y: y - 0.2*pattern.Inch}, {X: f.paper.W - f.margin, Y: y - 0.2*pattern.Inch}}},
			&drawing.Text{Text: drawing.Shorten(left, Small, false, room), At: pos{X: f.margin, Y: y - 0.04*pattern.Inch}, Size: Small},
			&drawing.Text{Text: right, At: pos{X: f.paper.W - f.margin, Y: y - 0.04*pattern.Inch}, Size: Small, Anchor: drawing.End})
	}
	return f.pages
}
