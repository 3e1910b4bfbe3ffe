package pressing

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
)

// near is how far apart, in inches, two ends of seams may be computed and still
// be one point: ten times what sizes lose in rounding, and less than a thread.
const near = 1e-4

// A graph holds which joins must be pressed opposite ways.
type graph struct {
	nodes []node
	met   [][]ending // what ends on each join, in order along it
}

// A node is one join. Its sign is 1 where it is pressed left, -1 where right.
type node struct {
	sign    int8
	edges   []edge
	wish    [2]int // seams of sections that want it left, right
	bulk    [2]int // seams that end on its left, its right
	meet    int    // seams at its fullest point
	sameWay bool   // seams of sections cross it that lie the same way
	clash   bool   // a seam it meets lies the same way: press it open
	seen    bool
	rank    int // in its group
}

// open reports whether a join's side is no question.
func (n *node) open() bool { return n.meet >= crowd || n.sameWay }

// An edge says that another join's sign should be times this one's.
type edge struct {
	to    int
	times int8
}

// An ending is a seam that ends on a join.
type ending struct {
	at      float64 // along the join
	left    bool    // of the join
	join    int     // which join ends here; -1 for a seam of a section
	drawing int     // then the section's
	piece   int     // and the index of the piece whose seam it is
	lies    int8    // 1 if the seam, pressed to its own left, lies along the join, -1 if against
}

// graphOf collects what meets at the points of all joins. Seams in flip, by drawing and
// piece, either of which may be nil, are taken as lying the other way.
func graphOf(s *pattern.Sized, flip [][]bool) *graph {
	met := make([][]ending, len(s.Joins))
	g := &graph{nodes: make([]node, len(s.Joins)), met: met}
	f := finder{sized: s, ends: map[[2]int64][]int{}, flip: flip}
	for i := range s.Joins { // joins end only on later ones
		met[i] = f.along(i)
		g.crowded(i, s.Joins[i].Points, &s.Joins[i], met[i])
		f.add(i)
	}
	for i := range s.Joins {
		g.cross(&s.Joins[i], met[i])
	}
	for i := range s.Joins {
		if k := s.Joins[i].Begins - 1; k >= 0 && !g.nodes[i].open() && !g.nodes[k].open() {
			times := alike(&s.Joins[i], &s.Joins[k])
			g.nodes[i].edges = append(g.nodes[i].edges, edge{k, times})
			g.nodes[k].edges = append(g.nodes[k].edges, edge{i, times})
		}
	}
	return g
}

// alike is 1 where both parts of a partial seam run the same way, else -1.
func alike(a, b *pattern.Join) int8 {
	if line(a.A, a.B).Dir().Dot(line(b.A, b.B).Dir()) < 0 {
		return -1
	}
	return 1
}

// A finder finds what ends on a join.
type finder struct {
	sized *pattern.Sized
	ends  map[[2]int64][]int // joins that end in a cell of the plane
	found []int
	flip  [][]bool // by drawing and piece: the seam lies the other way; nil for none
}

// cells is how many cells there are to the inch; a point is looked up in the
// four that are nearest.
const cells = 64

func (f *finder) add(join int) {
	j := &f.sized.Joins[join]
	for _, p := range [2]pattern.Pos{j.A, j.B} {
		cell := [2]int64{int64(math.Floor(float64(p.X) * cells)), int64(math.Floor(float64(p.Y) * cells))}
		f.ends[cell] = append(f.ends[cell], join)
	}
}

// at returns the joins that may end at a point, in order.
func (f *finder) at(p pattern.Pos) []int {
	x, y := int64(math.Round(float64(p.X)*cells)), int64(math.Round(float64(p.Y)*cells))
	f.found = f.found[:0]
	for _, cell := range [4][2]int64{{x - 1, y - 1}, {x, y - 1}, {x - 1, y}, {x, y}} {
		f.found = append(f.found, f.ends[cell]...)
	}
	slices.Sort(f.found)
	return slices.Compact(f.found)
}

// along returns the seams that end on a join in order along it, its own ends left
// out.
func (f *finder) along(join int) []ending {
	j := &f.sized.Joins[join]
	l := line(j.A, j.B).Ray()
	var all []ending
	for side, copies := range [2][]int{j.Left, j.Right} {
		for k, c := range copies {
			all = f.inside(all, &l, side == 0, c)
			if k > 0 {
				all = f.between(all, &l, side == 0, copies[k-1])
			}
		}
	}
	slices.SortStableFunc(all, func(a, b ending) int { return cmp.Compare(a.at, b.at) })
	return all
}

