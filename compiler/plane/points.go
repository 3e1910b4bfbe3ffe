package plane

import "math"

// A Cloud collects points and tells them apart: points within [Tol] of each
// other are one. It keeps account of how sure that was.
type Cloud struct {
	Points  []Point
	Same    float64    // the greatest distance of two points taken for one
	Nearest float64    // the least distance of two different points, if under the cell's size
	Near    [][2]int32 // pairs of different points nearer than was asked, the first maxNear

	cell, near float64
	next       []int32 // of the same cell, or -1
	keys       []uint64
	heads      []int32
}

// maxNear is how many pairs are listed: more than anybody reads.
const maxNear = 1000

// NewCloud returns an empty cloud. Pairs nearer than near are listed. Of points
// farther apart than cell no distance is known; a cell as large as the shortest
// side of any polygon is always large enough to find the nearest corners.
func NewCloud(cell, near float64, expect int) *Cloud {
	size := 16
	for size < 2*expect {
		size *= 2
	}
	c := &Cloud{Nearest: math.Inf(1), cell: max(cell, near, 4*Tol), near: near,
		Points: make([]Point, 0, expect), next: make([]int32, 0, expect)}
	c.grow(size)
	return c
}

func (c *Cloud) grow(size int) {
	keys, heads := c.keys, c.heads
	c.keys, c.heads = make([]uint64, size), make([]int32, size)
	for i := range c.heads {
		c.heads[i] = -1
	}
	for i, h := range heads {
		if h >= 0 {
			k := c.slot(keys[i])
			c.keys[k], c.heads[k] = keys[i], h
		}
	}
}

// slot returns where a key is, or would be.
func (c *Cloud) slot(key uint64) int {
	mask := len(c.keys) - 1
	i := int(key>>20) & mask
	for c.heads[i] >= 0 && c.keys[i] != key {
		i = (i + 1) & mask
	}
	return i
}

func cellKey(x, y float64) uint64 {
	h := uint64(int64(x))*0x9e3779b97f4a7c15 ^ uint64(int64(y))*0xc2b2ae3d27d4eb4f
	h ^= h >> 29
	h *= 0xbf58476d1ce4e5b9
	return h ^ h>>32
}

// Add returns the index of a point, old or new.
func (c *Cloud) Add(p Point) int32 {
	x, y := math.Floor(p.X/c.cell), math.Floor(p.Y/c.cell)
	home := cellKey(x, y)
	least, pairs, id := math.Inf(1), len(c.Near), int32(len(c.Points))
	look := func(key uint64) int32 {
		for i := c.heads[c.slot(key)]; i >= 0; i = c.next[i] {
			d := c.Points[i].Sub(p)
			q := d.Dot(d)
			if q <= Tol*Tol {
				c.Same = max(c.Same, math.Sqrt(q))
				return i
			}
			least = min(least, q)
			if q < c.near*c.near && len(c.Near) < maxNear {
				c.Near = append(c.Near, [2]int32{i, id})
			}
		}
		return -1
	}
	if i := look(home); i >= 0 {
		c.Near = c.Near[:pairs]
		return i
	}
	for dx := -1.0; dx <= 1; dx++ {
		for dy := -1.0; dy <= 1; dy++ {
			if dx == 0 && dy == 0 {
				continue
			}
			if i := look(cellKey(x+dx, y+dy)); i >= 0 {
				c.Near = c.Near[:pairs]
				return i
			}
		}
	}
	c.Nearest = min(c.Nearest, math.Sqrt(least))
	if 2*(len(c.Points)+1) > len(c.keys) {
		c.grow(2 * len(c.keys))
	}
	k := c.slot(home)
	c.next = append(c.next, c.heads[k])
	c.keys[k], c.heads[k] = home, id
	c.Points = append(c.Points, p)
	return id
}
