package sheet

import (
	"slices"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/lang/problem"
)

// leaders sets in the allowance the labels of spaces too tiny for their number,
// with a leader to each.
func (l *layout) leaders(items []drawing.Item, s *section) []drawing.Item {
	s.pen.labels = s.pen.labels[:0]
	for i := range s.spaces {
		sp := &s.spaces[i]
		if sp.placed {
			continue
		}
		if len(s.pen.labels) == 0 {
			s.boxLabels()
		}
		words := &l.words[sp.piece.Fabric]
		led := s.lead(sp, s.d.Label(i)+" "+words.text)
		if led == nil {
			if led = s.lead(sp, s.d.Label(i)); led == nil {
				s.bare = append(s.bare, s.d.Label(i))
			} else if words.text != "" {
				s.key = append(s.key, words.text+": "+s.d.Label(i))
			}
		}
		items = append(items, led...)
	}
	return items
}

// lists sets in the allowance the words of fabrics for which their spaces have
// room for no more than a number: "ember glow: A2, A6, A10". What does not fit
// there is left for the sheet's key.
func (l *layout) lists(s *section) (items []drawing.Item) {
	for f := range l.words {
		var waiting []string
		for i := range s.spaces {
			if sp := &s.spaces[i]; sp.placed && !sp.worded && sp.piece.Fabric == f {
				waiting = append(waiting, s.d.Label(i))
			}
		}
		for len(waiting) > 0 {
			text, n := l.words[f].text+": "+waiting[0], 1
			room := s.widest()
			for ; n < len(waiting); n++ {
				longer := text + ", " + waiting[n]
				if drawing.Measure(longer, small, false).Width+2*wordRoom > room {
					break
				}
				text = longer
			}
			t := s.inAllowance(text, nil)
			if t == nil {
				s.key = append(s.key, l.words[f].text+": "+strings.Join(waiting, ", "))
				break
			}
			items = append(items, t)
			waiting = waiting[n:]
		}
	}
	return items
}

// key prints below the sections of a sheet the titles that have no room in their
// sections, and the fabrics of spaces that have only a number. It reports what
// has no room there either.
func (l *layout) key(sections []*section, room box) (items []drawing.Item, problems []problem.Problem) {
	c := column{x: room.x0, w: room.w()}
	low := room.y0
	for _, s := range sections {
		foot := s.foot
		if foot == 0 {
			foot = boxOf(outermost(s.cut, s.extra)).y1
		}
		low = max(low, foot)
		if s.name != "" {
			c.text(l.say("key_section", "name", s.name), small, true, 0)
		}
	}
	header := l.say("key_fabrics")
	for _, s := range sections {
		for _, line := range s.key {
			if header != "" {
				c.text(header, small, true, 0)
				header = ""
			}
			c.text(line, small, false, 0)
		}
	}
	fits := low+sectionGap+c.y <= room.y1
	for _, s := range sections {
		if !fits && len(s.key) > 0 {
			problems = append(problems, l.unlabelled(s, "the fabrics of "+strings.Join(s.key, "; ")))
		}
		if len(s.bare) > 0 {
			problems = append(problems, l.unlabelled(s, "the labels of "+strings.Join(s.bare, ", ")))
		}
	}
	if !fits {
		return nil, problems
	}
	for _, item := range c.items {
		item.(*drawing.Text).At.Y += room.y1 - c.y
	}
	return c.items, problems
}

// widest returns the width of the widest free gap in the allowance.
func (s *section) widest() (room length) {
	for i := range s.strips {
		for _, g := range s.strips[i].free {
			room = max(room, g.to-g.from)
		}
	}
	return room
}

// dotRadius is the radius of the dot at a leader's end.
const dotRadius = 0.35 * pattern.Millimetre

// lead sets a space's whole label in the nearest free place of the allowance,
// with a leader that ends in the space and touches no other label.
func (s *section) lead(sp *space, text string) []drawing.Item {
	w, ok := s.wide(text)
	if !ok {
		return nil
	}
	to := centroid(sp.polygon)
	var best *strip
	var at, shortest length
	for i := range s.strips {
		st := &s.strips[i]
		foot := dot(sub(to, st.at), st.dir)
		t, ok := st.find(w, foot, 0, st.len)
		if !ok {
			continue
		}
		from := along(along(st.at, st.dir, t), right(st.dir), leaderStart)
		if d := dist(from, to); (best == nil || d < shortest) && s.clear(from, to) && s.inOnePart(from, to) {
			best, at, shortest = st, t, d
		}
	}
	if best == nil {
		return nil
	}
	from := along(along(best.at, best.dir, at), right(best.dir), (s.allowance-small*inkHeight)/2-leaderGap)
	t := best.set(s.pen, text, at, 0, s.allowance)
	dotted := s.pen.Ring(drawing.NoLine, to, dotRadius)
	dotted.Fill = drawing.Black
	return []drawing.Item{s.pen.Stroke(drawing.LeaderLine, from, to), dotted, t}
}

const (
	leaderStart = 1 * pattern.Millimetre   // where a leader's way is tried from, beyond the outline
	leaderGap   = 0.4 * pattern.Millimetre // between a leader and its text
)

// inOnePart reports whether two points belong to the same part.
func (s *section) inOnePart(p, q pos) bool {
	return s.parts == nil || slices.ContainsFunc(s.parts, func(b box) bool { return b.holds(p) && b.holds(q) })
}

// boxLabels notes the boxes of all labels, with what a leader keeps from them.
func (s *section) boxLabels() {
	for i := range s.spaces {
		if sp := &s.spaces[i]; sp.placed {
			sp.label.boxes(sp.at, func(b box) { s.pen.labels = append(s.pen.labels, b.grown(leaderGap)) })
		}
	}
}

// clear reports whether a leader touches no label.
func (s *section) clear(from, to pos) bool {
	for _, b := range s.pen.labels {
		if b.crosses(from, to) {
			return false
		}
	}
	return true
}
