package testsew

import (
	"cmp"
	"math"
	"slices"
)

// glue lays the parts of every section on each other, crosses on crosses, as a
// maker does, cuts each on its joining lines, and reads the section that comes of it.
func (w *work) glue() {
	for len(w.parts) > 0 {
		name := w.parts[0].name
		var all, rest []*sheetPart
		for _, p := range w.parts {
			if p.name == name {
				all = append(all, p)
			} else {
				rest = append(rest, p)
			}
		}
		w.parts = rest
		g := &gluing{parts: all, columns: map[int]float64{}, rows: map[int]float64{}}
		if s := g.section(); s != nil {
			w.paper = append(w.paper, s)
		}
		for _, f := range g.faults {
			w.find("section " + name + ", glued from its parts: " + f)
		}
	}
}

// A gluing is the work on one section.
type gluing struct {
	parts         []*sheetPart
	columns, rows map[int]float64 // where a column or row ends, in the glued section
	outline       poly            // once it is put together
	faults        []string
}

func (g *gluing) find(text string) { g.faults = append(g.faults, text) }

func (g *gluing) section() *section {
	first := g.parts[0]
	if len(g.parts) != first.of {
		g.find("there are " + count(len(g.parts)) + " of " + count(first.of) + " parts")
		return nil
	}
	for _, p := range g.parts {
		if p.prints != first.prints {
			g.find("its parts are printed " + count(first.prints) + " and " + count(p.prints) + " times")
		}
	}
	if !g.lay() {
		return nil
	}
	all := &group{}
	for _, p := range g.parts {
		own := g.own(p)
		for _, s := range seen(p.moved(p.strokes), own) {
			all.strokes = append(all.strokes, s)
		}
	}
	g.merge(all)
	for _, p := range g.parts {
		all.strokes = append(all.strokes, p.moved(p.own)...)
		all.words += " " + p.words
		for _, t := range p.texts {
			all.texts = append(all.texts, t.add(p.at))
		}
		for _, sub := range p.groups {
			all.groups = append(all.groups, sub.moved(p.at))
		}
	}
	s := &section{name: first.name, sheet: first.sheet, prints: first.prints, words: all.words}
	if err := s.lines(all); err != nil {
		g.find(err.Error())
		return nil
	}
	s.labels(all)
	return s
}

// lay finds where each part lies, by its crosses.
func (g *gluing) lay() bool {
	laid := map[*sheetPart]bool{g.parts[0]: true}
	ok := true
	for again := true; again; {
		again = false
		for _, p := range g.parts {
			for _, q := range g.parts {
				upright := p.row == q.row && q.column == p.column+1
				if !laid[p] && !laid[q] || !upright && !(p.column == q.column && q.row == p.row+1) {
					continue
				}
				a, b := g.joint(p, upright, true), g.joint(q, upright, false)
				if a == nil && b == nil {
					continue
				}
				if a == nil || b == nil || len(a.crosses) < 2 || len(a.crosses) != len(b.crosses) {
					ok = false
					g.find("parts " + count(p.number) + " and " + count(q.number) + " have other crosses where they meet")
					return ok
				}
				switch {
				case !laid[q]:
					q.at, laid[q], again = p.at.add(a.crosses[0]).sub(b.crosses[0]), true, true
				case !laid[p]:
					p.at, laid[p], again = q.at.add(b.crosses[0]).sub(a.crosses[0]), true, true
				}
				if upright {
					g.columns[p.column] = a.at + p.at.x
				} else {
					g.rows[p.row] = a.at + p.at.y
				}
			}
		}
	}
	for _, p := range g.parts {
		if !laid[p] {
			ok = false
			g.find("part " + count(p.number) + " has no joining line with any other")
		}
	}
	return ok && g.agree()
}

// agree reports whether all crosses fall on each other and all joining lines are one.
func (g *gluing) agree() bool {
	for _, p := range g.parts {
		for _, q := range g.parts {
			upright := p.row == q.row && q.column == p.column+1
			if !upright && !(p.column == q.column && q.row == p.row+1) {
				continue
			}
			a, b := g.joint(p, upright, true), g.joint(q, upright, false)
			if a == nil {
				continue
			}
			cut, off := g.rows[p.row], a.at+p.at.y
			if upright {
				cut, off = g.columns[p.column], a.at+p.at.x
			}
			miss := math.Abs(cut - off)
			for k := range a.crosses {
				miss = max(miss, a.crosses[k].add(p.at).to(b.crosses[k].add(q.at)))
			}
			if miss > same {
				g.find("the crosses of parts " + count(p.number) + " and " + count(q.number) + " are " + figure(miss) + " in apart")
				return false
			}
		}
	}
	return true
}

// own is what a part has of its own: what is left of its window when it is cut on
// the joining lines, and what of it is not covered.
func (g *gluing) own(p *sheetPart) box {
	b := box{p.window.x0 + p.at.x, p.window.y0 + p.at.y, p.window.x1 + p.at.x, p.window.y1 + p.at.y}
	if x, ok := g.columns[p.column-1]; ok {
		b.x0 = max(b.x0, x)
	}
	if x, ok := g.columns[p.column]; ok {
		b.x1 = min(b.x1, x)
	}
	if y, ok := g.rows[p.row-1]; ok {
		b.y0 = max(b.y0, y)
	}
	if y, ok := g.rows[p.row]; ok {
		b.y1 = min(b.y1, y)
	}
	return b
}

// onCut reports whether a point lies on a joining line.
func (g *gluing) onCut(p pt) bool {
	for _, x := range g.columns {
		if math.Abs(p.x-x) < same {
			return true
		}
	}
	for _, y := range g.rows {
		if math.Abs(p.y-y) < same {
			return true
		}
	}
	return false
}

