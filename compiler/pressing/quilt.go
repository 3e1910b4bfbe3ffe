package pressing

import (
	"cmp"
	"slices"

	"seamwright/compiler/pattern"
)

// PressQuilts chooses the pressing of every join of every quilt that is laid out,
// with the blocks pressed as Press has chosen. Where it lets more seams nest, some
// blocks are pressed the other way: see [pattern.TwoWays].
func PressQuilts(p *pattern.Pattern) {
	for i := range p.Quilts {
		if l := p.Quilts[i].Layout; l != nil && len(l.Joins) > 0 {
			q := &quilt{pattern: p, layout: l, free: map[[2]int][]bool{}}
			q.press()
		}
	}
}

// A quilt is one quilt being pressed. Nodes of the graph are its joins, then its
// blocks, whose sign is -1 where they are pressed the other way.
type quilt struct {
	*graph
	pattern *pattern.Pattern
	layout  *pattern.Layout
	free    map[[2]int][]bool // by block and size: which joins may lie to the other side
}

func (q *quilt) press() {
	joins := q.layout.Joins
	q.graph = &graph{nodes: make([]node, len(joins)+len(q.layout.Placed))}
	for i := range q.layout.Placed {
		q.nodes[len(joins)+i].bulk[1] = 1 // of two ways that are as good, fewer blocks are pressed otherwise
	}
	for i := range joins {
		q.weigh(i)
	}
	for i := range joins {
		q.eachPair(i, func(a, b *pattern.QuiltEnd) { q.oppose(q.ending(a), q.ending(b)) })
	}
	budget, rows := most, map[int]int8{}
	for i := range q.nodes {
		if n := &q.nodes[i]; !n.seen && !n.open() {
			group := q.walk(i)
			q.settle(group, &budget)
			q.better(group)
			q.layout.Untried = q.layout.Untried || budget <= 0 && q.cost(group).clashes > 0
			q.alike(group, rows)
		}
	}
	q.open()
	for i := range joins {
		q.tell(i)
	}
	q.twoWays()
}

// seamBulk is what a seam in the way counts for, against a block where none need be.
const seamBulk = 2

// weigh counts what ends on a join, and finds what is pressed open anyway.
func (q *quilt) weigh(i int) {
	j, n := &q.layout.Joins[i], &q.nodes[i]
	for k := range j.Ends {
		if j.Ends[k].Left {
			n.bulk[0] += seamBulk
		} else {
			n.bulk[1] += seamBulk
		}
	}
	for side, parts := range [2][]pattern.Part{j.Left, j.Right} {
		if !plain(parts) {
			n.bulk[side]++ // of two sides that are as good, that where no block lies
		}
	}
	for _, at := range j.Points {
		n.meet = max(n.meet, 2+len(endsAt(j, at)))
	}
	if n.meet >= crowd {
		return
	}
	q.eachPair(i, func(a, b *pattern.QuiltEnd) {
		x, y := q.ending(a), q.ending(b)
		n.sameWay = n.sameWay || x.join < 0 && y.join < 0 && x.lies == y.lies
	})
}

// endsAt returns the seams that end at a point of a join.
func endsAt(j *pattern.QuiltJoin, at pattern.Length) []pattern.QuiltEnd {
	from, _ := slices.BinarySearchFunc(j.Ends, at-near, func(e pattern.QuiltEnd, at pattern.Length) int { return cmp.Compare(e.Along, at) })
	to := from
	for to < len(j.Ends) && j.Ends[to].Along <= at+near {
		to++
	}
	return j.Ends[from:to]
}

// eachPair calls do with the seams that meet across a join, unless one of them is
// open or too many meet there: then nothing nests.
func (q *quilt) eachPair(i int, do func(a, b *pattern.QuiltEnd)) {
	j := &q.layout.Joins[i]
	for _, at := range j.Points {
		ends := endsAt(j, at)
		if 2+len(ends) >= crowd {
			continue
		}
		for a := range ends {
			for b := range ends {
				if ends[a].Left && !ends[b].Left && ends[a].Lies != 0 && ends[b].Lies != 0 {
					do(&ends[a], &ends[b])
				}
			}
		}
	}
}

