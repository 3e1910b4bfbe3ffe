package solver

import "seamwright/compiler/plane"

// A tracer walks around sets of patches.
type tracer struct {
	p     *Partition
	in    []int // of a patch: stamp
	next  []int // of a point: the next one on the border
	stamp int
}

func newTracer(p *Partition) *tracer {
	return &tracer{p: p, in: make([]int, len(p.Patches)), next: make([]int, len(p.Points))}
}

// border returns the points around a part, anticlockwise.
func (t *tracer) border(patches []int) []int {
	t.stamp++
	for _, f := range patches {
		t.in[f] = t.stamp
	}
	start, count := -1, 0
	for _, f := range patches {
		a := &t.p.Patches[f]
		for i, e := range a.Edges {
			if o := t.p.across(e, f); o >= 0 && t.in[o] == t.stamp {
				continue
			}
			to := a.Points[0]
			if i+1 < len(a.Points) {
				to = a.Points[i+1]
			}
			t.next[a.Points[i]] = to
			start = a.Points[i]
			count++
		}
	}
	around := make([]int, 0, count)
	for v := start; len(around) < count; {
		around = append(around, v)
		if v = t.next[v]; v == start {
			break
		}
	}
	return around
}

// polygon returns the outline of a part, without corners in the middle of a side.
func (t *tracer) polygon(patches []int) plane.Polygon {
	around := t.border(patches)
	out := make(plane.Polygon, len(around))
	for i, v := range around {
		out[i] = t.p.Points[v].Point
	}
	return out.Corners()
}

// across returns the patch on the other side of an edge.
func (p *Partition) across(edge, patch int) int {
	if e := &p.Edges[edge]; e.Left != patch {
		return e.Left
	} else {
		return e.Right
	}
}
