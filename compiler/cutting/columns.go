package cutting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// Strips by columns: every way of filling one strip is a column of a linear
// program, which says how often each is cut so that all patches come out and the
// strips are as little cloth together as can be. Better ways are found one at a
// time, by filling a strip with what is worth most at the program's own prices
// (Gilmore and Gomory's method for cutting in two stages). The value of the
// program is a bound: no plan of strips across the cloth takes less (P. Gilmore,
// R. Gomory, Multistage cutting stock problems of two and more dimensions,
// Operations Research 13, 1965; from memory).

const (
	// mostColumns ends a search that gains hardly anything any more. The bound
	// holds whenever it ends.
	mostColumns = 400

	// gain is how much more than its cloth a strip must be worth to be let in.
	gain = 1e-7
)

// A column is one way of filling a strip.
type column struct {
	height pattern.Length
	counts []int // of each need as it is, and of the same turned
}

// A program is the linear program of one cloth.
type program struct {
	needs   []Need
	width   pattern.Length
	step    pattern.Length // on which widths are counted
	items   []item
	marks   int // of the strip's length, all that can be told apart by its items
	basis   []column
	inverse [][]float64 // of the basis
	level   []float64   // how often each is cut
	price   []float64   // of each patch, in inches of cloth
	bound   pattern.Length

	worth []float64 // of a strip's beginning up to each mark; room for richest and fill
	last  []int     // the item that ends there
}

// newProgram begins with strips of one size each; needs must all fit.
func newProgram(needs []Need, width, step pattern.Length) *program {
	p := &program{needs: needs, width: width, step: step, items: items(needs, step)}
	p.marks = coarser(p.items, int(math.Ceil(float64(width/step)-noise)))
	p.worth, p.last = make([]float64, p.marks+1), make([]int, p.marks+1)
	for i, n := range needs {
		s, _ := strips(n, width)
		per := PerStrip(width, s.Cuts[0].Size.W)
		c := column{s.Height, make([]int, 2*len(needs))}
		c.counts[2*i] = per
		if s.Cuts[0].Size.W != n.Size.W {
			c.counts[2*i], c.counts[2*i+1] = 0, per
		}
		p.basis = append(p.basis, c)
		row := make([]float64, len(needs))
		row[i] = 1 / float64(per)
		p.inverse = append(p.inverse, row)
		p.level = append(p.level, float64(n.Count)/float64(per))
	}
	return p
}

// solve finds the best columns and returns the bound.
func (p *program) solve() (bound pattern.Length) {
	for range mostColumns {
		p.prices()
		height, worth := p.richest()
		// At prices divided by what the best strip is worth, no strip is worth more
		// than its cloth; then all patches together are worth no more than any plan.
		bound = max(bound, pattern.Length(p.value()/worth))
		if worth < 1+gain {
			break
		}
		if c := p.fill(height); !p.enter(&c) {
			break
		}
	}
	return bound
}

// prices works out what each patch is worth: what the strips of the basis cost.
func (p *program) prices() {
	p.price = make([]float64, len(p.needs))
	for i, row := range p.inverse {
		for k, v := range row {
			p.price[k] += float64(p.basis[i].height) * v
		}
	}
	for k := range p.price {
		p.price[k] = max(0, p.price[k]) // patches more than needed do no harm
	}
}

// value is what all patches are worth.
func (p *program) value() (sum float64) {
	for i, n := range p.needs {
		sum += p.price[i] * float64(n.Count)
	}
	return sum
}

// An item is a need one way round, on the program's marks.
type item struct {
	index  int // 2 i of need i as it is, 2 i + 1 turned
	height pattern.Length
	width  int
}

// items lists all ways round, the lowest first. Widths between two marks count as
// the one below, and the cloth as the one above: then the bound holds.
func items(needs []Need, step pattern.Length) []item {
	var all []item
	for i, n := range needs {
		for k, size := range [2]pattern.Size{n.Size, {W: n.Size.H, H: n.Size.W}} {
			if k == 0 || n.Size.W != n.Size.H {
				all = append(all, item{2*i + k, size.H, max(1, int(math.Floor(float64(size.W/step)+noise)))})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b item) int { return cmp.Compare(a.height, b.height) })
	return all
}

// coarser counts widths in the largest step that all have in common, and returns the
// marks of so many that remain: no strip ends between them.
func coarser(items []item, marks int) int {
	common := 0
	for i := range items {
		for a := items[i].width; a > 0; {
			common, a = a, common%a
		}
	}
	if common < 2 {
		return marks
	}
	for i := range items {
		items[i].width /= common
	}
	return marks / common
}

// richest returns the height of the strips that are worth most for their cloth,
// and how much for each inch. Items that are let in from the lowest up serve all
// higher strips too.
func (p *program) richest() (height pattern.Length, worth float64) {
	best := p.worth
	clear(best)
	worth = 1
	for k, it := range p.items {
		if v := p.price[it.index/2]; v > 0 {
			after := best[min(it.width, len(best)):]
			for at, w := range best[:len(after)] { // what is set here is met again further on
				if w += v; w > after[at] {
					after[at] = w
				}
			}
		}
		if k+1 < len(p.items) && p.items[k+1].height <= it.height+noise {
			continue
		}
		if w := best[len(best)-1] / float64(it.height); w > worth {
			height, worth = it.height, w
		}
	}
	return height, worth
}

// fill returns the strip of a height that is worth most.
func (p *program) fill(height pattern.Length) column {
	worth, last := p.worth, p.last
	type choice struct {
		worth float64
		width int
		item  int
	}
	var room [32]choice
	choices := room[:0]
	for k, it := range p.items {
		if v := p.price[it.index/2]; v > 0 && it.height <= height+noise {
			choices = append(choices, choice{v, it.width, k})
		}
	}
	worth[0] = 0
	for at := 1; at <= p.marks; at++ {
		most, which := worth[at-1], -1
		for i := range choices {
			if c := &choices[i]; c.width <= at {
				if v := worth[at-c.width] + c.worth; v > most+1e-12 {
					most, which = v, c.item
				}
			}
		}
		worth[at], last[at] = most, which
	}
	c := column{height, make([]int, 2*len(p.needs))}
	for at := p.marks; at > 0; {
		if last[at] < 0 {
			at--
			continue
		}
		c.counts[p.items[last[at]].index]++
		at -= p.items[last[at]].width
	}
	return c
}

// enter puts a column into the basis; false where it cannot.
func (p *program) enter(c *column) bool {
	move := make([]float64, len(p.basis))
	for i, row := range p.inverse {
		for k, n := range c.counts {
			move[i] += row[k/2] * float64(n)
		}
	}
	out, least := -1, math.Inf(1)
	for i, m := range move {
		if m > 1e-9 && p.level[i]/m < least {
			out, least = i, p.level[i]/m
		}
	}
	if out < 0 {
		return false
	}
	for k := range p.inverse[out] {
		p.inverse[out][k] /= move[out]
	}
	p.level[out] = least
	for i := range p.inverse {
		if i == out {
			continue
		}
		for k := range p.inverse[i] {
			p.inverse[i][k] -= move[i] * p.inverse[out][k]
		}
		p.level[i] = max(0, p.level[i]-move[i]*least)
	}
	p.basis[out] = *c
	return true
}
