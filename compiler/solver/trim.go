package solver

import (
	"math"
	"slices"
)

// A trimmer divides a piece into sections by taking them off its rim, one after
// the other, without looking back: first those that are best taken off in any
// case (THEORY.md 7), then the largest. What it knows of a cut is forgotten only
// where something near was taken off, so its cost is about linear, where search
// looks at all cuts after each.
type trimmer struct {
	*work
	search  *search
	touches [][]int32 // of a face: the edges that become walls without it
	size    int       // of the largest side that is looked at
	left    int       // faces that are left
	fresh   []chord   // cuts to be looked at
	deep    []chord   // cuts with more faces on both sides
	offers  [][]chord // cuts that take off a section, by its size; those at 0 are best
	most    int       // no offers beyond
	sides   [2]part
	found   []part
	looks   []int32   // of an edge: the round in which its chord was looked at
	offered []int32   // of an edge: the round in which a cut that begins with it was
	watch   [][]chord // of a face: cuts that take it off with what is no section yet
	round   int32
	near    []int32 // faces beside what was taken off
	opened  []int32
	checks  [][2]int32 // faces that may not hang together any more
	parts   []part     // what fell off
}

// trimStart is the size of the sides that are looked at first.
const trimStart = 32

func newTrimmer(s *search) *trimmer {
	w := newWork(s.mesh)
	w.walls = s.walls
	t := &trimmer{work: w, search: s, looks: make([]int32, len(w.tail)),
		offered: make([]int32, len(w.tail)), watch: make([][]chord, w.faces())}
	t.touches = make([][]int32, w.faces())
	for e := range w.tail {
		for _, f := range s.walls.with[s.walls.start[e]:s.walls.start[e+1]] {
			t.touches[f] = append(t.touches[f], int32(e))
		}
	}
	return t
}

// trim divides a piece, and returns what is left where no section can be taken
// off any more.
func (t *trimmer) trim(p part) (sections, rest []part) {
	t.found, t.parts = nil, append(t.parts[:0], p)
	for len(t.parts) > 0 {
		q := t.parts[len(t.parts)-1]
		t.parts = t.parts[:len(t.parts)-1]
		if t.search.section(q) == 1 {
			t.found = append(t.found, q)
		} else if r := t.pare(q); len(r) > 0 {
			rest = append(rest, r)
		}
	}
	return t.found, rest
}

// pare takes sections off a piece until none is left that can be, and returns what
// is left. What falls off as a piece of its own is put aside.
func (t *trimmer) pare(p part) (rest part) {
	t.enter(p)
	t.fresh, t.deep = t.fresh[:0], t.deep[:0]
	t.left, t.size, t.most = len(p), max(trimStart, 4*int(math.Sqrt(float64(len(p))))), 0
	for len(t.offers) <= len(p) {
		t.offers = append(t.offers, nil)
	}
	for i := range len(p) + 1 {
		t.offers[i] = t.offers[i][:0]
	}
	t.round++
	for _, f := range p {
		t.watch[f] = t.watch[f][:0]
	}
	for _, f := range p {
		for _, h := range t.halves(f) {
			t.renewAt(int32(h >> 1))
		}
	}
	for moved := 0; ; {
		t.look()
		if c, ok := t.best(); ok {
			if q := t.nearby(t.mesh.left[t.edge(c.seam, c.from)]); q == nil || t.search.section(q) != 1 {
				q, _ = t.side(c)
				t.take(slices.Clone(q))
			} else {
				t.take(q)
			}
			moved++
			continue
		}
		if moved == 0 {
			if t.size >= t.left {
				break
			}
			t.size *= 2
		}
		moved = 0
		t.round++
		t.fresh = append(t.fresh, t.deep...)
		t.deep = t.deep[:0]
	}
	for _, f := range p {
		if t.in[f] == t.stamp {
			rest = append(rest, f)
		}
	}
	return rest
}

// wholeFaces is up to how many faces what is left is tried as one section.
const wholeFaces = 64

