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
	tees     []tee   // of a point

	faceStart []int32       // the inner edges of face f: faceEdge[faceStart[f]:faceStart[f+1]]
	faceEdge  []half        // anticlockwise around the face in a partition's own mesh
	corner    []float64     // of a half: its face's angle where the half begins; only for inner points
	centre    []plane.Point // a point inside each face
	area      []float64     // of a face; only in a partition's own mesh
	bent      []bool        // a face that is not convex
	corners   [][]int       // of a face: its points; only if the block is not convex
	random    []key         // of a face: see keyOf
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

// begin returns the point where a half begins, walked with its face on the left.
func (m *mesh) begin(h half) int32 {
	if h&1 == 0 {
		return m.tail[h>>1]
	}
	return m.head[h>>1]
}

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

// A tee is a point where seams end on one side of another that runs straight
// through: seam is -1 at every other point.
type tee struct {
	seam int32
	side meets
}
