package solver

import (
	"math"

	"seamwright/compiler/plane"
)

// A snapper gives every place one number: points within [plane.Tol] of each
// other are one. It keeps what it measured, so that the gap between "same" and
// "different" can be shown.
type snapper struct {
	near  float64 // pairs nearer than this, but not the same, are kept in pairs
	cell  float64
	at    []plane.Point
	next  []int32 // the next point in the same cell
	table []slot  // open addressing; its length is a power of two
	pairs [][2]int32
	gap   Gap
}

type slot struct {
	x, y int32
	head int32 // 1 + the first point of the cell; 0 where the slot is free
}

// cellsPerReach makes cells so much wider than the reach of a comparison that
// few points lie near enough to a cell's border to look beyond it.
const cellsPerReach = 16

func newSnapper(near, spacing float64, points int) *snapper {
	reach := max(near, 2*plane.Tol)
	size := 64
	for size < 2*points {
		size *= 2
	}
	return &snapper{
		near: near, cell: max(cellsPerReach*reach, spacing),
		at: make([]plane.Point, 0, points), next: make([]int32, 0, points),
		table: make([]slot, size),
		gap:   Gap{NonZero: math.Inf(1)},
	}
}

// zero and apart note a distance that was taken as none, and one taken as some.
func (g *Gap) zero(d float64)  { g.Zero = max(g.Zero, d) }
func (g *Gap) apart(d float64) { g.NonZero = min(g.NonZero, d) }

// add returns the number of the point at p, a new one if there is none.
func (s *snapper) add(p plane.Point) int32 {
	fx, fy := p.X/s.cell, p.Y/s.cell
	x, y := math.Floor(fx), math.Floor(fy)
	reach := max(s.near, plane.Tol) / s.cell
	x0, x1, y0, y1 := int32(x), int32(x), int32(y), int32(y)
	if fx-x < reach {
		x0--
	} else if fx-x > 1-reach {
		x1++
	}
	if fy-y < reach {
		y0--
	} else if fy-y > 1-reach {
		y1++
	}
	first, least := len(s.pairs), math.Inf(1)
	for cy := y0; cy <= y1; cy++ {
		for cx := x0; cx <= x1; cx++ {
			for q := s.slot(cx, cy).head - 1; q >= 0; q = s.next[q] {
				d := s.at[q].Dist(p)
				if d <= plane.Tol {
					s.gap.zero(d)
					s.pairs = s.pairs[:first]
					return q
				}
				if d <= s.near {
					s.pairs = append(s.pairs, [2]int32{q, int32(len(s.at))})
				}
				least = min(least, d)
			}
		}
	}
	s.gap.apart(least)
	n := int32(len(s.at))
	s.at = append(s.at, p)
	if 2*len(s.at) > len(s.table) {
		s.grow()
	}
	c := s.slot(int32(x), int32(y))
	s.next = append(s.next, c.head-1)
	*c = slot{int32(x), int32(y), n + 1}
	return n
}

// slot finds the cell's place in the table.
func (s *snapper) slot(x, y int32) *slot {
	mask := uint64(len(s.table) - 1)
	h := mix(uint64(uint32(x))<<32 | uint64(uint32(y)))
	for i := h & mask; ; i = (i + 1) & mask {
		if c := &s.table[i]; c.head == 0 || c.x == x && c.y == y {
			return c
		}
	}
}

func (s *snapper) grow() {
	old := s.table
	s.table = make([]slot, 2*len(old))
	for _, c := range old {
		if c.head != 0 {
			*s.slot(c.x, c.y) = c
		}
	}
}

// mix scrambles the bits of x (the finalizer of SplitMix64: G. Steele, D. Lea,
// C. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
