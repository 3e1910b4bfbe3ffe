package rules

import "testing"

// A width that is rounded to the limit must not read "only 1/8 in, make it 1/8 in".
func TestJustBelowALimit(t *testing.T) {
	if got := below(0.12, narrowStop); got != "a little less than 1/8 in" { // 3.84 thirty-seconds
		t.Error(got)
	}
	if got := below(0.1, narrowStop); got != "only 3/32 in" { // 3.2
		t.Error(got)
	}
}
