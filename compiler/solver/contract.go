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
	c.random = randoms(len(sections))
	c.sides()
	return c
}

// indexFaces lists the edges of every face, in no order.
func (m *mesh) indexFaces() {
	m.faceStart = make([]int32, m.faces()+2)
	for e := range m.tail {
		m.faceStart[m.left[e]+2]++
		m.faceStart[m.right[e]+2]++
	}
	for f := 2; f < len(m.faceStart); f++ {
		m.faceStart[f] += m.faceStart[f-1]
	}
	m.faceEdge = make([]half, 2*len(m.tail))
	for e := range m.tail {
		for h := half(2 * e); h <= half(2*e+1); h++ {
			f := m.face(h)
			m.faceEdge[m.faceStart[f+1]] = h
			m.faceStart[f+1]++
		}
	}
	m.faceStart = m.faceStart[:m.faces()+1]
}
