package plane

import (
	"cmp"
	"math"
	"slices"
)

// A Face is a polygon whose sides have labels: Labels[i] says what the side from
// corner i to the next is part of. Cutting a face keeps the labels.
type Face struct {
	Corners Polygon
	Labels  []int32
	Convex  bool // known to be convex; cutting it is quicker
}

// A Hit is where a line meets the border of a face: on side Edge or, where
// Corner is set, in the corner with that index.
type Hit struct {
	At     Point
	Edge   int
	Corner bool
}

// A Chord is a straight stretch through the inside of a face, from border to
// border.
type Chord struct{ From, To Hit }

// Chords appends the stretches of the whole line that run inside the face, in
// their order along the line. Stretches along a side are not inside.
func (f *Face) Chords(l Line, chords []Chord) []Chord {
	var space [16]float64
	off, left, right := space[:0], false, false
	dir := l.Dir()
	for _, p := range f.Corners {
		d := dir.Cross(p.Sub(l.A))
		switch {
		case d > Tol:
			left = true
		case d < -Tol:
			right = true
		default:
			d = 0
		}
		off = append(off, d)
	}
	if !left || !right {
		return chords
	}
	var found [4]Hit
	hits := f.hits(off, found[:0])
	if f.Convex && len(hits) == 2 {
		if dir.Dot(hits[1].At.Sub(hits[0].At)) < 0 {
			hits[0], hits[1] = hits[1], hits[0]
		}
		return append(chords, Chord{hits[0], hits[1]})
	}
	slices.SortStableFunc(hits, func(a, b Hit) int { return cmp.Compare(dir.Dot(a.At), dir.Dot(b.At)) })
	for i := 1; i < len(hits); i++ {
		a, b := hits[i-1], hits[i]
		if !a.At.Same(b.At) && f.Corners.Locate(a.At.Mid(b.At)) > 0 {
			chords = append(chords, Chord{a, b})
		}
	}
	return chords
}

// hits lists where the line meets the border, given each corner's distance.
func (f *Face) hits(off []float64, hits []Hit) []Hit {
	for i, d := range off {
		e := 0.0
		if i+1 < len(off) {
			e = off[i+1]
		} else {
			e = off[0]
		}
		if d == 0 {
			hits = append(hits, Hit{f.Corners[i], i, true})
		} else if d > 0 && e < 0 || d < 0 && e > 0 {
			s := f.Corners.Side(i)
			hits = append(hits, Hit{lerp(s.A, s.B, d/(d-e)), i, false})
		}
	}
	return hits
}

// Split cuts the face along a chord. The new side of each part has the label
// given for it; left is the part to the left of the walk from From to To.
func (f *Face) Split(c Chord, leftLabel, rightLabel int32) (left, right Face) {
	room := new(room)
	return f.part(room, c.To, c.From, leftLabel), f.part(room, c.From, c.To, rightLabel)
}

// A Bench is where faces are cut off from others, thousands of them in a large
// block. The zero Bench is ready for use.
type Bench struct {
	kept room
	rest [2]room // by turns
	turn int
}

// CutOff splits the face like [Face.Split], with one label for both new sides. The
// left part is good for ever and shares an allocation with others; what is left
// of the face is good until the next but one is cut off: see [Bench.Keep].
func (f *Face) CutOff(b *Bench, c Chord, label int32) (left, rest Face) {
	b.turn = 1 - b.turn
	room := &b.rest[b.turn]
	room.corners, room.labels = room.corners[:0], room.labels[:0]
	return f.part(&b.kept, c.To, c.From, label), f.part(room, c.From, c.To, label)
}

// Keep returns a face that is good for ever.
func (b *Bench) Keep(f Face) Face {
	corners, labels := b.kept.take(len(f.Corners))
	f.Corners, f.Labels = append(corners, f.Corners...), append(labels, f.Labels...)
	return f
}

// Bend cuts the face along a walk of two straight stretches, from the border over
// a point inside to the border again. The new sides of each part have the labels
// given for the two stretches; left is the part to the left of the walk.
func (f *Face) Bend(from Hit, over Point, to Hit, leftLabels, rightLabels [2]int32) (left, right Face) {
	bent := func(a, b Hit, first, second int32) Face {
		p := f.part(new(room), a, b, first)
		p.Corners, p.Labels = append(p.Corners, over), append(p.Labels, second)
		p.Convex = p.Corners.Convex()
		return p
	}
	return bent(to, from, leftLabels[0], leftLabels[1]), bent(from, to, rightLabels[1], rightLabels[0])
}

// Straighten takes out the corners between two sides of one label that run
// straight on.
func (f *Face) Straighten() {
	n := len(f.Corners)
	corners, labels := make(Polygon, 0, n), make([]int32, 0, n)
	for i, p := range f.Corners {
		if f.Labels[(i+n-1)%n] != f.Labels[i] || !f.Corners.straight(i) {
			corners, labels = append(corners, p), append(labels, f.Labels[i])
		}
	}
	f.Corners, f.Labels = corners, labels
}

// A room is where faces keep their corners and labels, many to an allocation.
type room struct {
	corners Polygon
	labels  []int32
}

// take returns space for n corners and their labels.
func (r *room) take(n int) (Polygon, []int32) {
	from := len(r.corners)
	if from+n > cap(r.corners) {
		const first, most = 8, 512
		size := max(n, min(max(2*cap(r.corners), first), most))
		from, r.corners, r.labels = 0, make(Polygon, 0, size), make([]int32, 0, size)
	}
	to := from + n
	r.corners, r.labels = r.corners[:to], r.labels[:to]
	return r.corners[from:from:to], r.labels[from:from:to]
}

// part walks the border from a to b and closes with a new side.
func (f *Face) part(room *room, a, b Hit, label int32) Face {
	n := len(f.Corners)
	stop := b.Edge
	if !b.Corner {
		stop = (stop + 1) % n
	}
	size := 2 + (stop-a.Edge-1+n)%n
	p := Face{Convex: f.Convex}
	p.Corners, p.Labels = room.take(size)
	p.Corners, p.Labels = append(p.Corners, a.At), append(p.Labels, f.Labels[a.Edge])
	for i := (a.Edge + 1) % n; i != stop; i = (i + 1) % n {
		p.Corners, p.Labels = append(p.Corners, f.Corners[i]), append(p.Labels, f.Labels[i])
	}
	p.Corners, p.Labels = append(p.Corners, b.At), append(p.Labels, label)
	if !p.Convex {
		p.Convex = p.Corners.Convex()
	}
	return p
}

// Beyond reports on which side of the whole line a face lies that the line does
// not cross: 1 left, -1 right, by its farthest corner.
func (f *Face) Beyond(l Line) int {
	dir, far := l.Dir(), 0.0
	for _, p := range f.Corners {
		if d := dir.Cross(p.Sub(l.A)); math.Abs(d) > math.Abs(far) {
			far = d
		}
	}
	if far < 0 {
		return -1
	}
	return 1
}
