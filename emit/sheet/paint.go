package sheet

import (
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

func stroke(style drawing.Style, a, b pos) *drawing.Path {
	return &drawing.Path{Style: style, Points: []pos{a, b}, Fill: drawing.NoColour}
}

func chainOf(style drawing.Style, ps []pos, closed bool) *drawing.Path {
	return &drawing.Path{Style: style, Points: ps, Closed: closed, Fill: drawing.NoColour}
}

func ring(style drawing.Style, at pos, radius length) *drawing.Path {
	return &drawing.Path{Style: style, Points: []pos{at}, Circle: radius, Fill: drawing.NoColour}
}

// paint draws a section where it was laid: lines of one style after each other,
// then what stands in the allowance, then its spaces.
func (l *layout) paint(s *section) *drawing.Group {
	s.newStrips()
	for i := range s.spaces {
		sp := &s.spaces[i]
		s.labelSpace(sp, i, &l.words[sp.piece.Fabric])
	}
	var seams, runs []drawing.Item
	s.seams(func(a, b, beyondA, beyondB pos) {
		seams = append(seams, stroke(drawing.SewingLine, a, b))
		if a != beyondA {
			runs = append(runs, stroke(drawing.RunOnLine, a, beyondA))
		}
		if b != beyondB {
			runs = append(runs, stroke(drawing.RunOnLine, b, beyondB))
		}
	})
	items := append(seams, chainOf(drawing.OutlineLine, s.outline, true))
	items = append(append(items, runs...), chainOf(drawing.CuttingLine, s.cut.at, true))
	extras, extraTexts := l.extras(s)
	items = append(append(items, extras...), l.marks(s)...)
	texts := l.markLetters(s)
	texts = append(texts, l.partners(s)...)
	texts = append(texts, l.title(s)...)
	texts = append(texts, l.leaders(s)...)
	items = append(append(items, extraTexts...), texts...)
	for i := range s.spaces {
		if g := paintSpace(s, i); g != nil {
			items = append(items, g)
		}
	}
	return &drawing.Group{ID: "section-" + s.d.Name, Class: "section", Items: items}
}

// titles are the forms of a section's own name, which survives cutting out.
func (l *layout) titles(d *pattern.Drawing) [][]string {
	size := l.sized.Finished.Exact()
	edition := "ed. " + strconv.Itoa(l.p.About.Edition) + "  make " + strconv.Itoa(d.Make)
	return [][]string{
		{d.Name + "  " + size + " " + l.name + " " + edition},
		{d.Name + "  " + size + " " + l.name, edition},
		{d.Name + "  " + size, l.name, edition},
	}
}

// paintSpace draws the label of a space; nil where nothing stands in it.
func paintSpace(s *section, i int) *drawing.Group {
	sp := &s.spaces[i]
	if !sp.placed {
		return nil
	}
	g := &drawing.Group{ID: "space-" + s.d.Label(i), Items: make([]drawing.Item, 0, len(sp.label.lines)+1)}
	for k := range sp.label.lines {
		ln := &sp.label.lines[k]
		at := add(sp.at, ln.at)
		at.X += ln.left
		g.Items = append(g.Items, &drawing.Text{Text: ln.text, At: at, Size: ln.size, Bold: ln.bold})
	}
	if sp.label.ring > 0 {
		g.Items = append(g.Items, ring(drawing.FrameLine, add(sp.at, sp.label.mid), sp.label.ring))
	}
	return g
}

// title puts the section's name where it is read best: inside with room to
// spare, else in the allowance, else inside at close quarters, else shortened.
func (l *layout) title(s *section) []drawing.Item {
	forms, short := l.titles(s.d), l.shortTitles(s.d)
	if s.addTitle(forms, titleRoom) {
		return nil
	}
	if t := s.inAllowance(short[0]); t != nil {
		return []drawing.Item{t}
	}
	if s.addTitle(forms, labelRoom) {
		return nil
	}
	for _, form := range short[1:] {
		if t := s.inAllowance(form); t != nil {
			return []drawing.Item{t}
		}
	}
	return nil
}

// leaders sets in the allowance the labels that found no room in their spaces,
// with a leader to each.
func (l *layout) leaders(s *section) (items []drawing.Item) {
	for i := range s.spaces {
		if sp := &s.spaces[i]; !sp.worded {
			led := s.lead(sp, s.d.Label(i)+" "+l.words[sp.piece.Fabric].text)
			if led == nil {
				l.unlabelled(s, i)
			}
			items = append(items, led...)
		}
	}
	return items
}

// shortTitles are the section's name on one line, for the allowance.
func (l *layout) shortTitles(d *pattern.Drawing) []string {
	make := "  make " + strconv.Itoa(d.Make)
	return []string{
		l.titles(d)[0][0],
		d.Name + "  " + l.sized.Finished.Exact() + " ed. " + strconv.Itoa(l.p.About.Edition) + make,
		d.Name + make,
		d.Name,
	}
}

// inAllowance sets a text in the widest free gap of the allowance; nil where it
// fits nowhere.
func (s *section) inAllowance(text string) *drawing.Text {
	w := drawing.Measure(text, small, false).Width + 2*wordRoom
	var best *strip
	var at, room length
	for i := range s.strips {
		st := &s.strips[i]
		for _, g := range st.free {
			if free := g.to - g.from; free >= w && free > room {
				best, at, room = st, (g.from+g.to)/2, free
			}
		}
	}
	if best == nil {
		return nil
	}
	return best.set(text, at, 0, s.allowance)
}

// dotRadius is the radius of the dot at a leader's end.
const dotRadius = 0.35 * pattern.Millimetre

// lead sets a space's whole label in the nearest free place of the allowance,
// with a leader that ends in the space and touches no other label.
func (s *section) lead(sp *space, text string) []drawing.Item {
	w := drawing.Measure(text, small, false).Width
	to := centroid(sp.polygon)
	if sp.placed { // beside its number
		to = s.besideNumber(sp)
	}
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
		if d := dist(from, to); (best == nil || d < shortest) && s.clear(from, to, sp) {
			best, at, shortest = st, t, d
		}
	}
	if best == nil {
		return nil
	}
	from := along(along(best.at, best.dir, at), right(best.dir), (s.allowance-small*drawing.CapHeight)/2-leaderGap)
	t := best.set(text, at, 0, s.allowance)
	dotted := ring(drawing.NoLine, to, dotRadius)
	dotted.Fill = drawing.Black
	return []drawing.Item{stroke(drawing.FrameLine, from, to), dotted, t}
}

const (
	leaderStart = 1 * pattern.Millimetre   // where a leader's way is tried from, beyond the outline
	leaderGap   = 0.5 * pattern.Millimetre // between a leader and its text
)

// besideNumber returns the corner of a space farthest from its number, drawn
// halfway in: where a leader may end without touching the number.
func (s *section) besideNumber(sp *space) pos {
	best := sp.polygon[0]
	for _, p := range sp.polygon {
		if dist(p, sp.at) > dist(best, sp.at) {
			best = p
		}
	}
	return mid(best, sp.at)
}

// clear reports whether a leader touches no label.
func (s *section) clear(from, to pos, own *space) bool {
	ok := true
	for i := range s.spaces {
		sp := &s.spaces[i]
		if sp.placed {
			sp.label.boxes(sp.at, func(b box) { ok = ok && !b.grown(leaderGap).crosses(from, to) })
		}
	}
	return ok
}
