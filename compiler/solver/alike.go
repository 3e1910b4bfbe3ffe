package solver

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
)

// Limits of the search for sections that are alike.
const (
	alikeFaces    = 40      // of a piece that is looked at; below 64, the bits of a set
	alikeSections = 1_500   // of a piece, to choose from
	alikeSteps    = 20_000  // sections tried in a piece
	alikeChecks   = 1 << 20 // patches looked at to see which of several pieces can be divided anew
)

// An aliker divides pieces anew, in no more sections but in fewer that differ: one
// print serves all that are turned copies of each other. See THEORY.md 13.
type aliker struct {
	*grant
	settler *settler
	forms   *forms
	used    map[int32]int // of a form: sections that have it; for look-up only
}

// alike returns sections of which fewer differ, or those given.
func (p *Partition) alike(g *grant, d *divided, sections []part) []part {
	kinds := g.wishes.Alike
	if d == nil || len(kinds) != d.faces() || len(sections) < 2 {
		return sections
	}
	x := p.newPieces(d, kinds, sections)
	if len(x.list) == 0 {
		return sections
	}
	a := &aliker{grant: g, settler: newSettler(d.mesh), forms: newForms(p, kinds), used: map[int32]int{}}
	for _, s := range sections {
		a.used[a.forms.of(s)]++
	}
	found := slices.Clone(x.sections)
	var changed []int
	for _, same := range a.sorted(x) {
		// What only these pieces have is new to none of them.
		for _, i := range same {
			a.use(found[i], -1)
		}
		for n, i := range same {
			if made := a.piece(x.pieces[i], found[i]); made != nil {
				found[i] = made
				changed = append(changed, i)
			} else if n == 0 {
				for _, i := range same {
					a.use(found[i], 1)
				}
				break
			}
			a.use(found[i], 1)
		}
	}
	if len(changed) == 0 {
		return sections
	}
	sewable := func(list [][]part) []part {
		if all := slices.Concat(list...); percolate(d.contract(all)).uncut == 0 {
			return all
		}
		return nil
	}
	if all := sewable(found); all != nil {
		return all
	}
	if len(changed)*d.faces() > alikeChecks {
		return sections
	}
	out, best := slices.Clone(x.sections), sections
	for _, i := range changed {
		was := out[i]
		out[i] = found[i]
		if all := sewable(out); all != nil {
			best = all
		} else {
			out[i] = was
		}
	}
	return best
}

// sorted groups the pieces whose sections have the same forms.
func (a *aliker) sorted(x piecewise) (groups [][]int) {
	known := map[string]int{} // for look-up only
	for _, i := range x.list {
		list := make([]int32, len(x.sections[i]))
		for k, s := range x.sections[i] {
			list[k] = a.forms.of(s)
		}
		slices.Sort(list)
		name := fmt.Sprint(list)
		at, ok := known[name]
		if !ok {
			at = len(groups)
			known[name], groups = at, append(groups, nil)
		}
		groups[at] = append(groups[at], i)
	}
	return groups
}

// use counts sections of forms that are used, or no longer.
func (a *aliker) use(sections []part, by int) {
	for _, s := range sections {
		a.used[a.forms.of(s)] += by
	}
}

// A piecewise is a plan by the pieces that walls leave.
type piecewise struct {
	pieces   []part
	sections [][]part // of each piece
	list     []int    // the pieces of which there may be a better division
}

// newPieces sorts sections by pieces. A piece is worth looking at if it is neither
// one section nor large and has two faces that are of one kind and size.
func (p *Partition) newPieces(d *divided, kinds []int, sections []part) piecewise {
	w := newWork(d.mesh)
	w.walls = d.walls
	var x piecewise
	home := make([]int32, d.faces())
	for _, q := range d.parts {
		if d.walls == nil {
			x.pieces = append(x.pieces, q)
			continue
		}
		w.enter(q)
		for _, f := range q {
			if w.seen[f] != w.stamp {
				x.pieces = append(x.pieces, w.flood(nil, f))
			}
		}
	}
	for i, q := range x.pieces {
		for _, f := range q {
			home[f] = int32(i)
		}
	}
	x.sections = make([][]part, len(x.pieces))
	for _, s := range sections {
		i := home[s[0]]
		x.sections[i] = append(x.sections[i], s)
	}
	for i, q := range x.pieces {
		if len(x.sections[i]) > 1 && len(q) <= alikeFaces && p.twins(q, kinds) {
			x.list = append(x.list, i)
		}
	}
	return x
}

// twins reports whether two patches are of one kind and size.
func (p *Partition) twins(q part, kinds []int) bool {
	for i, f := range q {
		for _, g := range q[:i] {
			if kinds[f] == kinds[g] && math.Abs(p.Patches[f].Area-p.Patches[g].Area) <= quantum {
				return true
			}
		}
	}
	return false
}

// A choice is a section that a piece could have.
type choice struct {
	set  uint64 // of positions in the piece
	form int32
}

// A coverer looks for choices that cover a piece, each face once.
type coverer struct {
	*aliker
	piece   part
	choices [][]choice // by the first face, in the order in which faces are covered
	order   []int      // of positions
	most    int        // sections
	fewest  int        // forms that nothing else has, of the best cover
	steps   int
	picked  []choice
	best    []part
}

