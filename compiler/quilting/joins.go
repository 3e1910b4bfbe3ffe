package quilting

import (
	"cmp"
	"math"
	"slices"

	"seamwright/compiler/pattern"
)

// touch is how far apart, in inches, two places may be computed and still be one:
// ten times what sizes lose in rounding, and less than a thread.
const touch pattern.Length = 1e-4

// A joint is a join with what lies along it, from its A.
type joint struct {
	join        pattern.QuiltJoin
	left, right []span
}

// A span is how far a part lies along a join.
type span struct {
	part     pattern.Part
	from, to pattern.Length
}

// A line is where a join lies: its start and its direction, of length 1.
type line struct {
	at, dir pattern.Pos
	long    pattern.Length
}

func through(a, b pattern.Pos) line {
	long := pattern.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
	return line{a, pattern.Pos{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}, long}
}

// along returns how far along the line a place lies.
func (l *line) along(p pattern.Pos) pattern.Length {
	return (p.X-l.at.X)*l.dir.X + (p.Y-l.at.Y)*l.dir.Y
}

// off returns how far a place lies to the left of the line.
func (l *line) off(p pattern.Pos) pattern.Length {
	return (p.Y-l.at.Y)*l.dir.X - (p.X-l.at.X)*l.dir.Y
}

func (l *line) point(along pattern.Length) pattern.Pos {
	return pattern.Pos{X: l.at.X + along*l.dir.X, Y: l.at.Y + along*l.dir.Y}
}

// outline returns the corners of a part in the quilt.
func (w *work) outline(p pattern.Part) []pattern.Pos {
	if i, ok := p.Area(); ok {
		return w.out.Areas[i].Polygon
	}
	at := &w.out.Placed[p]
	return moved(w.p.Blocks[at.Block].Sizes[at.Size].Outline, at.Motion())
}

// joinRows sews the parts of each row together, then the rows, then the triangles
// at the corners.
func (w *work) joinRows() {
	for i := range w.rows {
		r := &w.rows[i]
		w.out.Rows = append(w.out.Rows, pattern.Row{Parts: r.parts, Sashing: r.sashing})
		l := line{at: r.low, dir: r.dir}
		for k := 1; k < len(r.parts); k++ {
			far := pattern.Length(math.Inf(-1))
			for _, p := range w.outline(r.parts[k-1]) {
				far = max(far, l.along(p))
			}
			a := l.point(far)
			up := [2]pattern.Pos{a, {X: a.X - r.dir.Y, Y: a.Y + r.dir.X}}
			w.join(pattern.InRow, i+1, up, r.parts[k-1:k], r.parts[k:k+1])
		}
	}
	for i := 1; i < len(w.rows); i++ {
		upper := &w.rows[i-1]
		along := [2]pattern.Pos{upper.low, {X: upper.low.X + upper.dir.X, Y: upper.low.Y + upper.dir.Y}}
		w.join(pattern.OfRows, i, along, upper.parts, w.rows[i].parts)
	}
	if len(w.corners) == 0 {
		return
	}
	var middle []pattern.Part
	for i := range w.rows {
		middle = append(middle, w.rows[i].parts...)
	}
	for _, c := range w.corners {
		l := through(c.side[0], c.side[1])
		left, right := middle, []pattern.Part{c.part}
		for _, p := range w.outline(c.part) {
			if l.off(p) > touch {
				left, right = right, left
				break
			}
		}
		w.join(pattern.AtCorner, 0, c.side, left, right)
	}
}

// join adds a join along a line, as far as parts on both sides of it have a side
// there.
func (w *work) join(step pattern.Step, of int, at [2]pattern.Pos, left, right []pattern.Part) {
	l := through(at[0], at[1])
	j := joint{join: pattern.QuiltJoin{Step: step, Of: of}, left: w.spans(&l, left), right: w.spans(&l, right)}
	if len(j.left) == 0 || len(j.right) == 0 {
		return
	}
	from := max(j.left[0].from, j.right[0].from)
	to := min(j.left[len(j.left)-1].to, j.right[len(j.right)-1].to)
	within := func(spans []span) (kept []span, parts []pattern.Part) {
		for _, s := range spans {
			if s.to > from+touch && s.from < to-touch {
				kept, parts = append(kept, span{s.part, s.from - from, s.to - from}), append(parts, s.part)
			}
		}
		return kept, parts
	}
	j.left, j.join.Left = within(j.left)
	j.right, j.join.Right = within(j.right)
	if len(j.left) == 0 || len(j.right) == 0 {
		return
	}
	j.join.A, j.join.B = l.point(from), l.point(to)
	w.joints = append(w.joints, j)
}

// spans lists what of some parts lies along a line, in order. Those of a corner
// triangle's neighbors that only touch the line are left out.
func (w *work) spans(l *line, parts []pattern.Part) (all []span) {
	for _, part := range parts {
		outline := w.outline(part)
		for i, p := range outline {
			q := outline[(i+1)%len(outline)]
			if abs(l.off(p)) > touch || abs(l.off(q)) > touch {
				continue
			}
			if a, b := l.along(p), l.along(q); abs(b-a) > touch {
				all = append(all, span{part, min(a, b), max(a, b)})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	return all
}
