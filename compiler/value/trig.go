package value

import "math"

// SinCos returns the sine and cosine of an angle in degrees. They are exact for
// multiples of 90, the halves of 30 and 60 degrees are exact, and equal where
// they should be equal (45 degrees; the same angle seen in another quarter).
func SinCos(degrees Number) (sin, cos float64) {
	turns := degrees.Mod(Int(360)).Float64()
	quarter := math.Floor(turns / 90)
	sin, cos = firstQuarter(turns - 90*quarter)
	switch int(quarter) & 3 {
	case 1:
		sin, cos = cos, -sin
	case 2:
		sin, cos = -sin, -cos
	case 3:
		sin, cos = -cos, sin
	}
	return sin + 0, cos + 0 // + 0: no negative zero
}

// firstQuarter works from the nearer axis, so that both halves of the quarter agree.
func firstQuarter(d float64) (sin, cos float64) {
	if d > 45 {
		sin, cos = firstQuarter(90 - d)
		return cos, sin
	}
	switch d {
	case 0:
		return 0, 1
	case 30:
		return 0.5, math.Sqrt(3) / 2
	case 45:
		return math.Sqrt2 / 2, math.Sqrt2 / 2
	}
	return math.Sincos(d * (math.Pi / 180))
}

// Direction returns the angle of a vector in degrees, from 0 up to 360,
// anticlockwise from the x axis; exact for multiples of 45. The zero vector has
// none: NaN.
func Direction(x, y float64) Number {
	switch {
	case x == 0 && y == 0:
		return Float(math.NaN())
	case y == 0:
		return exactAngle(x > 0, 0, 180)
	case x == 0:
		return exactAngle(y > 0, 90, 270)
	case x == y:
		return exactAngle(x > 0, 45, 225)
	case x == -y:
		return exactAngle(y > 0, 135, 315)
	}
	d := math.Atan2(y, x) * (180 / math.Pi)
	if d < 0 {
		d += 360
	}
	return Float(d)
}

func exactAngle(first bool, a, b int64) Number {
	if first {
		return Int(a)
	}
	return Int(b)
}
