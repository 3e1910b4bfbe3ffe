package testsew

import (
	"cmp"
	"math"
	"slices"
)

// A space is one area between the lines of a section.
type space struct {
	number int
	area   poly
	seam   line    // of all but the first: the space lies on its left
	from   float64 // the seam's ends, along it from seam.at
	to     float64
	fabric string
	grain  pt // as an arrow on the sheet says; zero where there is none
}

// findSpaces finds the areas that the printed lines make and numbers them by the
// labels that stand in them. It says what is wrong with the numbers.
func (s *section) findSpaces() (faults []string) {
	areas := faces(s.outline, s.seams)
	taken := make([]bool, len(areas))
	for _, n := range s.numbers {
		at := slices.IndexFunc(areas, func(p poly) bool { return p.holds(n.at) })
		switch {
		case at < 0:
			faults = append(faults, s.space(n.number)+" is written outside the section")
		case taken[at]:
			faults = append(faults, s.space(n.number)+" is written in a space that has a number")
		default:
			taken[at] = true
			s.spaces = append(s.spaces, space{number: n.number, area: areas[at], grain: n.grain})
		}
	}
	for at, p := range areas {
		if !taken[at] {
			m := p.middle()
			faults = append(faults, "a space of section "+s.name+", "+figure(p.area())+" sq in, has no number ("+place(m)+")")
		}
	}
	slices.SortStableFunc(s.spaces, func(a, b space) int { return cmp.Compare(a.number, b.number) })
	for i := range s.spaces {
		if s.spaces[i].number != i+1 {
			faults = append(faults, "the spaces of section "+s.name+" are not numbered 1 to "+count(len(s.spaces)))
			break
		}
	}
	return faults
}

// findSeams finds for each number the line to sew on: the one between its space
// and all that has been sewn before.
func (s *section) findSeams() (faults []string) {
	for k := 1; k < len(s.spaces); k++ {
		sp := &s.spaces[k]
		found := false
		for i := range sp.area {
			a, b := sp.area.side(i)
			if a.to(b) < same || !s.touches(k, a, b) {
				continue
			}
			l := through(a, b)
			if !found || a.to(b) > sp.to-sp.from {
				sp.seam, sp.from, sp.to = l, 0, a.to(b)
			}
			found = true
		}
		if !found {
			faults = append(faults, "when "+s.space(k+1)+" is to be sewn, no line parts it from what is sewn")
			s.spaces = s.spaces[:k]
			return faults
		}
		for j := range k {
			for i := range s.spaces[j].area {
				a, b := s.spaces[j].area.side(i)
				if sp.seam.side(a) > same {
					faults = append(faults, s.space(k+1)+" can't be sewn in turn: "+s.space(j+1)+" lies on both sides of its line")
					s.spaces = s.spaces[:k]
					return faults
				}
				if math.Abs(sp.seam.side(a)) < same && math.Abs(sp.seam.side(b)) < same && a.to(b) > same {
					sp.from = min(sp.from, sp.seam.along(a), sp.seam.along(b))
					sp.to = max(sp.to, sp.seam.along(a), sp.seam.along(b))
				}
			}
		}
	}
	return faults
}

// touches reports whether a side of space k is a side of one with a lower number.
func (s *section) touches(k int, a, b pt) bool {
	m := a.mid(b)
	for j := range k {
		for i := range s.spaces[j].area {
			c, d := s.spaces[j].area.side(i)
			if fromSegment(m, c, d) < same {
				return true
			}
		}
	}
	return false
}

// faces returns the inner areas of a drawing of straight lines.
func faces(outline poly, seams [][2]pt) []poly {
	var lines [][2]pt
	for i := range outline {
		a, b := outline.side(i)
		lines = append(lines, [2]pt{a, b})
	}
	lines = append(lines, seams...)
	var points []pt
	at := func(p pt) int {
		for i, q := range points {
			if p.to(q) < same {
				return i
			}
		}
		points = append(points, p)
		return len(points) - 1
	}
	for i, l := range lines {
		at(l[0])
		at(l[1])
		for _, m := range lines[:i] {
			if p, ok := crossing(l, m); ok {
				at(p)
			}
		}
	}
	next := make([][]int, len(points)) // neighbours of each point
	for _, l := range lines {
		along := through(l[0], l[1])
		var on []int
		for i, p := range points {
			if fromSegment(p, l[0], l[1]) < same {
				on = append(on, i)
			}
		}
		slices.SortFunc(on, func(a, b int) int { return cmp.Compare(along.along(points[a]), along.along(points[b])) })
		for i := 1; i < len(on); i++ {
			a, b := on[i-1], on[i]
			if !slices.Contains(next[a], b) {
				next[a], next[b] = append(next[a], b), append(next[b], a)
			}
		}
	}
	angle := func(a, b int) float64 { d := points[b].sub(points[a]); return math.Atan2(d.y, d.x) }
	for i := range next {
		slices.SortFunc(next[i], func(a, b int) int { return cmp.Compare(angle(i, a), angle(i, b)) })
	}
	return walk(points, next)
}

// walk follows every line on its left side round the area there.
func walk(points []pt, next [][]int) (areas []poly) {
	type step struct{ a, b int }
	done := map[step]bool{}
	for i := range next {
		for _, j := range next[i] {
			var p poly
			for s := (step{i, j}); !done[s]; {
				done[s] = true
				p = append(p, points[s.a])
				k := slices.Index(next[s.b], s.a)
				n := len(next[s.b])
				s = step{s.b, next[s.b][(k+n-1)%n]}
			}
			if len(p) > 2 && p.area() > same*same {
				areas = append(areas, p)
			}
		}
	}
	return areas
}

// crossing returns where two lines cross inside both.
func crossing(l, m [2]pt) (pt, bool) {
	d, e := l[1].sub(l[0]), m[1].sub(m[0])
	k := d.cross(e)
	if math.Abs(k) < noLength {
		return pt{}, false
	}
	t := m[0].sub(l[0]).cross(e) / k
	u := m[0].sub(l[0]).cross(d) / k
	if t <= 0 || t >= 1 || u <= 0 || u >= 1 {
		return pt{}, false
	}
	return l[0].add(d.mul(t)), true
}
