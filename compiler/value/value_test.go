package value

import "testing"

// samples has one value of each kind that values have.
func samples() []Value {
	return []Value{Num(Int(6)), Length(Int(2)), Angle(Int(90)), Point(1, 2), Line(0, 0, 1, 2), Fabric(3), Text("sky"), Bool(true)}
}

var ops = []Op{Add, Sub, Mul, Div, Equal, NotEqual, Less, LessEqual, Greater, GreaterEqual, And, Or, Segment}

// What Gives promises, Apply keeps; what does not fit is symmetric but for division.
func TestAppliedKindsAreThosePromised(t *testing.T) {
	for _, op := range ops {
		for _, x := range samples() {
			for _, y := range samples() {
				k := op.Gives(x.Kind, y.Kind)
				if k == None {
					continue
				}
				if v, fault := op.Apply(x, y); v.Kind != k || fault != NoFault {
					t.Errorf("op %d on %v and %v: %v (fault %d), want %v", op, x.Kind, y.Kind, v.Kind, fault, k)
				}
				if op != Div && op.Gives(y.Kind, x.Kind) != k {
					t.Errorf("op %d fits %v and %v in one order only", op, x.Kind, y.Kind)
				}
			}
		}
	}
}

func TestKindsThatDoNotFit(t *testing.T) {
	for _, c := range []struct {
		op   Op
		x, y Kind
	}{
		{Add, NumberKind, LengthKind}, {Sub, AngleKind, NumberKind}, {Mul, LengthKind, LengthKind}, {Mul, PointKind, PointKind},
		{Div, NumberKind, LengthKind}, {Div, PointKind, PointKind}, {Less, PointKind, PointKind}, {Less, TextKind, TextKind},
		{Equal, NumberKind, LengthKind}, {And, NumberKind, BoolKind}, {Segment, NumberKind, NumberKind}, {Segment, PointKind, LineKind},
		{Add, LineKind, PointKind}, {Add, None, None}, {NoOp, NumberKind, NumberKind},
	} {
		if k := c.op.Gives(c.x, c.y); k != None && c.x != None {
			t.Errorf("op %d on %v and %v gives %v, want none", c.op, c.x, c.y, k)
		}
	}
}

func TestFaults(t *testing.T) {
	zero := Num(Int(0))
	for _, x := range []Value{Num(Int(1)), Length(Int(1)), Angle(Int(1)), Point(1, 1), Num(Float(0.5))} {
		if _, fault := Div.Apply(x, zero); fault != DividedByZero {
			t.Errorf("%v / 0: fault %d", x.Kind, fault)
		}
	}
	huge := Num(Float(1e300))
	if _, fault := Mul.Apply(huge, huge); fault != TooLarge {
		t.Errorf("1e300 * 1e300: fault %d", fault)
	}
	if _, fault := Mul.Apply(huge, Point(1e300, 0)); fault != TooLarge {
		t.Errorf("a point too far: fault %d", fault)
	}
}

func TestArithmeticOfKinds(t *testing.T) {
	is := func(what string, got, want Value) {
		t.Helper()
		if got.Kind != want.Kind || !got.Same(want) {
			t.Errorf("%s = %+v, want %+v", what, got, want)
		}
	}
	do := func(op Op, x, y Value) Value { v, _ := op.Apply(x, y); return v }
	is("3 * 2in", do(Mul, Num(Int(3)), Length(Int(2))), Length(Int(6)))
	is("2in * 3", do(Mul, Length(Int(2)), Num(Int(3))), Length(Int(6)))
	is("6in / 2in", do(Div, Length(Int(6)), Length(Int(2))), Num(Int(3)))
	is("90deg / 4", do(Div, Angle(Int(90)), Num(Int(4))), Angle(Fraction(45, 2)))
	is("(1, 2) + (3, 4)", do(Add, Point(1, 2), Point(3, 4)), Point(4, 6))
	is("(4, 6) / 2", do(Div, Point(4, 6), Num(Int(2))), Point(2, 3))
	is("2 * (1, 2)", do(Mul, Num(Int(2)), Point(1, 2)), Point(2, 4))
	is("(0, 0) -- (1, 2)", do(Segment, Point(0, 0), Point(1, 2)), Line(0, 0, 1, 2))
	is("1 < 1 + 1e-12", do(Less, Num(Int(1)), Num(Float(1+1e-12))), Bool(false))
	is("1 <= 1 - 1e-12", do(LessEqual, Num(Int(1)), Num(Float(1-1e-12))), Bool(true))
	is("\"a\" == \"b\"", do(Equal, Text("a"), Text("b")), Bool(false))
	is("fabric != fabric", do(NotEqual, Fabric(1), Fabric(2)), Bool(true))
}

func TestOperatorsHaveNames(t *testing.T) {
	for i, s := range []string{"+", "-", "*", "/", "==", "!=", "<", "<=", ">", ">=", "and", "or", "--"} {
		if OpNamed(s) != ops[i] {
			t.Errorf("OpNamed(%q) = %d", s, OpNamed(s))
		}
	}
	if OpNamed("=") != NoOp {
		t.Error("= is no operator")
	}
}

func TestKindNames(t *testing.T) {
	for _, name := range KindNames() {
		if k := KindNamed(name); k == None || k.String() != name || k.Phrase() == "" || k.Wanted() == "" {
			t.Errorf("kind %q: %v", name, k)
		}
	}
	if KindNamed("inch") != None || KindNamed("") != None {
		t.Error("unknown kinds must be none")
	}
	if !NumberKind.Fits(CountKind) || CountKind.Fits(LengthKind) {
		t.Error("a number may be a count, a count is no length")
	}
}

func BenchmarkAdd(b *testing.B) {
	x, y := Num(Fraction(5, 2)), Num(Fraction(1, 4))
	for range b.N {
		x2, _ := Add.Apply(x, y)
		_ = x2
	}
}
