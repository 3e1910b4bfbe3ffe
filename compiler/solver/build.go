package solver

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// Limits of the input. Coordinates beyond largest would leave no digits to tell
// points apart by [plane.Tol].
const largest = 1e6

// maxHits bounds how often lines may meet, so that no drawing takes more than a
// few seconds and some hundred megabytes.
const maxHits = 2_000_000

// maxReports bounds the lists of faults and of near pairs; more help nobody.
const maxReports = 100

// Build divides the outline by the lines, which may cross, overlap, touch and
// run out over the outline. Lengths are in the caller's unit. Points that differ
// by at most near are listed in Near, but taken as different if they are more
// than [plane.Tol] apart. The cost is about linear, after sorting.
func Build(outline plane.Polygon, lines []plane.Line, near float64) *Partition {
	b := newBuilder(outline, len(lines), near)
	for i, l := range lines {
		b.add(l.A, l.B, int32(i))
	}
	b.lines = len(lines)
	return b.build(nil)
}

// Tile is [Build] for polygons that ought to tile the outline, in either sense
// of turning. Patch i of the result is polygon i.
func Tile(outline plane.Polygon, polygons []plane.Polygon, near float64) *Partition {
	sides := 0
	for _, p := range polygons {
		sides += len(p)
	}
	b := newBuilder(outline, sides, near)
	b.tile = true
	for i, p := range polygons {
		p = anticlockwise(p)
		for k := range p {
			s := p.Side(k)
			b.add(s.A, s.B, int32(i))
		}
	}
	return b.build(polygons)
}

type builder struct {
	*snapper
	outline  plane.Polygon
	segments []segment
	hits     []hit
	// Between points of the snapper; Left and Right are the polygons of Tile
	// that claim these sides.
	edges  []Edge
	seen   edgeSet
	lines  int
	tile   bool
	faults []Fault
	nearly []Near
	rivals []rivals
}

// A hit says that a point lies on a segment, t along it.
type hit struct {
	segment, point int32
	t              float64
}

func newBuilder(outline plane.Polygon, lines int, near float64) *builder {
	outline = anticlockwise(outline)
	low, high := outline.Box()
	n := 2*lines + len(outline)
	spacing := math.Sqrt((high.X - low.X) * (high.Y - low.Y) / float64(n+1))
	b := &builder{snapper: newSnapper(near, spacing, n), outline: outline}
	b.segments = make([]segment, 0, lines+len(outline))
	for i := range outline {
		s := outline.Side(i)
		b.add(s.A, s.B, -1)
	}
	return b
}

func anticlockwise(p plane.Polygon) plane.Polygon {
	if p.Area() < 0 {
		p = slices.Clone(p)
		slices.Reverse(p)
	}
	return p
}

// add takes a stretch of the input in; line is -1 for the outline.
func (b *builder) add(from, to plane.Point, line int32) {
	for _, v := range [...]float64{from.X, from.Y, to.X, to.Y} {
		if !(math.Abs(v) <= largest) { // true of a NaN as well
			b.fault(Fault{Kind: Unresolved, Line: int(line)})
			return
		}
	}
	s := segment{a: b.snapper.add(from), b: b.snapper.add(to), line: line, outline: line < 0}
	s.from = b.at[s.a]
	d := b.at[s.b].Sub(s.from)
	if s.len = d.Len(); s.a == s.b {
		if line >= 0 {
			b.fault(Fault{Kind: NoLength, Line: int(line), At: from})
		}
		return
	}
	s.dir = d.Mul(1 / s.len)
	b.segments = append(b.segments, s)
}

func (b *builder) fault(f Fault) {
	if len(b.faults) < maxReports {
		b.faults = append(b.faults, f)
	}
}

func (b *builder) build(polygons []plane.Polygon) *Partition {
	p := &Partition{tiled: b.tile}
	if b.outline.Area() <= plane.Tol*b.outline.Length() {
		b.faults = append([]Fault{{Kind: BadOutline, Line: -1, Other: -1}}, b.faults...)
	}
	if len(b.faults) > 0 {
		p.Faults = b.faults
		return p
	}
	if b.meet(); len(b.hits) > maxHits {
		b.fault(Fault{Kind: TooMany, Line: -1, Other: -1})
	} else {
		b.divide()
		b.assemble(p, polygons)
	}
	p.Gap, p.Faults = b.gap, b.faults
	return p
}

// meet finds every point of a segment on another: ends that lie on it, and
// crossings.
func (b *builder) meet() {
	low, high := b.outline.Box()
	g := newCells(low, high, b.segments)
	for v := range b.at {
		c := g.of(b.at[v])
		for _, i := range g.list[g.start[c]:g.start[c+1]] {
			b.touch(i, int32(v))
		}
	}
	for c := 0; c < g.nx*g.ny && len(b.hits) <= maxHits; c++ {
		list := g.list[g.start[c]:g.start[c+1]]
		for k, i := range list {
			if len(b.hits) > maxHits {
				break
			}
			for _, j := range list[:k] {
				if at, ok := b.cross(&b.segments[i], &b.segments[j]); ok && g.of(at) == c {
					b.crossing(i, j, at)
				}
			}
		}
	}
}