// piece divides a piece anew, of which nothing is counted as used; nil if that is not
// known to be better.
func (a *aliker) piece(q part, sections []part) []part {
	c := &coverer{aliker: a, piece: q, most: len(sections), steps: alikeSteps}
	c.fewest = a.count(sections)
	if c.fewest > 0 && c.choose(sections) {
		c.cover(1<<len(q)-1, 0)
	}
	return c.best
}

// count returns how many forms of sections nothing else has.
func (a *aliker) count(sections []part) int {
	n := 0
	for i, s := range sections {
		f := a.forms.of(s)
		if a.used[f] == 0 && !slices.ContainsFunc(sections[:i], func(t part) bool { return a.forms.of(t) == f }) {
			n++
		}
	}
	return n
}

// choose lists all sections that the piece could have, of larger ones than wished only
// those that it has; false if they are too many. A section without the face that can be cut off it is one, so they grow face by face.
func (c *coverer) choose(sections []part) bool {
	n := len(c.piece)
	at := make(map[int32]int, n) // of a face: its position; for look-up only
	for i, f := range c.piece {
		at[f] = i
	}
	beside := make([]uint64, n)
	for i, f := range c.piece {
		for _, h := range c.mesh.halves(f) {
			if k, ok := at[c.mesh.other(h)]; ok {
				beside[i] |= 1 << k
			}
		}
	}
	known := map[uint64]bool{} // for look-up only
	var list []uint64
	for i := range n {
		list = append(list, 1<<i)
	}
	for i := 0; i < len(list); i++ {
		near := uint64(0)
		for s := list[i]; s != 0; s &= s - 1 {
			near |= beside[bits.TrailingZeros64(s)]
		}
		for near &^= list[i]; near != 0; near &= near - 1 {
			set := list[i] | near&-near
			if known[set] {
				continue
			}
			known[set] = true
			if c.section(c.faces(set)) {
				if list = append(list, set); len(list) > alikeSections {
					return false
				}
			}
		}
	}
	for _, s := range sections {
		if c.cost(s) != 1 {
			set := uint64(0)
			for _, f := range s {
				set |= 1 << at[f]
			}
			list = append(list, set)
		}
	}
	slices.SortStableFunc(list, func(a, b uint64) int { return bits.OnesCount64(b) - bits.OnesCount64(a) })
	of := make([]int, n)
	whole := uint64(1)<<n - 1
	list = slices.DeleteFunc(list, func(set uint64) bool { return !c.allows(c.faces(set), c.faces(whole&^set)) })
	for _, set := range list {
		for s := set; s != 0; s &= s - 1 {
			of[bits.TrailingZeros64(s)]++
		}
	}
	c.order = make([]int, n)
	for i := range c.order {
		c.order[i] = i
	}
	slices.SortStableFunc(c.order, func(i, j int) int { return of[i] - of[j] })
	c.choices = make([][]choice, n)
	for _, set := range list {
		x := choice{set, c.forms.of(c.faces(set))}
		for k, i := range c.order {
			if set&(1<<i) != 0 {
				c.choices[k] = append(c.choices[k], x)
				break
			}
		}
	}
	return true
}

// faces returns the part of a set.
func (c *coverer) faces(set uint64) part {
	list := make(part, 0, bits.OnesCount64(set))
	for s := set; s != 0; s &= s - 1 {
		list = append(list, c.piece[bits.TrailingZeros64(s)])
	}
	return list
}

// section reports whether faces that hang together, but need not be what cutting
// leaves, are a section as wished.
func (c *coverer) section(q part) bool {
	if c.mesh.convex {
		c.rules.enter(q)
		if !c.rules.bulging(q) {
			return false
		}
	}
	return c.cost(q) == 1
}

// cover covers what is left of the piece in every way; more is how many forms the
// choices so far have that nothing else has.
func (c *coverer) cover(left uint64, more int) {
	if left == 0 {
		c.done(more)
		return
	}
	if len(c.picked) == c.most || more >= c.fewest {
		return
	}
	k := 0
	for left&(1<<c.order[k]) == 0 {
		k++
	}
	for _, x := range c.choices[k] {
		if x.set&^left != 0 {
			continue
		}
		if c.steps--; c.steps < 0 {
			return
		}
		n := more
		if c.used[x.form] == 0 && !slices.ContainsFunc(c.picked, func(y choice) bool { return y.form == x.form }) {
			n++
		}
		if n < c.fewest {
			c.picked = append(c.picked, x)
			c.cover(left&^x.set, n)
			c.picked = c.picked[:len(c.picked)-1]
		}
	}
}

// done keeps a cover if its sections can be sewn to each other.
func (c *coverer) done(more int) {
	if more >= c.fewest {
		return
	}
	made := make([]part, len(c.picked))
	for i, x := range c.picked {
		made[i] = c.faces(x.set)
	}
	if knots, _ := c.settler.knots(c.piece, made); len(knots) == 0 {
		c.best, c.fewest = made, more
	}
}
