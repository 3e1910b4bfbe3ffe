package plane

import "math"

// A Matrix is a motion ready for use on many points.
type Matrix struct{ a, b, c, d, x, y float64 }

// Sincos returns the sine and cosine of an angle in degrees, exact for multiples
// of 90.
func Sincos(deg float64) (sin, cos float64) {
	switch r := Turn(deg); r {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	default:
		return math.Sincos(r * (math.Pi / 180))
	}
}

// Turn returns the angle in [0, 360) that turns as deg does.
func Turn(deg float64) float64 {
	r := math.Mod(deg, 360)
	if r < 0 {
		r += 360
	}
	if r >= 360 {
		r = 0
	}
	return r
}

// Matrix returns the motion as a matrix.
func (m Motion) Matrix() Matrix {
	s, c := Sincos(m.Turn)
	if m.Reversed {
		return Matrix{-c, -s, -s, c, m.Shift.X, m.Shift.Y}
	}
	return Matrix{c, -s, s, c, m.Shift.X, m.Shift.Y}
}

// Apply returns where the motion takes p.
func (m Matrix) Apply(p Point) Point {
	return Point{m.a*p.X + m.b*p.Y + m.x, m.c*p.X + m.d*p.Y + m.y}
}

// Apply returns where the motion takes p.
func (m Motion) Apply(p Point) Point { return m.Matrix().Apply(p) }

// After returns the motion that does first what n does, then what m does.
func (m Motion) After(n Motion) Motion {
	turn := m.Turn + n.Turn
	if m.Reversed {
		turn = m.Turn - n.Turn
	}
	return Motion{
		Reversed: m.Reversed != n.Reversed,
		Turn:     Turn(turn),
		Shift:    m.Apply(n.Shift),
	}
}

// Inverse returns the motion that undoes m.
func (m Motion) Inverse() Motion {
	back := Motion{Reversed: m.Reversed, Turn: Turn(-m.Turn)}
	if m.Reversed {
		back.Turn = Turn(m.Turn)
	}
	back.Shift = back.Apply(m.Shift.Mul(-1))
	return back
}

// Move returns the polygon moved, anticlockwise again: where the motion
// reverses, corner 0 stays first and the others follow from last to second.
func (p Polygon) Move(m Motion) Polygon {
	moved, x, n := make(Polygon, len(p)), m.Matrix(), len(p)
	for i := range p {
		if m.Reversed {
			moved[(n-i)%n] = x.Apply(p[i])
		} else {
			moved[i] = x.Apply(p[i])
		}
	}
	return moved
}
