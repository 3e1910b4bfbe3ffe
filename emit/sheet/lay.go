package sheet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/lang/problem"
)

// A Set is all foundation sheets of one block at one size.
type Set struct {
	Mark   string // computed from what is printed
	Sheets []Sheet
}

// A Sheet is one page, printed on one side.
type Sheet struct {
	Page   drawing.Page
	Print  int // copies for one block
	Places []Place
}

// A Place says where a drawing is printed: a point of its outline as it lies in
// the block, front view, is reversed (x becomes -x), turned about the origin,
// anticlockwise on the page, then shifted. On the page y runs down.
type Place struct {
	Drawing int // index into Sized.Drawings
	Turn    float64
	Shift   pattern.Pos
}

// A layout is the work on one set.
type layout struct {
	p        *pattern.Pattern
	block    *pattern.Block
	sized    *pattern.Sized
	paper    pattern.Sheet
	name     string  // of what is made, as it stands on every section
	words    []words // for each fabric
	blunts   [][]blunt
	blunted  []bool
	sewn     *sewn
	copies   [][]int32 // for each drawing
	problems []problem.Problem
}

// nameWidth limits the pattern's name on a section.
const nameWidth = 2 * pattern.Inch

// Lay lays out the foundation sheets of a block at one finished size. Where a
// problem is an error the set is empty.
func Lay(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, paper pattern.Sheet) (Set, []problem.Problem) {
	l := &layout{p: p, block: b, sized: s, paper: paper}
	l.name = p.Title
	if len(p.Blocks) > 1 || l.name == "" {
		l.name = b.Title
	}
	l.name = drawing.Shorten(l.name, small, true, nameWidth)
	for _, f := range p.Fabrics {
		l.words = append(l.words, newWords(f.Words))
	}
	l.blunts, l.blunted = make([][]blunt, len(s.Drawings)), make([]bool, len(s.Drawings))
	l.copies = make([][]int32, len(s.Drawings))
	for i := range s.Copies {
		d := s.Copies[i].Drawing
		l.copies[d] = append(l.copies[d], int32(i))
	}
	l.checkGlyphs()
	var plans []plan
	frames := l.frames()
	for _, r := range l.runs() {
		plans = append(plans, l.packRun(r, frames)...)
	}
	if problem.Failed(l.problems) {
		return Set{}, l.problems
	}
	set := Set{Sheets: make([]Sheet, len(plans))}
	for i := range plans {
		set.Sheets[i] = l.page(&plans[i], i+1, len(plans))
	}
	set.Mark = versionMark(set.Sheets)
	for i := range set.Sheets {
		l.stamp(&set.Sheets[i].Page, set.Mark)
	}
	return set, l.problems
}

func (l *layout) order() *sewn {
	if l.sewn == nil {
		l.sewn = newSewn(l.sized)
	}
	return l.sewn
}

// A run is what is printed equally often.
type run struct {
	print int
	items []item
}

// runs parts the drawings by how often they are printed, in the order of the
// pattern.
func (l *layout) runs() []run {
	var runs []run
	at := map[int]int{}
	for i := range l.sized.Drawings {
		d := &l.sized.Drawings[i]
		if d.Plain && d.Pieces[0].Patch.Shape != pattern.TemplatePatch {
			continue
		}
		k, ok := at[d.Make]
		if !ok {
			k = len(runs)
			at[d.Make] = k
			runs = append(runs, run{print: d.Make})
		}
		outline, _ := moved(make([]pos, 0, len(d.Outline)), d.Outline, Place{}.Motion())
		cut, extra := l.contours(i, outline)
		line := outermost(cut, extra)
		runs[k].items = append(runs[k].items, item{drawing: i, line: line, box: boxOf(line)})
	}
	return runs
}

// A plan is a sheet before it is drawn.
type plan struct {
	frame  frame
	print  int
	places []Place
}

// packRun puts the drawings of a run on sheets.
func (l *layout) packRun(r run, frames []frame) (plans []plan) {
	lists := make([][]item, len(frames))
next:
	for _, it := range r.items {
		for k, f := range frames {
			if _, ok := it.turnFor(f.room.w(), f.room.h()); ok {
				lists[k] = append(lists[k], it)
				continue next
			}
		}
		l.tooLarge(&it, frames)
	}
	for k, f := range frames {
		for _, places := range pack(lists[k], pos{X: f.room.x0, Y: f.room.y0}, f.room.w(), f.room.h()) {
			plans = append(plans, plan{f, r.print, places})
		}
	}
	return plans
}

// page draws a sheet, all but its version mark.
func (l *layout) page(p *plan, n, of int) Sheet {
	size := l.sized.Finished.Exact()
	number := strconv.Itoa(n)
	s := Sheet{Print: p.print, Places: p.places, Page: drawing.Page{
		Name:  fileName(l.block.Name + "-" + size + "-sheet-" + number),
		Title: l.p.Title + ": " + l.block.Title + ", " + size + ", sheet " + number + " of " + strconv.Itoa(of),
		Size:  l.paper.Paper,
	}}
	head, _ := l.head(p.frame.head, &s, n, of, p.print)
	foot, _ := l.foot(p.frame.area, n, of, p.print)
	s.Page.Items = append(s.Page.Items,
		&drawing.Group{ID: "head", Class: "head", Items: head},
		&drawing.Group{ID: "foot", Class: "foot", Items: foot},
		l.rules())
	for _, place := range p.places {
		s.Page.Items = append(s.Page.Items, l.paint(l.lay(place.Drawing, place)))
	}
	return s
}

// stamp prints the version mark on a page, at the right end of the foot.
func (l *layout) stamp(page *drawing.Page, mark string) {
	area := l.printable()
	at := pos{X: area.x1, Y: area.y1 - small*(leading-drawing.CapHeight-0.08)}
	page.Items = append(page.Items, &drawing.Group{ID: "version", Class: "foot", Items: []drawing.Item{
		&drawing.Text{Text: "mark " + mark, At: at, Size: small, Bold: true, Anchor: drawing.End},
	}})
}

// fileName keeps letters, digits, - and _ of a name; fractions of 6 1/2 become
// 6_1_2.
func fileName(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '.':
			return r
		case r == ' ', r == '/':
			return '_'
		}
		return -1
	}, strings.ReplaceAll(strings.ReplaceAll(s, " in", "in"), " cm", "cm"))
}
