package edition

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
)

// SizeName names a finished size without blanks, for keys and the names of
// files: "8in", "7.5in", "20cm", "6x15in".
func SizeName(s pattern.Size) string {
	in := pattern.Length(1)
	unit := "in"
	if mm := s.W.MM(); !even(float64(s.W)*16) && even(mm) {
		in, unit = pattern.Centimetre, "cm"
	}
	number := func(l pattern.Length) string {
		return strconv.FormatFloat(math.Round(float64(l/in)*1e4)/1e4, 'f', -1, 64)
	}
	if math.Abs(float64(s.W-s.H)) < sameSize {
		return number(s.W) + unit
	}
	return number(s.W) + "x" + number(s.H) + unit
}

// sameSize is how near two measures must be to be told as one: it forgives 20cm
// against 7.874in, far below a thread of cloth.
const sameSize = 0.001

// even reports whether a number is a whole one but for noise.
func even(f float64) bool { return math.Abs(f-math.Round(f)) < 1e-3 }