// ending returns an end as the graph knows it.
func (q *quilt) ending(e *pattern.QuiltEnd) ending {
	out := ending{join: -1, lies: e.Lies}
	switch e.Kind {
	case pattern.OfQuilt:
		out.join = e.Index
	case pattern.OfBlock:
		if i, _ := e.Part.Placed(); q.mayTurn(i)[e.Index] {
			out.join = len(q.layout.Joins) + i
		}
	}
	return out
}

// mayTurn returns which joins of a block may as well lie to the other side: those of
// groups that nest both ways, of which a seam ends on the block's edge.
func (q *quilt) mayTurn(placed int) []bool {
	at := &q.layout.Placed[placed]
	key := [2]int{at.Block, at.Size}
	if free, ok := q.free[key]; ok {
		return free
	}
	s := &q.pattern.Blocks[at.Block].Sizes[at.Size]
	free := make([]bool, len(s.Joins))
	g := graphOf(s, nil)
	g.solve()
	for i := range g.nodes {
		g.nodes[i].seen = false
	}
	for i := range g.nodes {
		if g.nodes[i].seen || g.nodes[i].open() || g.nodes[i].clash {
			continue
		}
		sign := g.nodes[i].sign
		group := g.walk(i) // signs all others as they were, for they nest
		if g.nodes[i].sign != sign {
			g.flip(group)
		}
		may, ends := g.cost(group).clashes == 0, false
		g.flip(group)
		may = may && g.cost(group).clashes == 0
		for _, k := range group {
			ends = ends || onEdge(s, s.Joins[k].A) || onEdge(s, s.Joins[k].B)
		}
		for _, k := range group {
			free[k] = may && ends
		}
	}
	q.free[key] = free
	return free
}

// onEdge reports whether a point lies on the edge of a block.
func onEdge(s *pattern.Sized, p pattern.Pos) bool {
	return min(p.X, p.Y, s.Finished.W-p.X, s.Finished.H-p.Y) <= near
}

// better turns single nodes of a group round as long as fewer clash: where a search
// of all is too long, as for hundreds of blocks.
func (q *quilt) better(group []int) {
	if q.cost(group).clashes == 0 {
		return
	}
	for range sweeps {
		turned := false
		for _, i := range group {
			n := &q.nodes[i]
			here := q.around(n)
			n.sign = -n.sign
			if q.around(n).less(here) {
				turned = true
			} else {
				n.sign = -n.sign
			}
		}
		if !turned {
			return
		}
	}
}

// alike turns a whole group round where more of its joins then lie as others of
// their rows do, and as much nests: a row whose joins all lie one way is easily
// told, and easily pressed. Joins of a block to something else are left alone: they
// lie toward the one or the other.
func (q *quilt) alike(group []int, rows map[int]int8) {
	inRow := func(i int) (row int, ok bool) {
		if i >= len(q.layout.Joins) {
			return 0, false
		}
		j := &q.layout.Joins[i]
		return j.Of, j.Step == pattern.InRow && !plain(j.Left) && !plain(j.Right)
	}
	agree := 0
	for _, i := range group {
		if row, ok := inRow(i); ok {
			agree += int(rows[row] * q.nodes[i].sign)
		}
	}
	if agree < 0 {
		before := q.cost(group).clashes
		if q.flip(group); q.cost(group).clashes > before {
			q.flip(group)
		}
	}
	for _, i := range group {
		if row, ok := inRow(i); ok && rows[row] == 0 {
			rows[row] = q.nodes[i].sign
		}
	}
}

// around is what a node's sign costs, with its edges.
func (q *quilt) around(n *node) cost {
	c := n.own()
	for _, e := range n.edges {
		if q.nodes[e.to].sign*e.times != n.sign {
			c.clashes++
		}
	}
	return c
}

// open opens joins until no two seams that meet lie the same way: of joins of the
// quilt the later one, and where seams of blocks meet the join that they cross.
func (q *quilt) open() {
	for i := range q.layout.Joins {
		q.eachPair(i, func(a, b *pattern.QuiltEnd) {
			x, y := q.lies(a), q.lies(b)
			if x != y || x == 0 || q.nodes[i].open() {
				return
			}
			late := -1
			for _, e := range [2]*pattern.QuiltEnd{a, b} {
				if e.Kind == pattern.OfQuilt {
					late = max(late, e.Index)
				}
			}
			if late < 0 {
				late = i
			}
			q.nodes[late].clash = true
		})
	}
}

