package solver

import (
	"cmp"
	"slices"

	"seamwright/compiler/plane"
)

// Limits of the search for a cure: how many lines may be prolonged, and how many
// patches may be looked at for one witness.
const (
	maxExtensions = 3
	cureBudget    = 200_000
)

// cure looks for lines to prolong so that a witness's part can be sewn. The part
// is drawn again alone, with the longer lines, and solved: what is returned has
// been seen to work.
func (p *Partition) cure(w *Witness) {
	c := curer{budget: cureBudget}
	c.outline = newTracer(p).polygon(w.Patches)
	done := map[int]bool{} // for look-up only
	for _, f := range w.Patches {
		for _, e := range p.Patches[f].Edges {
			edge := &p.Edges[e]
			if done[e] || edge.Seam < 0 {
				continue
			}
			done[e] = true
			c.lines = append(c.lines, plane.Line{A: p.Points[edge.From].Point, B: p.Points[edge.To].Point})
			c.source = append(c.source, edge.Line)
		}
	}
	w.Cure = c.search(nil)
}

type curer struct {
	outline plane.Polygon
	lines   []plane.Line
	source  []int // of a line: the input's line
	budget  int
}

// search returns extensions, those given included, that make the part sewable:
// the least one more where one is enough, else it goes on from the one that
// leaves the fewest patches in trouble.
func (c *curer) search(made []Extension) []Extension {
	p := c.draw(made)
	if len(p.Faults) > 0 && p.mesh == nil {
		return nil
	}
	trouble := p.unsewable(false)
	if len(trouble) == 0 {
		return made
	}
	if len(made) == maxExtensions {
		return nil
	}
	var best []Extension
	least := inTrouble(trouble)
	for _, x := range c.candidates(p, &trouble[0]) {
		if c.budget -= len(p.Patches); c.budget < 0 {
			return nil
		}
		try := append(slices.Clip(made), x)
		q := c.draw(try)
		if q.mesh == nil {
			continue
		}
		left := inTrouble(q.unsewable(false))
		if left == 0 {
			return try
		}
		if left < least {
			best, least = try, left
		}
	}
	if best == nil {
		return nil
	}
	return c.search(best)
}

func inTrouble(list []Witness) int {
	n := 0
	for _, w := range list {
		n += len(w.Patches)
	}
	return n
}

// draw builds the part with the extensions made.
func (c *curer) draw(made []Extension) *Partition {
	lines := slices.Clip(c.lines)
	for _, x := range made {
		lines = append(lines, plane.Line{A: x.From, B: x.To})
	}
	return Build(c.outline, lines, 0)
}

// candidates lists the ways to prolong a line of a witness, the least first: the
// line runs on through one patch, or two, and so on to the border.
func (c *curer) candidates(p *Partition, w *Witness) []Extension {
	var list []Extension
	if w.Point >= 0 {
		for i := range p.Seams {
			s := &p.Seams[i]
			for _, end := range [2]int{0, len(s.Points) - 1} {
				if s.Points[end] == w.Point {
					list = c.prolong(list, p, w, i, s.Points[len(s.Points)-1-end], w.Point)
				}
			}
		}
	}
	for _, r := range w.Cycle {
		list = c.prolong(list, p, w, r.Seam, r.From, r.To)
	}
	slices.SortStableFunc(list, func(a, b Extension) int {
		if a.Cuts != b.Cuts {
			return a.Cuts - b.Cuts
		}
		return cmp.Compare(a.From.Dist(a.To), b.From.Dist(b.To))
	})
	return list
}

// prolong adds the ways to go on along a seam beyond its end.
func (c *curer) prolong(list []Extension, p *Partition, w *Witness, seam, from, end int) []Extension {
	at := p.Points[end].Point
	dir := at.Sub(p.Points[from].Point)
	var stops []float64
	for _, f := range w.Patches {
		for _, e := range p.Patches[f].Edges {
			l := plane.Line{A: p.Points[p.Edges[e].From].Point, B: p.Points[p.Edges[e].To].Point}
			if t, ok := reach(at, dir, l); ok {
				stops = append(stops, t)
			}
		}
	}
	slices.Sort(stops)
	step := plane.Tol / dir.Len()
	stops = slices.CompactFunc(stops, func(a, b float64) bool { return b-a <= step })
	for i, t := range stops {
		list = append(list, Extension{Line: c.sourceOf(p, seam, end), From: at, To: at.Add(dir.Mul(t)), Cuts: i + 1})
	}
	return list
}

// sourceOf returns the input's line that ends at a seam's end.
func (c *curer) sourceOf(p *Partition, seam, end int) int {
	s := &p.Seams[seam]
	e := s.First
	if s.Points[0] != end {
		e += len(s.Points) - 2
	}
	if l := p.Edges[e].Line; l < len(c.source) {
		return c.source[l]
	}
	return -1 // an extension made before
}
