package sheet

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/parallel"
	"seamwright/compiler/pattern"
	said "seamwright/emit/booklet/words"
	"seamwright/emit/drawing"
	"seamwright/lang/problem"
)

// A Set is all foundation sheets of one block at one size.
type Set struct {
	Mark   string // computed from what is printed
	Sheets []Sheet
	Glued  []Glued // sections that are printed in parts, in the order of their drawings
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
	Part    *Part // of a section that is printed in parts; nil where all of it is here
}

// A layout is the work on one set.
type layout struct {
	p     *pattern.Pattern
	block *pattern.Block
	sized *pattern.Sized
	paper pattern.Sheet

	title                              string // of the pattern, as one line
	titleSize, titleName, titleEdition string // what stands on every section, each after a blank; no edition where none is told

	said     *said.Catalogue // in the pattern's language
	words    []words         // for each fabric
	blunts   [][]blunt
	blunted  []bool
	sewn     *sewn
	copies   [][]int32        // for each drawing
	divided  map[int]*divided // those in parts, by drawing
	problems []problem.Problem
	unseen   bool // only the problems are wanted
}

// titleLimit bounds what is printed of a title of any length.
const titleLimit = 20 * pattern.Inch

// nameWidth limits the pattern's name on a section.
const nameWidth = 2 * pattern.Inch

// Lay lays out the foundation sheets of a block at one finished size. Where a
// problem is an error the set is empty.
func Lay(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, paper pattern.Sheet) (Set, []problem.Problem) {
	l := newLayout(p, b, s, paper)
	return l.set(), l.problems
}

// Check returns the problems that [Lay] would. Nothing is drawn but what may lack
// room.
func Check(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, paper pattern.Sheet) []problem.Problem {
	l := newLayout(p, b, s, paper)
	l.unseen = true
	l.set()
	return l.problems
}

func newLayout(p *pattern.Pattern, b *pattern.Block, s *pattern.Sized, paper pattern.Sheet) *layout {
	l := &layout{p: p, block: b, sized: s, paper: paper, said: said.OnSheets(cmp.Or(p.Settings.Language, said.Default))}
	l.title = drawing.Shorten(p.Title, small, true, titleLimit)
	name := p.Title
	if len(p.Blocks) > 1 || name == "" {
		name = b.Title
	}
	l.titleSize = " " + s.Finished.Exact()
	l.titleName = " " + drawing.Shorten(name, small, true, nameWidth)
	if n := p.About.Edition; n > 0 {
		l.titleEdition = " " + l.say("title_edition", "n", strconv.Itoa(n))
	}
	for _, f := range p.Fabrics {
		l.words = append(l.words, newWords(f.Words))
	}
	l.blunts, l.blunted = make([][]blunt, len(s.Drawings)), make([]bool, len(s.Drawings))
	l.copies = make([][]int32, len(s.Drawings))
	for i := range s.Copies {
		d := s.Copies[i].Drawing
		l.copies[d] = append(l.copies[d], int32(i))
	}
	return l
}

// set packs the sections and draws the sheets.
func (l *layout) set() Set {
	var plans []plan
	frames := l.frames()
	if _, some := frames.at(0); !some {
		l.smallPaper()
		return Set{}
	}
	runs := l.runs()
	for _, r := range runs {
		plans = append(plans, l.packRun(r, frames)...)
	}
	if problem.Failed(l.problems) {
		return Set{}
	}
	plans = l.oneWay(plans, runs, frames)
	for i := range l.sized.Drawings {
		if d := l.divided[i]; d != nil {
			l.finish(d)
		}
	}
	set := Set{Sheets: make([]Sheet, len(plans))}
	told, tallies := make([][]problem.Problem, len(plans)), make([]tally, len(plans))
	shared(len(plans), func(i int, pen *pen) {
		set.Sheets[i], told[i] = l.page(&plans[i], i+1, len(plans), pen)
		tallies[i].items(set.Sheets[i].Page.Items)
	})
	l.problems = append(l.problems, slices.Concat(told...)...)
	if l.unseen {
		return Set{}
	}
	for i := range l.sized.Drawings {
		if d := l.divided[i]; d != nil {
			set.Glued = append(set.Glued, Glued{Drawing: i, Parts: len(d.Parts), Check: l.across(d, i), divided: d})
		}
	}
	set.Mark = versionMark(set.Sheets, tallies)
	for i := range set.Sheets {
		l.stamp(&set.Sheets[i].Page, set.Mark)
	}
	return set
}