// nearby returns everything that hangs together with a face, or nil if that is
// much.
func (t *trimmer) nearby(f int32) part {
	t.work.sides += 2
	q := append(make(part, 0, 16), f)
	t.marked[f] = t.work.sides
	for i := 0; i < len(q); i++ {
		for _, h := range t.halves(q[i]) {
			if g := t.other(h); t.marked[g] != t.work.sides && t.isInner(int32(h>>1)) {
				if len(q) == wholeFaces {
					return nil
				}
				t.marked[g] = t.work.sides
				q = append(q, g)
			}
		}
	}
	return q
}

// take takes a section off, and then all that hangs together with the rest no
// more.
func (t *trimmer) take(side part) {
	t.found = append(t.found, side)
	t.round++
	t.checks = t.checks[:0]
	t.remove(side)
	for i := 0; i < len(t.checks); i++ {
		f, g := t.checks[i][0], t.checks[i][1]
		if t.in[f] != t.stamp || t.in[g] != t.stamp {
			continue
		}
		if q := t.loose(f, g); q != nil {
			t.parts = append(t.parts, q)
			t.remove(q)
		}
	}
}

// remove takes faces out, and has all cuts looked at again that this changes.
func (t *trimmer) remove(side part) {
	t.left -= len(side)
	for _, f := range side {
		t.in[f] = 0
		t.fresh = append(t.fresh, t.watch[f]...)
	}
	t.near, t.opened = t.near[:0], t.opened[:0]
	for _, f := range side {
		for _, h := range t.halves(f) {
			if g := t.other(h); t.in[g] == t.stamp {
				if n := len(t.near); n > 0 {
					t.checks = append(t.checks, [2]int32{t.near[n-1], g})
				}
				t.near = append(t.near, g)
				t.unlock(int32(h >> 1))
			}
		}
	}
	for _, f := range side {
		for _, e := range t.touches[f] {
			if t.isInner(e) {
				t.work.cut[e] = t.stamp
				t.near = append(t.near, t.mesh.left[e], t.mesh.right[e])
				t.checks = append(t.checks, [2]int32{t.mesh.left[e], t.mesh.right[e]})
				t.unlock(e)
			}
		}
	}
	for _, v := range t.opened {
		for _, r := range t.refsAt(v) {
			if r.pos > 0 {
				t.renewAt(t.edge(r.seam, r.pos-1))
			}
			if r.pos < t.last(r.seam) {
				t.renewAt(t.edge(r.seam, r.pos))
			}
		}
	}
	for _, f := range t.near {
		for _, h := range t.halves(f) {
			t.renewAt(int32(h >> 1))
			if g := t.other(h); t.in[g] == t.stamp {
				for _, h := range t.halves(g) {
					t.renewAt(int32(h >> 1))
				}
			}
		}
	}
}

// loose returns what hangs together with one of two faces but not with the other,
// the smaller such part; nil if they hang together, or if it is large.
func (t *trimmer) loose(f, g int32) part {
	t.work.sides += 2
	for k, f := range [2]int32{f, g} {
		t.sides[k] = append(t.sides[k][:0], f)
		t.marked[f] = t.work.sides + int32(k)
	}
	if f == g {
		return nil
	}
	for i := 0; i < looseFaces; i++ {
		for k := range int32(2) {
			list := t.sides[k]
			if i == len(list) {
				return slices.Clone(list)
			}
			for _, h := range t.halves(list[i]) {
				g := t.other(h)
				if !t.isInner(int32(h>>1)) || t.marked[g] == t.work.sides+k {
					continue
				}
				if t.marked[g] == t.work.sides+1-k {
					return nil
				}
				t.marked[g] = t.work.sides + k
				list = append(list, g)
			}
			t.sides[k] = list
		}
	}
	return nil
}

// looseFaces is up to how many faces what falls off is noticed at once.
const looseFaces = 64

// unlock opens the ends of an edge.
func (t *trimmer) unlock(e int32) {
	for _, v := range [2]int32{t.tail[e], t.head[e]} {
		if !t.isOpen(v) {
			t.open[v] = t.stamp
			t.opened = append(t.opened, v)
		}
	}
}
