package rules

import (
	"testing"

	"seamwright/compiler/pattern"
)

// A width that is rounded to the limit must not read "only 1/8 in, make it 1/8 in".
func TestJustBelowALimit(t *testing.T) {
	inch, metric := &View{Pattern: &pattern.Pattern{}}, &View{Pattern: &pattern.Pattern{}}
	metric.Pattern.Settings.Metric = true
	for _, c := range []struct {
		v    *View
		w    pattern.Length
		want string
	}{
		{inch, 0.12, "a little less than 1/8 in"}, // 3.84 thirty-seconds
		{inch, 0.1, "only 3/32 in"},               // 3.2
		{metric, 0.1245, "a little less than 3.2 mm"},
		{metric, 0.1, "only 2.5 mm"},
	} {
		if got := c.v.below(c.w, narrowStop); got != c.want {
			t.Errorf("%v: %q, want %q", c.w, got, c.want)
		}
	}
}

// Messages tell lengths in the pattern's own system, short ones in millimeters.
func TestTold(t *testing.T) {
	p := &pattern.Pattern{}
	if got := told(p, 0.25) + ", " + told(p, 5.5); got != "1/4 in, 5 1/2 in" {
		t.Error(got)
	}
	p.Settings.Metric = true
	if got := told(p, 6*pattern.Millimetre) + ", " + told(p, 0.25) + ", " + told(p, 11*pattern.Centimetre); got != "6 mm, 6.4 mm, 11 cm" {
		t.Error(got)
	}
}