// inside adds the seams of one copy that end on a line.
func (f *finder) inside(all []ending, l *plane.Ray, left bool, c int) []ending {
	place := &f.sized.Copies[c]
	move := place.Motion()
	for i := range f.sized.Drawings[place.Drawing].Pieces {
		p := &f.sized.Drawings[place.Drawing].Pieces[i]
		if p.Seam[0] != p.Seam[1] {
			before := len(all)
			all = endOn(all, l, line(move(p.Seam[0]), move(p.Seam[1])), left, -1)
			if len(all) > before {
				e := &all[before]
				e.drawing, e.piece = place.Drawing, i
				if f.flip != nil && f.flip[place.Drawing] != nil && f.flip[place.Drawing][i] {
					e.lies = -e.lies
				}
			}
		}
	}
	return all
}

// between adds the joins that end on a line where a copy along it ends.
func (f *finder) between(all []ending, l *plane.Ray, left bool, c int) []ending {
	place := &f.sized.Copies[c]
	move, far := place.Motion(), 0.0
	var end pattern.Pos
	for _, q := range f.sized.Drawings[place.Drawing].Outline {
		q = move(q)
		if p := point(q); math.Abs(l.Offset(p)) <= near && l.Along(p) > far {
			far, end = l.Along(p), q
		}
	}
	for _, k := range f.at(end) {
		j := &f.sized.Joins[k]
		before := len(all)
		all = endOn(all, l, line(j.A, j.B), left, k)
		if n := len(all); n > before && math.Abs(all[n-1].at-far) > near {
			all = all[:before]
		}
	}
	return all
}

// endOn adds a seam if it ends on a line, within it and on that side.
func endOn(all []ending, l *plane.Ray, seam plane.Line, left bool, join int) []ending {
	first, second := l.Offset(seam.A), l.Offset(seam.B)
	if math.Abs(first) > near && math.Abs(second) > near {
		return all // as most do not
	}
	for i, off := range [2]float64{first, second} {
		if math.Abs(off) > near {
			continue
		}
		at, other := l.Along(seam.A), second
		if i == 1 {
			at, other = l.Along(seam.B), first
		}
		if at < near || at > l.Len-near || math.Abs(other) <= near || other > 0 != left {
			continue
		}
		lies := int8(1)
		d := seam.B.Sub(seam.A)
		if (plane.Point{X: -d.Y, Y: d.X}).Dot(l.Dir) < 0 {
			lies = -1
		}
		return append(all, ending{at: at, left: left, join: join, lies: lies})
	}
	return all
}

// crowded counts what ends on a join and finds what is pressed open anyway.
func (g *graph) crowded(join int, points []pattern.Pos, j *pattern.Join, met []ending) {
	n := &g.nodes[join]
	for _, e := range met {
		if e.left {
			n.bulk[0]++
		} else {
			n.bulk[1]++
		}
	}
	for _, p := range points {
		left, right := meeting(j, p, met)
		n.meet = max(n.meet, 2+len(left)+len(right))
		for _, a := range left {
			for _, b := range right {
				n.sameWay = n.sameWay || a.join < 0 && b.join < 0 && a.lies == b.lies
			}
		}
	}
}

// meeting returns what ends at one point of a join, on its left and its right.
func meeting(j *pattern.Join, p pattern.Pos, met []ending) (left, right []ending) {
	at := line(j.A, j.B).Along(point(p))
	first, _ := slices.BinarySearchFunc(met, at-near, func(e ending, at float64) int { return cmp.Compare(e.at, at) })
	for _, e := range met[first:] {
		switch {
		case e.at > at+near:
			return left, right
		case e.left:
			left = append(left, e)
		default:
			right = append(right, e)
		}
	}
	return left, right
}

// cross adds what must lie opposite ways at the points of a join. Where too many
// seams meet nothing nests.
func (g *graph) cross(j *pattern.Join, met []ending) {
	for _, p := range j.Points {
		left, right := meeting(j, p, met)
		if 2+len(left)+len(right) >= crowd {
			continue
		}
		for _, a := range left {
			for _, b := range right {
				g.oppose(a, b)
			}
		}
	}
}

// oppose adds that two seams should lie opposite ways. Seams of sections are
// pressed left, always: their newer piece lies there.
func (g *graph) oppose(a, b ending) {
	if a.join < 0 {
		a, b = b, a
	}
	if a.join < 0 || g.nodes[a.join].open() || b.join >= 0 && g.nodes[b.join].open() {
		return
	}
	n := &g.nodes[a.join]
	if b.join >= 0 {
		n.edges = append(n.edges, edge{b.join, -a.lies * b.lies})
		g.nodes[b.join].edges = append(g.nodes[b.join].edges, edge{a.join, -a.lies * b.lies})
		return
	}
	if -a.lies*b.lies > 0 {
		n.wish[0]++
	} else {
		n.wish[1]++
	}
}

func line(a, b pattern.Pos) plane.Line { return plane.Line{A: point(a), B: point(b)} }

func point(p pattern.Pos) plane.Point { return plane.Point{X: float64(p.X), Y: float64(p.Y)} }
