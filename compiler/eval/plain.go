package eval

import (
	"seamwright/compiler/plane"
	"seamwright/lang"
)

// Nearly all points and lines are written as plain numbers. Those are read from the
// tree as they stand: half the time of evaluating a large block went into handing
// values from one expression to the next. They count as many steps as if they had
// been worked out; near the most that is allowed they are, so that it is told in
// the right place.

const (
	pointSteps = 3 // itself and its two numbers
	lineSteps  = 1 + 2*pointSteps
)

// plainPoint reads (1, 2.5); ok is false for any other expression.
func (r *run) plainPoint(e lang.Expr) (p plane.Point, ok bool) {
	p, ok = plainPoint(e)
	return p, ok && r.spend(pointSteps)
}

// plainLine reads (0, 1) -- (2.5, 1); ok is false for any other expression.
func (r *run) plainLine(e lang.Expr) (l plane.Line, ok bool) {
	b, _ := e.(*lang.Binary)
	if b == nil || b.Op != "--" {
		return l, false
	}
	if l.A, ok = plainPoint(b.X); ok {
		l.B, ok = plainPoint(b.Y)
	}
	return l, ok && r.spend(lineSteps)
}

func plainPoint(e lang.Expr) (p plane.Point, ok bool) {
	at, _ := e.(*lang.Point)
	if at == nil {
		return p, false
	}
	x, _ := at.X.(*lang.Number)
	y, _ := at.Y.(*lang.Number)
	if x == nil || y == nil || !plain(x) || !plain(y) {
		return p, false
	}
	return plane.Point{X: float64(x.Num) / float64(x.Den), Y: float64(y.Num) / float64(y.Den)}, true
}

func plain(n *lang.Number) bool { return n.Unit == lang.Plain && !n.Big }

// spend counts steps, if there are so many left.
func (r *run) spend(n int) bool {
	switch {
	case r.checking:
		return true
	case r.stopped || r.steps+n > maxSteps:
		return false
	}
	r.steps += n
	return true
}
