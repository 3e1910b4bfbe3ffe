package solver

import (
	"math"
	"math/rand"
	"slices"

	"seamwright/compiler/plane"
)

// A block is a drawing for tests, made by cutting polygons with straight lines.
// Its geometry shares nothing with the package but the point type.
type block struct {
	outline plane.Polygon
	faces   []plane.Polygon
}

// A family says how the lines of random blocks run.
type family struct {
	name       string
	directions int  // of the lines, evenly spread; 0 for any
	lattice    bool // cut points are snapped to a lattice
	cross      bool // lines may run on through several faces
	merge      bool // some neighbours are then united
	notch      bool // some faces on the border are then taken away
}

var families = []family{
	{name: "any direction, T only"},
	{name: "any direction, crossings", cross: true},
	{name: "4 directions on a lattice", directions: 4, lattice: true, cross: true},
	{name: "4 directions, T only", directions: 4, lattice: true},
	{name: "8 directions, crossings", directions: 8, cross: true},
	{name: "axis", directions: 2, lattice: true, cross: true},
	{name: "4 directions, merged", directions: 4, lattice: true, cross: true, merge: true},
	{name: "axis, merged", directions: 2, lattice: true, cross: true, merge: true},
	{name: "any direction, merged", cross: true, merge: true},
	{name: "axis, notched", directions: 2, lattice: true, cross: true, notch: true},
	{name: "4 directions, notched", directions: 4, lattice: true, cross: true, notch: true},
	{name: "any direction, notched", cross: true, notch: true},
}

const (
	testSide = 8.0  // of the square that random blocks are cut from
	testTol  = 1e-7 // far below every distance that the generator leaves
	testMin  = 0.02 // ... between different points
)

// random makes a block of at most n faces.
func (f family) random(r *rand.Rand, n int) block {
	side := testSide
	if f.directions == 0 {
		side = 1 + 15*r.Float64()
	}
	b := block{outline: plane.Polygon{{X: 0, Y: 0}, {X: side, Y: 0}, {X: side, Y: side}, {X: 0, Y: side}}}
	b.faces = []plane.Polygon{slices.Clone(b.outline)}
	most := n
	if f.merge {
		most += n / 2
	}
	for tries := 0; len(b.faces) < most && tries < 40*n; tries++ {
		f.cut(r, &b, most)
	}
	for tries := 0; f.merge && tries < 200 && (len(b.faces) > n || tries < n/2); tries++ {
		b.merge(r)
	}
	if f.notch {
		for k := 1 + r.Intn(3); k > 0 && len(b.faces) > 2; k-- {
			b.notch(r)
		}
	}
	return b
}

// cut draws one more line, through one face or more.
func (f family) cut(r *rand.Rand, b *block, most int) {
	face := b.faces[r.Intn(len(b.faces))]
	p := middle(face)
	if r.Intn(3) == 0 { // aim at a corner that is there already
		p = b.faces[r.Intn(len(b.faces))][0]
	} else {
		low, high := face.Box()
		p = plane.Point{X: low.X + r.Float64()*(high.X-low.X), Y: low.Y + r.Float64()*(high.Y-low.Y)}
	}
	angle := r.Float64() * math.Pi
	if f.directions > 0 {
		angle = math.Pi * float64(r.Intn(f.directions)) / float64(f.directions)
	}
	d := plane.Point{X: math.Cos(angle), Y: math.Sin(angle)}
	if f.lattice {
		p = plane.Point{X: math.Round(2*p.X) / 2, Y: math.Round(2*p.Y) / 2}
		if f.directions <= 4 {
			d = plane.Point{X: math.Round(1.3 * d.X), Y: math.Round(1.3 * d.Y)}
		}
	}
	type part struct{ face, order int }
	var through []part
	order := make([]float64, len(b.faces))
	for i, q := range b.faces {
		if l, m := clip(q, p, d, 1), clip(q, p, d, -1); len(l) > 2 && len(m) > 2 {
			order[i] = along(q, p, d)
			through = append(through, part{i, 0})
		}
	}
	if len(through) == 0 {
		return
	}
	slices.SortFunc(through, func(a, b part) int {
		if order[a.face] < order[b.face] {
			return -1
		}
		return 1
	})
	from := r.Intn(len(through))
	to := from + 1
	for f.cross && to < len(through) && r.Intn(4) != 0 {
		to++
	}
	faces := slices.Clone(b.faces)
	for _, t := range through[from:to] {
		faces[t.face] = clip(b.faces[t.face], p, d, 1)
		faces = append(faces, clip(b.faces[t.face], p, d, -1))
	}
	if len(faces) <= most && wellSpaced(faces) {
		b.faces = faces
	}
}

func middle(q plane.Polygon) (m plane.Point) {
	for _, p := range q {
		m = m.Add(p.Mul(1 / float64(len(q))))
	}
	return m
}

// along says where along the line through p the middle of its stretch in q lies.
func along(q plane.Polygon, p, d plane.Point) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range clip(q, p, d, 1) {
		if math.Abs(d.Cross(c.Sub(p))) < testTol {
			low, high = min(low, d.Dot(c.Sub(p))), max(high, d.Dot(c.Sub(p)))
		}
	}
	return (low + high) / 2
}

