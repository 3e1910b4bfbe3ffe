package solver

import (
	"math"
	"math/bits"
	"slices"

	"seamwright/compiler/plane"
)

// The oracle solves a block by trying everything: every way to divide every set
// of faces in two. It knows polygons and the definition of a join, and none of
// the package's methods.
type oracle struct {
	faces    []plane.Polygon
	shared   [][][]plane.Line // shared[i][j]: where faces i and j touch, along i's side
	adjacent []uint
	least    []int // of a set: fewest sections; 0 where it can't be sewn
	section  []bool
	firsts   []uint
	linked   []bool
	parts    map[uint]bool
}

func newOracle(faces []plane.Polygon) *oracle {
	n := len(faces)
	o := &oracle{faces: faces, adjacent: make([]uint, n)}
	o.shared = make([][][]plane.Line, n)
	for i := range faces {
		o.shared[i] = make([][]plane.Line, n)
		for j := range faces {
			if i == j {
				continue
			}
			o.shared[i][j] = touching(faces[i], faces[j])
			if len(o.shared[i][j]) > 0 {
				o.adjacent[i] |= 1 << j
			}
		}
	}
	o.linked = make([]bool, 1<<n)
	for set := uint(1); set < 1<<n; set++ {
		o.linked[set] = o.connected(set)
	}
	return o
}

// touching lists the stretches along which two polygons touch.
func touching(p, q plane.Polygon) []plane.Line {
	var list []plane.Line
	for i := range p {
		s := p.Side(i)
		d := s.B.Sub(s.A)
		for j := range q {
			t := q.Side(j)
			if math.Abs(d.Cross(t.A.Sub(s.A)))/d.Len() > 10*testTol || math.Abs(d.Cross(t.B.Sub(s.A)))/d.Len() > 10*testTol {
				continue
			}
			u, v := d.Dot(t.A.Sub(s.A))/d.Dot(d), d.Dot(t.B.Sub(s.A))/d.Dot(d)
			low, high := max(0, min(u, v)), min(1, max(u, v))
			if (high-low)*d.Len() > testMin/4 {
				list = append(list, plane.Line{A: s.A.Add(d.Mul(low)), B: s.A.Add(d.Mul(high))})
			}
		}
	}
	return list
}

func (o *oracle) connected(set uint) bool {
	got := set & -set
	for {
		more := got
		for s := got; s != 0; s &= s - 1 {
			more |= o.adjacent[bits.TrailingZeros(s)] & set
		}
		if more == got {
			return got == set
		}
		got = more
	}
}

// join reports whether two sets can be sewn along one straight line: they touch
// along one straight stretch without a gap. It returns the stretch.
func (o *oracle) join(a, b uint) (plane.Line, bool) {
	if a == 0 || b == 0 || !o.linked[a] || !o.linked[b] {
		return plane.Line{}, false
	}
	var line plane.Line
	var from, to []float64
	for s := a; s != 0; s &= s - 1 {
		i := bits.TrailingZeros(s)
		for t := o.adjacent[i] & b; t != 0; t &= t - 1 {
			for _, l := range o.shared[i][bits.TrailingZeros(t)] {
				if from == nil {
					line = l
				}
				d := line.B.Sub(line.A)
				d = d.Mul(1 / d.Len())
				for _, p := range [2]plane.Point{l.A, l.B} {
					if math.Abs(d.Cross(p.Sub(line.A))) > 100*testTol {
						return plane.Line{}, false
					}
				}
				u, v := d.Dot(l.A.Sub(line.A)), d.Dot(l.B.Sub(line.A))
				from, to = append(from, min(u, v)), append(to, max(u, v))
			}
		}
	}
	if from == nil {
		return plane.Line{}, false
	}
	slices.Sort(from)
	slices.Sort(to)
	for i := 1; i < len(from); i++ {
		if math.Abs(from[i]-to[i-1]) > 100*testTol {
			return plane.Line{}, false
		}
	}
	d := line.B.Sub(line.A)
	d = d.Mul(1 / d.Len())
	return plane.Line{A: line.A.Add(d.Mul(from[0])), B: line.A.Add(d.Mul(to[len(to)-1]))}, true
}

// adds reports whether face f can be sewn to the section set on paper: a join,
// with all of the set on the other side of its line.
func (o *oracle) adds(set uint, f int) bool {
	l, ok := o.join(set, 1<<f)
	if !ok {
		return false
	}
	d := l.B.Sub(l.A)
	d = d.Mul(1 / d.Len())
	side := d.Cross(middle(o.faces[f]).Sub(l.A))
	for s := set; s != 0; s &= s - 1 {
		for _, p := range o.faces[bits.TrailingZeros(s)] {
			if c := d.Cross(p.Sub(l.A)); c*side > 0 && math.Abs(c) > 100*testTol {
				return false
			}
		}
	}
	return true
}

// solve fills in the tables and returns the fewest sections of all faces, 0 if
// they can't be sewn.
func (o *oracle) solve() int {
	n := len(o.faces)
	o.least, o.section, o.firsts = make([]int, 1<<n), make([]bool, 1<<n), make([]uint, 1<<n)
	for set := uint(1); set < 1<<n; set++ {
		if !o.linked[set] {
			continue
		}
		if set&(set-1) == 0 {
			o.section[set], o.firsts[set], o.least[set] = true, set, 1
			continue
		}
		for s := set; s != 0; s &= s - 1 {
			f := bits.TrailingZeros(s)
			if rest := set &^ (1 << f); o.section[rest] && o.adds(rest, f) {
				o.section[set] = true
				o.firsts[set] |= o.firsts[rest]
			}
		}
		if o.section[set] {
			o.least[set] = 1
			continue
		}
		low := set & -set
		for a := (set - 1) & set; a != 0; a = (a - 1) & set {
			if a&low == 0 || o.least[a] == 0 || o.least[set&^a] == 0 {
				continue
			}
			c := o.least[a] + o.least[set&^a]
			if o.least[set] != 0 && c >= o.least[set] {
				continue
			}
			if _, ok := o.join(a, set&^a); ok {
				o.least[set] = c
			}
		}
	}
	return o.least[1<<n-1]
}

// divisible reports whether a set can be cut in two at all.
func (o *oracle) divisible(set uint) bool {
	for a := (set - 1) & set; a != 0; a = (a - 1) & set {
		if _, ok := o.join(a, set&^a); ok {
			return true
		}
	}
	return false
}

func setOf(faces []int) uint {
	set := uint(0)
	for _, f := range faces {
		set |= 1 << f
	}
	return set
}

// reachable reports whether cutting the block can produce a set.
func (o *oracle) reachable(set uint) bool {
	if o.parts == nil {
		o.parts = map[uint]bool{}
		o.cutAll(1<<len(o.faces) - 1)
	}
	return o.parts[set]
}

func (o *oracle) cutAll(set uint) {
	if o.parts[set] {
		return
	}
	o.parts[set] = true
	for a := (set - 1) & set; a != 0; a = (a - 1) & set {
		if _, ok := o.join(a, set&^a); ok {
			o.cutAll(a)
			o.cutAll(set &^ a)
		}
	}
}
