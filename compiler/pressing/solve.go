package pressing

// most is how many assignments are tried for all the groups of a block that
// cannot all nest; beyond it, what has been found by then is kept. A group of 16
// joins has no more, and blocks that are sewn have smaller ones.
const most = 1 << 16

// solve gives every join that is not open a sign, group by group. Groups are
// joins that meet each other, directly or over others.
func (g *graph) solve() {
	budget := most
	for i := range g.nodes {
		if n := &g.nodes[i]; !n.seen && !n.open() {
			group := g.walk(i)
			g.settle(group, &budget)
			g.mark(group)
		}
	}
}

// walk signs a group from one join outward, as each edge asks, and returns it.
func (g *graph) walk(from int) []int {
	g.nodes[from].seen, g.nodes[from].sign = true, 1
	group := []int{from}
	for k := 0; k < len(group); k++ {
		n := &g.nodes[group[k]]
		n.rank = k
		for _, e := range n.edges {
			if to := &g.nodes[e.to]; !to.seen {
				to.seen, to.sign = true, n.sign*e.times
				group = append(group, e.to)
			}
		}
	}
	return group
}

// A cost is what a choice costs: seams that do not nest first, then bulk.
type cost struct{ clashes, bulk int }

func (c cost) less(d cost) bool {
	return c.clashes < d.clashes || c.clashes == d.clashes && c.bulk < d.bulk
}

// settle chooses the signs of a group. After a walk all edges hold, or none of
// the choices lets them; then there are two choices, or a search.
func (g *graph) settle(group []int, budget *int) {
	here := g.cost(group)
	g.flip(group)
	if there := g.cost(group); !there.less(here) {
		g.flip(group)
	} else {
		here = there
	}
	if here.clashes == 0 {
		return
	}
	s := search{graph: g, group: group, best: here, signs: make([]int8, len(group)), budget: budget}
	s.keep()
	s.from(0, cost{})
	for k, i := range group {
		g.nodes[i].sign = s.signs[k]
	}
}

func (g *graph) flip(group []int) {
	for _, i := range group {
		g.nodes[i].sign = -g.nodes[i].sign
	}
}

// own is what a join's sign costs by itself.
func (n *node) own() cost {
	if n.sign > 0 {
		return cost{n.wish[1], n.bulk[0]}
	}
	return cost{n.wish[0], n.bulk[1]}
}

// cost is what the signs of a group cost. Each edge stands at both its ends.
func (g *graph) cost(group []int) cost {
	var c cost
	twice := 0
	for _, i := range group {
		n := &g.nodes[i]
		own := n.own()
		c.clashes, c.bulk = c.clashes+own.clashes, c.bulk+own.bulk
		for _, e := range n.edges {
			if g.nodes[e.to].sign*e.times != n.sign {
				twice++
			}
		}
	}
	c.clashes += twice / 2
	return c
}

// A search tries the signs of a group, one join after another.
type search struct {
	*graph
	group  []int
	best   cost
	signs  []int8 // of the best
	budget *int
}

func (s *search) keep() {
	for k, i := range s.group {
		s.signs[k] = s.nodes[i].sign
	}
}

// from signs the joins from the k-th on; so far is what those before cost.
func (s *search) from(k int, sofar cost) {
	if !sofar.less(s.best) || *s.budget <= 0 {
		return
	}
	if k == len(s.group) {
		s.best = sofar
		s.keep()
		return
	}
	n := &s.nodes[s.group[k]]
	for _, sign := range [2]int8{1, -1} {
		*s.budget--
		n.sign = sign
		next := n.own()
		for _, e := range n.edges {
			if to := &s.nodes[e.to]; to.rank < k && to.sign*e.times != sign {
				next.clashes++
			}
		}
		s.from(k+1, cost{sofar.clashes + next.clashes, sofar.bulk + next.bulk})
	}
}

// mark opens joins until no two of the group lie the same way where they meet:
// of two joins, the later one.
func (g *graph) mark(group []int) {
	for _, i := range group {
		n := &g.nodes[i]
		n.clash = n.own().clashes > 0
	}
	for _, i := range group {
		n := &g.nodes[i]
		for _, e := range n.edges {
			if to := &g.nodes[e.to]; e.to > i && to.sign*e.times != n.sign && !n.clash {
				to.clash = true
			}
		}
	}
}
