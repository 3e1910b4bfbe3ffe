package edition

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/compiler/pattern"
)

// What is told in words is read back, to the fineness of the words.
func TestAllowanceIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := pattern.Length(rapid.Float64Range(0.0625, 2).Draw(t, "allowance"))
		r := &Record{Settings: []Word{{"allowance", l.Exact()}}}
		if got := r.Allowance(); math.Abs(float64(got-l)) > 0.0051 {
			t.Fatalf("%v is told as %q and read as %v", float64(l), l.Exact(), float64(got))
		}
	})
	if got := (&Record{}).Allowance(); got != pattern.Inch/4 {
		t.Errorf("without words: %v", float64(got))
	}
}
