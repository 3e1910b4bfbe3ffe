package piecing

import (
	"cmp"
	"slices"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
)

// A division is an outline cut along joins, as a tree: every cut parts one face
// in two, and the leaves are the regions. Labels of sides: i < len(outline) is
// the outline's side i; beyond that, two for each chord, see leftOf and rightOf.
type division struct {
	outline plane.Polygon
	nodes   []node
	chords  []chord
	leaves  []int32
	same    float64 // the greatest distance of a chord's end from the corner taken for it
	effort  *effort
	last    int32 // the node that was last of interest; the next is often near

	slits    []slit // of partial seams, in the order in which they are met
	troubles []trouble
}

type node struct {
	face                plane.Face
	parent, left, right int32 // -1 for none; a leaf has no left and no right
	chord               int32 // that parts left and right
	leaf                int32 // its index in leaves
	bent                bool  // the chord goes on along a slit: see slit
}

// A chord is where one join crosses one face: a single seam.
type chord struct {
	plane.Line     // from border to border, as the join was written
	join       int // index into the joins
	at         float64
	slit       int32 // of a partial join: index into slits; else -1
}

// A loose is an end of a join that lies inside a face.
type loose struct {
	join  int
	end   plane.Point // as written
	first bool        // it is the first of the two
	ahead plane.Point // where the line, run on, meets the border
	near  plane.Point // the point of the border that is nearest to the end
}

func (d *division) leftOf(chord int32) int32  { return int32(len(d.outline)) + 2*chord }
func (d *division) rightOf(chord int32) int32 { return d.leftOf(chord) + 1 }

// divide cuts an outline along joins, the last first. It returns the loose ends
// (whose joins are run on to the border, so that others may end on them) and the
// indices of joins that divide nothing.
func divide(outline plane.Polygon, joins []eval.Join, e *effort) (d *division, ends []loose, idle []int) {
	d = &division{outline: outline, effort: e, nodes: make([]node, 1, 2*len(joins)+1)}
	labels := make([]int32, len(outline))
	for i := range labels {
		labels[i] = int32(i)
	}
	d.nodes[0] = node{plane.Face{Corners: outline, Labels: labels, Convex: outline.Convex()}, -1, -1, -1, -1, -1, false}
	for j := len(joins) - 1; j >= 0 && !d.tooMany(); j-- {
		c := cutter{division: d, joins: joins, join: j, line: joins[j].Line, long: joins[j].Line.Len()}
		before, told := len(d.chords), len(d.troubles)
		c.cut(d.holding(c.line.A, c.line.B))
		ends = append(ends, c.loose...)
		if len(d.chords) == before && len(d.troubles) == told {
			if joins[j].Partial {
				c.unbegun()
			} else {
				idle = append(idle, j)
			}
		}
	}
	for i := range d.nodes {
		if n := &d.nodes[i]; n.left < 0 {
			n.leaf = int32(len(d.leaves))
			d.leaves = append(d.leaves, int32(i))
		}
	}
	return d, ends, idle
}

// tooMany reports whether it is no use to go on cutting.
func (d *division) tooMany() bool { return len(d.chords) >= maxRegions || *d.effort < 0 }

// sewn returns the chords in the order in which they are sewn: as the joins are
// written, along each join.
func (d *division) sewn() []int32 {
	order := make([]int32, len(d.chords))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortStableFunc(order, func(a, b int32) int {
		x, y := &d.chords[a], &d.chords[b]
		return cmp.Or(cmp.Compare(x.join, y.join), cmp.Compare(x.at, y.at))
	})
	return order
}

// A cutter cuts along one join.
type cutter struct {
	*division
	joins []eval.Join
	join  int
	line  plane.Line
	long  float64
	loose []loose
	found []plane.Chord
}

// climb is how many nodes are tried on the way up from the last one before the
// search begins at the root. Loops come by neighbors: a strip beside the last one
// is found in a step or two, however deep it lies.
const climb = 4

// holding returns a node whose face holds all the points.
func (d *division) holding(points ...plane.Point) int32 {
	i := d.last
next:
	for k := 0; k < climb && i > 0; k++ {
		f := &d.nodes[i].face
		for _, p := range points {
			if !f.Convex || f.Corners.Locate(p) < 0 {
				i = d.nodes[i].parent
				continue next
			}
		}
		return i
	}
	return 0
}

