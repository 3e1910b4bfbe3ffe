package sheet

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
	"seamwright/emit/tiling"
	"seamwright/lang/problem"
)

// divides lays an example out on paper that may be too small for its sections.
func divides(l *laid, w, h, extra length) (*pattern.Pattern, Set, []problem.Problem) {
	p := *l.p
	p.Settings.Tile, p.Settings.Extra, p.Settings.Placement = true, extra, true
	set, problems := Lay(&p, &p.Blocks[0], l.sized, pattern.Sheet{Name: "small", Paper: pattern.Size{W: w, H: h}, Margin: 0.5})
	return &p, set, problems
}

// group finds a group of a page by its class, below others too.
func grouped(items []drawing.Item, class string) (found []*drawing.Group) {
	for _, item := range items {
		if g, ok := item.(*drawing.Group); ok {
			if g.Class == class {
				found = append(found, g)
			}
			found = append(found, grouped(g.Items, class)...)
		}
	}
	return found
}

// A shownPart is a part with what is drawn of it.
type shownPart struct {
	place Place
	page  *drawing.Page
	lines *drawing.Group
	cross []pos // where it lies in the section
	texts []drawing.Reach
}

// partsOf finds the parts of a section on its sheets.
func partsOf(t interface{ Fatalf(string, ...any) }, set *Set, index int) (parts []shownPart) {
	for i := range set.Sheets {
		s := &set.Sheets[i]
		groups := grouped(s.Page.Items, "part")
		for _, place := range s.Places {
			if place.Part == nil {
				continue
			}
			g := groups[0]
			groups = groups[1:]
			if place.Drawing != index {
				continue
			}
			part := shownPart{place: place, page: &s.Page, lines: grouped(g.Items, "lines")[0]}
			for _, item := range grouped(g.Items, "glue")[0].Items {
				if p, ok := item.(*drawing.Path); ok && p.Style == drawing.MarkLine && p.Points[0].X < p.Points[1].X-near {
					part.cross = append(part.cross, sub(mid(p.Points[0], p.Points[1]), place.Shift))
				}
			}
			for _, item := range g.Items {
				sub, isGroup := item.(*drawing.Group)
				if _, isText := item.(*drawing.Text); isText || isGroup && sub.Class != "lines" && sub.Class != "glue" && sub.Class != "caption" {
					part.texts = append(part.texts, drawing.ReachOf([]drawing.Item{item}))
				}
			}
			parts = append(parts, part)
		}
		if len(groups) > 0 {
			t.Fatalf("sheet %d has %d parts more than places", i+1, len(groups))
		}
	}
	return parts
}

func holds(r drawing.Reach, p pos, by length) bool {
	return p.X >= r.X0-by && p.X <= r.X1+by && p.Y >= r.Y0-by && p.Y <= r.Y1+by
}

// drawnAt reports whether a line runs through a point of a page.
func drawnAt(g *drawing.Group, p pos) bool {
	if !inside(p, g.Clip) {
		return false
	}
	for _, item := range g.Items {
		path, ok := item.(*drawing.Path)
		if !ok || path.Circle > 0 {
			continue
		}
		for i := range path.Points {
			q := path.Points[(i+1)%len(path.Points)]
			if path.Pairs && i%2 == 1 {
				continue
			}
			if (i+1 < len(path.Points) || path.Closed) && segmentDist(p, path.Points[i], q) < onLine {
				return true
			}
		}
	}
	return false
}

