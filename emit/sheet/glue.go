package sheet

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
)

// paintPart draws a part of a section on its page, and returns the section as its
// page's key sees it.
func (l *layout) paintPart(place Place) (*drawing.Group, *section) {
	d := l.divided[place.Drawing]
	i := place.Part.Number - 1
	by := sub(pos{X: place.Part.Own.X0, Y: place.Part.Own.Y0}, pos{X: d.Parts[i].Own.X0, Y: d.Parts[i].Own.Y0})
	g := &drawing.Group{
		ID:    "part-" + d.section.id + "-" + strconv.Itoa(place.Part.Row) + "-" + strconv.Itoa(place.Part.Column),
		Class: "part",
	}
	g.Items = d.Page(i, d.lines, pos{X: place.Part.Shown.X0, Y: place.Part.Shown.Y0})
	for _, item := range d.owned[i] {
		g.Items = append(g.Items, drawing.Moved(item, by.X, by.Y))
	}
	g.Items = append(g.Items, l.caption(d, place, i))
	s := *d.section
	s.name, s.foot = d.titles[i], place.Part.Shown.Y1
	return g, &s
}

// keyWide and keyHigh are the room of the picture that shows how parts lie.
const (
	keyWide = 1.1 * pattern.Inch
	keyHigh = captionHigh - 1*pattern.Millimetre
)

// caption tells above a part which one it is and how it is glued, beside a picture
// of all parts.
func (l *layout) caption(d *divided, place Place, i int) *drawing.Group {
	p := place.Part
	g := &drawing.Group{Class: "caption"}
	top := pos{X: p.Shown.X0, Y: p.Shown.Y0 - captionGap - captionHigh}
	g.Items = append(g.Items, l.partsKey(d, top, i)...)
	c := column{x: top.X + keyWide + partGap, y: top.Y, w: max(p.Shown.X1-p.Shown.X0, captionWide) - keyWide - partGap}
	name := l.sized.Drawings[place.Drawing].Name
	c.text(l.say("part_title", "name", name, "n", strconv.Itoa(p.Number), "m", strconv.Itoa(p.Of), "row", strconv.Itoa(p.Row), "column", strconv.Itoa(p.Column)), small, true, 0)
	var cut, keep []string
	for _, j := range d.Joints {
		side, to := "part_right", &keep
		switch {
		case j.Before == i && !j.Upright:
			side = "part_bottom"
		case j.After == i && j.Upright:
			side, to = "part_left", &cut
		case j.After == i:
			side, to = "part_top", &cut
		case j.Before != i:
			continue
		}
		*to = append(*to, l.say(side, "a", j.Letter))
	}
	text := ""
	if len(cut) > 0 {
		text += l.say("part_cut", "sides", strings.Join(cut, ", ")) + " "
	}
	if len(keep) > 0 {
		text += l.say("part_keep", "sides", strings.Join(keep, ", ")) + " "
	}
	text += l.say("part_how") + " " + l.say("part_check", "what", l.across(d, place.Drawing))
	lines := int((top.Y + captionHigh - c.y) / (small * leading))
	c.text(text, small, false, lines)
	g.Items = append(g.Items, c.items...)
	return g
}

// A Glued is a section that is printed in parts.
type Glued struct {
	Drawing int
	Parts   int
	Check   string // an edge across joining lines, and its length
	divided *divided
}

// Picture draws the section as it is printed, its parts numbered and the letters of
// its joining lines on both sides, as large as a size allows at the left of it.
func (g *Glued) Picture(at pattern.Pos, size pattern.Size) []drawing.Item {
	k := min(size.W/g.divided.whole.w(), size.H/g.divided.whole.h())
	items := g.divided.shown(at, k, -1)
	g.divided.section.seams(func(a, b, _, _ pos) {
		items = append(items, stroke(drawing.RunOnLine, along(at, a, k), along(at, b, k)))
	})
	lines := chains(items)
	for _, j := range g.divided.Joints {
		for _, part := range [...]length{0.5, 0.35, 0.65, 0.2, 0.8} { // where no seam runs through it
			p := along(along(at, j.A, k), sub(j.B, j.A), part*k)
			t := &drawing.Text{Text: j.Letter, At: pos{X: p.X + pattern.Millimetre, Y: p.Y - pattern.Millimetre}, Size: small}
			r := drawing.ReachOf([]drawing.Item{t})
			if unprinted(box{r.X0, r.Y0, r.X1, r.Y1}, lines, nil) {
				items = append(items, t)
				break
			}
		}
	}
	return items
}

