package tiling

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

type (
	pos    = pattern.Pos
	length = pattern.Length
)

const (
	// Lap is what a part shows beyond a joining line: a strip for glue, narrow,
	// since paper lies double there under the needle. That of a glue stick is
	// hardly broader (common practice, no source).
	Lap = 3.0 / 8 * pattern.Inch

	// Beyond is kept free around the drawing where joining lines end, for the
	// crosses there.
	Beyond = 3.0 / 8 * pattern.Inch

	// Most parts make a foundation; more are a work of their own, and lose what
	// accuracy they had.
	Most = 16

	// step is the grid of joining lines and crosses: what lies on it is on a ruler.
	step = 1.0 / 8 * pattern.Inch

	// clear is how far a cross at the end of a joining line is from the drawing, at
	// the least, and arm is half its size.
	clear = arm + 0.4*pattern.Millimetre
	arm   = 2.2 * pattern.Millimetre

	// noise is far above that of doubles, far below a printer's dot.
	noise = 1e-6
)

// A Tiling is a drawing divided into parts.
type Tiling struct {
	Rows, Columns int
	Parts         []Part // row by row from the upper left, those with anything on them
	Joints        []Joint
	x, y          []length // where parts meet; the drawing's ends at both ends
	whole         drawing.Reach
	white         [2]length
}

// A Part is what one page shows.
type Part struct {
	Row, Column int           // from 1
	Own         drawing.Reach // up to the joining lines
	Shown       drawing.Reach // and beyond them
}

// A Joint is where two parts meet.
type Joint struct {
	A, B          pos // the ends of the joining line: crosses
	Upright       bool
	Before, After int    // indices of the parts at the left or above, and at the right or below
	Letter        string // a, b, ...

	crosses []pos            // between the ends
	texts   [2]*drawing.Text // on both sides of the line; nil where there is no room
}

// Long is how far apart the crosses at both ends are.
func (j *Joint) Long() length { return max(j.B.X-j.A.X, j.B.Y-j.A.Y) }

// Divide divides a drawing, whose outermost line is given, into as few parts as the
// room allows. Where there is a choice lines run where cost is least; nil for as
// many halves, thirds, ... It reports false where so many parts are not enough.
func Divide(line []pos, room pattern.Size, most int, cost func(upright bool, at length) float64) (*Tiling, bool) {
	box := drawing.ReachOf([]drawing.Item{&drawing.Path{Points: line, Fill: drawing.Black}})
	w, h := box.X1-box.X0, box.Y1-box.Y0
	columns, rows := pages(w, room.W, most), pages(h, room.H, most)
	white := [2]length{} // beside and above the drawing, for the ends of lines
	if rows > 1 && pages(w+2*Beyond, room.W, most) == columns {
		white[0] = Beyond
	}
	if columns > 1 && pages(h+2*Beyond, room.H, most) == rows {
		white[1] = Beyond
	}
	if columns*rows > 4*most || columns < 1 || rows < 1 {
		return nil, false
	}
	t := &Tiling{Rows: rows, Columns: columns, whole: box, white: white}
	t.x = t.cuts(true, box.X0, box.X1, white[0], columns, room.W, cost)
	t.y = t.cuts(false, box.Y0, box.Y1, white[1], rows, room.H, cost)
	at := t.parts(line)
	if len(t.Parts) > most {
		return nil, false
	}
	t.joints(line, at)
	return t, true
}

// pages is how many parts a length takes; 0 where the room is too small for any,
// and no more than there can be.
func pages(l, room length, most int) int {
	endless := 4*most + 1
	switch {
	case l <= room+noise:
		return 1
	case inner(room) < step:
		return 0
	}
	return min(endless, 2+max(0, int(math.Ceil(float64((l-2*(room-Lap-step))/inner(room))-noise))))
}

// inner is how much a part between two others has of its own.
func inner(room length) length { return step * length(math.Floor(float64((room-2*Lap)/step)+noise)) }

// cuts finds where the parts of one direction meet.
func (t *Tiling) cuts(upright bool, from, to, end length, n int, room length, cost func(bool, length) float64) []length {
	out := []length{from}
	for k := 1; k < n; k++ {
		last := out[k-1]
		most := last + inner(room)
		if k == 1 {
			most = from + room - Lap - end
		}
		least := to + end - (room - Lap) - length(n-1-k)*inner(room)
		least = max(least, last+step)
		even := last + (to-last)/length(n-k+1)
		best, price := length(0), math.Inf(1)
		first := int(math.Ceil(float64((least-from)/step) - noise))
		for i := first; ; i++ {
			at := from + length(i)*step
			if at > most+noise && i > first {
				break
			}
			p := math.Abs(float64(at-even)) * evenness
			if cost != nil {
				p += cost(upright, at)
			}
			if p < price {
				best, price = at, p
			}
		}
		out = append(out, best)
	}
	return append(out, to)
}

// evenness is what an inch off the middle is worth against an inch of seam on
// double paper: little, but of equal lines the most even one is taken.
const evenness = 0.01

