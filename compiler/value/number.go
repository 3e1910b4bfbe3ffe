package value

import (
	"encoding/binary"
	"math"
	"strconv"
)

// Tolerance is what comparing, floor and ceil forgive. Sums of a few hundred
// floats err by about 1e-13, and a billionth of a grid square is far below a
// thread of cloth at any finished size.
const Tolerance = 1e-9

// A Number is a fraction in lowest terms, or a float64 where no fraction will do.
// The zero Number is 0.
type Number struct {
	num int64 // the numerator; the bits of the float64 where den is 0
	den int64 // the denominator, positive; 0 for a float64
}

// Int returns a whole number.
func Int(n int64) Number { return Number{n, 1} }

// Float returns a number that is not exact.
func Float(f float64) Number { return Number{int64(math.Float64bits(f + 0)), 0} } // + 0: no negative zero

// Fraction returns num/den in lowest terms. A den of 0 gives NaN.
func Fraction(num, den int64) Number {
	if den == 1 {
		return Number{num, 1}
	}
	if den == 0 || num == math.MinInt64 || den == math.MinInt64 {
		return Float(float64(num) / float64(den))
	}
	if den < 0 {
		num, den = -num, -den
	}
	if g := gcd(num, den); g > 1 {
		num, den = num/g, den/g
	}
	return Number{num, den}
}

// Float64 returns the number, rounded where it is an exact fraction.
func (a Number) Float64() float64 {
	if a.den == 1 {
		return float64(a.num)
	}
	if a.den == 0 {
		return math.Float64frombits(uint64(a.num))
	}
	return float64(a.num) / float64(a.den)
}

// Exact reports whether the number is a fraction.
func (a Number) Exact() bool { return a.den != 0 }

// Whole returns the number as an integer, where it is one or within [Tolerance] of one.
func (a Number) Whole() (int64, bool) {
	if a.den == 1 {
		return a.num, true
	}
	f := a.Float64()
	r := math.Round(f)
	if math.Abs(f-r) > Tolerance || math.Abs(r) > 1<<53 { // false for NaN, too: see the next line
		return 0, false
	}
	return int64(r), r == r
}

// Add returns a + b.
func (a Number) Add(b Number) Number {
	if a.den == 1 && b.den == 1 {
		if s := a.num + b.num; (s > a.num) == (b.num > 0) {
			return Number{s, 1}
		}
	} else if a.den != 0 && b.den != 0 {
		x, ok1 := mul(a.num, b.den)
		y, ok2 := mul(b.num, a.den)
		d, ok3 := mul(a.den, b.den)
		if s := x + y; ok1 && ok2 && ok3 && (s > x) == (y > 0) {
			return Fraction(s, d)
		}
	}
	return Float(a.Float64() + b.Float64())
}

// Neg returns -a.
func (a Number) Neg() Number {
	if a.den == 0 || a.num == math.MinInt64 {
		return Float(-a.Float64())
	}
	return Number{-a.num, a.den}
}

// Sub returns a - b.
func (a Number) Sub(b Number) Number { return a.Add(b.Neg()) }

// Mul returns a * b.
func (a Number) Mul(b Number) Number {
	if a.den != 0 && b.den != 0 {
		n, ok1 := mul(a.num, b.num)
		d, ok2 := mul(a.den, b.den)
		if ok1 && ok2 {
			return Fraction(n, d)
		}
	}
	return Float(a.Float64() * b.Float64())
}

// Div returns a / b; it is infinite or NaN where b is 0.
func (a Number) Div(b Number) Number {
	if a.den != 0 && b.den != 0 && b.num != 0 {
		n, ok1 := mul(a.num, b.den)
		d, ok2 := mul(a.den, b.num)
		if ok1 && ok2 {
			return Fraction(n, d)
		}
	}
	return Float(a.Float64() / b.Float64())
}

// Mod returns what is left of a when b is taken away as often as it goes, with
// the sign of b: Mod(-1, 4) is 3. It is NaN where b is 0.
func (a Number) Mod(b Number) Number {
	if b.Float64() == 0 {
		return Float(math.NaN())
	}
	return a.Sub(b.Mul(a.Div(b).Floor()))
}

// Floor returns the greatest whole number that is not above a.
func (a Number) Floor() Number {
	if a.den == 1 {
		return a
	}
	return whole(math.Floor(a.Float64() + Tolerance))
}

// Ceil returns the least whole number that is not below a.
func (a Number) Ceil() Number {
	if a.den == 1 {
		return a
	}
	return whole(math.Ceil(a.Float64() - Tolerance))
}

// Compare returns -1, 0 or 1 as a is below, equal to or above b. What is not a
// number compares as above everything.
func (a Number) Compare(b Number) int {
	d := a.Float64() - b.Float64()
	switch {
	case d < -Tolerance:
		return -1
	case math.Abs(d) <= Tolerance || a == b:
		return 0
	}
	return 1
}

// Sqrt returns the square root, exact where there is an exact one; NaN of a
// number below 0.
func (a Number) Sqrt() Number {
	if a.den != 0 && a.num >= 0 {
		n, ok1 := root(a.num)
		d, ok2 := root(a.den)
		if ok1 && ok2 {
			return Number{n, d}
		}
	}
	return Float(math.Sqrt(a.Float64()))
}

// rulerDen is the finest fraction that people read off a ruler.
const rulerDen = 64

// String writes the number as an author would: 3, 2 1/2, 0.7071.
func (a Number) String() string {
	if a.den == 1 {
		return strconv.FormatInt(a.num, 10)
	}
	if a.den == 0 || a.den > rulerDen || a.num == math.MinInt64 {
		return strconv.FormatFloat(a.Float64(), 'g', 6, 64)
	}
	sign, n := "", a.num
	if n < 0 {
		sign, n = "-", -n
	}
	if n > a.den {
		sign, n = sign+strconv.FormatInt(n/a.den, 10)+" ", n%a.den
	}
	return sign + strconv.FormatInt(n, 10) + "/" + strconv.FormatInt(a.den, 10)
}

func whole(f float64) Number {
	if math.Abs(f) < 1<<53 {
		return Int(int64(f))
	}
	return Float(f)
}

// mul multiplies, and reports whether the product fits.
func mul(a, b int64) (int64, bool) {
	if int64(int32(a)) == a && int64(int32(b)) == b {
		return a * b, true
	}
	if a == 0 || b == 0 {
		return 0, true
	}
	c := a * b
	return c, c/b == a && !(a == -1 && b == math.MinInt64) && !(b == -1 && a == math.MinInt64)
}

// root returns the whole square root of n, if n is a square.
func root(n int64) (int64, bool) {
	r := int64(math.Round(math.Sqrt(float64(n))))
	return r, r < 1<<31 && r*r == n
}

func gcd(a, b int64) int64 {
	if a < 0 {
		a = -a
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// AppendKey appends bytes that are equal for equal numbers only.
func (a Number) AppendKey(b []byte) []byte {
	b = binary.LittleEndian.AppendUint64(b, uint64(a.num))
	return binary.LittleEndian.AppendUint64(b, uint64(a.den))
}
