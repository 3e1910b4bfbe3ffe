package sheet

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// ringRadius is the radius of a match mark's ring.
const ringRadius = 0.8 * pattern.Millimetre

// stopHalf is half of the bar across the tick where a partial seam stops.
const stopHalf = 1.3 * pattern.Millimetre

// marks draws the match marks: a tick square to the edge through the whole
// allowance, so that ticks of joined edges fall on each other when laid right
// sides together, and a ring on the outline where a seam ends. Where a partial
// seam stops at first the tick has a bar across it.
func (l *layout) marks(items []drawing.Item, s *section) []drawing.Item {
	ticks, rings := s.pen.ticks[:0], s.pen.rings[:0]
	for i := range s.d.Edges {
		st := &s.strips[i]
		out := right(st.dir)
		for k := range s.d.Edges[i].Marks {
			m := &s.d.Edges[i].Marks[k]
			at := s.move(m.At)
			ticks = append(ticks, at, along(at, out, s.allowance))
			t := dot(sub(at, st.at), st.dir)
			if m.Kind == pattern.Stop {
				bar := along(at, out, s.allowance/2)
				ticks = append(ticks, along(bar, st.dir, -stopHalf), along(bar, st.dir, stopHalf))
			} else if m.Kind != pattern.Between && t > onLine && t < st.len-onLine {
				rings = append(rings, at)
			}
		}
	}
	s.pen.ticks, s.pen.rings = ticks, rings
	if len(ticks) > 0 {
		items = append(items, s.pen.Pairs(drawing.MarkLine, ticks))
	}
	for _, at := range rings {
		items = append(items, s.pen.Ring(drawing.MarkLine, at, ringRadius))
	}
	return items
}

// markLetters puts each mark's letter beside its tick, where there is room.
func (l *layout) markLetters(items []drawing.Item, s *section) []drawing.Item {
	for i := range s.d.Edges {
		st := &s.strips[i]
		for k := range s.d.Edges[i].Marks {
			m := &s.d.Edges[i].Marks[k]
			t := dot(sub(s.move(m.At), st.at), st.dir)
			if m.Kind == pattern.Stop {
				items = append(items, l.stop(s, st, m.At, t)...)
			}
			if m.Letter == "" {
				continue
			}
			w := drawing.Measure(m.Letter, small, false).Width
			far := 2 * (tickRoom + w)
			if at, ok := st.find(w, t, t-far, t+far); ok {
				items = append(items, st.set(s.pen, m.Letter, at, 0, s.allowance))
			}
		}
	}
	return items
}

// stop puts into words that a partial seam stops at a mark.
func (l *layout) stop(s *section, st *strip, at pos, t length) []drawing.Item {
	number := 0
	for i := range l.sized.Joins {
		if j := &l.sized.Joins[i]; j.Begins > 0 && dist(j.B, at) < onLine {
			number = j.Number
		}
	}
	for _, text := range []string{l.say("stop_join", "n", strconv.Itoa(number)), l.say("stop")} {
		w := drawing.Measure(text, small, false).Width
		far := 2*(tickRoom+stopHalf) + w
		if at, ok := st.find(w, t, t-far, t+far); ok {
			return []drawing.Item{st.set(s.pen, text, at, 0, s.allowance)}
		}
	}
	return nil
}

// partners prints in the allowance what each edge is sewn to, reading along the
// edge, in every part that the edge runs through. The longest form that fits is
// printed.
func (l *layout) partners(items []drawing.Item, s *section) []drawing.Item {
	one := func(i int, part gap, forms []string) {
		st := &s.strips[i]
		for _, text := range forms {
			w, ok := s.wide(text)
			if t, free := st.find(w, (part.from+part.to)/2, part.from, part.to); ok && free {
				items = append(items, s.pen.Group(drawing.Group{Class: "edge", Items: s.pen.kept([]drawing.Item{st.set(s.pen, text, t, 0, s.allowance)})}))
				return
			}
		}
	}
	print := func(i int, part gap, forms []string) {
		if s.parts == nil {
			one(i, part, forms)
		}
		for k := range s.parts {
			corners, st := s.parts[k].corners(), &s.strips[i]
			for _, in := range within(corners[:], st.at, st.dir, part.from, part.to) {
				one(i, in, forms)
			}
		}
	}
	for i := range s.d.Edges {
		e := &s.d.Edges[i]
		parts := l.parts(s, i)
		if parts == nil && len(e.Partners) > 0 {
			print(i, gap{0, s.strips[i].len}, l.forms(s, i, e.Partners))
		}
		for k, part := range parts {
			print(i, part, l.forms(s, i, e.Partners[k:k+1]))
		}
	}
	return items
}

// wordRoom is kept free beside words in the allowance in addition to what keeps
// them off lines, so that they are not read together with a mark's letter.
const wordRoom = 1.2 * pattern.Millimetre

// parts returns the stretch of an edge that each of its partners is sewn to;
// nil where that cannot be told.
func (l *layout) parts(s *section, i int) []gap {
	e := &s.d.Edges[i]
	if len(e.Partners) < 2 {
		return nil
	}
	a, b := s.d.Outline[i], s.d.Outline[(i+1)%len(s.d.Outline)]
	dir, end := unit(a, b), dist(a, b)
	var out []gap
	for _, p := range e.Partners {
		d := &l.sized.Drawings[p.Drawing]
		var first *gap // of this partner, beyond the last one's stretch
		for _, c := range l.copies[p.Drawing] {
			move := l.sized.Copies[c].Motion()
			q, r := sub(move(d.Outline[p.Edge]), a), sub(move(d.Outline[(p.Edge+1)%len(d.Outline)]), a)
			if off := cross(dir, q); off*off > onLine*onLine || dot(sub(r, q), dir) >= 0 { // it runs the other way
				continue
			}
			if off := cross(dir, r); off*off > onLine*onLine {
				continue
			}
			g := gap{max(0, dot(r, dir)), min(end, dot(q, dir))}
			after := len(out) == 0 || g.from > out[len(out)-1].to-onLine
			if g.to-g.from > onLine && after && (first == nil || g.from < first.from) {
				first = &g
			}
		}
		if first == nil {
			return nil
		}
		out = append(out, *first)
	}
	return out
}

