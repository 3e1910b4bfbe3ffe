package solver

import (
	"cmp"
	"slices"
)

// A settler makes one plan of what is known of the pieces of a part. The pieces
// were solved each for itself, and their sections might not be sewable to each
// other. It cuts along all chords that divide no section, which costs nothing;
// what is left then is solved anew, as a whole if it is small, else in two halves.
type settler struct {
	*work
	label []int32 // of a face: its section
}

func newSettler(m *mesh) *settler { return &settler{work: newWork(m), label: make([]int32, m.faces())} }

// percolate cuts a part along every chord that runs between sections.
func (t *settler) percolate(p part, sections []part) {
	for i, s := range sections {
		for _, f := range s {
			t.label[f] = int32(i)
		}
	}
	t.cutAlong(p, t.label, nil)
}

// A knot is a part in which sections can't be sewn to each other.
type knot struct {
	part
	sections []part
}

// knots returns the knots of a part, and the sections that lie in none of them.
func (t *settler) knots(p part, sections []part) (knots []knot, free []part) {
	t.percolate(p, sections)
	for _, s := range sections {
		f := s[0]
		if t.seen[f] == t.stamp {
			continue
		}
		q := t.flood(nil, f)
		if len(q) == len(s) {
			free = append(free, s)
			continue
		}
		k := knot{part: q}
		for _, f := range q {
			if i := t.label[f]; sections[i][0] == f {
				k.sections = append(k.sections, sections[i])
			}
		}
		knots = append(knots, k)
	}
	return knots, free
}

// A candidate is a cut of a knot.
type candidate struct {
	chord
	hurt int // sections it divides
}

// candidates is how many cuts of a large knot are looked at closely.
const candidates = 16

// halve cuts a knot along the chord that divides the fewest sections for what it
// takes off.
func (t *settler) halve(k knot, allows func(a, b part) bool) (left, right part) {
	for i, s := range k.sections {
		for _, f := range s {
			t.label[f] = int32(i)
		}
	}
	p := k.part
	var list []candidate
	for _, c := range t.chords(p, nil) {
		list = append(list, candidate{c, t.hurt(c)})
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(a.hurt, b.hurt) })
	best := -1.0
	tried := 0
	for _, c := range list {
		if tried >= candidates && best >= 0 {
			break
		}
		tried++
		a, b := t.split(p, c.chord)
		n := min(len(a), len(b))
		score := float64(n) / float64((c.hurt+1)*(c.hurt+1))
		if score > best && allows(a, b) {
			best, left, right = score, a, b
		}
	}
	return left, right
}

// hurt counts the sections that a chord divides.
func (t *settler) hurt(c chord) int {
	n, last := 0, int32(-1)
	for i := c.from; i < c.to; i++ {
		e := t.edge(c.seam, i)
		l := t.label[t.mesh.left[e]]
		if l == t.label[t.mesh.right[e]] && l != last {
			n++
			last = l
		}
	}
	return n
}

// within returns the sections of a knot inside one half of it, those that lie in
// both halves cut down to it, and which those are.
func (t *settler) within(half part, sections []part) (inside, cut []part) {
	t.work.sides += 2
	for _, f := range half {
		t.marked[f] = t.work.sides
	}
	for _, s := range sections {
		n := 0
		for _, f := range s {
			if t.marked[f] == t.work.sides {
				n++
			}
		}
		switch {
		case n == len(s):
			inside = append(inside, s)
		case n > 0:
			var q part
			for _, f := range s {
				if t.marked[f] == t.work.sides {
					q = append(q, f)
				}
			}
			cut = append(cut, q)
		}
	}
	return inside, cut
}
