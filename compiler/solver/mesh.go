package solver

import "seamwright/compiler/plane"

// A mesh is a partition as the searches need it: numbers in few, flat slices.
// Its faces are the patches, or, once sections are chosen, the sections.
//
// Edge e of seam s at position i is number first[s]+i; it runs from the seam's
// i-th point to the next. The outline's edges are left out: only whether a point
// lies on the outline matters.
type mesh struct {
	at     []plane.Point
	border []bool // of a point: on the outline
	convex bool   // the whole block is
	first  []int32
	seams  []line

	seam        []int32 // of an edge
	tail        []int32
	head        []int32
	left, right []int32 // faces
	sideL       []int32 // the side of the left face that an edge belongs to: see sides
	sideR       []int32
	sideCount   int

	refStart []int32 // the seams at point v: refs[refStart[v]:refStart[v+1]]
	refs     []ref
	meetings []meets // of every seam at every one of its points: see meets

	faceStart []int32 // the inner edges of face f: faceEdge[faceStart[f]:faceStart[f+1]]
	faceEdge  []half
	centre    []plane.Point // a point inside each face
	bent      []bool        // a face that is not convex
	corners   [][]int       // of a face: its points; only if the block is not convex
}

// A half is an edge seen from one of its faces: twice the edge, plus one if
// the face lies to its right.
type half int32

// A line is a seam's direction, to tell left from right.
type line struct{ from, dir plane.Point }

// side returns a number whose sign tells on which side p lies, positive left.
func (l line) side(p plane.Point) float64 { return l.dir.Cross(p.Sub(l.from)) }

// A ref is a seam at one of its points.
type ref struct{ seam, pos int32 }

// meets says what meets a seam at one of its points.
type meets uint8

const (
	fromLeft  meets = 1 << iota // other edges on the left
	fromRight                   // other edges on the right
	crossed                     // another seam runs straight through here
	through                     // this seam itself runs on here
)

func (m *mesh) faces() int { return len(m.centre) }

// meets tells what meets a seam at a position.
func (m *mesh) meets(seam, i int32) *meets { return &m.meetings[m.first[seam]+seam+i] }

// face returns the face that a half looks from, other the one across.
func (m *mesh) face(h half) int32 {
	if h&1 == 0 {
		return m.left[h>>1]
	}
	return m.right[h>>1]
}

func (m *mesh) other(h half) int32 { return m.face(h ^ 1) }

func (m *mesh) side(h half) int32 {
	if h&1 == 0 {
		return m.sideL[h>>1]
	}
	return m.sideR[h>>1]
}

// refsAt lists the seams at a point.
func (m *mesh) refsAt(v int32) []ref { return m.refs[m.refStart[v]:m.refStart[v+1]] }

// halves lists a face's inner edges.
func (m *mesh) halves(f int32) []half { return m.faceEdge[m.faceStart[f]:m.faceStart[f+1]] }

// edge returns the edge of a seam that starts at its i-th point.
func (m *mesh) edge(seam, i int32) int32 { return m.first[seam] + i }

// last returns the position of a seam's last point.
func (m *mesh) last(seam int32) int32 { return m.first[seam+1] - m.first[seam] }

// point returns the point at a position of a seam.
func (m *mesh) point(seam, i int32) int32 {
	if e := m.first[seam] + i; e < m.first[seam+1] {
		return m.tail[e]
	}
	return m.head[m.first[seam+1]-1]
}

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
	for i := range p.Patches {
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
	m.index()
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
		l := plane.Line{A: p.Points[e.From].Point, B: p.Points[e.To].Point}
		if l.Offset(p.Points[next[e.To]].Point) < -straightTol {
			return false
		}
	}
	return true
}

// index fills in what follows from edges, faces and seams.
func (m *mesh) index() {
	m.indexSeams()
	m.indexFaces()
	m.sides()
	m.meet()
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

// roles says what meets at each point. A Tee has a seam that runs straight
// through and is met from one side only.
func (m *mesh) roles(points []Point) {
	for v := range points {
		if m.border[v] {
			continue
		}
		points[v].Role = Match
		for _, r := range m.refsAt(int32(v)) {
			if t := *m.meets(r.seam, r.pos); t&through != 0 && t&(fromLeft|fromRight) != fromLeft|fromRight {
				points[v].Role = Tee
			}
		}
	}
}
