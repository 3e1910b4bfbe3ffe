package pressing

import (
	"math"

	"seamwright/compiler/pattern"
)

// firsts finds sections that are better begun with another piece. Seams then lie
// the other way from the piece that was first to the one that is now: all of them
// if a row is sewn from its other end. Only such pieces are thought of from which the
// picture stays the same, and something is told only if fewer joins are pressed open.
func firsts(s *pattern.Sized, now *graph) []pattern.First {
	if !anySameWay(now) {
		return nil
	}
	r := newReorder()
	r.take(s)
	r.collect(0, s, now)
	r.descend()
	told := r.told(0, s)
	if told == nil {
		return nil
	}
	flip := make([][]bool, len(s.Drawings))
	for _, f := range told {
		flip[f.Drawing] = r.turned[r.group[f.Drawing]]
	}
	then := graphOf(s, flip)
	then.solve()
	if then.opened() >= now.opened() {
		return nil
	}
	return told
}

func anySameWay(g *graph) bool {
	for i := range g.nodes {
		if g.nodes[i].sameWay && g.nodes[i].meet < crowd {
			return true
		}
	}
	return false
}

// opened counts the joins that are pressed open.
func (g *graph) opened() (n int) {
	for i := range g.nodes {
		if g.nodes[i].open() || g.nodes[i].clash {
			n++
		}
	}
	return n
}

// groups gives each drawing the one that stands for it: a section and its
// reversed twin are written once, and begun with the same piece.
func groups(s *pattern.Sized) []int {
	group := make([]int, len(s.Drawings))
	for d := range group {
		group[d] = d
		if twin := s.Drawings[d].Reversed; twin >= 0 {
			group[d] = min(d, twin)
		}
	}
	return group
}

// A pair is what meets a seam of a section across a join: a seam of a section too.
type pair struct {
	other [2]int // its group and piece
	same  bool   // as they are written, they lie the same way
	worth int    // of their nesting
}

// A reorder looks for the pieces to begin with. Drawings are those of one block, or of
// several, one after the other. Lists are by group, then by piece.
type reorder struct {
	drawings []*pattern.Drawing
	group    []int             // by drawing: the one that stands for it
	pairs    map[[2]int][]pair // by group and piece: whose seam it is
	trees    [][]int           // see tree; nil where not known yet
	first    []int
	turned   [][]bool // the seam lies the other way than as it is written; nil for none
}

func newReorder() *reorder { return &reorder{pairs: map[[2]int][]pair{}} }

// take adds the drawings of a block.
func (r *reorder) take(s *pattern.Sized) {
	base, n := len(r.drawings), len(s.Drawings)
	for d, g := range groups(s) {
		r.drawings, r.group = append(r.drawings, &s.Drawings[d]), append(r.group, base+g)
	}
	r.trees, r.turned, r.first = append(r.trees, make([][]int, n)...), append(r.turned, make([][]bool, n)...), append(r.first, make([]int, n)...)
}

// told lists what was found for the drawings of a block, the first of which is base.
func (r *reorder) told(base int, s *pattern.Sized) (told []pattern.First) {
	for d := range s.Drawings {
		if piece := r.first[r.group[base+d]]; piece > 0 {
			told = append(told, pattern.First{Drawing: d, Piece: piece})
		}
	}
	return told
}

// withinBlock is what a pair of a block's own seams is worth, against one of a quilt: a
// block is sewn in more ways than the quilts that are told of.
const withinBlock = 1000

// collect finds all pairs of a block, at joins that too many seams don't open anyway.
func (r *reorder) collect(base int, s *pattern.Sized, g *graph) {
	for i := range s.Joins {
		j := &s.Joins[i]
		if g.nodes[i].meet >= crowd {
			continue
		}
		for _, p := range j.Points {
			left, right := meeting(j, p, g.met[i])
			for _, a := range left {
				for _, b := range right {
					if a.join < 0 && b.join < 0 {
						r.add([2]int{base + a.drawing, a.piece}, [2]int{base + b.drawing, b.piece}, a.lies == b.lies, withinBlock)
					}
				}
			}
		}
	}
}

