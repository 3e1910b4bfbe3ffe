package pattern

import (
	"math"
	"testing"
)

func TestCopyMotion(t *testing.T) {
	p := Pos{3, 1}
	for _, c := range []struct {
		turn float64
		want Pos
	}{{0, Pos{13, 21}}, {90, Pos{9, 23}}, {-270, Pos{9, 23}}, {180, Pos{7, 19}}, {270, Pos{11, 17}}, {450, Pos{9, 23}}} {
		copied := Copy{Turn: c.turn, Shift: Pos{10, 20}}
		if got := copied.Motion()(p); got != c.want {
			t.Errorf("turn %v: got %v, want %v exactly", c.turn, got, c.want)
		}
	}
	// (1, 0) turned by 60 degrees is (1/2, sqrt 3/2).
	c := Copy{Turn: 60}
	got := c.Motion()(Pos{1, 0})
	if math.Abs(float64(got.X)-0.5) > 1e-12 || math.Abs(float64(got.Y)-math.Sqrt(3)/2) > 1e-12 {
		t.Errorf("turn 60: %v", got)
	}
}

func TestLabel(t *testing.T) {
	d := Drawing{Name: "Ar", Pieces: []Piece{{Number: 1}, {Number: 2}}}
	if got := d.Label(1); got != "Ar2" {
		t.Errorf("got %q", got)
	}
}
