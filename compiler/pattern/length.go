package pattern

import "math"

// A Length is a real length on paper or cloth, in inches. 1 in = 25.4 mm exactly
// (NBS, Addendum to Circular 572, 1960). Grid squares are never a Length: they
// are plain numbers until a finished size turns them into lengths.
type Length float64

// Units of length.
const (
	Inch       Length = 1
	Millimetre Length = 1 / 25.4
	Centimetre Length = 10 * Millimetre
	Point      Length = 1.0 / 72 // the PDF and CSS point
)

// Inches returns the length as a number of inches.
func (l Length) Inches() float64 { return float64(l) }

// MM returns the length as a number of millimetres.
func (l Length) MM() float64 { return float64(l) * 25.4 }

// A Pos is a point of the block or of a sheet, in lengths.
type Pos struct{ X, Y Length }

// A Size is a width and a height.
type Size struct{ W, H Length }

func hypot(x, y Length) Length { return Length(math.Hypot(float64(x), float64(y))) }