// parts lists the parts that have anything of the drawing, and returns the index
// of each by row and column, -1 for none.
func (t *Tiling) parts(line []pos) [][]int {
	at := make([][]int, t.Rows)
	grow := func(i, n int, white length) (before, after length) {
		before, after = Lap, Lap
		if i == 0 {
			before = white
		}
		if i == n-1 {
			after = white
		}
		return before, after
	}
	for r := range t.Rows {
		at[r] = make([]int, t.Columns)
		for c := range t.Columns {
			own := drawing.Reach{X0: t.x[c], Y0: t.y[r], X1: t.x[c+1], Y1: t.y[r+1]}
			at[r][c] = -1
			if !meets(line, own) {
				continue
			}
			left, right := grow(c, t.Columns, t.white[0])
			up, down := grow(r, t.Rows, t.white[1])
			at[r][c] = len(t.Parts)
			t.Parts = append(t.Parts, Part{Row: r + 1, Column: c + 1, Own: own,
				Shown: drawing.Reach{X0: own.X0 - left, Y0: own.Y0 - up, X1: own.X1 + right, Y1: own.Y1 + down}})
		}
	}
	return at
}

// joints finds where parts meet.
func (t *Tiling) joints(line []pos, at [][]int) {
	add := func(upright bool, cut, from, to, start, end length, before, after int) {
		a, b, ok := crossed(line, upright, cut, from, to)
		if !ok || before < 0 || after < 0 {
			return
		}
		off := length(clear)
		if !upright && t.white[0] == 0 || upright && t.white[1] == 0 {
			off = -off
		}
		if a > from+noise { // it ends in the white or, where there is none, just inside
			a = start + step*length(math.Floor(float64((a-off-start)/step)+noise))
			if off < 0 {
				a += step
			}
		}
		if b < to-noise {
			b = start + step*length(math.Ceil(float64((b+off-start)/step)-noise))
			if off < 0 {
				b -= step
			}
		}
		if b-a < step { // it only just goes across
			b = a + step
			if last := start + step*length(math.Floor(float64((end-start)/step)+noise)); off < 0 && b > last {
				a, b = last-step, last
			}
		}
		j := Joint{A: pos{X: a, Y: cut}, B: pos{X: b, Y: cut}, Upright: upright, Before: before, After: after, Letter: letter(len(t.Joints))}
		if upright {
			j.A, j.B = pos{X: cut, Y: a}, pos{X: cut, Y: b}
		}
		t.Joints = append(t.Joints, j)
	}
	open := func(ends []length, i int) (length, length) { // the first and last stretch have no line at their outer end
		from, to := ends[i], ends[i+1]
		if i == 0 {
			from = length(math.Inf(-1))
		}
		if i == len(ends)-2 {
			to = length(math.Inf(1))
		}
		return from, to
	}
	for r := range t.Rows {
		for c := 1; c < t.Columns; c++ {
			from, to := open(t.y, r)
			add(true, t.x[c], from, to, t.whole.Y0, t.whole.Y1, at[r][c-1], at[r][c])
		}
		for c := 0; c < t.Columns && r+1 < t.Rows; c++ {
			from, to := open(t.x, c)
			add(false, t.y[r+1], from, to, t.whole.X0, t.whole.X1, at[r][c], at[r+1][c])
		}
	}
}

// letter counts a, b, ..., z, aa, ab, ...
func letter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return letter(i/26-1) + letter(i%26)
}

// crossed returns the first and the last point of a straight cut, between two
// others, that lie in a polygon.
func crossed(line []pos, upright bool, cut, from, to length) (a, b length, ok bool) {
	var ends []length
	for i, p := range line {
		q := line[(i+1)%len(line)]
		if !upright {
			p, q = pos{X: p.Y, Y: p.X}, pos{X: q.Y, Y: q.X}
		}
		if (p.X > cut) != (q.X > cut) {
			ends = append(ends, p.Y+(cut-p.X)/(q.X-p.X)*(q.Y-p.Y))
		}
	}
	slices.Sort(ends)
	for i := 0; i+1 < len(ends); i += 2 {
		lo, hi := max(ends[i], from), min(ends[i+1], to)
		if hi-lo < noise {
			continue
		}
		if !ok {
			a = lo
		}
		b, ok = hi, true
	}
	return a, b, ok
}

// meets reports whether a polygon has any area in a rectangle.
func meets(line []pos, r drawing.Reach) bool {
	area := length(0)
	in := Clip(line, r)
	for i, p := range in {
		q := in[(i+1)%len(in)]
		area += p.X*q.Y - p.Y*q.X
	}
	return area > noise || area < -noise
}

// Clip returns what of a polygon lies in a rectangle (Sutherland and Hodgman,
// 1974). Where that is several pieces, they hang together by sides of no area.
func Clip(line []pos, r drawing.Reach) []pos {
	out := line
	for _, side := range [4]struct {
		dir  pos
		from length
	}{{pos{X: 1}, r.X0}, {pos{X: -1}, -r.X1}, {pos{Y: 1}, r.Y0}, {pos{Y: -1}, -r.Y1}} {
		in := out
		out = nil
		for i, p := range in {
			q := in[(i+1)%len(in)]
			dp, dq := p.X*side.dir.X+p.Y*side.dir.Y-side.from, q.X*side.dir.X+q.Y*side.dir.Y-side.from
			if dp >= 0 {
				out = append(out, p)
			}
			if dp >= 0 != (dq >= 0) {
				out = append(out, pos{X: p.X + (q.X-p.X)*dp/(dp-dq), Y: p.Y + (q.Y-p.Y)*dp/(dp-dq)})
			}
		}
	}
	return out
}