// clip returns what lies on one side (1 left, -1 right) of the line through p.
func clip(q plane.Polygon, p, d plane.Point, side float64) plane.Polygon {
	var out plane.Polygon
	off := func(c plane.Point) float64 {
		v := side * d.Cross(c.Sub(p)) / d.Len()
		if math.Abs(v) < testTol {
			return 0
		}
		return v
	}
	for i, a := range q {
		b := q[(i+1)%len(q)]
		u, v := off(a), off(b)
		if u >= 0 {
			out = append(out, a)
		}
		if u*v < 0 {
			out = append(out, a.Add(b.Sub(a).Mul(u/(u-v))))
		}
	}
	area := 0.0
	for i := range out {
		area += out[i].Cross(out[(i+1)%len(out)])
	}
	if area < 1e-9 {
		return nil
	}
	return out
}

// wellSpaced reports whether different corners, and corners and sides, keep their
// distance.
func wellSpaced(faces []plane.Polygon) bool {
	var points []plane.Point
	for _, f := range faces {
		points = append(points, f...)
	}
	for i, p := range points {
		for _, q := range points[:i] {
			if d := p.Dist(q); d > testTol && d < testMin {
				return false
			}
		}
		for _, f := range faces {
			for k := range f {
				if d := f.Side(k).Nearest(p).Dist(p); d > testTol && d < testMin {
					return false
				}
			}
		}
	}
	return true
}

// merge unites two neighbours whose union is convex and whose shared border is a
// whole side of it.
func (b *block) merge(r *rand.Rand) {
	i := r.Intn(len(b.faces))
	for j := range b.faces {
		if j == i {
			continue
		}
		points := append(slices.Clone(b.faces[i]), b.faces[j]...)
		h := hull(points)
		if math.Abs(h.Area()-b.faces[i].Area()-b.faces[j].Area()) < 1e-6 {
			b.faces[i] = h
			b.faces = slices.Delete(b.faces, j, j+1)
			return
		}
	}
}

// notch takes a face on the border away, if the rest stays one polygon.
func (b *block) notch(r *rand.Rand) {
	i := r.Intn(len(b.faces))
	rest := slices.Delete(slices.Clone(b.faces), i, i+1)
	if around := boundary(rest); around != nil {
		b.faces, b.outline = rest, around
	}
}

// boundary returns the one polygon around all faces, or nil if there is none: the
// sides, cut at every corner that lies on them, that no other face shares.
func boundary(faces []plane.Polygon) plane.Polygon {
	var corners []plane.Point
	number := func(p plane.Point) int {
		for i, q := range corners {
			if p.Dist(q) < testTol {
				return i
			}
		}
		corners = append(corners, p)
		return len(corners) - 1
	}
	for _, f := range faces {
		for _, p := range f {
			number(p)
		}
	}
	type edge struct{ a, b int }
	edges := map[edge]bool{}
	for _, f := range faces {
		for k := range f {
			s := f.Side(k)
			var on []int
			for i, p := range corners {
				if s.Nearest(p).Dist(p) < testTol {
					on = append(on, i)
				}
			}
			slices.SortFunc(on, func(i, j int) int {
				if s.Along(corners[i]) < s.Along(corners[j]) {
					return -1
				}
				return 1
			})
			for i := 1; i < len(on); i++ {
				edges[edge{on[i-1], on[i]}] = true
			}
		}
	}
	next := map[int]int{}
	for e := range edges {
		if !edges[edge{e.b, e.a}] {
			if _, twice := next[e.a]; twice {
				return nil
			}
			next[e.a] = e.b
		}
	}
	start := len(corners)
	for a := range next {
		start = min(start, a)
	}
	var around plane.Polygon
	for v := start; len(around) == 0 || v != start; v = next[v] {
		around = append(around, corners[v])
	}
	if len(around) != len(next) {
		return nil
	}
	return around
}

// hull returns the convex hull, anticlockwise, without corners on its sides.
func hull(points []plane.Point) plane.Polygon {
	slices.SortFunc(points, func(a, b plane.Point) int {
		if a.X < b.X || a.X == b.X && a.Y < b.Y {
			return -1
		}
		return 1
	})
	half := func(list []plane.Point) plane.Polygon {
		var h plane.Polygon
		for _, p := range list {
			for len(h) > 1 && h[len(h)-1].Sub(h[len(h)-2]).Cross(p.Sub(h[len(h)-2])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	low := half(points)
	slices.Reverse(points)
	all := append(low, half(points)...)
	var bent plane.Polygon
	for i, p := range all {
		a, b := all[(i+len(all)-1)%len(all)], all[(i+1)%len(all)]
		if len(bent) > 0 {
			a = bent[len(bent)-1]
		}
		if p.Sub(a).Cross(b.Sub(a)) > 1e-9 {
			bent = append(bent, p)
		}
	}
	return bent
}

// turned returns the block turned about the origin by an angle in radians.
func (b block) turned(angle float64) block {
	s, c := math.Sincos(angle)
	turn := func(q plane.Polygon) plane.Polygon {
		out := make(plane.Polygon, len(q))
		for i, p := range q {
			out[i] = plane.Point{X: c*p.X - s*p.Y, Y: s*p.X + c*p.Y}
		}
		return out
	}
	t := block{outline: turn(b.outline)}
	for _, f := range b.faces {
		t.faces = append(t.faces, turn(f))
	}
	return t
}