// The parts of a section are the section: every point of its lines is drawn on the
// page of the part that it belongs to, at true size, and on the page of every other
// part that shows it. Crosses that both of two neighbours show lie at the same places
// of the section, at least two of them, whole eighths of an inch apart. No text
// leaves its part, and nothing of it leaves the margins.
func TestPartsAreTheSection(t *testing.T) {
	sets := all(t)
	divided := 0
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(sets).Draw(t, "block")
		w, h := length(rapid.Float64Range(5, 9).Draw(t, "w")), length(rapid.Float64Range(6, 10).Draw(t, "h"))
		p, set, problems := divides(&l, w, h, rapid.SampledFrom([]length{0, 0.25}).Draw(t, "extra"))
		if problem.Failed(problems) {
			t.Skip(problems)
		}
		if len(set.Glued) > 0 {
			touchNothing(t, &laid{name: l.name, set: withoutHeads(set)})
		}
		lay := newLayout(p, &p.Blocks[0], l.sized, pattern.Sheet{})
		for _, g := range set.Glued {
			divided++
			d := &l.sized.Drawings[g.Drawing]
			parts := partsOf(t, &set, g.Drawing)
			slices.SortFunc(parts, func(a, b shownPart) int { return a.place.Part.Number - b.place.Part.Number })
			if len(parts) != g.Parts {
				t.Fatalf("section %s has %d parts on sheets, %d in all", d.Name, len(parts), g.Parts)
			}
			for i := range parts {
				onePart(t, &parts[i], i, p.Settings.Extra)
				for k := range i {
					neighbours(t, &parts[k], &parts[i])
				}
			}
			sec := lay.lay(g.Drawing, Place{Turn: parts[0].place.Turn}, &pen{})
			each := func(a, b pos) {
				for k := range 41 {
					at := along(a, sub(b, a), length(k)/40)
					owners := 0
					for i := range parts {
						on := add(at, parts[i].place.Shift)
						if holds(parts[i].place.Part.Own, on, near) {
							owners++
						}
						if holds(parts[i].place.Part.Shown, on, -near) != drawnAt(parts[i].lines, on) && holds(parts[i].place.Part.Shown, on, -near) {
							t.Fatalf("section %s: part %d lacks %v", d.Name, i+1, at)
						}
					}
					if owners == 0 {
						t.Fatalf("section %s: no part has %v", d.Name, at)
					}
				}
			}
			for i, a := range sec.outline {
				each(a, sec.outline[(i+1)%len(sec.outline)])
			}
			for i, a := range sec.cut.at {
				each(a, sec.cut.at[(i+1)%len(sec.cut.at)])
			}
			sec.seams(func(a, b, _, _ pos) { each(a, b) })
		}
	})
	if divided == 0 {
		t.Error("nothing was divided")
	}
}

// withoutHeads leaves out what stands on every sheet, which is not made for paper of
// any size.
func withoutHeads(set Set) Set {
	out := Set{Sheets: slices.Clone(set.Sheets)}
	for i := range out.Sheets {
		page := &out.Sheets[i].Page
		page.Items = slices.DeleteFunc(slices.Clone(page.Items), func(item drawing.Item) bool {
			g, ok := item.(*drawing.Group)
			return ok && (g.Class == "head" || g.Class == "furniture" || g.Class == "notes")
		})
	}
	return out
}

func onePart(t *rapid.T, p *shownPart, i int, extra length) {
	part, size := p.place.Part, p.page.Size
	if part.Number != i+1 {
		t.Fatalf("part %d comes as number %d", part.Number, i+1)
	}
	for _, r := range p.texts {
		o := part.Own
		if r.X0 < o.X0-near || r.Y0 < o.Y0-near || r.X1 > o.X1+near || r.Y1 > o.Y1+near {
			t.Fatalf("a text at %v leaves its part %v", r, o)
		}
	}
	const room = 0.5 - 0.02 // the margin, and half of the broadest line
	b := drawing.ReachOf([]drawing.Item{p.lines})
	if b.X0 < room || b.Y0 < room || b.X1 > size.W-room || b.Y1 > size.H-room {
		t.Fatalf("part %d lies at %v on paper of %v", part.Number, b, size)
	}
}

