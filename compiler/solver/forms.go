package solver

import (
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// forms tells which sections are turned or shifted copies of each other.
type forms struct {
	*Partition
	kinds  []int
	spots  []plane.Point // of a face
	tracer *tracer
	list   []form
	like   map[likeKey][]int32 // for look-up only
	known  map[key]int32       // of a part; for look-up only
}

// A form is how a section looks.
type form struct {
	outline plane.Polygon
	spots   []spot
	area    float64
}

// A spot is the centroid of a face.
type spot struct {
	plane.Point
	kind int
}

// A likeKey is what copies share to the bit.
type likeKey struct {
	faces, corners int
	kinds          uint64
}

func newForms(p *Partition, kinds []int) *forms {
	s := &forms{Partition: p, kinds: kinds, spots: make([]plane.Point, p.mesh.faces()),
		tracer: newTracer(p), like: map[likeKey][]int32{}, known: map[key]int32{}}
	for f := range s.spots {
		s.spots[f] = centroid(p.Polygon(f))
	}
	return s
}

// centroid returns the centre of an area, which does not depend on what ends in the
// middle of its sides.
func centroid(q plane.Polygon) plane.Point {
	sum, area := plane.Point{}, 0.0
	for i := 1; i+1 < len(q); i++ {
		u, v := q[i].Sub(q[0]), q[i+1].Sub(q[0])
		a := u.Cross(v)
		sum, area = sum.Add(u.Add(v).Mul(a/3)), area+a
	}
	return q[0].Add(sum.Mul(1 / area))
}

// of returns the number of a section's form.
func (s *forms) of(p part) int32 {
	name := s.mesh.keyOf(p)
	if i, ok := s.known[name]; ok {
		return i
	}
	f := form{outline: s.tracer.polygon(ints(p)), spots: make([]spot, len(p))}
	k := likeKey{faces: len(p), corners: len(f.outline)}
	for i, g := range p {
		f.spots[i] = spot{s.spots[g], s.kinds[g]}
		f.area += s.Patches[g].Area
		k.kinds += mix(uint64(s.kinds[g]) + 0x9e3779b97f4a7c15)
	}
	at := int32(-1)
	for _, i := range s.like[k] {
		if s.list[i].copies(&f) {
			at = i
			break
		}
	}
	if at < 0 {
		at = int32(len(s.list))
		s.list = append(s.list, f)
		s.like[k] = append(s.like[k], at)
	}
	s.known[name] = at
	return at
}

// copies reports whether g is f, turned and shifted.
func (f *form) copies(g *form) bool {
	if math.Abs(f.area-g.area) > quantum {
		return false
	}
	n, longest, most := len(f.outline), 0, 0.0
	for i := range f.outline {
		if d := f.outline.Side(i).Len(); d > most+quantum {
			longest, most = i, d
		}
	}
	from := f.outline.Side(longest)
	for o := range n {
		to := g.outline.Side((longest + o) % n)
		if math.Abs(to.Len()-most) > quantum {
			continue
		}
		u, v := from.Dir(), to.Dir()
		turn := plane.Point{X: u.Dot(v), Y: u.Cross(v)}
		image := func(p plane.Point) plane.Point {
			d := p.Sub(from.A)
			return to.A.Add(plane.Point{X: turn.X*d.X - turn.Y*d.Y, Y: turn.Y*d.X + turn.X*d.Y})
		}
		if f.lies(g, o, image) {
			return true
		}
	}
	return false
}

// lies reports whether a motion that takes f's corner 0 to g's corner o takes all of
// f to g.
func (f *form) lies(g *form, o int, image func(plane.Point) plane.Point) bool {
	for i, c := range f.outline {
		if image(c).Dist(g.outline[(i+o)%len(g.outline)]) > quantum {
			return false
		}
	}
	for _, s := range f.spots {
		at := image(s.Point)
		if !slices.ContainsFunc(g.spots, func(t spot) bool { return t.kind == s.kind && at.Dist(t.Point) <= quantum }) {
			return false
		}
	}
	return true
}