// touch notes whether a point lies on a segment, between its ends.
func (b *builder) touch(i, v int32) {
	s := &b.segments[i]
	if v == s.a || v == s.b {
		return
	}
	p := b.at[v]
	d, t := math.Abs(s.offset(p)), s.along(p)
	switch {
	case t <= 0 || t >= s.len:
	case d <= plane.Tol:
		b.gap.zero(d)
		b.hits = append(b.hits, hit{i, v, t})
	default:
		b.gap.apart(d)
		// Near its ends the pair of points says it already.
		if d <= b.near && t > b.near && t < s.len-b.near {
			b.suspect(p, s.from.Add(s.dir.Mul(t)), d)
		}
	}
}

func (b *builder) suspect(p, q plane.Point, d float64) {
	for _, n := range b.nearly {
		if n.A.Same(p) && n.B.Same(q) || n.A.Same(q) && n.B.Same(p) {
			return
		}
	}
	if len(b.nearly) < maxReports {
		b.nearly = append(b.nearly, Near{p, q, d})
	}
}

// cross returns where the insides of two segments cross. Ends on a segment are
// the work of touch, so no end may be within the tolerance of the other line.
func (b *builder) cross(s, t *segment) (at plane.Point, ok bool) {
	d1 := s.offset(t.from)
	d2 := d1 + s.dir.Cross(t.dir)*t.len
	if !opposite(d1, d2) {
		return at, false
	}
	e1 := t.offset(s.from)
	e2 := e1 + t.dir.Cross(s.dir)*s.len
	if !opposite(e1, e2) {
		return at, false
	}
	return t.from.Add(t.dir.Mul(t.len * d1 / (d1 - d2))), true
}

// opposite reports whether two distances lie clearly on either side of zero.
func opposite(d, e float64) bool {
	return d > plane.Tol && e < -plane.Tol || d < -plane.Tol && e > plane.Tol
}

// crossing notes the point on both segments.
func (b *builder) crossing(i, j int32, at plane.Point) {
	s, t := &b.segments[i], &b.segments[j]
	if s.outline && t.outline {
		b.fault(Fault{Kind: BadOutline, At: at, Line: -1, Other: -1})
		return
	}
	v := b.snapper.add(at)
	b.hits = append(b.hits, hit{i, v, s.along(at)}, hit{j, v, t.along(at)})
}

// divide cuts every segment at its hits into edges. Where segments lie on each
// other, the edge is kept once, the outline's or the first line's.
func (b *builder) divide() {
	start := make([]int32, len(b.segments)+2)
	for _, h := range b.hits {
		start[h.segment+2]++
	}
	for i := 2; i < len(start); i++ {
		start[i] += start[i-1]
	}
	sorted := make([]hit, len(b.hits))
	for _, h := range b.hits {
		sorted[start[h.segment+1]] = h
		start[h.segment+1]++
	}
	b.seen = newEdgeSet(len(b.segments) + len(b.hits))
	b.edges = make([]Edge, 0, len(b.segments)+len(b.hits))
	for i := range b.segments {
		s, on := &b.segments[i], sorted[start[i]:start[i+1]]
		slices.SortFunc(on, func(p, q hit) int { return cmp.Compare(p.t, q.t) })
		last := s.a
		for _, h := range on {
			last = b.edge(s, last, h.point)
		}
		b.edge(s, last, s.b)
	}
}

// edge adds an edge of a segment unless it is there already, and returns its end.
func (b *builder) edge(s *segment, from, to int32) int32 {
	if from == to {
		return to
	}
	e, isNew := b.seen.add(from, to, int32(len(b.edges)))
	if isNew {
		edge := Edge{From: int(from), To: int(to), Left: -1, Right: -1, Seam: -1, Line: int(s.line)}
		if s.outline {
			edge.Seam = outlineEdge
		}
		b.edges = append(b.edges, edge)
	}
	if b.tile && !s.outline {
		b.own(&b.edges[e], int(s.line), int(from))
	}
	return to
}

// outlineEdge marks the outline's edges until seams are numbered.
const outlineEdge = -2

// An edgeSet numbers pairs of points, in either order.
type edgeSet []struct {
	key uint64 // never 0, as a pair's points differ
	id  int32
}

func newEdgeSet(n int) edgeSet {
	size := 64
	for size < 2*n {
		size *= 2
	}
	return make(edgeSet, size)
}

// add returns the number of a pair: id if it is new.
func (t edgeSet) add(a, b, id int32) (int32, bool) {
	key := uint64(min(a, b))<<32 | uint64(max(a, b))
	mask := uint64(len(t) - 1)
	for i := mix(key) & mask; ; i = (i + 1) & mask {
		switch t[i].key {
		case key:
			return t[i].id, false
		case 0:
			t[i].key, t[i].id = key, id
			return id, true
		}
	}
}
