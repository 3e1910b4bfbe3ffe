package sheet

import (
	"cmp"
	"slices"

	"seamwright/compiler/pattern"
)

// sectionGap is left between the outermost lines of two sections, so that they
// can be cut apart roughly (common practice, no source: at least 3/8 in).
const sectionGap = 3.0 / 8 * pattern.Inch

// An item is a drawing to be packed: its outermost line, reversed, not turned.
type item struct {
	drawing int
	line    []pos
	box     box
	part    int     // of a section in parts, from 1: its line and box are of its room, and it is never turned
	turn    float64 // that its line and box have already
}

// place is where an item is printed: turned, its origin shifted.
func (it *item) place(turn float64, shift pos) Place {
	p := Place{Drawing: it.drawing, Turn: it.turn + turn, Shift: shift}
	if it.part > 0 {
		p.Part = &Part{Number: it.part} // the rest is filled in by placeParts
	}
	return p
}

// turned returns the box of an item turned by an angle.
func (it *item) turned(turn float64) box {
	switch turn {
	case 0:
		return it.box
	case 90: // anticlockwise on the page: right becomes up
		return box{it.box.y0, -it.box.x1, it.box.y1, -it.box.x0}
	}
	return boxOf(turnedLine(it.line, turn))
}

// fits reports whether a box goes into a room of w x h.
func fits(b box, w, h length) bool { return b.w() <= w+near && b.h() <= h+near }

// turnFor returns the turn with which an item fits the room: as in the block,
// else a quarter turn, else the smallest whole number of degrees.
func (it *item) turnFor(w, h length) (float64, bool) {
	for _, t := range [...]float64{0, 90} {
		if fits(it.turned(t), w, h) {
			return t, true
		}
		if it.part > 0 {
			return 0, false
		}
	}
	if w*w+h*h < it.box.w()*it.box.w()/4 { // far too large: not worth the search
		return 0, false
	}
	for t := 1.0; t < 180; t++ {
		if fits(it.turned(t), w, h) {
			return t, true
		}
	}
	return 0, false
}

// openSheets is how many sheets are tried for the next section. Those filled
// earlier have no room that matters, and the cost stays linear.
const openSheets = 6

// pack puts items on as few sheets as a skyline finds, each with a room of
// w x h whose upper left corner is at; nil where one does not fit by itself. With
// turns, an item is also turned by a quarter to go on a sheet already begun. The
// result depends on nothing but the items.
func pack(items []item, at pos, w, h length, turns bool) [][]Place {
	order := slices.Clone(items)
	slices.SortFunc(order, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.box.h(), a.box.h()), cmp.Compare(b.box.w(), a.box.w()), cmp.Compare(a.drawing, b.drawing))
	})
	var lines []skyline
	var sheets [][]Place
	put := func(k int, it *item, turn float64) bool {
		b := it.turned(turn)
		x, y, ok := lines[k].place(b.w()+sectionGap, b.h()+sectionGap)
		if !ok {
			return false
		}
		shift := pos{X: at.X + x - b.x0, Y: at.Y + y - b.y0}
		sheets[k] = append(sheets[k], it.place(turn, shift))
		return true
	}
	for i := range order {
		it := &order[i]
		turn, ok := it.turnFor(w, h)
		if !ok {
			return nil
		}
		done := false
		for _, t := range [...]float64{turn, 90 - turn} {
			if t != turn && (!turns || it.part > 0 || turn != 0 && turn != 90) {
				break
			}
			for k := max(0, len(lines)-openSheets); k < len(lines) && !done; k++ {
				done = put(k, it, t)
			}
		}
		if !done {
			lines = append(lines, newSkyline(w+sectionGap, h+sectionGap))
			sheets = append(sheets, nil)
			put(len(lines)-1, it, turn)
		}
	}
	return sheets
}

// A skyline is the lower edge of what stands on a sheet: steps from left to
// right, each from its x to the next one's, filled down to y.
type skyline struct {
	w, h  length
	steps []step
}

type step struct{ x, y length }

func newSkyline(w, h length) skyline { return skyline{w, h, []step{{0, 0}}} }

// place finds the highest, then leftmost place for a rectangle and fills it.
func (s *skyline) place(w, h length) (x, y length, ok bool) {
	best := -1
	for i := range s.steps {
		left := s.steps[i].x
		if left+w > s.w+near {
			break
		}
		top := length(0)
		for j := i; j < len(s.steps) && s.steps[j].x < left+w-near; j++ {
			top = max(top, s.steps[j].y)
		}
		if top+h <= s.h+near && (best < 0 || top < y-near) {
			best, x, y = i, left, top
		}
	}
	if best < 0 {
		return 0, 0, false
	}
	s.fill(best, x+w, y+h)
	return x, y, true
}

// fill lowers the skyline from step i to x.
func (s *skyline) fill(i int, x, y length) {
	end := i
	for end < len(s.steps) && s.steps[end].x < x-near {
		end++
	}
	tail := step{x, s.steps[end-1].y}
	next := s.w
	if end < len(s.steps) {
		next = s.steps[end].x
	}
	fresh := []step{{s.steps[i].x, y}}
	if x < next-near {
		fresh = append(fresh, tail)
	}
	s.steps = slices.Replace(s.steps, i, end, fresh...)
}
