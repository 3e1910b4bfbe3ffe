package plane

import (
	"math"
	"slices"
)

// A Cloud collects points and tells them apart: points within [Tol] of each
// other are one. It keeps account of how sure that was.
type Cloud struct {
	Points []Point
	Near   [][2]int32 // pairs of different points nearer than was asked, the first maxNear

	near          float64
	same, nearest float64 // squares of distances
	cells         float64 // a unit of length has so many
	next          []int32 // in the same bucket, or -1
	heads         []int32 // the last point of each bucket, or -1; a power of two of them
}

// Same returns the greatest distance of two points that were taken for one.
func (c *Cloud) Same() float64 { return math.Sqrt(c.same) }

// Nearest returns the least distance of two different points, if it is no larger
// than the cell.
func (c *Cloud) Nearest() float64 { return math.Sqrt(c.nearest) }

// maxNear is how many pairs are listed: more than anybody reads.
const maxNear = 1000

// NewCloud returns an empty cloud. Pairs nearer than near are listed. Of points
// farther apart than cell no distance is known; a cell as large as the shortest
// side of any polygon is always large enough to find the nearest corners.
func NewCloud(cell, near float64, expect int) *Cloud {
	size := 16
	for size < expect {
		size *= 2
	}
	c := &Cloud{near: near, nearest: math.Inf(1), cells: 1 / (2 * max(cell, near, 4*Tol)),
		Points: make([]Point, 0, expect), next: make([]int32, 0, expect)}
	c.grow(size)
	return c
}

// grow makes so many buckets and puts the points into them.
func (c *Cloud) grow(size int) {
	c.heads = make([]int32, size)
	for i := range c.heads {
		c.heads[i] = -1
	}
	c.next = c.next[:0]
	for i, p := range c.Points {
		c.put(int32(i), c.around(p)[0])
	}
}

func (c *Cloud) put(id int32, bucket uint64) {
	c.next = append(c.next, c.heads[bucket])
	c.heads[bucket] = id
}

// around returns the buckets of the cells that lie within the distance asked for
// of a point, its own first: cells are twice as wide, so there is one beside it, one
// above or below it and one between those.
func (c *Cloud) around(p Point) [4]uint64 {
	own, beside := hashes(p.X*c.cells, 0x9e3779b97f4a7c15)
	level, above := hashes(p.Y*c.cells, 0xc2b2ae3d27d4eb4f)
	b := [4]uint64{own ^ level, beside ^ level, own ^ above, beside ^ above}
	for i := range b {
		b[i] = (b[i] ^ b[i]>>29) * 0xbf58476d1ce4e5b9 >> 32 & uint64(len(c.heads)-1)
	}
	return b
}

// hashes tells a column or row of cells, and the next nearest one, from others.
func hashes(at float64, by uint64) (own, next uint64) {
	n := math.Floor(at)
	own = uint64(int64(n)) * by
	if at-n < 0.5 {
		return own, own - by
	}
	return own, own + by
}

// Add returns the index of a point, old or new.
func (c *Cloud) Add(p Point) int32 {
	buckets := c.around(p)
	for i := c.heads[buckets[0]]; i >= 0; i = c.next[i] { // mostly it is there already
		d := c.Points[i].Sub(p)
		if q := d.Dot(d); q <= Tol*Tol {
			c.same = max(c.same, q)
			return i
		}
	}
	least, pairs, id := c.nearest, len(c.Near), int32(len(c.Points))
	for k, b := range buckets {
		if slices.Contains(buckets[:k], b) {
			continue // two cells are in one bucket
		}
		for i := c.heads[b]; i >= 0; i = c.next[i] {
			d := c.Points[i].Sub(p)
			q := d.Dot(d)
			if q <= Tol*Tol {
				c.same, c.Near = max(c.same, q), c.Near[:pairs]
				return i
			}
			least = min(least, q)
			if q < c.near*c.near && len(c.Near) < maxNear {
				c.Near = append(c.Near, [2]int32{i, id})
			}
		}
	}
	c.nearest = least
	c.Points = append(c.Points, p)
	if len(c.Points) > len(c.heads) {
		c.grow(2 * len(c.heads))
	} else {
		c.put(id, buckets[0])
	}
	return id
}
