package testsew

import "math"

// A partial seam is sewn in two goes. What can go wrong is tried here: that it does
// not begin where both parts are flush, that nothing stays open, that no mark tells
// where to stop, that a join sewn in between ends where it is sewn already (which
// would have to be set into a corner), and that the rest finishes nothing.

// begin checks the first part of a partial seam, from j.a to where it stops.
func (t *table) begin(name string, j *joint) {
	l, n := through(j.a, j.b), j.a.to(j.b)
	sides := [2][]stretch{t.stretches(j.left, l), t.opposite(j, l)}
	for side, list := range sides {
		from, to := math.Inf(1), math.Inf(-1)
		for _, s := range list {
			from = min(from, s.from)
			if p := &t.placed[s.copy]; p.paper && s.from < n-fits && s.to > n+fits && !p.stopsAt(j.b) {
				t.fault(name + ": section " + p.name + " has no mark where the seam stops")
			}
		}
		for _, s := range t.around([2][]int{j.left, j.right}[side], j, side) {
			to = max(to, s.to)
		}
		names := t.names([2][]int{j.left, j.right}[side])
		if math.Abs(from) > 2*fits {
			t.fault(name + ": " + names + " is not flush where the partial seam begins")
		}
		if to < n+near {
			t.fault(name + ": nothing of the edge of " + names + " stays open, so the seam is no partial one")
		}
	}
}

// around lists the stretches of a whole part, of which some sections are given, along
// one side of a join: beyond those along it the edge may go on with others.
func (t *table) around(some []int, j *joint, side int) []stretch {
	var members []int
	for c := range t.placed {
		if t.group[c] == t.group[some[0]] {
			members = append(members, c)
		}
	}
	if side == 0 {
		return t.stretches(members, through(j.a, j.b))
	}
	return t.opposite(&joint{a: j.a, b: j.b, right: members}, through(j.a, j.b))
}

func (p *placed) stopsAt(at pt) bool {
	for _, q := range p.stops {
		if q.to(at) < pinSlack {
			return true
		}
	}
	return false
}

// finish checks the join that finishes a partial seam, if this is one.
func (t *table) finish(name string, j *joint) {
	if j.begun == 0 {
		return
	}
	if j.begun < 0 || j.begun >= j.number || t.in.joins[j.begun-1].begins != j.number {
		t.fault(name + " finishes a seam that was not begun")
		return
	}
	first := &t.in.joins[j.begun-1]
	l, n := through(first.a, first.b), first.a.to(first.b)
	if math.Min(first.a.to(j.a), first.a.to(j.b)) > 2*fits || fromSegment(first.b, j.a, j.b) > 2*fits {
		t.fault(name + " does not go on where join " + count(first.number) + " stopped")
	}
	crossed := false
	for i := first.number; i < j.number-1; i++ {
		k := &t.in.joins[i]
		crossed = crossed || fromSegment(first.a, k.a, k.b) < 2*fits
		ends := [2]pt{k.a, k.b}
		if k.begun > 0 { // at its other end it was sewn before
			other := &t.in.joins[k.begun-1]
			ends[0] = other.b
			if other.a.to(k.a) > other.a.to(k.b) {
				ends[1] = k.a
			}
		}
		for _, end := range ends {
			if at := l.along(end); math.Abs(l.side(end)) < 2*fits && at > 2*fits && at < n+2*fits {
				t.fault("join " + count(k.number) + " ends " + figure(at) + " in from where join " + count(first.number) +
					" begins, and it is sewn there already: it would have to be set in")
			}
		}
	}
	if !crossed {
		t.fault(name + " finishes what might have been sewn in one go: no join between runs across its beginning")
	}
}
