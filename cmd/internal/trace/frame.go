package trace

import (
	"math"

	"seamwright/compiler/plane"
)

// A Frame is what was taken for the block: which part of the drawing it is.
type Frame struct {
	What    FrameKind
	ID      string // of the rectangle
	Outside []LeftOut
	Over    int // lines that ran out over it and were cut off
}

// A FrameKind says what the edge of the block is.
type FrameKind int8

const (
	AllDrawn  FrameKind = iota // the box of everything
	Rectangle                  // the largest rectangle, which other things keep clear of or run out over
	Page                       // the page, which lines run up to
)

// overhang is how far lines may run out over a rectangle, as a part of its longer
// side, for it to be the edge of the block still: farther out they are a part of the
// picture.
const overhang = 1.0 / 8

// frame decides what the edge of the block is, and takes what lies outside away.
func (d *Drawing) frame(part float64) Frame {
	g := d.box(part)
	largest, area := -1, 0.0
	for i := range d.Shapes {
		if low, high, ok := d.Shapes[i].upright(g.near); ok && (high.X-low.X)*(high.Y-low.Y) > area {
			largest, area = i, (high.X-low.X)*(high.Y-low.Y)
		}
	}
	if largest >= 0 {
		if f, ok := d.within(largest, g.near); ok {
			return f
		}
	}
	if d.pageTouched(g) {
		d.edge = &[2]plane.Point{d.Page[0], d.Page[1]}
		return Frame{What: Page}
	}
	return Frame{}
}

// upright returns the box of a closed shape that is a rectangle along the axes.
func (s *Shape) upright(near float64) (low, high plane.Point, ok bool) {
	p := plane.Polygon(s.Points)
	low, high = p.Box()
	if !s.Closed || len(p) < 4 || high.X-low.X <= near || high.Y-low.Y <= near {
		return low, high, false
	}
	for i := range p {
		a, b := p[i], p.Side(i).B
		if math.Abs(a.X-b.X) > near && math.Abs(a.Y-b.Y) > near {
			return low, high, false
		}
	}
	return low, high, math.Abs(math.Abs(p.Area())-(high.X-low.X)*(high.Y-low.Y)) <= near*p.Length()
}

// within tries a rectangle as the block's edge: something lies in it, and whatever
// does not lies clear of it, or is a line that runs out a little.
func (d *Drawing) within(frame int, near float64) (Frame, bool) {
	low, high, _ := d.Shapes[frame].upright(near)
	f := Frame{What: Rectangle, ID: d.Shapes[frame].ID}
	reach := overhang * max(high.X-low.X, high.Y-low.Y)
	kept := make([]Shape, 0, len(d.Shapes))
	for i := range d.Shapes {
		s := &d.Shapes[i]
		a, b := plane.Polygon(s.Points).Box()
		inside := a.X >= low.X-near && a.Y >= low.Y-near && b.X <= high.X+near && b.Y <= high.Y+near
		clear := a.X > high.X+near || a.Y > high.Y+near || b.X < low.X-near || b.Y < low.Y-near
		little := a.X >= low.X-reach && a.Y >= low.Y-reach && b.X <= high.X+reach && b.Y <= high.Y+reach
		runs := !s.Filled && a.X < high.X-near && a.Y < high.Y-near && b.X > low.X+near && b.Y > low.Y+near
		switch {
		case inside:
		case clear:
			f.Outside = append(f.Outside, LeftOut{"outside the block", s.ID})
			continue
		case little && runs:
			f.Over++
			kept = append(kept, s.clipped(low, high)...)
			continue
		default:
			return Frame{}, false
		}
		kept = append(kept, *s)
	}
	if len(kept) < 2 || len(f.Outside)+f.Over == 0 {
		return Frame{}, false // it is all that is drawn, or holds nothing
	}
	d.Shapes, d.edge = kept, &[2]plane.Point{low, high}
	return f, true
}

// clipped returns what of the sides of a shape lies in a box, each for itself.
func (s *Shape) clipped(low, high plane.Point) (parts []Shape) {
	n := len(s.Points)
	for i := range n {
		if i == n-1 && !s.Closed {
			break
		}
		a, d := s.Points[i], s.Points[(i+1)%n].Sub(s.Points[i])
		from, to := 0.0, 1.0
		for _, axis := range [2][4]float64{{a.X, d.X, low.X, high.X}, {a.Y, d.Y, low.Y, high.Y}} {
			at, dir, least, most := axis[0], axis[1], axis[2], axis[3]
			switch t, u := (least-at)/dir, (most-at)/dir; {
			case dir > 0:
				from, to = max(from, t), min(to, u)
			case dir < 0:
				from, to = max(from, u), min(to, t)
			case at < least || at > most:
				to = -1
			}
		}
		if from < to {
			part := *s
			part.Points, part.Closed = []plane.Point{a.Add(d.Mul(from)), a.Add(d.Mul(to))}, false
			parts = append(parts, part)
		}
	}
	return parts
}

// pageTouched reports whether all that is drawn lies on the page, and reaches two of
// its sides or more, but does not fill it.
func (d *Drawing) pageTouched(g grid) bool {
	if d.Page == nil {
		return false
	}
	low, high, near := d.Page[0], d.Page[1], g.near
	touched := 0
	for _, gap := range [4]float64{g.low.X - low.X, g.low.Y - low.Y, high.X - g.high.X, high.Y - g.high.Y} {
		switch {
		case gap < -near:
			return false
		case gap <= near:
			touched++
		}
	}
	return touched >= 2 && touched < 4
}
