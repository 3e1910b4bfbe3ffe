package pressing

import (
	"testing"

	"pgregory.net/rapid"
)

// The oracle: every assignment of signs is tried, and the least cost is what the
// solver must have found. Groups are small enough for its budget.
func TestCostsAreLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "joins")
		g := &graph{nodes: make([]node, n)}
		for range rapid.IntRange(0, 2*n).Draw(t, "edges") {
			a, b := rapid.IntRange(0, n-1).Draw(t, "a"), rapid.IntRange(0, n-1).Draw(t, "b")
			if a == b {
				continue
			}
			times := rapid.SampledFrom([]int8{1, -1}).Draw(t, "times")
			g.nodes[a].edges = append(g.nodes[a].edges, edge{b, times})
			g.nodes[b].edges = append(g.nodes[b].edges, edge{a, times})
		}
		all := make([]int, n)
		for i := range all {
			all[i] = i
			m := &g.nodes[i]
			m.wish = [2]int{rapid.IntRange(0, 2).Draw(t, "left"), rapid.IntRange(0, 2).Draw(t, "right")}
			m.bulk = [2]int{rapid.IntRange(0, 3).Draw(t, "bulk"), rapid.IntRange(0, 3).Draw(t, "bulk")}
		}
		g.solve()
		got := g.cost(all)
		best := got
		for bits := range 1 << n {
			for i := range all {
				g.nodes[i].sign = int8(bits>>i&1)*2 - 1
			}
			if c := g.cost(all); c.less(best) {
				best = c
			}
		}
		if got != best {
			t.Fatalf("cost %+v, the least is %+v", got, best)
		}
	})
}

// After opening, no two joins that are left meet lying the same way.
func TestOpenedUntilAllNest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "joins")
		g := &graph{nodes: make([]node, n)}
		for range 2 * n {
			a, b := rapid.IntRange(0, n-1).Draw(t, "a"), rapid.IntRange(0, n-1).Draw(t, "b")
			if a != b {
				g.nodes[a].edges = append(g.nodes[a].edges, edge{b, -1})
				g.nodes[b].edges = append(g.nodes[b].edges, edge{a, -1})
			}
		}
		g.solve()
		for i := range g.nodes {
			for _, e := range g.nodes[i].edges {
				a, b := &g.nodes[i], &g.nodes[e.to]
				if a.sign == b.sign && !a.clash && !b.clash {
					t.Fatalf("joins %d and %d lie the same way", i, e.to)
				}
			}
		}
	})
}