// say returns a message of the sheets, filled in.
func (l *layout) say(key string, fill ...string) string { return l.said.Say(key, fill...) }

// local writes a measure as the language does.
func (l *layout) local(measure string) string {
	return strings.ReplaceAll(measure, ".", l.say("decimal_mark"))
}

// shared calls f for each of n pages, on all processors where there are many, with
// a pen of each processor's own. Pages know nothing of each other.
func shared(n int, f func(i int, pen *pen)) {
	const worthIt = 8 // pages; a goroutine costs less than a hundredth of one
	parallel.Share(n, min(runtime.GOMAXPROCS(0), n/worthIt), func() func(int) {
		pen := &pen{}
		return func(i int) { f(i, pen) }
	})
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

// printedOn reports whether a drawing goes on paper: a section with seams, or a
// plain patch that is cut round a template.
func printedOn(d *pattern.Drawing) bool {
	return !d.Plain || d.Pieces[0].Patch.Shape == pattern.TemplatePatch
}

// runs parts the drawings by how often they are printed, in the order of the
// pattern.
func (l *layout) runs() []run {
	var runs []run
	at := map[int]int{}
	for i := range l.sized.Drawings {
		d := &l.sized.Drawings[i]
		if !printedOn(d) {
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

// oneWay turns all sections of a set by a quarter where some lie across, if fewer joins
// then have edges that lie crosswise, and it costs no sheet: printers stretch one direction
// more than the other, by 1/32 in over the side of a block, and what is joined should be
// stretched alike.
func (l *layout) oneWay(plans []plan, runs []run, frames *frames) []plan {
	n := 0
	for i := range plans {
		n += len(plans[i].places)
		if slices.ContainsFunc(plans[i].places, func(p Place) bool { return p.Part != nil }) {
			return plans // parts lie as they fit best
		}
	}
	if n == 0 || n > nestLimit || alike(plans) {
		return plans
	}
	crossed := l.crossed(plans)
	if crossed == 0 {
		return plans
	}
	var turned []plan
	for _, r := range runs {
		for i, it := range r.items {
			line := turnedLine(it.line, 90)
			r.items[i] = item{drawing: it.drawing, line: line, box: boxOf(line), turn: 90}
		}
		turned = append(turned, l.packRun(r, frames)...)
	}
	if len(turned) > len(plans) || l.crossed(turned) >= crossed {
		return plans
	}
	return turned
}

// alike reports whether all sections lie as they do in the block, or all across: then
// another quarter turn changes nothing.
func alike(plans []plan) bool {
	first := plans[0].places[0].Turn
	for i := range plans {
		for _, p := range plans[i].places {
			if crosswise(p.Turn, first) {
				return false
			}
		}
	}
	return true
}

// crossed counts the joins along which not all edges lie the same way on the paper.
func (l *layout) crossed(plans []plan) (n int) {
	turns := make(map[int]float64)
	for i := range plans {
		for _, p := range plans[i].places {
			turns[p.Drawing] = p.Turn
		}
	}
	for i := range l.sized.Joins {
		j := &l.sized.Joins[i]
		first, some, mixed := 0.0, false, false
		for _, side := range [2][]int{j.Left, j.Right} {
			for _, c := range side {
				turn, printed := turns[l.sized.Copies[c].Drawing]
				if turn += l.sized.Copies[c].Turn; !printed {
					continue
				}
				if some && crosswise(turn, first) {
					mixed = true
				}
				first, some = turn, true
			}
		}
		if mixed {
			n++
		}
	}
	return n
}

// crosswise reports whether what is turned by a and by b lies neither the same way nor
// the other way round.
func crosswise(a, b float64) bool {
	off := math.Mod(math.Abs(a-b), 180)
	return off > sameTurn && off < 180-sameTurn
}

// sameTurn is how far two turns, in degrees, may be from each other and be one: a
// printer's dot over the side of a sheet.
const sameTurn = 0.01

// A plan is a sheet before it is drawn.
type plan struct {
	frame  *frame
	print  int
	places []Place
}

// packRun puts the drawings of a run on sheets: all in the first frame that
// every one of them fits, if there is one.
func (l *layout) packRun(r run, frames *frames) (plans []plan) {
	rest := r.items
	f, lower := allFit(rest, frames)
	if f == nil && l.p.Settings.Tile {
		rest = l.inParts(rest, frames.made)
		f, lower = allFit(rest, frames)
	}
	if f != nil {
		return l.plans(r.print, rest, f, lower)
	}
	for k := range frames.made {
		var fit []item
		fit, rest = divide(rest, &frames.made[k])
		plans = append(plans, l.plans(r.print, fit, &frames.made[k], nil)...)
	}
	for i := range rest {
		l.tooLarge(&rest[i], frames.made)
	}
	return plans
}

// allFit returns the first frame that all items fit, nil for none, and the next
// lower one.
func allFit(items []item, frames *frames) (*frame, func() *frame) {
	for k := 0; ; k++ {
		f, ok := frames.at(k)
		if !ok {
			return nil, nil
		}
		if fit, _ := divide(items, f); len(fit) == len(items) {
			return f, frames.lower(k)
		}
	}
}

// divide parts items into those that fit a frame and the rest.
func divide(items []item, f *frame) (fit, rest []item) {
	for _, it := range items {
		if _, ok := it.turnFor(f.room.w(), f.room.h()); ok {
			fit = append(fit, it)
		} else {
			rest = append(rest, it)
		}
	}
	return fit, rest
}

// plans packs items, all of which fit a frame. Only where it saves a sheet is
// the one with a lower head used, if there is one, are they turned by a quarter,
// nested, or turned by any angle.
func (l *layout) plans(print int, items []item, first *frame, lower func() *frame) (plans []plan) {
	if len(items) == 0 {
		return nil
	}
	least := leastSheets(items, first)
	best, sheets := first, [][]Place(nil)
	done := func() bool { return sheets != nil && len(sheets) <= least }
	try := func(pack func(at pos, w, h length) [][]Place) {
		for _, frame := range [...]func() *frame{func() *frame { return first }, lower} {
			if done() || frame == nil {
				return
			}
			f := frame()
			if f == nil {
				return
			}
			if s := pack(pos{X: f.room.x0, Y: f.room.y0}, f.room.w(), f.room.h()); s != nil && (sheets == nil || len(s) < len(sheets)) {
				best, sheets = f, s
			}
		}
	}
	for _, quarter := range [...]bool{false, true} {
		try(func(at pos, w, h length) [][]Place { return pack(items, at, w, h, quarter) })
	}
	if len(items) <= nestLimit {
		for _, turns := range [...]func(*item) []float64{quarterTurns, anyTurns} {
			try(func(at pos, w, h length) [][]Place { return nest(items, at, w, h, turns) })
		}
	}
	l.placeParts(sheets)
	for _, places := range sheets {
		plans = append(plans, plan{best, print, places})
	}
	return plans
}

// leastSheets is how many sheets the items' areas need at least.
func leastSheets(items []item, f *frame) int {
	var sum length
	for _, it := range items {
		sum += area(it.line)
	}
	return int(math.Ceil(float64(sum / (f.room.w() * f.room.h()))))
}

// page draws a sheet, all but its version mark.
func (l *layout) page(p *plan, n, of int, pen *pen) (Sheet, []problem.Problem) {
	size := l.sized.Finished.Exact()
	number, title := strconv.Itoa(n), l.block.Title
	if l.title != "" && l.title != title {
		title = l.title + ": " + title
	}
	s := Sheet{Print: p.print, Places: p.places, Page: drawing.Page{
		Name:  "sheet-" + number,
		Title: title + ", " + size + ", " + l.say("sheet", "n", number, "m", strconv.Itoa(of)),
		Size:  l.paper.Paper,
	}}
	pen.turn()
	if !l.unseen {
		head := append(l.varying(p.frame, &s, pen), l.number(n, of, p.print))
		s.Page.Items = append(s.Page.Items, p.frame.fixed, &drawing.Group{ID: "head", Class: "head", Items: head})
	}
	sections := make([]*section, len(p.places))
	for i, place := range p.places {
		var drawn *drawing.Group
		if place.Part != nil {
			drawn, sections[i] = l.paintPart(place)
		} else {
			sections[i] = l.lay(place.Drawing, place, pen)
			drawn = l.paint(sections[i])
		}
		s.Page.Items = append(s.Page.Items, drawn)
	}
	key, problems := l.key(sections, p.frame.room)
	if len(key) > 0 {
		s.Page.Items = append(s.Page.Items, &drawing.Group{ID: "key", Class: "key", Items: key})
	}
	return s, problems
}