// cut cuts all regions below a node that the join runs through.
func (c *cutter) cut(i int32) {
	n := &c.nodes[i]
	if !c.effort.spend(len(n.face.Corners)) || c.tooMany() {
		return
	}
	if n.left < 0 {
		c.cutLeaf(i)
		return
	}
	left, right := n.left, n.right
	if n.face.Convex && !n.bent {
		a, b := c.chords[n.chord].Side(c.line.A), c.chords[n.chord].Side(c.line.B)
		if a <= 0 && b <= 0 {
			left = -1
		}
		if a >= 0 && b >= 0 {
			right = -1
		}
	}
	if left >= 0 {
		c.cut(left)
	}
	if right >= 0 {
		c.cut(right)
	}
}

func (c *cutter) cutLeaf(i int32) {
	face := &c.nodes[i].face
	c.found = face.Chords(c.line, c.found[:0])
	for _, ch := range c.found {
		from, to := c.line.Along(ch.From.At), c.line.Along(ch.To.At)
		if min(to, c.long)-max(from, 0) <= plane.Tol {
			continue
		}
		if c.slitted(i, ch, from, to) {
			return
		}
		if from < -plane.Tol {
			c.loose = append(c.loose, loose{c.join, c.line.A, true, ch.From.At, face.Corners.Nearest(c.line.A)})
		}
		if to > c.long+plane.Tol {
			c.loose = append(c.loose, loose{c.join, c.line.B, false, ch.To.At, face.Corners.Nearest(c.line.B)})
		}
		c.effort.spend(effortOfCut)
		c.same = max(c.same, snapped(c.line, ch))
		id := int32(len(c.chords))
		c.chords = append(c.chords, chord{plane.Line{A: ch.From.At, B: ch.To.At}, c.join, from, -1})
		left, right := face.Split(ch, c.leftOf(id), c.rightOf(id))
		convex := face.Convex
		k := c.parted(i, id, left, right)
		if !convex { // the line may cross the parts again
			c.cutLeaf(k)
			c.cutLeaf(k + 1)
		}
		return
	}
}

// parted makes a node of two parts; it returns the first of them.
func (d *division) parted(i, chord int32, left, right plane.Face) int32 {
	k := int32(len(d.nodes))
	n := &d.nodes[i]
	n.left, n.right, n.chord, d.last = k, k+1, chord, i
	d.nodes = append(d.nodes, node{left, i, -1, -1, -1, -1, false}, node{right, i, -1, -1, -1, -1, false})
	return k
}

// A spot says where a point lies in a division.
type spot struct {
	leaf    int32 // the region it lies inside, or -1
	outside bool
	chord   int32 // the chord it lies on, or -1
}

// locate finds the region that holds a point.
func (d *division) locate(p plane.Point) spot {
	i := d.holding(p)
	if *d.effort < 0 {
		return spot{-1, false, -1}
	}
	if i == 0 && d.nodes[0].face.Corners.Locate(p) < 0 {
		return spot{-1, true, -1}
	}
	for d.nodes[i].left >= 0 {
		n := &d.nodes[i]
		d.effort.spend(1)
		side := 0
		if n.face.Convex && !n.bent {
			side = d.chords[n.chord].Side(p)
		} else if d.nodes[n.left].face.Corners.Locate(p) > 0 {
			side = 1
		} else if d.nodes[n.right].face.Corners.Locate(p) > 0 {
			side = -1
		}
		switch side {
		case 1:
			i = n.left
		case -1:
			i = n.right
		default:
			return d.onBorder(p)
		}
	}
	d.last = i
	if d.nodes[i].face.Corners.Locate(p) == 0 {
		return d.onBorder(p)
	}
	return spot{d.nodes[i].leaf, false, -1}
}

// onBorder tells the chord that a point lies on, if it is not the outline.
func (d *division) onBorder(p plane.Point) spot {
	d.effort.spend(len(d.chords))
	for i := range d.chords {
		if d.chords[i].Nearest(p).Same(p) {
			return spot{-1, false, int32(i)}
		}
	}
	return spot{-1, false, -1}
}
