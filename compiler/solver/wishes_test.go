package solver

import (
	"cmp"
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"seamwright/compiler/plane"
)

// wished is the oracle's search with wishes: the least cost of every set, 0 where
// it can't be had.
func (o *oracle) wished(groups, apart []uint, firsts uint, size func(uint) int) int {
	n := len(o.faces)
	cost := make([]int, 1<<n)
	splits := func(a, b uint) bool {
		for _, g := range groups {
			if g&a != 0 && g&b != 0 {
				return true
			}
		}
		return false
	}
	mixed := func(set uint) bool {
		n := 0
		for _, g := range apart {
			if g&set != 0 {
				n++
			}
		}
		return n > 1
	}
	for set := uint(1); set < 1<<n; set++ {
		if !o.linked[set] {
			continue
		}
		if f := set & firsts; o.section[set] && !mixed(set) && (f == 0 || f&(f-1) == 0 && o.firsts[set]&f != 0) {
			cost[set] = size(set)
		}
		for a := (set - 1) & set; a != 0; a = (a - 1) & set {
			b := set &^ a
			if a < b || cost[a] == 0 || cost[b] == 0 || splits(a, b) || cost[set] != 0 && cost[a]+cost[b] >= cost[set] {
				continue
			}
			if _, ok := o.join(a, b); ok {
				cost[set] = cost[a] + cost[b]
			}
		}
	}
	return cost[1<<n-1]
}

func TestWishesAgainstOracle(t *testing.T) {
	for k, f := range families {
		t.Run(f.name, func(t *testing.T) {
			r := rand.New(rand.NewSource(int64(100 + k)))
			refused, dearer, over := 0, 0, 0
			for i := range 60 * *long {
				b := f.random(r, 3+r.Intn(7))
				c := checker{t: t, name: fmt.Sprintf("block %d", i), block: b}
				c.p = Tile(b.outline, b.faces, 0)
				c.o = newOracle(b.faces)
				if c.o.solve() == 0 {
					continue
				}
				w := randomWishes(r, c.p)
				plan := c.p.Plan(w)
				c.sewn(plan)
				c.wishes(w, plan)
				refused += len(plan.Refused)
				over += len(plan.Over)
				if len(plan.Sections) > plan.Least {
					dearer++
				}
			}
			t.Logf("refused %d, plans with more sections %d, sections over the limit %d", refused, dearer, over)
		})
	}
}

func randomWishes(r *rand.Rand, p *Partition) Wishes {
	var w Wishes
	n := len(p.Patches)
	if r.Intn(2) == 0 {
		w.MaxPieces = 1 + r.Intn(4)
	}
	if r.Intn(3) == 0 {
		limit := p.Points[0].Dist(p.Points[2].Point) * (0.3 + r.Float64())
		w.Fits = func(q plane.Polygon) bool {
			low, high := q.Box()
			return high.X-low.X <= limit && high.Y-low.Y <= limit
		}
	}
	if r.Intn(3) == 0 {
		w.Unfit = 2 + r.Intn(8)
	}
	if r.Intn(2) == 0 {
		w.Plain = make([]bool, n)
		for i := range w.Plain {
			w.Plain[i] = r.Intn(2) == 0
		}
	}
	for range r.Intn(3) {
		set := []int{r.Intn(n)}
		for range 1 + r.Intn(2) {
			e := p.Patches[set[0]].Edges[r.Intn(len(p.Patches[set[0]].Edges))]
			if o := p.across(e, set[0]); o >= 0 && !slices.Contains(set, o) {
				set = append(set, o)
			}
		}
		if r.Intn(2) == 0 {
			w.Distinct = append(w.Distinct, len(w.Together))
		}
		w.Together = append(w.Together, set)
	}
	for range r.Intn(2) {
		w.NoJoin = append(w.NoJoin, r.Intn(len(p.Edges)))
	}
	for range r.Intn(3) {
		w.First = append(w.First, r.Intn(n))
	}
	return w
}

// wishes compares what was granted, and at what cost, with the oracle.
func (c *checker) wishes(w Wishes, plan Plan) {
	c.t.Helper()
	size := func(set uint) int {
		faces := []int{}
		for i := range c.block.faces {
			if set&(1<<i) != 0 {
				faces = append(faces, i)
			}
		}
		cost := 1
		if w.MaxPieces > 0 && len(faces) > w.MaxPieces {
			cost = overCost * ((len(faces) + w.MaxPieces - 1) / w.MaxPieces)
		}
		plain := len(faces) == 1 && w.Plain != nil && w.Plain[faces[0]]
		if w.Fits != nil && !plain && !w.Fits(newTracer(c.p).polygon(faces)) {
			cost = max(cost, cmp.Or(w.Unfit, gluedCost))
		}
		return cost
	}
	var groups, apart []uint
	firsts := uint(0)
	var want []Refusal
	try := func(kind WishKind, i int, group, first uint) {
		g, a := groups, apart
		if kind == WishDistinct {
			a, group = append(slices.Clone(apart), group), 0
		}
		if group != 0 {
			g = append(slices.Clone(groups), group)
		}
		if c.o.wished(g, a, firsts|first, size) == 0 {
			want = append(want, Refusal{Kind: kind, Index: i})
		} else {
			groups, apart, firsts = g, a, firsts|first
		}
	}
	for i, set := range w.Together {
		try(WishTogether, i, setOf(set), 0)
	}
	for i, e := range w.NoJoin {
		if edge := c.p.Edges[e]; edge.Right >= 0 {
			try(WishNoJoin, i, 1<<edge.Left|1<<edge.Right, 0)
		}
	}
	for _, i := range w.Distinct {
		try(WishDistinct, i, setOf(w.Together[i]), 0)
	}
	for i, f := range w.First {
		try(WishFirst, i, 0, 1<<f)
	}
	for i, x := range plan.Refused {
		if i >= len(want) || x.Kind != want[i].Kind || x.Index != want[i].Index {
			c.failf("%+v: refused %+v, oracle %+v", w, plan.Refused, want)
		}
	}
	if len(want) != len(plan.Refused) {
		c.failf("%+v: refused %+v, oracle %+v", w, plan.Refused, want)
	}
	got := 0
	for i, s := range plan.Sections {
		set := setOf(s.Patches)
		n := size(set)
		got += n
		if n > 1 != slices.Contains(plan.Over, i) {
			c.failf("section %d costs %d, over %v", i, n, plan.Over)
		}
		for _, g := range groups {
			if g&set != 0 && g&^set != 0 {
				c.failf("section %d divides %b", i, g)
			}
		}
		if set&firsts != 0 && firsts&(1<<s.Patches[0]) == 0 {
			c.failf("section %d begins with %d", i, s.Patches[0])
		}
	}
	if best := c.o.wished(groups, apart, firsts, size); got != best {
		c.failf("%+v: cost %d, oracle %d: %+v", w, got, best, plan)
	}
}
