package value

import "math"

// An Op joins two values.
type Op uint8

// Operators. Comparing gives a bool; the others are arithmetic, but for Segment,
// which makes a line of two points, and And and Or.
const (
	NoOp Op = iota
	Add
	Sub
	Mul
	Div
	Equal
	NotEqual
	Less
	LessEqual
	Greater
	GreaterEqual
	And
	Or
	Segment
)

// OpNamed returns the operator written so, or NoOp.
func OpNamed(s string) Op {
	switch s {
	case "+":
		return Add
	case "-":
		return Sub
	case "*":
		return Mul
	case "/":
		return Div
	case "==":
		return Equal
	case "!=":
		return NotEqual
	case "<":
		return Less
	case "<=":
		return LessEqual
	case ">":
		return Greater
	case ">=":
		return GreaterEqual
	case "and":
		return And
	case "or":
		return Or
	case "--":
		return Segment
	}
	return NoOp
}

// scalar reports kinds that are one Number.
func scalar(k Kind) bool { return k == NumberKind || k == LengthKind || k == AngleKind }

// Gives returns the kind of x op y, or None where the kinds do not fit:
//
//	x + y, x - y     number, length, angle, point: two of a kind, which it stays
//	k * x, x * k     a number times a number, length, angle or point
//	x / k            the same, divided by a number
//	x / y            two lengths or two angles give a number
//	x < y ...        two numbers, lengths or angles
//	x == y, x != y   two of a kind
//	x and y, x or y  two bools
//	x -- y           two points
func (op Op) Gives(x, y Kind) Kind {
	switch op {
	case Add, Sub:
		if x == y && (scalar(x) || x == PointKind) {
			return x
		}
	case Mul:
		if x == NumberKind && (scalar(y) || y == PointKind) {
			return y
		}
		if y == NumberKind && (scalar(x) || x == PointKind) {
			return x
		}
	case Div:
		if y == NumberKind && (scalar(x) || x == PointKind) {
			return x
		}
		if x == y && scalar(x) {
			return NumberKind
		}
	case Less, LessEqual, Greater, GreaterEqual:
		if x == y && scalar(x) {
			return BoolKind
		}
	case Equal, NotEqual:
		if x == y {
			return BoolKind
		}
	case And, Or:
		if x == BoolKind && y == BoolKind {
			return BoolKind
		}
	case Segment:
		if x == PointKind && y == PointKind {
			return LineKind
		}
	}
	return None
}

// A Fault says why two values of fitting kinds have no result.
type Fault uint8

// Faults.
const (
	NoFault Fault = iota
	DividedByZero
	TooLarge // beyond the range of a float64
)

// Apply works out x op y, whose kinds must fit.
func (op Op) Apply(x, y Value) (Value, Fault) {
	switch op {
	case Add:
		if x.Kind == PointKind {
			return finite(Point(x.X+y.X, x.Y+y.Y))
		}
		return finite(Value{Kind: x.Kind, Num: x.Num.Add(y.Num)})
	case Sub:
		if x.Kind == PointKind {
			return finite(Point(x.X-y.X, x.Y-y.Y))
		}
		return finite(Value{Kind: x.Kind, Num: x.Num.Sub(y.Num)})
	case Mul:
		if x.Kind != NumberKind {
			x, y = y, x
		}
		if y.Kind == PointKind {
			k := x.Num.Float64()
			return finite(Point(k*y.X, k*y.Y))
		}
		return finite(Value{Kind: y.Kind, Num: x.Num.Mul(y.Num)})
	case Div:
		return divide(x, y)
	case Segment:
		return Line(x.X, x.Y, y.X, y.Y), NoFault
	case And:
		return Bool(x.True() && y.True()), NoFault
	case Or:
		return Bool(x.True() || y.True()), NoFault
	case Equal:
		return Bool(x.Same(y)), NoFault
	case NotEqual:
		return Bool(!x.Same(y)), NoFault
	}
	c := x.Num.Compare(y.Num)
	switch op {
	case Less:
		return Bool(c < 0), NoFault
	case LessEqual:
		return Bool(c <= 0), NoFault
	case Greater:
		return Bool(c > 0), NoFault
	}
	return Bool(c >= 0), NoFault
}

func divide(x, y Value) (Value, Fault) {
	if math.Abs(y.Num.Float64()) == 0 {
		return Value{}, DividedByZero
	}
	if x.Kind == PointKind {
		k := y.Num.Float64()
		return finite(Point(x.X/k, x.Y/k))
	}
	kind := x.Kind
	if y.Kind != NumberKind {
		kind = NumberKind
	}
	return finite(Value{Kind: kind, Num: x.Num.Div(y.Num)})
}

func finite(v Value) (Value, Fault) {
	if v.Num.Exact() { // the zero Number of a point is a float
		return v, NoFault
	}
	if s := v.Num.Float64() + v.X + v.Y; math.IsNaN(s) || math.IsInf(s, 0) {
		return Value{}, TooLarge
	}
	return v, NoFault
}

// Same reports whether two values of one kind are equal, within [Tolerance].
func (x Value) Same(y Value) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= Tolerance }
	switch x.Kind {
	case TextKind:
		return x.Text == y.Text
	case PointKind:
		return near(x.X, y.X) && near(x.Y, y.Y)
	case LineKind:
		return near(x.X, y.X) && near(x.Y, y.Y) && near(x.X2, y.X2) && near(x.Y2, y.Y2)
	}
	return x.Num.Compare(y.Num) == 0
}