// merge makes one line of two that go on from each other over a joining line, and
// says where one ends there that should go on.
func (g *gluing) merge(all *group) {
	lines := all.strokes
	slices.SortStableFunc(lines, func(a, b stroke) int { return cmp.Compare(b.width, a.width) }) // the outline first
	for i := 0; i < len(lines); i++ {
		for again := true; again; {
			again = false
			for k := 0; k < len(lines); k++ {
				if joined, ok := g.goesOn(lines[i], lines[k]); k != i && ok {
					lines[i] = joined
					lines = slices.Delete(lines, k, k+1)
					if k < i {
						i--
					}
					again = true
					break
				}
			}
		}
		s := &lines[i]
		n := len(s.points)
		if !s.closed && n > 2 && s.points[0].to(s.points[n-1]) < same && g.onCut(s.points[0]) {
			s.closed, s.points = true, s.points[:n-1]
		}
		s.points = straightened(s.points, s.closed)
		if s.closed && s.width > heavy {
			g.outline = s.points
		}
	}
	all.strokes = lines
	for i, s := range lines {
		if s.closed || s.circle || s.filled || s.width < 0.2 {
			continue // a fine line may end anywhere
		}
		for _, end := range [2]pt{s.points[0], s.points[len(s.points)-1]} {
			if g.onCut(end) && !g.meets(lines, i, end) {
				g.find("a line ends where parts meet, and should go on (" + place(pt{end.x, -end.y}) + " from the upper left of its first sheet)")
				return
			}
		}
	}
}

// meets reports whether a point lies on another line, as the end of a seam does.
func (g *gluing) meets(lines []stroke, except int, p pt) bool {
	for i, s := range lines {
		if i == except || s.circle || s.filled {
			continue
		}
		n := len(s.points)
		for k := range n {
			if k == n-1 && !s.closed {
				break
			}
			if fromSegment(p, s.points[k], s.points[(k+1)%n]) < same {
				return true
			}
		}
	}
	return false
}

// goesOn joins two chains of one look that meet on a joining line: in one direction,
// but the outline, and the lines outside of it, may have a corner just there.
func (g *gluing) goesOn(a, b stroke) (stroke, bool) {
	if a.closed || b.closed || a.circle || b.circle || a.filled || b.filled || a.width != b.width || a.dash != b.dash || a.gap != b.gap {
		return a, false
	}
	straight := straightOn
	if a.width > heavy || a.gap > 0 {
		straight = -straightOn
	}
	p, q := poly(a.points), poly(b.points)
	for _, way := range [...][2]poly{{p, q}, {q, p}, {p, q.backwards()}, {p.backwards(), q}} { // a mark begins on the outline: it is not turned round
		p, q := way[0], way[1]
		n := len(p)
		d, e, off := p[n-1].sub(p[n-2]).unit(), q[1].sub(q[0]).unit(), q[0].sub(p[n-1])
		aside, ahead := math.Abs(d.cross(off)), math.Abs(d.dot(off))
		if a.width < heavy && g.onOutline(p[n-1]) {
			continue // a mark begins where a seam ends, and may go on from it
		}
		near := off.len() < same || d.dot(e) > straightOn && aside < cutSlack && ahead < slantSlack
		if near && g.onCut(p[n-1]) && g.onCut(q[0]) && d.dot(e) > straight {
			out := a
			out.points = append(append([]pt(nil), p...), q[1:]...)
			return out, true
		}
	}
	return a, false
}

// heavy is a width between those of a seam and of an outline, in millimetres.
const heavy = 0.5

func (g *gluing) onOutline(p pt) bool {
	for i := range g.outline {
		if a, b := g.outline.side(i); fromSegment(p, a, b) < same {
			return true
		}
	}
	return false
}

// straightOn is the cosine of the angle, two degrees, within which a line that is
// cut goes on: a short piece of one has a direction that is as coarse as the file.
const straightOn = 0.9994

// straightened leaves out points in the middle of a straight line: those where it
// was cut. Of two that all but fall together, where a line was cut beside a corner, one
// stays.
func straightened(points []pt, closed bool) []pt {
	n := len(points)
	if n < 3 {
		return points
	}
	if closed { // begun at what is a corner whatever is left out
		far := 0
		for i, p := range points {
			if p.to(points[n/2]) > points[far].to(points[n/2]) {
				far = i
			}
		}
		points = append(append([]pt(nil), points[far:]...), points[:far]...)
	}
	out := append([]pt(nil), points[0])
	for i := 1; i < n; i++ {
		if !closed && i == n-1 {
			return append(out, points[i])
		}
		a, b, c := out[len(out)-1], points[i], points[(i+1)%n]
		if a.to(c) < same || fromSegment(b, a, c) > cutSlack {
			out = append(out, b)
		}
	}
	return out
}

// cutSlack is how far off its line a cut point may lie: files are written to 0.01 mm,
// and lines are put together from two of them.
const cutSlack = 0.0015

// slantSlack is how far apart along their line two cut points may lie, where the
// line crosses the joining line at a narrow angle.
const slantSlack = 0.03

func (p *sheetPart) moved(strokes []stroke) []stroke {
	out := make([]stroke, len(strokes))
	for i, s := range strokes {
		out[i] = s
		out[i].points = poly(s.points).mapped(p.at.add)
	}
	return out
}

func (g *group) moved(by pt) *group {
	out := *g
	out.texts = poly(g.texts).mapped(by.add)
	out.strokes = nil
	for _, s := range g.strokes {
		s.points = poly(s.points).mapped(by.add)
		out.strokes = append(out.strokes, s)
	}
	out.groups = nil
	for _, sub := range g.groups {
		out.groups = append(out.groups, sub.moved(by))
	}
	return &out
}
