package solver

import (
	"testing"

	"seamwright/compiler/plane"
)

func box(w, h float64) plane.Polygon {
	return plane.Polygon{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}
}

func seg(a, b, c, d float64) plane.Line {
	return plane.Line{A: plane.Point{X: a, Y: b}, B: plane.Point{X: c, Y: d}}
}

func TestPinwheel(t *testing.T) {
	p := Build(box(3, 3), []plane.Line{seg(1, 0, 1, 2), seg(0, 2, 2, 2), seg(2, 3, 2, 1), seg(3, 1, 1, 1)}, 0.02)
	t.Logf("%+v", p.Faults)
	for _, f := range p.Patches {
		t.Logf("%+v", f)
	}
	for _, w := range p.Unsewable() {
		t.Logf("%+v", w)
	}
	p = Build(box(4, 4), []plane.Line{seg(2, 2, 0, 0), seg(2, 2, 4, 1), seg(2, 2, 2, 4)}, 0.02)
	t.Logf("%+v", p.Faults)
	for _, w := range p.Unsewable() {
		t.Logf("%+v", w)
	}
	p = Build(box(4, 4), []plane.Line{seg(2, 2, 0, 0), seg(2, 2.005, 2, 4)}, 0.02)
	t.Logf("%+v %+v", p.Faults, p.Near)
}
