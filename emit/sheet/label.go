package sheet

import (
	"math"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// Text sizes. A number's capitals are 3 mm high, 2 mm where a space is small,
// and so are all words: smaller ones do not survive cheap paper and a photocopy
// (common practice, no source). In steps of 0.02 mm, which files can say exactly.
const (
	large  = 4.12 * pattern.Millimetre // capitals of 3.0 mm
	medium = 3.44 * pattern.Millimetre // capitals of 2.5 mm
	small  = 2.76 * pattern.Millimetre // capitals of 2.0 mm
)

const (
	// labelRoom is kept free between a label and the lines round its space.
	labelRoom length = 0.8 * pattern.Millimetre
	// tightRoom is kept where a number would else not fit.
	tightRoom = 0.5 * pattern.Millimetre
	// outlineRoom is kept in addition along the outline, where match marks stand.
	outlineRoom = 0.6 * pattern.Millimetre
	// lineSkip is the white between the lines of a label.
	lineSkip = 0.9 * pattern.Millimetre
	// ringRoom is the white between the first space's number and its ring.
	ringRoom = 0.7 * pattern.Millimetre
)

// A label is what stands in a space: lines of text about an origin.
type label struct {
	lines  []line
	ring   length // radius of the ring round the number; 0 for none
	mid    pos    // of the ring
	beside bool   // the words stand beside the number, not below it
}

// A line is one line of a label.
type line struct {
	text string
	size length
	bold bool
	at   pos    // on the baseline, in the middle of its ink
	ink  box    // about at
	left length // where the text starts, from at
}

// newLine measures a line; its ink is centred on its place.
func newLine(text string, size length, bold bool) line {
	e := drawing.Measure(text, size, bold)
	half := length(e.Ink.X1-e.Ink.X0) / 2
	return line{text: text, size: size, bold: bold, left: -half - length(e.Ink.X0),
		ink: box{-half, length(e.Ink.Y0), half, length(e.Ink.Y1)}}
}

// sized returns the line at another size.
func (l line) sized(size length) line {
	k := size / l.size
	l.size, l.left = size, l.left*k
	l.ink = box{l.ink.x0 * k, l.ink.y0 * k, l.ink.x1 * k, l.ink.y1 * k}
	return l
}

// put keeps a label in its place.
func (s *section) put(sp *space, l *label, at pos) {
	sp.label, sp.at, sp.placed = *l, at, true
	sp.label.lines = drawing.Take(&s.pen.lines, len(l.lines))
	copy(sp.label.lines, l.lines)
}

// stacked puts lines under each other, the middle of all at the origin.
func stacked(lines []line, ring bool) label {
	l := label{lines: lines}
	y := length(0)
	for i := range lines {
		ln := &lines[i]
		if i > 0 {
			y += lineSkip
		}
		if i == 0 && ring {
			l.ring = length(math.Hypot(float64(ln.ink.w()), float64(ln.ink.h())))/2 + ringRoom
			y += l.ring - ln.ink.h()/2
		}
		ln.at.Y = y - ln.ink.y0
		y += ln.ink.h()
		if i == 0 && ring {
			l.mid.Y = y - ln.ink.h()/2
			y += l.ring - ln.ink.h()/2
		}
	}
	for i := range lines {
		lines[i].at.Y -= y / 2
	}
	l.mid.Y -= y / 2
	return l
}

// sideBySide puts two lines on one, for flat spaces.
func sideBySide(lines []line, ring bool) label {
	l, a, b := label{lines: lines, beside: true}, &lines[0], &lines[1]
	left := a.ink.w() / 2
	if ring {
		l.ring = length(math.Hypot(float64(a.ink.w()), float64(a.ink.h())))/2 + ringRoom
		left = l.ring
	}
	total := 2*left + 2*lineSkip + b.ink.w()
	l.lines[0].at = pos{X: left - total/2, Y: -a.ink.y0 / 2}
	l.lines[1].at = pos{X: total/2 - b.ink.w()/2, Y: -a.ink.y0 / 2}
	l.mid = pos{X: l.lines[0].at.X}
	return l
}

// reach is how far a label extends from its origin in a direction.
func (l *label) reach(dir pos) length {
	far, _ := l.span(dir)
	return far
}

// span is how far a label extends from its origin in a direction, and the other
// way.
func (l *label) span(dir pos) (there, back length) {
	there, back = length(math.Inf(-1)), length(math.Inf(-1))
	for i := range l.lines {
		ln := &l.lines[i]
		x0, x1, y0, y1 := dir.X*ln.ink.x0, dir.X*ln.ink.x1, dir.Y*ln.ink.y0, dir.Y*ln.ink.y1
		if dir.X < 0 {
			x0, x1 = x1, x0
		}
		if dir.Y < 0 {
			y0, y1 = y1, y0
		}
		at := dot(ln.at, dir)
		there, back = max(there, at+x1+y1), max(back, -at-x0-y0)
	}
	if l.ring > 0 {
		at := dot(l.mid, dir)
		there, back = max(there, at+l.ring), max(back, l.ring-at)
	}
	return there, back
}

// boxes calls f with the box of every line of a label put at p, and its ring's.
func (l *label) boxes(p pos, f func(box)) {
	for i := range l.lines {
		f(l.lines[i].ink.at(add(p, l.lines[i].at)))
	}
	if l.ring > 0 {
		f(box{-l.ring, -l.ring, l.ring, l.ring}.at(add(p, l.mid)))
	}
}

// box returns the box of a whole label about its origin.
func (l *label) box() box {
	return box{-l.reach(pos{X: -1}), -l.reach(pos{Y: -1}), l.reach(pos{X: 1}), l.reach(pos{Y: 1})}
}

// A side is one of a space, as what stands in the space meets it.
type side struct {
	out  pos    // the direction out of the space
	at   length // how far out the side lies
	wide length // of the space, from the side to its farthest corner
	keep length // the white along the outline
}

// sidesOf appends the sides of a space to buf.
func sidesOf(buf []side, sp *space) []side {
	for i, a := range sp.polygon {
		out := right(unit(a, sp.polygon[(i+1)%len(sp.polygon)]))
		d := side{out: out, at: dot(a, out)}
		for _, p := range sp.polygon {
			d.wide = max(d.wide, d.at-dot(p, out))
		}
		if sp.outer[i] {
			d.keep = outlineRoom
		}
		buf = append(buf, d)
	}
	return buf
}

// fit returns where a label goes in a space: the middle of all places in which
// it keeps a room from every side, and where there are parts lies in one of them.
func fit(sp *space, sides []side, l *label, room length, parts []box) (pos, bool) {
	var few [24]length
	keep := few[:0]
	for i := range sides {
		there, back := l.span(sides[i].out)
		if there+back+room+sides[i].keep > sides[i].wide+near { // most labels that do not fit are simply too large
			return pos{}, false
		}
		keep = append(keep, there+room)
	}
	var bufs shrunk
	left := bufs.shrink(sp, sides, keep)
	if parts != nil {
		left = inOne(parts, left, func(out pos) length { return l.reach(out) + room })
	}
	if len(left) == 0 {
		return pos{}, false
	}
	return centroid(left), true
}

// shrunk is room for what is left of a space while its sides are moved.
type shrunk [2][24]pos

// shrink returns the places in a space where something keeps clear of its sides.
// Every side is moved inwards by as much as the thing reaches towards it and
// keeps free; what is left is a convex polygon.
func (bufs *shrunk) shrink(sp *space, sides []side, reach []length) []pos {
	left := sp.polygon
	for i := range sides {
		d := &sides[i]
		if left = clip(bufs[i%2][:0], left, mul(d.out, -1), reach[i]+d.keep-d.at); len(left) == 0 {
			return nil
		}
	}
	return left
}

// inOne returns what of the places for something lies in the one part that leaves
// it the most.
func inOne(parts []box, left []pos, reach func(out pos) length) []pos {
	var best []pos
	for _, b := range parts {
		in := left
		for _, side := range [4]struct {
			dir pos
			to  length
		}{{pos{X: 1}, b.x1}, {pos{X: -1}, -b.x0}, {pos{Y: 1}, b.y1}, {pos{Y: -1}, -b.y0}} {
			in = clip(nil, in, mul(side.dir, -1), reach(side.dir)-side.to)
		}
		if len(in) > 0 && (best == nil || area(in) > area(best)) {
			best = in
		}
	}
	return best
}

// words are a fabric's printed words, measured once for all its spaces.
type words struct {
	text  string
	whole line
	parts []line // in two lines, where they can be parted
}

func newWords(text string) words {
	w := words{text: drawing.Clean(text)}
	w.whole = newLine(w.text, small, false)
	best := math.Inf(1)
	for i := range w.text {
		if w.text[i] != ' ' {
			continue
		}
		a, b := newLine(w.text[:i], small, false), newLine(w.text[i+1:], small, false)
		if wider := float64(max(a.ink.w(), b.ink.w())); wider < best {
			best, w.parts = wider, []line{a, b}
		}
	}
	return w
}

// labelSpace chooses the largest label that fits its space: the number over the
// words, the words in two lines, both on one line, each with a smaller number;
// then the number alone.
func (s *section) labelSpace(sp *space, index int, w *words) {
	text := s.d.Label(index)
	ring := sp.piece.Number == 1 && !s.d.Plain
	room := labelRoom
	s.sides = sidesOf(s.sides[:0], sp)
	try := func(l label) bool {
		at, ok := fit(sp, s.sides, &l, room, s.parts)
		if ok {
			s.put(sp, &l, at)
		}
		return ok
	}
	tried := func(lines ...line) []line { return append(s.scratch[:0], lines...) }
	whole := func(n line) bool {
		return w.text != "" && (try(stacked(tried(n, w.whole), ring)) ||
			w.parts != nil && try(stacked(tried(n, w.parts[0], w.parts[1]), ring)) ||
			try(sideBySide(tried(n, w.whole), ring)))
	}
	number := newLine(text, large, true)
	numbers := [...]line{number, number.sized(medium), number.sized(small)}
	for _, n := range numbers {
		if whole(n) {
			sp.worded = true
			return
		}
	}
	room = tightRoom
	if sp.worded = whole(numbers[2]); sp.worded {
		return
	}
	for _, room = range [...]length{labelRoom, tightRoom} {
		for _, n := range numbers {
			if try(stacked(tried(n), ring && room == labelRoom)) {
				sp.worded = w.text == ""
				return
			}
		}
	}
}

// addTitle puts the section's own name inside the outline, below the label of
// the largest space that has room for both; false where none has. The name comes
// in several forms, on one line or more.
func (s *section) addTitle(forms [][]line, room length, parts []box) bool {
	for _, i := range s.largest() {
		sp := &s.spaces[i]
		if !sp.worded || sp.label.beside || parts != nil && !parts[0].holds(sp.at) {
			continue
		}
		s.sides = sidesOf(s.sides[:0], sp)
		for _, form := range forms {
			all := append(append(s.scratch[:0], sp.label.lines...), form...)
			for k := range all {
				all[k].at = pos{}
			}
			all[len(sp.label.lines)].ink.y0 -= titleSkip
			l := stacked(all, sp.label.ring > 0)
			if at, ok := fit(sp, s.sides, &l, room, parts); ok {
				s.put(sp, &l, at)
				return true
			}
		}
	}
	return false
}

// titleRoom is kept free round a title where there is a choice: a long line
// between sewing lines is read as belonging to several spaces.
const titleRoom = 3 * pattern.Millimetre

// titleSkip parts the section's title from the label above it.
const titleSkip = 2 * pattern.Millimetre

// sameArea is the part of an area within which two are equal, and the first is taken.
const sameArea = 1e-9

// largest returns the indices of the few largest spaces, the largest first.
func (s *section) largest() []int {
	const few = 5
	var out [few + 1]int
	var areas [few + 1]length
	n := 0
	for i := range s.spaces {
		a := area(s.spaces[i].polygon)
		k := n
		for ; k > 0 && areas[k-1] < a*(1-sameArea); k-- {
			out[k], areas[k] = out[k-1], areas[k-1]
		}
		out[k], areas[k] = i, a
		n = min(n+1, few)
	}
	return append([]int(nil), out[:n]...)
}