// forms are the ways to say what an edge is sewn to, the fullest first.
func (l *layout) forms(s *section, edge int, partners []pattern.Partner) []string {
	e := &s.d.Edges[edge]
	if len(partners) == 1 && e.Letter != "" {
		p := partners[0]
		other := l.sized.Drawings[p.Drawing].Name
		if p.Drawing == s.index {
			other = l.say("next", "unit", printed(s.d.Unit))
		} else if s.d.Make > 1 && p.Letter != "" {
			other = strings.Join(l.others(s.index, edge), " "+l.say("or")+" ")
		}
		if p.Letter != "" {
			return []string{
				l.say("edge_of_edge", "a", e.Letter, "b", p.Letter, "other", other),
				l.say("edge_of_short", "a", e.Letter, "b", p.Letter, "other", other),
				l.say("edge_letters", "a", e.Letter, "b", p.Letter),
				e.Letter,
			}
		}
		return l.joins(e.Letter, other)
	}
	var names []string
	for _, p := range partners {
		if name := l.sized.Drawings[p.Drawing].Name; len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	list := strings.Join(names, ", ")
	if e.Letter != "" {
		return l.joins(e.Letter, list)
	}
	return []string{l.say("joins", "other", list), list}
}

// joins says in three forms what an edge with a letter is sewn to.
func (l *layout) joins(letter, other string) []string {
	return []string{l.say("edge_joins", "a", letter, "other", other), l.say("edge_short", "a", letter, "other", other), letter}
}

// others names the sections that an edge is sewn to in any copy of its drawing.
func (l *layout) others(drawing, edge int) (names []string) {
	found := make([]bool, len(l.sized.Drawings))
	w := l.order()
	for _, c := range w.of[drawing] {
		a, b := l.edgeOf(c, edge)
		for _, j := range w.joins[c] {
			join := &l.sized.Joins[j]
			if segmentDist(mid(a, b), join.A, join.B) > onLine {
				continue
			}
			opposite := join.Left
			if slices.Contains(join.Left, int(c)) {
				opposite = join.Right
			}
			for _, o := range opposite {
				d := l.sized.Copies[o].Drawing
				for k := 0; k < len(l.sized.Drawings[d].Outline) && !found[d]; k++ {
					q, r := l.edgeOf(int32(o), k)
					found[d] = overlap(a, b, r, q) > onLine
				}
			}
		}
	}
	for d := range found {
		if found[d] {
			names = append(names, l.sized.Drawings[d].Name)
		}
	}
	return names
}

// edgeOf returns where an edge of a copy lies in the block.
func (l *layout) edgeOf(c int32, edge int) (a, b pos) {
	outline := l.sized.Drawings[l.sized.Copies[c].Drawing].Outline
	move := l.sized.Copies[c].Motion()
	return move(outline[edge]), move(outline[(edge+1)%len(outline)])
}

// overlap returns how much of the way from a to b the way from p to q runs along.
func overlap(a, b, p, q pos) length {
	dir := unit(a, b)
	if offP, offQ := cross(dir, sub(p, a)), cross(dir, sub(q, a)); offP*offP > onLine*onLine || offQ*offQ > onLine*onLine {
		return 0
	}
	return min(dist(a, b), dot(sub(q, a), dir)) - max(0, dot(sub(p, a), dir))
}

// printed turns a name of the text into words.
func printed(name string) string { return drawing.Clean(strings.ReplaceAll(name, "_", " ")) }

// extras draws the line of the extra along each run of border edges, with its
// words between it and the cutting line, once for each such edge.
func (l *layout) extras(s *section) (lines, texts []drawing.Item) {
	n := len(s.outline)
	if len(s.extra.at) == 0 {
		return nil, nil
	}
	onBorder := func(i int) bool { return s.d.Edges[(i+n)%n].Kind == pattern.Border }
	for i := range n {
		if !onBorder(i) {
			continue
		}
		st := strip{at: s.strips[i].at, dir: s.strips[i].dir, len: s.strips[i].len}
		st.free = []gap{{0, st.len}}
		s.blockGlue(&st, s.allowance+l.p.Settings.Extra)
		x := l.p.Settings.Extra
		for _, text := range []string{l.say("extra_long"), l.say("extra_medium"), l.say("extra_short")} {
			w := drawing.Measure(text, small, false).Width
			if t, ok := st.find(w, st.len/2, 0, st.len); ok && x > small {
				texts = append(texts, st.set(s.pen, text, t, s.allowance, s.allowance+x))
				break
			}
		}
		if onBorder(i - 1) {
			continue
		}
		chain := []pos{s.cut.corner(i)[0]}
		j := i
		for ; onBorder(j) && j < i+n; j++ {
			chain = append(chain, s.extra.corner(j%n)...)
		}
		end := s.cut.corner(j % n)
		chain = append(append(chain, s.extra.corner(j%n)...), end[len(end)-1])
		lines = append(lines, chainOf(drawing.ExtraLine, chain, false))
	}
	if lines == nil { // every edge is on the border
		lines = append(lines, chainOf(drawing.ExtraLine, s.extra.at, true))
	}
	return lines, texts
}
