package eval

import (
	"math"

	"seamwright/compiler/plane"
	"seamwright/compiler/value"
)

// The work of the helpers. Each is given arguments of the kinds of its form and
// returns a value, or the reason why there is none.

func absolute(_ *run, a []value.Value) (value.Value, string) {
	if a[0].Num.Float64() < 0 {
		a[0].Num = a[0].Num.Neg()
	}
	return a[0], ""
}

func floor(_ *run, a []value.Value) (value.Value, string) { return value.Num(a[0].Num.Floor()), "" }
func ceil(_ *run, a []value.Value) (value.Value, string)  { return value.Num(a[0].Num.Ceil()), "" }

func even(_ *run, a []value.Value) (value.Value, string) {
	n, ok := a[0].Num.Whole()
	if !ok {
		return value.Value{}, a[0].Num.String() + " is not a whole number, so it is neither odd nor even"
	}
	return value.Bool(n%2 == 0), ""
}

func odd(r *run, a []value.Value) (value.Value, string) {
	v, fault := even(r, a)
	return value.Bool(!v.True()), fault
}

func greatest(_ *run, a []value.Value) (value.Value, string) {
	best := a[0]
	for _, v := range a[1:] {
		if v.Num.Float64() > best.Num.Float64() {
			best = v
		}
	}
	return best, ""
}

func least(_ *run, a []value.Value) (value.Value, string) {
	best := a[0]
	for _, v := range a[1:] {
		if v.Num.Float64() < best.Num.Float64() {
			best = v
		}
	}
	return best, ""
}

func mod(_ *run, a []value.Value) (value.Value, string) {
	if a[1].Num.Float64() == 0 {
		return value.Value{}, "0 can be taken away for ever, so nothing is left over"
	}
	return value.Value{Kind: a[0].Kind, Num: a[0].Num.Mod(a[1].Num)}, ""
}

func squareRoot(_ *run, a []value.Value) (value.Value, string) {
	if x := a[0].Num.Float64(); x < 0 {
		if x < -value.Tolerance {
			return value.Value{}, a[0].Num.String() + " is below 0 and has no square root"
		}
		return value.Num(value.Int(0)), ""
	}
	return value.Num(a[0].Num.Sqrt()), ""
}

// ratio makes a sine or cosine exact where it is a whole or a half.
func ratio(f float64) value.Value {
	if twice := 2 * f; twice == math.Trunc(twice) {
		return value.Num(value.Fraction(int64(twice), 2))
	}
	return value.Num(value.Float(f))
}

func sin(_ *run, a []value.Value) (value.Value, string) {
	s, _ := value.SinCos(a[0].Num)
	return ratio(s), ""
}

func cos(_ *run, a []value.Value) (value.Value, string) {
	_, c := value.SinCos(a[0].Num)
	return ratio(c), ""
}

func tan(_ *run, a []value.Value) (value.Value, string) {
	s, c := value.SinCos(a[0].Num)
	if math.Abs(c) < value.Tolerance {
		return value.Value{}, a[0].Num.String() + "deg has no tangent"
	}
	if math.Abs(math.Abs(s)-math.Abs(c)) == 0 {
		return value.Num(value.Int(int64(s / c))), ""
	}
	return value.Num(value.Float(s / c)), ""
}

// pick's first argument counts from 1.
func pick(_ *run, a []value.Value) (value.Value, string) {
	i, ok := a[0].Num.Whole()
	if !ok || i < 1 || i >= int64(len(a)) {
		return value.Value{}, "there is no value number " + a[0].Num.String() + " to pick: they count from 1 to " +
			value.Int(int64(len(a)-1)).String()
	}
	return a[i], ""
}

func start(v value.Value) plane.Point { return plane.Point{X: v.X, Y: v.Y} }
func end(v value.Value) plane.Point   { return plane.Point{X: v.X2, Y: v.Y2} }

func pointValue(p plane.Point) value.Value   { return value.Point(p.X, p.Y) }
func lineValue(p, q plane.Point) value.Value { return value.Line(p.X, p.Y, q.X, q.Y) }
func numberValue(f float64) value.Value      { return value.Num(value.Float(f)) }

// unit returns the line's direction as a vector of length 1.
func direction(l value.Value) (plane.Point, bool) {
	d := end(l).Sub(start(l))
	n := math.Hypot(d.X, d.Y)
	if !(n >= minSegment) {
		return plane.Point{}, false
	}
	return d.Mul(1 / n), true
}

const noDirection = "both ends of the line are the same point, so it runs nowhere"

func midPoints(_ *run, a []value.Value) (value.Value, string) {
	return pointValue(start(a[0]).Mid(start(a[1]))), ""
}

func midLine(_ *run, a []value.Value) (value.Value, string) {
	return pointValue(start(a[0]).Mid(end(a[0]))), ""
}

func between(p, q plane.Point, t float64) (value.Value, string) {
	if t == 1 {
		return pointValue(q), "" // exactly, which p + (q - p) need not be
	}
	return pointValue(p.Add(q.Sub(p).Mul(t))), ""
}

