package edition

import (
	"math"
	"testing"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// The last bits of a length, which another processor may work out otherwise,
// change no record and no sum, also where a length lies halfway between two steps:
// 1/8 in is 317.5 hundredths of a millimetre.
func TestNoiseChangesNothing(t *testing.T) {
	sumOf := func(l pattern.Length) string {
		p := &parter{mark: "mark"}
		p.items(p.begin("page"), []drawing.Item{&drawing.Path{Points: []pattern.Pos{{X: l, Y: -l}}}}, 0)
		return sum(string(p.all[0].lines))
	}
	for n := 1; n < 640; n++ {
		l := float64(n) / 32
		for _, noise := range []float64{math.Nextafter(l, 0), math.Nextafter(l, 100), l - 1e-12, l + 1e-12} {
			if round(noise) != round(l) || round(-noise) != round(-l) || sumOf(pattern.Length(noise)) != sumOf(pattern.Length(l)) {
				t.Fatalf("%v and %v are not the same", noise, l)
			}
		}
	}
}
