package solver

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/plane"
)

// A net is the drawing as a planar map. Edge e is two half-edges, 2e along it
// and 2e+1 back; each has the area on its left.
type net struct {
	at    []plane.Point
	edges []Edge
	start []int32 // half-edges out of point v: out[start[v]:start[v+1]], anticlockwise
	out   []int32
	place []int32 // of a half-edge in out
	loop  []int32 // the closed walk that a half-edge belongs to
	loops []int32 // a half-edge of each loop
}

func (n *net) tail(h int32) int {
	if h&1 == 0 {
		return n.edges[h>>1].From
	}
	return n.edges[h>>1].To
}

func (n *net) head(h int32) int { return n.tail(h ^ 1) }

// vector runs along a half-edge.
func (n *net) vector(h int32) plane.Point { return n.at[n.head(h)].Sub(n.at[n.tail(h)]) }

// next walks around the area on the left: at the head, it takes the half-edge
// that is clockwise next to the way back.
func (n *net) next(h int32) int32 {
	i, first := n.place[h^1], n.start[n.head(h)]
	if i == first {
		i = n.start[n.head(h)+1]
	}
	return n.out[i-1]
}

// newNet sorts the edges around their points and finds the loops.
func newNet(at []plane.Point, edges []Edge) *net {
	n := &net{at: at, edges: edges, start: make([]int32, len(at)+2)}
	n.out, n.place = make([]int32, 2*len(edges)), make([]int32, 2*len(edges))
	for i := range edges {
		n.start[edges[i].From+2]++
		n.start[edges[i].To+2]++
	}
	for v := 2; v < len(n.start); v++ {
		n.start[v] += n.start[v-1]
	}
	angle := make([]float64, 2*len(edges))
	for i := range edges {
		d := n.vector(int32(2 * i))
		a := turn(d)
		angle[2*i], angle[2*i+1] = a, opposed(a)
		for h := 2 * i; h <= 2*i+1; h++ {
			v := n.tail(int32(h))
			n.out[n.start[v+1]] = int32(h)
			n.start[v+1]++
		}
	}
	n.start = n.start[:len(at)+1]
	for v := range at {
		sortByAngle(n.out[n.start[v]:n.start[v+1]], angle)
	}
	for i, h := range n.out {
		n.place[h] = int32(i)
	}
	n.findLoops()
	return n
}

func (n *net) findLoops() {
	n.loop = make([]int32, len(n.out))
	for h := range n.loop {
		n.loop[h] = -1
	}
	for h := range n.loop {
		if n.loop[h] >= 0 {
			continue
		}
		id := int32(len(n.loops))
		n.loops = append(n.loops, int32(h))
		for k := int32(h); n.loop[k] < 0; k = n.next(k) {
			n.loop[k] = id
		}
	}
}

// turn grows with the direction of d from 0 to 4, 1 for each quarter turn. It
// costs less than an angle, and opposite directions differ by exactly 2.
func turn(d plane.Point) float64 {
	p := d.Y / (math.Abs(d.X) + math.Abs(d.Y))
	switch {
	case d.X < 0:
		return 2 - p
	case p < 0:
		return 4 + p
	}
	return p
}

func opposed(a float64) float64 {
	if a >= 2 {
		return a - 2
	}
	return a + 2
}

// shortList is where sorting by insertion stops paying.
const shortList = 24

func sortByAngle(list []int32, angle []float64) {
	if len(list) > shortList {
		slices.SortStableFunc(list, func(g, h int32) int { return cmp.Compare(angle[g], angle[h]) })
		return
	}
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && angle[list[j]] < angle[list[j-1]]; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// inside marks the loops that can be reached from the inner side of the outline
// without crossing it.
func (n *net) inside() []bool {
	in := make([]bool, len(n.loops))
	var todo []int32
	enter := func(h int32) {
		if l := n.loop[h]; !in[l] {
			in[l] = true
			todo = append(todo, n.loops[l])
		}
	}
	for e := range n.edges {
		if n.edges[e].Seam == outlineEdge {
			enter(int32(2 * e))
		}
	}
	for len(todo) > 0 {
		h := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for k := h; ; {
			if n.edges[k>>1].Seam != outlineEdge {
				enter(k ^ 1)
			}
			if k = n.next(k); k == h {
				break
			}
		}
	}
	return in
}
