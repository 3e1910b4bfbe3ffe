package tiling

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// shape draws a polygon: a rectangle, a triangle, or one with a bay.
func shape(t *rapid.T) []pos {
	w, h := length(rapid.Float64Range(0.5, 30).Draw(t, "w")), length(rapid.Float64Range(0.5, 30).Draw(t, "h"))
	at := func(name string, lo, hi float64) length { return length(rapid.Float64Range(lo, hi).Draw(t, name)) }
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 0:
		return []pos{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	case 1:
		return []pos{{}, {X: w, Y: at("y", 0, 1) * h}, {X: at("x", 0, 1) * w, Y: h}}
	}
	return []pos{{}, {X: w}, {X: w, Y: h}, {X: at("x", 0.3, 0.7) * w, Y: at("y", 0.1, 0.6) * h}, {Y: h}}
}

func area(line []pos) (sum float64) {
	for i, p := range line {
		q := line[(i+1)%len(line)]
		sum += float64(p.X*q.Y-p.Y*q.X) / 2
	}
	return math.Abs(sum)
}

// The parts cover the drawing once, none is larger than the room, each shows the
// strip of every neighbour, and joining lines end within both of their parts, a
// whole number of eighths of an inch apart.
func TestDivide(t *testing.T) {
	several := 0
	rapid.Check(t, func(t *rapid.T) {
		line := shape(t)
		room := pattern.Size{W: length(rapid.Float64Range(0.2, 12).Draw(t, "room w")), H: length(rapid.Float64Range(0.2, 12).Draw(t, "room h"))}
		price := rapid.Float64Range(0, 5).Draw(t, "price")
		tiling, ok := Divide(line, room, Most, func(upright bool, at length) float64 { return math.Abs(math.Sin(float64(at) * price)) })
		if !ok {
			return
		}
		if len(tiling.Parts) > 1 {
			several++
		}
		sum := 0.0
		for i, p := range tiling.Parts {
			sum += area(Clip(line, p.Own))
			if w, h := p.Shown.X1-p.Shown.X0, p.Shown.Y1-p.Shown.Y0; w > room.W+noise || h > room.H+noise {
				t.Fatalf("part %d is %v x %v in a room of %v", i, w, h, room)
			}
			for _, q := range tiling.Parts[:i] {
				if w, h := min(p.Own.X1, q.Own.X1)-max(p.Own.X0, q.Own.X0), min(p.Own.Y1, q.Own.Y1)-max(p.Own.Y0, q.Own.Y0); w > noise && h > noise {
					t.Fatalf("two parts own %v x %v", w, h)
				}
			}
		}
		if want := area(line); math.Abs(sum-want) > 1e-6*(1+want) {
			t.Fatalf("the parts have %v sq in of %v", sum, want)
		}
		joined := make([]int, len(tiling.Parts))
		for i := range joined {
			joined[i] = i
		}
		for _, j := range tiling.Joints {
			if n := float64(j.Long() * 8); math.Abs(n-math.Round(n)) > 1e-6 || n < 1 {
				t.Fatalf("crosses are %v in apart", j.Long())
			}
			for _, end := range [2]pos{j.A, j.B} {
				for _, part := range [2]int{j.Before, j.After} {
					s := tiling.Parts[part].Shown
					if end.X < s.X0 || end.X > s.X1 || end.Y < s.Y0 || end.Y > s.Y1 {
						t.Fatalf("the cross at %v is not on part %d, which shows %v", end, part, s)
					}
				}
			}
			a, b := joined[j.Before], joined[j.After]
			for i := range joined {
				if joined[i] == a {
					joined[i] = b
				}
			}
		}
		for i := range joined {
			if joined[i] != joined[0] {
				t.Fatalf("part %d hangs together with no other", i)
			}
		}
	})
	if several == 0 {
		t.Error("nothing was divided")
	}
}

// Worked out by hand: 12 in on pages of 7 1/2 in take two parts, which meet in the
// middle; 20 in take three, for two show 2 x (7 1/2 - 3/8) = 14 1/4 in; and a line is
// moved to where it costs least, as far as the pages reach.
func TestDivideByHand(t *testing.T) {
	box := func(w length) []pos { return []pos{{}, {X: w}, {X: w, Y: 4}, {Y: 4}} }
	room := pattern.Size{W: 7.5, H: 9}
	for _, c := range []struct {
		w     length
		parts int
	}{{7.5, 1}, {7.6, 2}, {12, 2}, {14, 2}, {14.3, 3}, {20, 3}} {
		tiling, ok := Divide(box(c.w), room, Most, nil)
		if !ok || len(tiling.Parts) != c.parts || len(tiling.Joints) != c.parts-1 {
			t.Errorf("%v in: %v, %+v", c.w, ok, tiling)
		}
	}
	tiling, _ := Divide(box(12), room, Most, nil)
	if j := tiling.Joints[0]; j.A.X != 6 || j.Letter != "a" || !j.Upright {
		t.Errorf("%+v", j)
	}
	if p := tiling.Parts[0]; p.Own != (drawing.Reach{X1: 6, Y1: 4}) || p.Shown != (drawing.Reach{Y0: -Beyond, X1: 6 + Lap, Y1: 4 + Beyond}) {
		t.Errorf("%+v", p)
	}
	tiling, _ = Divide(box(12), room, Most, func(_ bool, at length) float64 { return math.Abs(float64(at - 6.5)) })
	if x := tiling.Joints[0].A.X; x != 6.5 {
		t.Errorf("the line is at %v, not where it costs least", x)
	}
	if _, ok := Divide(box(400), room, Most, nil); ok {
		t.Error("a drawing of 400 in takes no more than 16 parts")
	}
	if a, z, next := letter(0), letter(25), letter(26); a != "a" || z != "z" || next != "aa" {
		t.Error(a, z, next)
	}
}
