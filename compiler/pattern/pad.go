package pattern

import (
	"math"
	"slices"
)

// A Pad is printed sheets for several blocks, bound along their heads.
type Pad struct {
	Block    string // the only block it is for, as written; "" for every block
	Finished Length // the only width it is for; 0 for every size
	Copies   int    // blocks in one pad
	Spare    int    // sheets more than needed
	Loose    bool   // all sheets of a kind together; else block by block
	Glue     Length // unprinted along the head, for the glue
	Gripper  Length // unprinted along the foot and the sides, for the press to hold
	Bleed    Length // how far beyond its edge the printer wants what is cut through
	Source   Source
}

// What a pad leaves free unless it says otherwise. Common practice, no source: a
// printer is asked.
const (
	PadGlue    = 3 * Inch / 8
	PadGripper = 3 * Inch / 8
	PadBleed   = Inch / 8
)

// Holds reports whether a pad is for a block at a size.
func (p *Pad) Holds(b *Block, s *Sized) bool {
	const same = 0.001 // of a width that may be given in centimetres
	return (p.Block == "" || p.Block == b.Name) && (p.Finished == 0 || math.Abs(float64(p.Finished-s.Finished.W)) < same)
}

// Order is the sheets of one pad, by their index among those of a block: times
// is how often each is printed for one block. Spares go round the kinds, the most
// printed first.
func (p *Pad) Order(times []int) []int {
	var order []int
	put := func(sheet, n int) {
		for range n {
			order = append(order, sheet)
		}
	}
	kinds := make([]int, len(times))
	for i := range kinds {
		kinds[i] = i
	}
	if len(kinds) == 0 {
		return nil
	}
	slices.SortStableFunc(kinds, func(a, b int) int { return times[b] - times[a] })
	spare := make([]int, len(times))
	for i := range p.Spare {
		spare[kinds[i%len(kinds)]]++
	}
	if p.Loose {
		for i, n := range times {
			put(i, p.Copies*n+spare[i])
		}
		return order
	}
	for range p.Copies {
		for i, n := range times {
			put(i, n)
		}
	}
	for i, n := range spare {
		put(i, n)
	}
	return order
}
