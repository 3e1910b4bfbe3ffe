package value

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func rat(n Number) *big.Rat { return big.NewRat(n.num, n.den) }

// drawFraction returns fractions of which many overflow when multiplied.
func drawFraction(t *rapid.T, name string) Number {
	small := rapid.Int64Range(-1000, 1000)
	any64 := rapid.Int64()
	if rapid.Bool().Draw(t, name+" small") {
		return Fraction(small.Draw(t, name), rapid.Int64Range(1, 1000).Draw(t, name+" den"))
	}
	return Fraction(any64.Draw(t, name), rapid.Int64Range(1, math.MaxInt64).Draw(t, name+" den"))
}

// Arithmetic agrees with the rationals of math/big where it is exact, and is near
// them where it had to round.
func TestArithmeticAgreesWithBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawFraction(t, "a"), drawFraction(t, "b")
		if !a.Exact() || !b.Exact() {
			return
		}
		x, y := rat(a), rat(b)
		same := func(op string, got Number, want *big.Rat) {
			if got.Exact() {
				if rat(got).Cmp(want) != 0 {
					t.Fatalf("%v %s %v = %v, want %v", a, op, b, got, want)
				}
				return
			}
			f, _ := want.Float64()
			// A sum may cancel: what it is near to is measured by its parts.
			size := math.Abs(a.Float64()) + math.Abs(b.Float64()) + math.Abs(f)
			if math.Abs(got.Float64()-f) > 1e-12*size {
				t.Fatalf("%v %s %v = %v, want %v", a, op, b, got, f)
			}
		}
		same("+", a.Add(b), new(big.Rat).Add(x, y))
		same("-", a.Sub(b), new(big.Rat).Sub(x, y))
		same("*", a.Mul(b), new(big.Rat).Mul(x, y))
		if y.Sign() != 0 {
			same("/", a.Div(b), new(big.Rat).Quo(x, y))
		}
	})
}

// Small fractions stay exact: this is what a pattern is made of.
func TestSmallFractionsStayExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string) Number {
			return Fraction(rapid.Int64Range(-10000, 10000).Draw(t, name), rapid.Int64Range(1, 10000).Draw(t, name+" den"))
		}
		a, b := part("a"), part("b")
		for _, n := range []Number{a.Add(b), a.Sub(b), a.Mul(b), a.Floor(), a.Ceil(), a.Neg()} {
			if !n.Exact() {
				t.Fatalf("%v, %v: %v is not exact", a, b, n)
			}
		}
	})
}

func TestFloorCeilCompareForgive(t *testing.T) {
	third := Float(1.0 / 3)
	sum := third.Add(third).Add(third).Add(Float(-1e-16)) // a hair below 1
	if got := sum.Floor(); got != Int(1) {
		t.Errorf("floor just below 1 = %v, want 1", got)
	}
	if got := Float(2 + 1e-12).Ceil(); got != Int(2) {
		t.Errorf("ceil just above 2 = %v, want 2", got)
	}
	if got := Float(2 + 1e-6).Ceil(); got != Int(3) {
		t.Errorf("ceil clearly above 2 = %v, want 3", got)
	}
	if Float(0.1).Add(Float(0.2)).Compare(Float(0.3)) != 0 {
		t.Error("0.1 + 0.2 must equal 0.3")
	}
	if Fraction(1, 3).Compare(Fraction(1, 3).Add(Fraction(1, 1_000_000))) != -1 {
		t.Error("a millionth must count")
	}
	if Fraction(-7, 2).Floor() != Int(-4) || Fraction(-7, 2).Ceil() != Int(-3) {
		t.Error("floor and ceil below 0")
	}
	if Float(math.NaN()).Compare(Int(1)) != 1 || Int(1).Compare(Float(math.NaN())) != 1 {
		t.Error("what is not a number equals nothing")
	}
}

func TestWhole(t *testing.T) {
	for _, c := range []struct {
		n    Number
		want int64
		ok   bool
	}{
		{Int(7), 7, true},
		{Fraction(1, 2), 0, false},
		{Float(3 + 1e-12), 3, true},
		{Float(3.001), 0, false},
		{Float(math.NaN()), 0, false},
		{Float(math.Inf(1)), 0, false},
		{Float(1e300), 0, false},
		{Int(math.MinInt64), math.MinInt64, true},
	} {
		if got, ok := c.n.Whole(); ok != c.ok || ok && got != c.want {
			t.Errorf("%v.Whole() = %d, %v; want %d, %v", c.n, got, ok, c.want, c.ok)
		}
	}
}

func TestMod(t *testing.T) {
	for _, c := range []struct{ a, b, want Number }{
		{Int(-1), Int(4), Int(3)},
		{Int(7), Int(4), Int(3)},
		{Int(7), Int(-4), Int(-1)},
		{Fraction(5, 2), Int(1), Fraction(1, 2)},
		{Int(450), Int(360), Int(90)},
	} {
		if got := c.a.Mod(c.b); got != c.want {
			t.Errorf("mod(%v, %v) = %v, want %v", c.a, c.b, got, c.want)
		}
	}
	if got := Int(1).Mod(Int(0)).Float64(); got == got {
		t.Errorf("mod(1, 0) = %v, want NaN", got)
	}
}

func TestSqrt(t *testing.T) {
	if got := Fraction(9, 4).Sqrt(); got != Fraction(3, 2) {
		t.Errorf("sqrt(9/4) = %v, want 3/2", got)
	}
	if got := Int(2).Sqrt(); got.Exact() || got.Float64() != math.Sqrt2 {
		t.Errorf("sqrt(2) = %v", got)
	}
	if got := Int(-1).Sqrt().Float64(); got == got {
		t.Errorf("sqrt(-1) = %v, want NaN", got)
	}
}

// 1 in = 25.4 mm exactly (NBS, Addendum to Circular 572, 1960).
func TestUnitsAreExact(t *testing.T) {
	if got := Fraction(254, 10).Mul(Millimetre()); got != Int(1) {
		t.Errorf("25.4 mm = %v in, want 1", got)
	}
	if got := Fraction(254, 100).Mul(Centimetre()); got != Int(1) {
		t.Errorf("2.54 cm = %v in, want 1", got)
	}
	// A5 is 148 x 210 mm (W3C CSS Paged Media Module Level 3).
	if got := Int(210).Mul(Millimetre()).Float64(); math.Abs(got*25.4-210) > 1e-12 {
		t.Errorf("210 mm = %v in", got)
	}
}

func TestNoNegativeZero(t *testing.T) {
	for _, n := range []Number{Float(math.Copysign(0, -1)), Float(0).Neg(), Int(0).Neg(), Float(-1).Mul(Float(0))} {
		if math.Signbit(n.Float64()) {
			t.Errorf("%v has a minus", n)
		}
	}
}

func TestTextOfNumbers(t *testing.T) {
	for n, want := range map[Number]string{Int(3): "3", Fraction(-5, 2): "-2 1/2", Fraction(1, 3): "1/3", Fraction(1, 1000): "0.001", Float(0.70710678): "0.707107"} {
		if got := n.String(); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}
