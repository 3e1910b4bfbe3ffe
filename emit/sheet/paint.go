package sheet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// paint draws a section where it was laid: lines of one style after each other,
// then what stands in the allowance, then its spaces.
func (l *layout) paint(s *section) *drawing.Group {
	s.newStrips()
	for i := range s.spaces {
		sp := &s.spaces[i]
		s.labelSpace(sp, i, &l.words[sp.piece.Fabric])
	}
	pen := s.pen
	items, seams, runs, texts := append(pen.painted[:0], l.tints(s)...), pen.seams[:0], pen.runs[:0], pen.text[:0]
	s.seams(func(a, b, beyondA, beyondB pos) {
		seams = append(seams, a, b)
		if a != beyondA {
			runs = append(runs, a, beyondA)
		}
		if b != beyondB {
			runs = append(runs, b, beyondB)
		}
	})
	if len(seams) > 0 {
		items = append(items, pen.Pairs(drawing.SewingLine, seams))
	}
	items = append(items, pen.Outline(drawing.OutlineLine, s.outline, drawing.NoColour))
	if len(runs) > 0 {
		items = append(items, pen.Pairs(drawing.RunOnLine, runs))
	}
	items = append(items, pen.Outline(drawing.CuttingLine, s.cut.at, drawing.NoColour))
	extras, extraTexts := l.extras(s)
	items = append(items, extras...)
	items = l.marks(items, s)
	texts = l.markLetters(append(texts, extraTexts...), s)
	texts = l.partners(texts, s)
	texts = append(texts, l.nameSections(s)...)
	texts = append(l.leaders(texts, s), l.lists(s)...)
	items = append(items, texts...)
	for i := range s.spaces {
		if g := paintSpace(s, i); g != nil {
			items = append(items, g)
		}
	}
	items = append(items, l.placements(s, items)...)
	pen.painted, pen.seams, pen.runs, pen.text = items, seams, runs, texts
	return &drawing.Group{ID: "section-" + s.id, Class: "section", Items: pen.kept(items)}
}

// tints paints the fabrics' colours very pale below the lines, where the pattern
// wants them.
func (l *layout) tints(s *section) (items []drawing.Item) {
	if !l.p.Settings.Tint {
		return nil
	}
	for i := range s.spaces {
		c := l.p.Fabrics[s.spaces[i].piece.Fabric].Colour
		pale := drawing.Colour(0)
		for shift := 16; shift >= 0; shift -= 8 {
			part := c >> shift & 0xFF
			pale = pale<<8 | drawing.Colour(0xFF-(0xFF-part)/tintStrength)
		}
		items = append(items, &drawing.Path{Points: s.spaces[i].polygon, Closed: true, Fill: pale})
	}
	return items
}

// tintStrength is the part of a colour's darkness that a tint keeps: black
// becomes a grey of 20 %, on which every line and label is read.
const tintStrength = 5

// titles are the forms of a section's own name, which survives cutting out.
func (l *layout) titles(d *pattern.Drawing) [][]string {
	if d.Plain {
		return [][]string{{
			d.Name + l.titleSize + l.titleName + l.titleEdition,
			l.say("template_cut", "n", strconv.Itoa(d.Make)),
			l.say("template_side"),
		}}
	}
	name, edition := d.Name+l.titleSize, strings.TrimSpace(l.titleEdition+l.made(d))
	return [][]string{
		{name + l.titleName + " " + edition},
		{name + l.titleName, edition},
		{name, l.titleName[1:], edition},
	}
}

// paintSpace draws the label of a space; nil where nothing stands in it.
func paintSpace(s *section, i int) *drawing.Group {
	sp := &s.spaces[i]
	if !sp.placed {
		return nil
	}
	g := s.pen.Group(drawing.Group{ID: "space-" + s.id + strconv.Itoa(s.d.Pieces[i].Number), Items: drawing.Take(&s.pen.items, len(sp.label.lines)+1)[:0]})
	for k := range sp.label.lines {
		ln := &sp.label.lines[k]
		at := add(sp.at, ln.at)
		at.X += ln.left
		g.Items = append(g.Items, s.pen.Text(drawing.Text{Text: ln.text, At: at, Size: ln.size, Bold: ln.bold}))
	}
	if sp.label.ring > 0 {
		g.Items = append(g.Items, s.pen.Ring(drawing.FrameLine, add(sp.at, sp.label.mid), sp.label.ring))
	}
	g.Items = append(g.Items, s.grainArrow(sp)...)
	return g
}

// nameSections puts the name of a section on it, or in each of its parts.
func (l *layout) nameSections(s *section) (items []drawing.Item) {
	if s.parts == nil {
		items, s.name = l.nameSection(s, l.titles(s.d), l.shortTitles(s.d), nil)
		return items
	}
	for i := range s.parts {
		short := l.partTitles(s.d, i, len(s.parts))
		forms := [][]string{{short[0]}, {short[2] + "," + l.titleSize, l.titleName[1:], strings.TrimSpace(l.titleEdition + l.made(s.d))}, {short[2] + l.made(s.d)}}
		var named []drawing.Item
		named, s.names[i] = l.nameSection(s, forms, short, s.parts[i:i+1])
		items = append(items, named...)
	}
	return items
}

// nameSection puts a name where it is read best: inside with room to spare, else in
// the allowance, else inside at close quarters, else shortened. It returns the name
// that had no room at all.
func (l *layout) nameSection(s *section, titles [][]string, short []string, parts []box) ([]drawing.Item, string) {
	var forms [][]line
	for _, texts := range titles {
		form := make([]line, len(texts))
		for i, t := range texts {
			form[i] = newLine(t, small, true)
		}
		forms = append(forms, form)
	}
	if s.addTitle(forms, titleRoom, parts) {
		return nil, ""
	}
	if t := s.inAllowance(short[0], parts); t != nil {
		return []drawing.Item{t}, ""
	}
	if s.addTitle(forms, labelRoom, parts) {
		return nil, ""
	}
	for _, form := range short[1:] {
		if t := s.inAllowance(form, parts); t != nil {
			return []drawing.Item{t}, ""
		}
	}
	return nil, short[0]
}

// shortTitles are the section's name on one line, for the allowance.
func (l *layout) shortTitles(d *pattern.Drawing) []string {
	return []string{
		d.Name + l.titleSize + l.titleName + l.titleEdition + l.made(d),
		d.Name + l.titleSize + l.titleEdition + l.made(d),
		d.Name + l.made(d),
	}
}

// made says after a blank how many of a section are made for one block.
func (l *layout) made(d *pattern.Drawing) string {
	return " " + l.say("title_make", "n", strconv.Itoa(d.Make))
}

// inAllowance sets a text in the widest free gap of the allowance, or of what of it
// is in a part; nil where it fits nowhere.
func (s *section) inAllowance(text string, parts []box) *drawing.Text {
	w, ok := s.wide(text)
	if !ok {
		return nil
	}
	var best *strip
	var at, room length
	for i := range s.strips {
		st := &s.strips[i]
		for _, g := range st.free {
			middle := along(along(st.at, st.dir, (g.from+g.to)/2), right(st.dir), s.allowance/2)
			if free := g.to - g.from; free >= w && free > room && (parts == nil || parts[0].holds(middle)) {
				best, at, room = st, (g.from+g.to)/2, free
			}
		}
	}
	if best == nil {
		return nil
	}
	return best.set(s.pen, text, at, 0, s.allowance)
}
