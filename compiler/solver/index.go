package solver

import (
	"math"

	"seamwright/compiler/plane"
)

func newMesh(p *Partition) *mesh {
	m := &mesh{at: make([]plane.Point, len(p.Points)), border: make([]bool, len(p.Points)), convex: true}
	for i := range p.Points {
		m.at[i] = p.Points[i].Point
	}
	inner := len(p.Edges)
	for inner > 0 && p.Edges[inner-1].Seam < 0 {
		inner--
		m.border[p.Edges[inner].From] = true
	}
	m.convex = outlineConvex(p, p.Edges[inner:])
	m.tail, m.head = make([]int32, inner), make([]int32, inner)
	m.left, m.right = make([]int32, inner), make([]int32, inner)
	for i := range m.tail {
		e := &p.Edges[i]
		m.tail[i], m.head[i] = int32(e.From), int32(e.To)
		m.left[i], m.right[i] = int32(e.Left), int32(e.Right)
	}
	m.first = make([]int32, 0, len(p.Seams)+1)
	for i := range p.Seams {
		m.first = append(m.first, int32(p.Seams[i].First))
	}
	m.first = append(m.first, int32(inner))
	m.centre, m.bent = make([]plane.Point, len(p.Patches)), make([]bool, len(p.Patches))
	m.area = make([]float64, len(p.Patches))
	for i := range p.Patches {
		m.area[i] = p.Patches[i].Area
		if m.bent[i] = !p.Patches[i].Convex; m.bent[i] {
			m.centre[i] = p.Polygon(i).Interior()
			continue
		}
		sum := plane.Point{}
		for _, v := range p.Patches[i].Points {
			sum = sum.Add(m.at[v])
		}
		m.centre[i] = sum.Mul(1 / float64(len(p.Patches[i].Points)))
	}
	if !m.convex {
		for i := range p.Patches {
			m.corners = append(m.corners, p.Patches[i].Points)
		}
	}
	m.indexSeams()
	m.aroundFaces(p)
	m.random = randoms(len(p.Patches))
	m.sides()
	m.meet()
	m.findTees()
	m.angles()
	return m
}

// outlineConvex reports whether no corner of the outline turns inwards. Its
// edges are given in order for each side, but in no order of sides.
func outlineConvex(p *Partition, edges []Edge) bool {
	next := make(map[int]int, len(edges))
	for _, e := range edges {
		next[e.From] = e.To
	}
	for _, e := range edges {
		// How far the corner lies from the line of its neighbours, not how far
		// the next side leads away: short sides have no exact direction.
		l := plane.Line{A: p.Points[e.From].Point, B: p.Points[next[e.To]].Point}
		if l.Offset(p.Points[e.To].Point) > straightTol {
			return false
		}
	}
	return true
}

// aroundFaces lists the inner edges of the patches.
func (m *mesh) aroundFaces(p *Partition) {
	m.faceStart = make([]int32, 1, m.faces()+1)
	m.faceEdge = make([]half, 0, 2*len(m.tail))
	for f := range p.Patches {
		for _, e := range p.Patches[f].Edges {
			switch {
			case e >= len(m.tail):
			case p.Edges[e].Left == f:
				m.faceEdge = append(m.faceEdge, half(2*e))
			default:
				m.faceEdge = append(m.faceEdge, half(2*e+1))
			}
		}
		m.faceStart = append(m.faceStart, int32(len(m.faceEdge)))
	}
}

