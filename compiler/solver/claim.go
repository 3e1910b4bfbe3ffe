package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// rivals are two polygons that claim the same side of an edge.
type rivals struct{ a, b int }

// own notes that a polygon lies to the left of an edge, walked from a point.
func (b *builder) own(e *Edge, polygon, from int) {
	side := &e.Left
	if e.From != from {
		side = &e.Right
	}
	if *side >= 0 && *side != polygon {
		b.rivals = append(b.rivals, rivals{*side, polygon})
	}
	*side = polygon
}

// claim gives every patch its polygon, and every polygon its patch, and reports
// what is covered twice or not at all.
func (b *builder) claim(d *draft, polygons []plane.Polygon) {
	p := d.p
	patch := make([]int, len(polygons))
	for i := range patch {
		patch[i] = -1
	}
	for i := range p.Patches {
		switch first, second := d.owners(d.walk[i]); {
		case first < 0:
			f := Fault{Kind: Uncovered, Line: -1, Other: -1, Area: p.Patches[i].Area, Polygon: p.Polygon(i)}
			f.At = f.Polygon.Interior()
			b.fault(f)
		case second >= 0:
			b.rivals = append(b.rivals, rivals{min(first, second), max(first, second)})
		default:
			p.Patches[i].Polygon, patch[first] = first, i
		}
	}
	b.overlaps(polygons)
	if len(b.faults) > 0 {
		return
	}
	for i, q := range polygons {
		area := math.Abs(q.Area())
		if k := patch[i]; k >= 0 {
			area -= p.Patches[k].Area
		}
		if math.Abs(area) > 2*plane.Tol*q.Length() {
			b.fault(Fault{Kind: Outside, Line: i, Other: -1, Area: area, At: q.Interior(), Polygon: q})
		}
	}
	if len(b.faults) == 0 {
		p.reorder(patch)
	}
}

// overlaps reports each two polygons that claim the same area once.
func (b *builder) overlaps(polygons []plane.Polygon) {
	told := map[rivals]bool{} // for look-up only
	for _, r := range b.rivals {
		if told[r] || len(b.faults) == maxReports {
			continue
		}
		told[r] = true
		p, q := anticlockwise(polygons[r.a]), anticlockwise(polygons[r.b])
		f := Fault{Kind: Overlap, Line: r.a, Other: r.b, Area: plane.Overlap(p, q), Polygon: plane.Common(p, q)}
		if f.At = p.Interior(); len(f.Polygon) > 0 {
			f.At = f.Polygon.Interior()
		}
		b.fault(f)
	}
}

// owners returns the first two polygons that claim the area beside a half-edge.
func (d *draft) owners(start int32) (first, second int) {
	first, second = -1, -1
	for h := start; ; {
		o := d.edges[h>>1].Left
		if h&1 == 1 {
			o = d.edges[h>>1].Right
		}
		switch {
		case o < 0 || o == first:
		case first < 0:
			first = o
		case second < 0:
			second = o
		}
		if h = d.next(h); h == start {
			return
		}
	}
}

// reorder makes patch[i] the patch i.
func (p *Partition) reorder(patch []int) {
	old, number := p.Patches, make([]int, len(patch))
	p.Patches = make([]Patch, len(patch))
	for i, k := range patch {
		p.Patches[i], number[k] = old[k], i
	}
	for i := range p.Edges {
		e := &p.Edges[i]
		e.Left = number[e.Left]
		if e.Right >= 0 {
			e.Right = number[e.Right]
		}
	}
}