// lies returns which way a seam lies in the end; 0 where it is open.
func (q *quilt) lies(e *pattern.QuiltEnd) int8 {
	at := q.ending(e)
	switch {
	case at.join < 0:
		return at.lies
	case q.nodes[at.join].open() || q.nodes[at.join].clash:
		return 0
	}
	return at.lies * q.nodes[at.join].sign
}

// tell writes down how a join is pressed, and why.
func (q *quilt) tell(i int) {
	j, n := &q.layout.Joins[i], &q.nodes[i]
	j.Meet = n.meet
	switch {
	case n.meet >= crowd:
		j.Press, j.Why = pattern.PressOpen, pattern.ManyMeet
		return
	case n.sameWay:
		j.Press, j.Why = pattern.PressOpen, pattern.SameWay
		return
	case n.clash:
		j.Press, j.Why = pattern.PressOpen, pattern.BothWays
		return
	case j.Step == pattern.InBorder && len(n.edges)+len(j.Ends) == 0 && slanted(j):
		j.Press, j.Why = pattern.PressOpen, pattern.Mitred
		return
	}
	j.Why = pattern.EitherSide
	switch away := q.away(j); {
	case len(n.edges) > 0 || n.wish[0]+n.wish[1] > 0:
		j.Why = pattern.Nests
	case n.bulk[0]/seamBulk != n.bulk[1]/seamBulk:
		j.Why = pattern.FewerSeams
	case away != 0: // nothing else speaks for a side
		j.Why = pattern.PlainSide
		n.sign = away
	}
	if j.Press = pattern.PressLeft; n.sign < 0 {
		j.Press = pattern.PressRight
	}
}

// away is the sign of a join that is pressed away from the blocks: toward the side
// where none lies, or what is sewn on last; 0 where neither side is that.
func (q *quilt) away(j *pattern.QuiltJoin) int8 {
	left, right := plain(j.Left), plain(j.Right)
	if left == right {
		left, right = q.last(j, j.Left), q.last(j, j.Right)
	}
	switch {
	case left == right:
		return 0
	case left:
		return 1
	}
	return -1
}

// last reports whether one side of a join is a border that is sewn on with it, or a
// triangle at a corner.
func (q *quilt) last(j *pattern.QuiltJoin, parts []pattern.Part) bool {
	i, ok := parts[len(parts)/2].Area()
	switch {
	case !ok:
		return false
	case j.Step == pattern.ToBorder: // areas are laid from the inside out
		return slices.Min(parts) == min(slices.Min(j.Left), slices.Min(j.Right))
	}
	return j.Step == pattern.AtCorner && q.layout.Areas[i].For == pattern.CornerTriangle
}

// slanted reports whether a join lies neither across the quilt nor along it.
func slanted(j *pattern.QuiltJoin) bool {
	return min(max(j.A.X-j.B.X, j.B.X-j.A.X), max(j.A.Y-j.B.Y, j.B.Y-j.A.Y)) > near
}

// plain reports whether no block lies on one side of a join.
func plain(parts []pattern.Part) bool {
	return !slices.ContainsFunc(parts, func(p pattern.Part) bool { _, block := p.Placed(); return block })
}

// twoWays writes down which blocks are pressed in two ways.
func (q *quilt) twoWays() {
	first := len(q.layout.Joins)
	told := map[[2]int]bool{}
	for i := range q.layout.Placed {
		at := &q.layout.Placed[i]
		n := &q.nodes[first+i]
		if len(n.edges)+n.wish[0]+n.wish[1] == 0 || n.sign > 0 {
			continue
		}
		at.OtherWay = true
		if key := [2]int{at.Block, at.Size}; !told[key] {
			told[key] = true
			two := pattern.TwoWays{Block: at.Block, Size: at.Size}
			for k, free := range q.mayTurn(i) {
				if free {
					two.Joins = append(two.Joins, k)
				}
			}
			q.layout.Two = append(q.layout.Two, two)
		}
	}
}