// neighbours holds the crosses of two parts to each other.
func neighbours(t *rapid.T, a, b *shownPart) {
	p, q := a.place.Part, b.place.Part
	beside := p.Row == q.Row && p.Column+1 == q.Column || p.Column == q.Column && p.Row+1 == q.Row
	if !beside {
		return
	}
	var both []pos
	for _, c := range a.cross {
		if slices.ContainsFunc(b.cross, func(d pos) bool { return dist(c, d) < near }) {
			both = append(both, c)
		}
	}
	if len(both) == 1 {
		return // they meet in a corner, where four do
	}
	for _, c := range both {
		n := float64(dist(both[0], c) * 8)
		if math.Abs(n-math.Round(n)) > 1e-6 {
			t.Fatalf("crosses are %v in apart", n/8)
		}
		for _, s := range []*shownPart{a, b} {
			if !holds(s.place.Part.Shown, add(c, s.place.Shift), -tiling.Lap/2+0.1) {
				t.Fatalf("a cross at %v is not whole on part %d", c, s.place.Part.Number)
			}
		}
	}
}

// A line across two joins, measured in the dots of a real renderer: the pages are
// laid on each other by the crosses that are found in the dots, and the edge that
// the sheet names has the length that it says.
func TestEdgeAcrossPartsInDots(t *testing.T) {
	l := named(t, "boat 8 in letter")
	_, set, problems := divides(&l, 6, 8, 0)
	if problem.Failed(problems) || len(set.Glued) == 0 {
		t.Fatal(problems, "nothing is divided")
	}
	const dpi = 300
	measured := 0
	for _, g := range set.Glued {
		d := &l.sized.Drawings[g.Drawing]
		parts := partsOf(t, &set, g.Drawing)
		pics := make([]picture, len(parts))
		for i := range parts {
			for k := range set.Sheets {
				if &set.Sheets[k].Page == parts[i].page {
					pics[i] = librsvg(t, file(t, &set.Sheets[k]), dpi)
				}
			}
		}
		// from is where each part lies from the first one, by the crosses in the dots.
		from := make([]pos, len(parts))
		found := make([]bool, len(parts))
		found[0] = true
		for range parts {
			for i := range parts {
				for k := range parts {
					if !found[i] || found[k] {
						continue
					}
					for _, c := range parts[i].cross {
						if slices.ContainsFunc(parts[k].cross, func(e pos) bool { return dist(c, e) < near }) {
							a, b := pics[i].cross(t, add(c, parts[i].place.Shift)), pics[k].cross(t, add(c, parts[k].place.Shift))
							from[k], found[k] = add(from[i], sub(a, b)), true
							break
						}
					}
				}
			}
		}
		for i, a := range d.Outline {
			b := d.Outline[(i+1)%len(d.Outline)]
			var ends [2]pos
			owner := [2]int{-1, -1}
			for e, corner := range [2]pos{a, b} {
				for k := range parts {
					if at := parts[k].place.Motion()(corner); holds(parts[k].place.Part.Own, at, 0) {
						ends[e], owner[e] = add(at, from[k]), k
					}
				}
			}
			if owner[0] < 0 || owner[1] < 0 || owner[0] == owner[1] {
				continue
			}
			measured++
			if got, want := dist(ends[0], ends[1]), dist(a, b); math.Abs(float64(got-want)) > 1.5/dpi {
				t.Errorf("section %s, edge %d: %.4f in across parts, want %.4f", d.Name, i, got, want)
			}
			for e, corner := range [2]pos{a, b} { // and its ends are drawn where they were taken to be
				p := parts[owner[e]]
				at := p.place.Motion()(corner)
				inward := p.place.Motion()([2]pos{b, a}[e])
				if pics[owner[e]].dark(along(at, unit(at, inward), 0.05)) < 0.5 {
					t.Errorf("section %s: no line at its corner %d in the dots of part %d", d.Name, i, p.place.Part.Number)
				}
			}
		}
	}
	if measured < 4 {
		t.Errorf("only %d edges were measured", measured)
	}
}

// cross finds a cross in the dots near a place: where its arms are darkest.
func (p picture) cross(t *testing.T, at pos) pos {
	t.Helper()
	const arm, look = 0.07, 0.03
	x := p.middle(t, pos{X: at.X - look, Y: at.Y - arm}, pos{X: at.X + look, Y: at.Y - arm}) - look
	y := p.middle(t, pos{X: at.X - arm, Y: at.Y - look}, pos{X: at.X - arm, Y: at.Y + look}) - look
	return pos{X: at.X + x, Y: at.Y + y}
}
