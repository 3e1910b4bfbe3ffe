package pattern

import (
	"testing"

	"pgregory.net/rapid"
)

func TestInches(t *testing.T) {
	for _, c := range []struct {
		l    Length
		to   int
		want string
	}{
		{3.25, 8, "3 1/4 in"}, {0.5, 8, "1/2 in"}, {4, 8, "4 in"}, {0, 8, "0 in"},
		{2.8536, 8, "2 7/8 in"}, {2.8536, 4, "2 3/4 in"}, {0.03, 16, "under 1/16 in"},
		{0.0001, 16, "under 1/16 in"}, {1.9999, 16, "2 in"}, {-0.25, 8, "-1/4 in"}, {-1e-9, 8, "0 in"},
		// Decimal equivalents of an inch as printed in tables for workshops and
		// sewing rooms (Decimal Equivalents, chestofbooks.com).
		{0.0625, 16, "1/16 in"}, {0.1875, 16, "3/16 in"}, {0.3125, 16, "5/16 in"},
		{0.4375, 16, "7/16 in"}, {0.9375, 16, "15/16 in"}, {0.03125, 32, "1/32 in"}, {0.90625, 32, "29/32 in"},
	} {
		if got := c.l.In(c.to); got != c.want {
			t.Errorf("%v to 1/%d: got %q, want %q", float64(c.l), c.to, got, c.want)
		}
	}
}

func TestMetricAndExact(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Length(3.25).Cm(), "8.3 cm"}, {Length(10 * Centimetre).Cm(), "10 cm"}, {Length(0.25).Cm(), "0.6 cm"},
		// 36 in is 91 cm: no more digits than the source deserves (NIST LC 1137, 2000).
		{Length(36).Cm(), "91.4 cm"}, {Length(50).Cm(), "127 cm"},
		{Length(7.5).Exact(), "7 1/2 in"}, {Length(20 * Centimetre).Exact(), "20 cm"}, {Length(7.3701).Exact(), "7.37 in"},
		{Length(3.25).Words(false, 8), "3 1/4 in (8.3 cm)"}, {Length(3.25).Words(true, 8), "8.3 cm (3 1/4 in)"},
		{Size{6.5, 3}.In(8), "6 1/2 in x 3 in"}, {Size{6.5, 3}.Cm(), "16.5 cm x 7.6 cm"},
		{Size{8, 8}.Exact(), "8 in"}, {Size{6, 15}.Exact(), "6 in x 15 in"},
		{Length(0.25).OnRuler(false), "1/4 in"}, {Length(0.25).OnRuler(true), "1/4 in (6 mm)"},
		{(0.75 * Centimetre).OnRuler(false), "7.5 mm"}, {Centimetre.OnRuler(true), "10 mm"},
		{Size{8, 8}.Words(false), "8 in (20.3 cm)"}, {Size{8, 8}.Words(true), "20.3 cm (8 in)"},
		{Size{6, 7.5}.Words(false), "6 in x 7 1/2 in (15.2 cm x 19.1 cm)"},
		{Size{20 * Centimetre, 20 * Centimetre}.Words(false), "20 cm (7 7/8 in)"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Setting squares and corners, rounded up to the next eighth: M. Hohn, Setting
// Triangles, 2002, agreeing with an independent chart. b: side, corner.
func TestRoundUpAgainstSettingChart(t *testing.T) {
	for _, c := range []struct{ b, side, corner Length }{
		{4, 7, 3.75}, {6, 9.75, 5.125}, {8, 12.625, 6.625}, {10, 15.5, 8}, {12, 18.25, 9.375}, {16, 23.875, 12.25},
	} {
		if got := RoundUp(c.b*1.414+1.25, 0.125); got != c.side {
			t.Errorf("side for %v: %v, want %v", c.b, got, c.side)
		}
		if got := RoundUp(c.b/1.414+0.875, 0.125); got != c.corner {
			t.Errorf("corner for %v: %v, want %v", c.b, got, c.corner)
		}
	}
}

func TestRoundUpCovers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(0, 100).Draw(t, "l"))
		step := rapid.SampledFrom([]Length{0.125, 0.25, 0.5, 5 * Millimetre}).Draw(t, "step")
		up := RoundUp(l, step)
		if up < l-rounding || up-l >= step+rounding {
			t.Fatalf("RoundUp(%v, %v) = %v", l, step, up)
		}
		if again := RoundUp(up, step); again != up {
			t.Fatalf("RoundUp of its own result %v is %v", up, again)
		}
	})
}

// What is told reads as the length does, and a sum of it ends with the tenth it has.
func TestToldReadsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(0.2, 200).Draw(t, "length"))
		if a, b := l.Told(true).Cm(), l.Cm(); a != b {
			t.Fatalf("%s is told as %s", b, a)
		}
		if a, b := l.Told(false).In(8), l.In(8); a != b {
			t.Fatalf("%s is told as %s", b, a)
		}
	})
	if sum := (147*Centimetre + 85.5*Centimetre).CmSum(); sum != "232.5 cm" {
		t.Errorf("147 cm and 85.5 cm are %s", sum)
	}
}
