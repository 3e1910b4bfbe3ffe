package testsew

import "math"

// A meeting is a point of a join where seams of both sides meet.
type meeting struct {
	join     int
	at       pt
	off      float64    // from the middle of the join, along it
	cot, csc [2]float64 // of the angle at which each side's seam meets the join
	copies   [2]int
	along    [2]float64 // direction of the join on each side's sheet, radians
	angle    float64    // the sharper of the two, degrees
	edge     float64    // the shortest side of a patch that ends there
	name     string
}

// meeting measures the seams that meet on a join. Of several on one side the
// sharpest counts: it is moved most.
func (t *table) meeting(j *joint, l line, n, at float64) meeting {
	m := meeting{join: j.number, at: l.point(at, 0), off: at - n/2, edge: math.Inf(1), angle: 90}
	for side, copies := range [2][]int{j.left, j.right} {
		m.copies[side] = copies[0]
		for _, c := range copies {
			t.side(&m, side, c, l)
		}
		p := &t.placed[m.copies[side]]
		m.along[side] = math.Atan2(l.dir.y, l.dir.x) - p.turn
	}
	m.name = t.sides(m.copies)
	return m
}

// sides names two sections that are sewn together. Copies of one are told apart by
// where they lie, seen from the front.
func (t *table) sides(copies [2]int) string {
	a, b := &t.placed[copies[0]], &t.placed[copies[1]]
	if a.name != b.name {
		return a.name + " and " + b.name
	}
	apart := b.outline.middle().sub(a.outline.middle())
	if math.Abs(apart.x) >= math.Abs(apart.y) {
		return "the left " + a.name + " and the right " + a.name
	}
	return "the upper " + a.name + " and the lower " + a.name
}

// side takes up the patches of one copy that have a corner at the meeting.
func (t *table) side(m *meeting, side, c int, l line) {
	for _, area := range t.placed[c].areas {
		area = area.corners()
		for i, q := range area {
			if q.to(m.at) > near {
				continue
			}
			k := len(area)
			for _, other := range [2]pt{area[(i+1)%k], area[(i+k-1)%k]} {
				m.edge = min(m.edge, other.to(q))
				d := other.sub(q).unit()
				sin, cos := math.Abs(l.dir.cross(d)), l.dir.dot(d)
				if sin < same { // the join itself
					continue
				}
				if csc := 1 / sin; csc >= m.csc[side] {
					m.csc[side], m.copies[side] = csc, c
					m.cot[side] = cos / l.dir.cross(d)
					m.angle = min(m.angle, math.Asin(min(1, sin))*180/math.Pi)
				}
			}
		}
	}
}
