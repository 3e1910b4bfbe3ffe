package testsew

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// A sheetPart is what one sheet shows of a section that is too large for it.
type sheetPart struct {
	name, sheet             string
	prints                  int
	row, column, number, of int
	window                  box
	strokes                 []stroke // seen in the window
	own                     []stroke // leaders and their dots
	joints                  []jointLine
	texts                   []pt
	groups                  []*group
	words                   string
	at                      pt // in the glued section, once it lies there
}

// A jointLine is a long-dashed line on which parts are glued, with its crosses.
type jointLine struct {
	upright bool
	at      float64
	crosses []pt // from its beginning
}

const longDash = 6 // millimetres; the cutting line's are half of that

// readPart reads a part from its group.
func readPart(file string, g *group) (*sheetPart, error) {
	p := &sheetPart{sheet: file, own: g.strokes, texts: g.texts, words: g.words}
	for _, sub := range g.groups {
		switch sub.class {
		case "lines":
			if sub.window == nil {
				return nil, fmt.Errorf("its lines go on without end")
			}
			p.strokes, p.window = sub.strokes, *sub.window
		case "glue":
			p.readJoints(sub.strokes)
		case "caption":
			if !p.readCaption(sub.words) {
				return nil, fmt.Errorf("it does not say which part it is: %q", sub.words)
			}
		default:
			p.groups = append(p.groups, sub)
		}
	}
	if p.name == "" || p.strokes == nil {
		return nil, fmt.Errorf("it has no lines or no caption")
	}
	return p, nil
}

// readCaption reads which part of which section it is, in either language.
func (p *sheetPart) readCaption(words string) bool {
	for _, form := range [...]string{"Section %s part %d of %d: row %d, column %d", "Abschnitt %s Teil %d von %d: Reihe %d, Spalte %d"} {
		first, _, _ := strings.Cut(form, " ")
		if i := strings.Index(words, first+" "); i >= 0 {
			if n, _ := fmt.Sscanf(words[i:], form, &p.name, &p.number, &p.of, &p.row, &p.column); n == 5 {
				p.name = strings.TrimSuffix(p.name, ",")
				return true
			}
		}
	}
	return false
}

// readJoints finds the joining lines, and the crosses on each.
func (p *sheetPart) readJoints(strokes []stroke) {
	var crosses []pt
	for i, a := range strokes {
		for _, b := range strokes[:i] {
			if a.dash == 0 && b.dash == 0 && len(a.points) == 2 && len(b.points) == 2 {
				m, n := a.points[0].mid(a.points[1]), b.points[0].mid(b.points[1])
				d, e := a.points[1].sub(a.points[0]), b.points[1].sub(b.points[0])
				if m.to(n) < same && math.Abs(d.dot(e)) < same*d.len() {
					crosses = append(crosses, m)
				}
			}
		}
	}
	for _, s := range strokes {
		if s.dash < longDash || len(s.points) != 2 {
			continue
		}
		a, b := s.points[0], s.points[1]
		j := jointLine{upright: math.Abs(a.x-b.x) < math.Abs(a.y-b.y)}
		j.at = a.mid(b).y
		if j.upright {
			j.at = a.mid(b).x
		}
		for _, c := range crosses {
			end := func(s stroke) bool {
				return s.dash >= longDash && (c.to(s.points[0]) < same || c.to(s.points[1]) < same)
			}
			if fromSegment(c, a, b) < same && (end(s) || !slices.ContainsFunc(strokes, end)) { // not one of a line that ends on this one
				j.crosses = append(j.crosses, c)
			}
		}
		slices.SortFunc(j.crosses, func(a, b pt) int { return cmp.Compare(a.x+a.y, b.x+b.y) })
		p.joints = append(p.joints, j)
	}
}

// joint returns the joining line on a side of the part: toward a lower or a higher
// row or column; nil where there is none. Of two lines one is on either side; a
// single one is toward the only neighbor there, or at the nearer end.
func (g *gluing) joint(p *sheetPart, upright, higher bool) *jointLine {
	var lines []*jointLine
	for i := range p.joints {
		if j := &p.joints[i]; j.upright == upright {
			lines = append(lines, j)
		}
	}
	slices.SortFunc(lines, func(a, b *jointLine) int { return cmp.Compare(a.at, b.at) })
	switch len(lines) {
	case 0:
		return nil
	case 1:
		j := lines[0]
		before, after := j.at-p.window.x0, p.window.x1-j.at
		if !upright {
			before, after = j.at-p.window.y0, p.window.y1-j.at
		}
		below, above := g.neighbor(p, upright, -1), g.neighbor(p, upright, 1)
		isHigher := after < before
		if below != above {
			isHigher = above
		}
		if isHigher != higher {
			return nil
		}
		return j
	}
	if higher {
		return lines[len(lines)-1]
	}
	return lines[0]
}

// neighbor reports whether there is a part beside another, or above or below it.
func (g *gluing) neighbor(p *sheetPart, upright bool, by int) bool {
	return slices.ContainsFunc(g.parts, func(q *sheetPart) bool {
		if upright {
			return q.row == p.row && q.column == p.column+by
		}
		return q.column == p.column && q.row == p.row+by
	})
}
