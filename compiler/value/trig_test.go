package value

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestSinCosExact(t *testing.T) {
	half, root2, root3 := 0.5, math.Sqrt2/2, math.Sqrt(3)/2
	first := []struct{ deg, sin, cos float64 }{{0, 0, 1}, {30, half, root3}, {45, root2, root2}, {60, root3, half}}
	for turn := -8; turn <= 8; turn++ {
		for _, f := range first {
			sin, cos := f.sin, f.cos
			for range (turn%4 + 4) % 4 {
				sin, cos = cos, -sin
			}
			for _, a := range []Number{Int(int64(f.deg) + 90*int64(turn)), Float(f.deg + 90*float64(turn))} {
				if s, c := SinCos(a); s != sin+0 || c != cos+0 || math.Signbit(s) && s == 0 || math.Signbit(c) && c == 0 {
					t.Errorf("SinCos(%v) = %v, %v; want %v, %v", a, s, c, sin, cos)
				}
			}
		}
	}
}

func TestSinCosAgreesWithMath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(-2000, 2000).Draw(t, "degrees")
		s, c := SinCos(Float(d))
		ws, wc := math.Sincos(d * math.Pi / 180)
		if math.Abs(s-ws) > 1e-12 || math.Abs(c-wc) > 1e-12 {
			t.Fatalf("SinCos(%v) = %v, %v; want %v, %v", d, s, c, ws, wc)
		}
		if math.Abs(s*s+c*c-1) > 4e-16 {
			t.Fatalf("SinCos(%v): not on the unit circle", d)
		}
	})
}

func TestDirection(t *testing.T) {
	for i, v := range [][2]float64{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}} {
		if got := Direction(3*v[0], 3*v[1]); got != Int(45*int64(i)) {
			t.Errorf("Direction(%v) = %v, want %d", v, got, 45*i)
		}
	}
	if got := Direction(0, 0).Float64(); got == got {
		t.Errorf("Direction(0, 0) = %v, want NaN", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0, 359.999).Draw(t, "degrees")
		s, c := SinCos(Float(d))
		if got := Direction(c, s).Float64(); math.Abs(got-d) > 1e-9 && math.Abs(got-d-360) > 1e-9 && math.Abs(d-got-360) > 1e-9 {
			t.Fatalf("Direction back from %v: %v", d, got)
		}
	})
}