// add keeps a pair, by drawing and piece, at both seams; a seam that meets itself can't be
// helped.
func (r *reorder) add(a, b [2]int, same bool, worth int) {
	a[0], b[0] = r.group[a[0]], r.group[b[0]]
	if a != b {
		r.pairs[a] = append(r.pairs[a], pair{b, same, worth})
		r.pairs[b] = append(r.pairs[b], pair{a, same, worth})
	}
}

// sweeps is how often all sections are gone through; measured on rows of strips,
// two are enough, and each change lessens what lies the same way.
const sweeps = 8

// descend begins sections with another piece, one by one, while more pairs nest
// than before.
func (r *reorder) descend() {
	met := make([]bool, len(r.drawings))
	for at := range r.pairs {
		met[at[0]] = true
	}
	for range sweeps {
		better := false
		for d := range met {
			if met[d] && r.begin(d) {
				better = true
			}
		}
		if !better {
			return
		}
	}
}

// begin chooses the first piece of a group's sections, and reports whether it is
// another than before.
func (r *reorder) begin(d int) bool {
	if r.trees[d] == nil {
		r.trees[d] = r.tree(d)
		r.turned[d] = make([]bool, len(r.trees[d]))
	}
	was := r.first[d]
	r.turn(d, was) // as it is written
	t := trial{reorder: r, group: d, at: make([]int, len(r.trees[d]))}
	t.from(0)
	best := was
	for k, older := range r.trees[d] {
		if (k == 0 || older >= 0) && t.at[k] < t.at[best] {
			best = k
		}
	}
	r.turn(d, best)
	r.first[d] = best
	return best != was
}

// turn turns the seams between the piece written first and another one.
func (r *reorder) turn(d, piece int) {
	for ; piece > 0; piece = r.trees[d][piece] {
		r.turned[d][piece] = !r.turned[d][piece]
	}
}

// A trial counts, for every piece that a group may begin with, what the pairs are worth
// that lie the same way then, against what is written.
type trial struct {
	*reorder
	group, now int
	at         []int
}

// from counts for a piece and all that follow from it, one seam turned at a time.
func (t *trial) from(piece int) {
	t.at[piece] = t.now
	for k, older := range t.trees[t.group] {
		if k > 0 && older == piece {
			t.flip(k)
			t.from(k)
			t.flip(k)
		}
	}
}

// flip turns one seam, and counts again what meets it.
func (t *trial) flip(piece int) {
	mine := &t.turned[t.group][piece]
	for _, p := range t.pairs[[2]int{t.group, piece}] {
		other := t.turned[p.other[0]]
		if p.same != (*mine != (other != nil && other[p.other[1]])) {
			t.now -= p.worth
		} else {
			t.now += p.worth
		}
	}
	*mine = !*mine
}

// mostBegun is of how many pieces sections may be to be begun otherwise: every
// piece is compared with every seam. With more than 20 paper won't stay flat anyway.
const mostBegun = 100

// tree tells from which piece one goes on to which when another is to be the first:
// to a piece, from the one that its whole seam parts it from, if that is one piece
// and can be the first itself; else -1. The seam between may as well be the
// other one's. Twins are alike, and need not be asked.
func (r *reorder) tree(d int) []int {
	pieces := r.drawings[d].Pieces
	tree := make([]int, len(pieces))
	for k := range tree {
		tree[k] = -1
		if k == 0 || len(pieces) > mostBegun {
			continue
		}
		for j := range k {
			if on(pieces[j].Polygon, pieces[k].Seam[0]) && on(pieces[j].Polygon, pieces[k].Seam[1]) {
				if j == 0 || tree[j] >= 0 {
					tree[k] = j
				}
				break
			}
		}
	}
	return tree
}

// on reports whether a point lies on the outline of a polygon.
func on(polygon []pattern.Pos, p pattern.Pos) bool {
	const about = 2 * near // most sides are far away, which is told without a root
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if p.X < min(a.X, b.X)-about || p.X > max(a.X, b.X)+about || p.Y < min(a.Y, b.Y)-about || p.Y > max(a.Y, b.Y)+about {
			continue
		}
		l := line(a, b).Ray()
		at := l.Along(point(p))
		if math.Abs(l.Offset(point(p))) <= near && at >= -near && at <= l.Len+near {
			return true
		}
	}
	return false
}
