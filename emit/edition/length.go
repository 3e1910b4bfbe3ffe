package edition

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
)

// Allowance is the seam allowance that was used: a quarter of an inch where the
// record does not say.
func (r *Record) Allowance() pattern.Length {
	if l, ok := length(Find(r.Settings, "allowance")); ok {
		return l
	}
	return pattern.Inch / 4
}

// length reads what pattern.Length.Exact writes: "1/4 in", "7.37 in", "0.7 cm".
func length(words string) (pattern.Length, bool) {
	number, unit := words, pattern.Inch
	if cm, ok := strings.CutSuffix(words, " cm"); ok {
		number, unit = cm, pattern.Centimetre
	} else if number, ok = strings.CutSuffix(words, " in"); !ok {
		return 0, false
	}
	sum := 0.0
	for _, part := range strings.Fields(number) {
		top, bottom, fraction := strings.Cut(part, "/")
		n, err := strconv.ParseFloat(top, 64)
		d := 1.0
		if err == nil && fraction {
			d, err = strconv.ParseFloat(bottom, 64)
		}
		if err != nil || !(d > 0) {
			return 0, false
		}
		sum += n / d
	}
	return pattern.Length(sum) * unit, number != ""
}
