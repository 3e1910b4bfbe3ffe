package pdf

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Coordinates are what the standard library writes with four places, without
// zeros at the end.
func TestNumber(t *testing.T) {
	plain := func(v float64) string {
		s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0"), ".")
		if s == "-0" || s == "" {
			return "0"
		}
		return s
	}
	for _, v := range []float64{0, -0.00001, 1, -1, 0.5, 72, 612, 0.0001, -0.1234, 1e11, 999.99999} {
		if got := string(number(nil, v)); got != plain(v) {
			t.Errorf("%v: %s, not %s", v, got, plain(v))
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-2000, 2000).Draw(t, "v")
		got, err := strconv.ParseFloat(string(number(nil, v)), 64)
		if err != nil || got-v > 0.000051 || v-got > 0.000051 {
			t.Fatalf("%v: %s", v, number(nil, v))
		}
	})
}
