package solver

// A tangle is a knot that was solved as a whole, and needs more sections than its
// pieces do.
type tangle struct {
	part
	least int
}

// A raiser finds a better bound of a part than what its pieces need together
// (THEORY.md 6): in every plan at least so many sections have a face in a tangle as
// the tangle needs by itself. The sections of pieces that it doesn't touch come on
// top of these, and so do as many as there are faces outside of it, no two of
// which can share a section with each other, nor one with a face of the tangle.
type raiser struct {
	near   *grower
	pieces []part
	solved []solved
	piece  []int32 // of a face
	in     []int32 // of a face: the tangle that holds it, from 1 on
	bounds []int   // of a piece: sections without a face in a tangle

	touched []int32 // of a piece: a tangle that touches it
}

func newRaiser(near *grower, pieces []part, solved []solved) *raiser {
	r := &raiser{near: near, pieces: pieces, solved: solved,
		piece: make([]int32, near.faces()), in: make([]int32, near.faces()),
		touched: make([]int32, len(pieces)), bounds: make([]int, len(pieces))}
	for i, q := range pieces {
		r.bounds[i] = solved[i].bound
		for _, f := range q {
			r.piece[f] = int32(i)
		}
	}
	return r
}

// raiseFaces is up to how many faces a piece is looked at for each tangle that
// touches it.
const raiseFaces = 256

// raise returns by how much a tangle raises the bound.
func (r *raiser) raise(id int32, t tangle) int {
	var touched []int32
	clear := true
	for _, f := range t.part {
		clear = clear && r.in[f] == 0 && len(r.pieces[r.piece[f]]) <= raiseFaces
	}
	if !clear {
		return 0
	}
	for _, f := range t.part {
		r.in[f] = id
		if i := r.piece[f]; r.touched[i] != id {
			r.touched[i] = id
			touched = append(touched, i)
		}
	}
	more := t.least
	rest := make([]int, len(touched))
	for k, i := range touched {
		n, ok := r.outside(i)
		if !ok {
			more = 0
			break
		}
		rest[k] = n
		more += n - r.bounds[i]
	}
	if more <= 0 {
		for _, f := range t.part {
			r.in[f] = 0
		}
		return 0
	}
	for k, i := range touched {
		r.bounds[i] = rest[k]
	}
	return more
}

// outside finds, for a piece, faces outside of tangles, no two of which can share
// a section with each other, nor one with a face in a tangle. It reports false if
// a section may reach into two tangles.
func (r *raiser) outside(i int32) (n int, ok bool) {
	rim := r.rim(i)
	for k, f := range rim {
		for _, g := range rim[:k] {
			if r.in[f] != r.in[g] && r.near.share(f, g) {
				return 0, false
			}
		}
	}
	var sections []part
	for _, s := range r.solved[i].sections {
		var free part
		for _, f := range s {
			if r.in[f] == 0 && !r.reaches(f, rim) {
				free = append(free, f)
			}
		}
		if len(free) > 0 {
			sections = append(sections, free)
		}
	}
	return len(r.near.spread(sections)), true
}

// rim lists the faces of a piece that lie in tangles and have neighbours outside:
// a section that reaches into a tangle from outside has one.
func (r *raiser) rim(i int32) (rim []int32) {
	for _, f := range r.pieces[i] {
		if r.in[f] == 0 {
			continue
		}
		for _, h := range r.near.halves(f) {
			if g := r.near.other(h); r.piece[g] == i && r.in[g] != r.in[f] {
				rim = append(rim, f)
				break
			}
		}
	}
	return rim
}

func (r *raiser) reaches(f int32, rim []int32) bool {
	for _, g := range rim {
		if r.near.share(f, g) {
			return true
		}
	}
	return false
}
