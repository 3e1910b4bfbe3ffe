package solver

import "seamwright/compiler/plane"

// contract returns a mesh whose faces are the sections: the edges inside sections
// are gone. What meets at points is not worked out.
func (m *mesh) contract(sections []part) *mesh {
	label := make([]int32, m.faces())
	centre := make([]plane.Point, len(sections))
	for i, s := range sections {
		for _, f := range s {
			label[f] = int32(i)
			centre[i] = centre[i].Add(m.centre[f].Mul(1 / float64(len(s))))
		}
	}
	c := &mesh{at: m.at, border: m.border, convex: m.convex, centre: centre, bent: make([]bool, len(sections))}
	last := int32(-2)
	for e := range m.tail {
		l, r := label[m.left[e]], label[m.right[e]]
		if l == r {
			continue
		}
		if int32(e) != last+1 || m.seam[e] != m.seam[last] {
			c.first = append(c.first, int32(len(c.tail)))
		}
		last = int32(e)
		c.tail, c.head = append(c.tail, m.tail[e]), append(c.head, m.head[e])
		c.left, c.right = append(c.left, l), append(c.right, r)
	}
	c.first = append(c.first, int32(len(c.tail)))
	c.indexSeams()
	c.indexFaces()
	c.sides()
	return c
}
