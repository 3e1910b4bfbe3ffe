package quilting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// A blockEnd is a seam of a block that ends on the block's edge, in the block's own
// place.
type blockEnd struct {
	at     pattern.Pos
	toward pattern.Pos // from at: the way its allowances lie; at itself where it is open
	kind   pattern.SeamKind
	copy   int
	index  int
}

// endsOf lists the seams that end on the edge of a block at a size.
func endsOf(s *pattern.Sized) (all []blockEnd) {
	onEdge := func(p pattern.Pos) bool {
		return min(abs(p.X), abs(p.Y), abs(p.X-s.Finished.W), abs(p.Y-s.Finished.H)) <= touch
	}
	add := func(a, b pattern.Pos, lies pattern.Length, e blockEnd) {
		l := through(a, b)
		for _, p := range [2]pattern.Pos{a, b} {
			if onEdge(p) {
				e.at, e.toward = p, pattern.Pos{X: p.X - lies*l.dir.Y, Y: p.Y + lies*l.dir.X}
				all = append(all, e)
			}
		}
	}
	for c := range s.Copies {
		move := s.Copies[c].Motion()
		d := &s.Drawings[s.Copies[c].Drawing]
		for i := range d.Pieces {
			if a, b := d.Pieces[i].Seam[0], d.Pieces[i].Seam[1]; a != b { // the newer piece lies to the left
				add(move(a), move(b), 1, blockEnd{kind: pattern.OfSection, copy: c, index: i})
			}
		}
	}
	for i := range s.Joins {
		j := &s.Joins[i]
		lies := map[pattern.Press]pattern.Length{pattern.PressLeft: 1, pattern.PressRight: -1}[j.Press]
		add(j.A, j.B, lies, blockEnd{kind: pattern.OfBlock, index: i})
	}
	return all
}

// finishJoins finds what ends on every join, now that all lies in its place.
func (w *work) finishJoins() {
	f := finder{work: w, blocks: map[[2]int][]blockEnd{}, ends: map[[2]int64][]int{}}
	for i := range w.joints {
		f.along(i)
		f.add(i)
	}
	w.out.Joins = make([]pattern.QuiltJoin, len(w.joints))
	for i := range w.joints {
		w.out.Joins[i] = w.joints[i].join
	}
}

// A finder finds what ends on a join.
type finder struct {
	*work
	blocks map[[2]int][]blockEnd // by block and size
	ends   map[[2]int64][]int    // joins that end in a cell of the plane
}

// cells is how many cells there are to the inch; a place is looked up in the four
// that are nearest.
const cells = 64

func (f *finder) add(joint int) {
	j := &f.joints[joint].join
	for _, p := range [2]pattern.Pos{j.A, j.B} {
		cell := [2]int64{int64(math.Floor(float64(p.X) * cells)), int64(math.Floor(float64(p.Y) * cells))}
		f.ends[cell] = append(f.ends[cell], joint)
	}
}

// along fills in the ends of seams on a join, and the points where those of both
// sides meet.
func (f *finder) along(i int) {
	j := &f.joints[i]
	l := through(j.join.A, j.join.B)
	for side, spans := range [2][]span{j.left, j.right} {
		left := side == 0
		for k, s := range spans {
			if placed, ok := s.part.Placed(); ok {
				f.ofBlock(j, &l, placed, left)
			}
			if k > 0 && s.from > touch && s.from < l.long-touch {
				f.ofQuilt(j, &l, s.from, left)
			}
		}
	}
	ends := j.join.Ends
	// Seams that meet lie apart by what processors round otherwise: as they were found.
	const grain = 1e6 // places that are told apart, to an inch
	place := func(e *pattern.QuiltEnd) float64 { return math.Round(float64(e.Along) * grain) }
	slices.SortStableFunc(ends, func(a, b pattern.QuiltEnd) int { return cmp.Compare(place(&a), place(&b)) })
	for k := 0; k < len(ends); {
		n := k
		var both [2]bool
		for ; n < len(ends) && ends[n].Along <= ends[k].Along+touch; n++ {
			if ends[n].Left {
				both[0] = true
			} else {
				both[1] = true
			}
		}
		if both[0] && both[1] {
			j.join.Points = append(j.join.Points, ends[k].Along)
		}
		k = n
	}
}

// ofBlock adds the seams of a block that end on a join, its own ends left out.
func (f *finder) ofBlock(j *joint, l *line, placed int, left bool) {
	at := &f.out.Placed[placed]
	key := [2]int{at.Block, at.Size}
	ends, ok := f.blocks[key]
	if !ok {
		ends = endsOf(&f.p.Blocks[at.Block].Sizes[at.Size])
		f.blocks[key] = ends
	}
	move := at.Motion()
	for _, e := range ends {
		p := move(e.at)
		t := l.along(p)
		if abs(l.off(p)) > touch || t < touch || t > l.long-touch {
			continue
		}
		j.join.Ends = append(j.join.Ends, pattern.QuiltEnd{Along: t, Left: left, Kind: e.kind, Part: pattern.Part(placed),
			Copy: e.copy, Index: e.index, Lies: sign(l.along(move(e.toward)) - t)})
	}
}

// ofQuilt adds earlier joins that end on a join at a place.
func (f *finder) ofQuilt(j *joint, l *line, at pattern.Length, left bool) {
	p := l.point(at)
	x, y := int64(math.Round(float64(p.X)*cells)), int64(math.Round(float64(p.Y)*cells))
	var found []int
	for _, cell := range [4][2]int64{{x - 1, y - 1}, {x, y - 1}, {x - 1, y}, {x, y}} {
		found = append(found, f.ends[cell]...)
	}
	slices.Sort(found)
	for _, k := range slices.Compact(found) {
		o := &f.joints[k].join
		for _, ends := range [2][2]pattern.Pos{{o.A, o.B}, {o.B, o.A}} {
			if abs(l.off(ends[0])) > touch || abs(l.along(ends[0])-at) > touch || abs(l.off(ends[1])) <= touch || l.off(ends[1]) > 0 != left {
				continue
			}
			d := through(o.A, o.B).dir
			j.join.Ends = append(j.join.Ends, pattern.QuiltEnd{Along: at, Left: left, Kind: pattern.OfQuilt, Index: k,
				Lies: sign(-d.Y*l.dir.X + d.X*l.dir.Y)})
		}
	}
}

// sign tells which way something points along a join; what stands square to it or
// is nothing, neither way.
func sign(l pattern.Length) int8 {
	switch {
	case l > touch:
		return 1
	case l < -touch:
		return -1
	}
	return 0
}