func betweenPoints(_ *run, a []value.Value) (value.Value, string) {
	return between(start(a[0]), start(a[1]), a[2].Num.Float64())
}

func betweenEnds(_ *run, a []value.Value) (value.Value, string) {
	return between(start(a[0]), end(a[0]), a[1].Num.Float64())
}

func towards(d plane.Point) (value.Value, string) {
	if math.Hypot(d.X, d.Y) < minSegment {
		return value.Value{}, "both points are the same, so there is no direction from one to the other"
	}
	return value.Angle(value.Direction(d.X, d.Y)), ""
}

func directionPoints(_ *run, a []value.Value) (value.Value, string) {
	return towards(start(a[1]).Sub(start(a[0])))
}

func directionLine(_ *run, a []value.Value) (value.Value, string) {
	return towards(end(a[0]).Sub(start(a[0])))
}

func distancePoints(_ *run, a []value.Value) (value.Value, string) {
	return apart(start(a[0]), start(a[1])), ""
}

func distanceLine(_ *run, a []value.Value) (value.Value, string) {
	return apart(start(a[0]), end(a[0])), ""
}

func apart(p, q plane.Point) value.Value { return numberValue(math.Hypot(p.X-q.X, p.Y-q.Y)) }

func distanceToLine(_ *run, a []value.Value) (value.Value, string) {
	d, ok := direction(a[1])
	if !ok {
		return value.Value{}, noDirection
	}
	return numberValue(math.Abs(d.Cross(start(a[0]).Sub(start(a[1]))))), ""
}

// footOn returns the point of a line nearest to p.
func footOn(l value.Value, p plane.Point) (plane.Point, bool) {
	d, ok := direction(l)
	return start(l).Add(d.Mul(d.Dot(p.Sub(start(l))))), ok
}

func foot(_ *run, a []value.Value) (value.Value, string) {
	q, ok := footOn(a[1], start(a[0]))
	if !ok {
		return value.Value{}, noDirection
	}
	return pointValue(q), ""
}

func meet(_ *run, a []value.Value) (value.Value, string) {
	d, ok1 := direction(a[0])
	e, ok2 := direction(a[1])
	if !ok1 || !ok2 {
		return value.Value{}, noDirection
	}
	sine := d.Cross(e)
	if math.Abs(sine) < value.Tolerance {
		return value.Value{}, "the lines run the same way and never meet"
	}
	t := start(a[1]).Sub(start(a[0])).Cross(e) / sine
	return pointValue(start(a[0]).Add(d.Mul(t))), ""
}

func parallel(_ *run, a []value.Value) (value.Value, string) {
	p := start(a[1])
	return lineValue(p, p.Add(end(a[0]).Sub(start(a[0])))), ""
}

func inset(r *run, a []value.Value) (value.Value, string) {
	if r.frame.state == noFrame {
		return value.Value{}, "the unit has no middle to move towards until its size is known"
	}
	d, ok := direction(a[0])
	if !ok {
		return value.Value{}, noDirection
	}
	left := plane.Point{X: -d.Y, Y: d.X}
	side := left.Dot(r.frame.middle.Sub(start(a[0])))
	switch {
	case math.Abs(side) < minSegment:
		return value.Value{}, "the line runs through the unit's middle, so neither side of it is nearer"
	case side < 0:
		left = left.Mul(-1)
	}
	by := left.Mul(a[1].Num.Float64())
	return lineValue(start(a[0]).Add(by), end(a[0]).Add(by)), ""
}

func polar(_ *run, a []value.Value) (value.Value, string) {
	s, c := value.SinCos(a[1].Num)
	r := a[0].Num.Float64()
	return value.Point(r*c, r*s), ""
}

// turned rotates p by a[1] about a[2], or about the origin.
func turned(p plane.Point, a []value.Value) plane.Point {
	var about plane.Point
	if len(a) > 2 {
		about = start(a[2])
	}
	s, c := value.SinCos(a[1].Num)
	d := p.Sub(about)
	return about.Add(plane.Point{X: c*d.X - s*d.Y, Y: s*d.X + c*d.Y})
}

func rotatePoint(_ *run, a []value.Value) (value.Value, string) {
	return pointValue(turned(start(a[0]), a)), ""
}

func rotateLine(_ *run, a []value.Value) (value.Value, string) {
	return lineValue(turned(start(a[0]), a), turned(end(a[0]), a)), ""
}

// across reflects p in the line l.
func across(l value.Value, p plane.Point) (plane.Point, bool) {
	f, ok := footOn(l, p)
	return f.Add(f.Sub(p)), ok
}

func reflectPoint(_ *run, a []value.Value) (value.Value, string) {
	p, ok := across(a[1], start(a[0]))
	if !ok {
		return value.Value{}, noDirection
	}
	return pointValue(p), ""
}

func reflectLine(_ *run, a []value.Value) (value.Value, string) {
	p, ok := across(a[1], start(a[0]))
	q, _ := across(a[1], end(a[0]))
	if !ok {
		return value.Value{}, noDirection
	}
	return lineValue(p, q), ""
}