// chains are the lines among items.
func chains(items []drawing.Item) (lines []drawing.Item) {
	for _, item := range items {
		if p, ok := item.(*drawing.Path); ok {
			lines = append(lines, p)
		}
	}
	return lines
}

// Proportion is the picture's height for a width of 1.
func (g *Glued) Proportion() float64 { return float64(g.divided.whole.h() / g.divided.whole.w()) }

// partsKey is a small picture of the section as it is printed, its parts numbered,
// one of them gray.
func (l *layout) partsKey(d *divided, at pos, i int) []drawing.Item {
	return d.shown(at, min(keyWide/d.whole.w(), keyHigh/d.whole.h()), i)
}

// shown draws the parts so many times as large as they are, one of them gray.
func (d *divided) shown(at pos, k length, gray int) (items []drawing.Item) {
	show := func(ps []pos) []pos {
		out := make([]pos, len(ps))
		for n, p := range ps {
			out[n] = along(at, p, k)
		}
		return out
	}
	outline := d.section.cut.at
	if gray >= 0 {
		// A part may hold nothing but what is extra beyond the cutting line.
		if own := tiling.Clip(outline, d.Parts[gray].Own); len(own) > 0 {
			items = append(items, &drawing.Path{Points: show(own), Closed: true, Fill: picked})
		}
	}
	items = append(items, chainOf(drawing.FrameLine, show(outline), true))
	for _, j := range d.Joints {
		in := func(p pos) pos { // its crosses may stand beside the section
			return pos{X: min(max(p.X, 0), d.whole.x1), Y: min(max(p.Y, 0), d.whole.y1)}
		}
		items = append(items, chainOf(drawing.LeaderLine, show([]pos{in(j.A), in(j.B)}), false))
	}
	for n := range d.Parts {
		if t := letter(strconv.Itoa(n+1), show(tiling.Clip(outline, d.Parts[n].Own))); t != nil {
			items = append(items, t)
		}
	}
	return items
}

// across names an edge that runs over a joining line, and its length: what is
// measured when the parts are glued.
func (l *layout) across(d *divided, index int) string {
	s := d.section
	best, long := -1, length(0)
	for pass := 0; pass < 2 && best < 0; pass++ {
		for i, p := range s.outline {
			q := s.outline[(i+1)%len(s.outline)]
			if n := dist(p, q); (pass > 0 || d.at(p) != d.at(q)) && n > long+near {
				best, long = i, n
			}
		}
	}
	return l.say("check_edge", "name", l.sized.Drawings[index].Name, "edge", l.say(sideWords(s.outline, best)), "corners", l.say("heavy"),
		"length", l.local(long.Words(l.p.Settings.Metric, 16)))
}

// crosses names the longest joining line of a part and how far apart its crosses
// are: what can be measured before anything is glued.
func (l *layout) crosses(place Place) string {
	d := l.divided[place.Drawing]
	var best *tiling.Joint
	for k := range d.Joints {
		j := &d.Joints[k]
		if (j.Before == place.Part.Number-1 || j.After == place.Part.Number-1) && (best == nil || j.Long() > best.Long()+near) {
			best = j
		}
	}
	if best == nil {
		return l.across(d, place.Drawing)
	}
	return l.say("part_crosses", "name", l.sized.Drawings[place.Drawing].Name, "a", best.Letter, "length", l.local(best.Long().Words(l.p.Settings.Metric, 16)))
}

// partName names a part among a sheet's sections.
func (l *layout) partName(name string, p *Part) string {
	return l.say("part_of", "name", name, "n", strconv.Itoa(p.Number), "m", strconv.Itoa(p.Of))
}

// partTitles are the forms of a part's own name, which survives cutting out.
func (l *layout) partTitles(d *pattern.Drawing, i, of int) []string {
	part := l.say("part_of", "name", d.Name, "n", strconv.Itoa(i+1), "m", strconv.Itoa(of))
	return []string{part + "," + l.titleSize + l.titleName + l.titleEdition + l.made(d), part + "," + l.titleSize + l.titleEdition + l.made(d), part}
}