func (m *mesh) indexSeams() {
	m.seam = make([]int32, len(m.tail))
	m.seams = make([]line, len(m.first)-1)
	m.refStart = make([]int32, len(m.at)+2)
	for s := range m.seams {
		first, end := m.first[s], m.first[s+1]
		a, b := m.at[m.tail[first]], m.at[m.head[end-1]]
		m.seams[s] = line{a, b.Sub(a)}
		for e := first; e < end; e++ {
			m.seam[e] = int32(s)
			m.refStart[m.tail[e]+2]++
		}
		m.refStart[m.head[end-1]+2]++
	}
	for v := 2; v < len(m.refStart); v++ {
		m.refStart[v] += m.refStart[v-1]
	}
	m.refs = make([]ref, m.refStart[len(m.refStart)-1])
	m.meetings = make([]meets, len(m.tail)+len(m.seams))
	for s := int32(0); int(s) < len(m.seams); s++ {
		for i, n := int32(0), m.last(s); i <= n; i++ {
			if i > 0 && i < n {
				*m.meets(s, i) = through
			}
			v := m.point(s, i)
			m.refs[m.refStart[v+1]] = ref{s, i}
			m.refStart[v+1]++
		}
	}
	m.refStart = m.refStart[:len(m.at)+1]
}

// sides numbers the straight sides of the faces: the edges of one seam that
// follow each other along one face are one side of it.
func (m *mesh) sides() {
	m.sideL, m.sideR = make([]int32, len(m.tail)), make([]int32, len(m.tail))
	n := int32(0)
	for e := range m.tail {
		goesOn := e > 0 && m.seam[e] == m.seam[e-1]
		if goesOn && m.left[e] == m.left[e-1] {
			m.sideL[e] = m.sideL[e-1]
		} else {
			m.sideL[e] = n
			n++
		}
		if goesOn && m.right[e] == m.right[e-1] {
			m.sideR[e] = m.sideR[e-1]
		} else {
			m.sideR[e] = n
			n++
		}
	}
	m.sideCount = int(n)
}

// meet works out what meets each seam at each of its inner points.
func (m *mesh) meet() {
	for v := range m.at {
		if m.border[v] {
			continue
		}
		refs := m.refsAt(int32(v))
		for i, r := range refs {
			here, dir := m.meets(r.seam, r.pos), m.seams[r.seam].dir
			for j, t := range refs {
				if i == j {
					continue
				}
				away := m.seams[t.seam].dir
				switch {
				case *m.meets(t.seam, t.pos)&through != 0:
					*here |= crossed | fromLeft | fromRight
					continue
				case t.pos > 0:
					away = away.Mul(-1)
				}
				if dir.Cross(away) > 0 {
					*here |= fromLeft
				} else {
					*here |= fromRight
				}
			}
		}
	}
}

// findTees looks for the points that have a seam straight through and others on
// one side of it only.
func (m *mesh) findTees() {
	m.tees = make([]tee, len(m.at))
	for v := range m.tees {
		m.tees[v].seam = -1
		if m.border[v] {
			continue
		}
		for _, r := range m.refsAt(int32(v)) {
			if t := *m.meets(r.seam, r.pos); t&through != 0 && t&(fromLeft|fromRight) != fromLeft|fromRight {
				m.tees[v] = tee{r.seam, t & (fromLeft | fromRight)}
			}
		}
	}
}

// roles says what meets at each point.
func (m *mesh) roles(points []Point) {
	for v := range points {
		switch {
		case m.border[v]:
		case m.tees[v].seam >= 0 && m.tees[v].side == 0:
			points[v].Role = Plain
		case m.tees[v].seam >= 0:
			points[v].Role = Tee
		default:
			points[v].Role = Match
		}
	}
}

// angles measures the corners at inner points. Directions are those of whole
// seams, so that angles along a seam add up to a straight one.
func (m *mesh) angles() {
	direction := make([]float64, len(m.seams))
	for s := range direction {
		direction[s] = math.Atan2(m.seams[s].dir.Y, m.seams[s].dir.X)
	}
	m.corner = make([]float64, 2*len(m.tail))
	for f := range int32(m.faces()) {
		list := m.halves(f)
		for i, h := range list {
			k := list[(i+len(list)-1)%len(list)]
			if v := m.begin(h); m.border[v] || m.begin(k^1) != v {
				continue
			}
			a := direction[m.seam[k>>1]] - direction[m.seam[h>>1]] + math.Pi
			if k&1 != h&1 {
				a += math.Pi
			}
			for a >= 2*math.Pi {
				a -= 2 * math.Pi
			}
			for a < 0 {
				a += 2 * math.Pi
			}
			m.corner[h] = a
		}
	}
}
