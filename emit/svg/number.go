package svg

import (
	"math"

	"seamwright/compiler/pattern"
)

// perMM is the fineness of coordinates: a hundredth of a millimetre, a twentieth
// of the 1/128 in (0.2 mm) within which joined edges must agree on paper.
const perMM = 100

// farthest is the largest coordinate written, in millimetres: ten metres, far
// beyond any paper. What is beyond it is a fault in the drawing.
const farthest = 10_000

// A point is a place in hundredths of a millimetre.
type point struct{ x, y int64 }

// fix returns a length in hundredths of a millimetre; ok is false where it is
// not a number or beyond every paper.
func fix(l pattern.Length) (v int64, ok bool) {
	f := l.MM()
	if !(f > -farthest && f < farthest) { // false for NaN too
		return 0, false
	}
	return round(f * perMM), true
}

// round returns the nearest step. Of places that lie just between two, as places
// on a grid often do, all go the same way: without the tie, a billionth of a
// millimetre, noise in their last digit would decide, and processors reckon that
// digit differently.
func round(steps float64) int64 {
	const tie = 1e-7
	return int64(math.Floor(steps + (0.5 + tie)))
}

// appendFixed appends v/10^decimals without needless zeros: "12.5", "-.3", "0".
// Coordinates are most of a document; so digits are written here.
func appendFixed(b []byte, v int64, decimals int) []byte {
	if v < 0 {
		b, v = append(b, '-'), -v
	}
	switch { // a coordinate on usual paper, or a small count
	case decimals == 2 && v < 1000*100:
		return appendHundredths(b, uint32(v))
	case decimals == 0 && v < 1000:
		return appendHundredths(b, uint32(v)*100)
	}
	for decimals > 0 && v%10 == 0 {
		v /= 10
		decimals--
	}
	var buf [24]byte
	i := len(buf)
	for v > 0 || decimals > 0 {
		i--
		buf[i] = byte('0' + v%10)
		v /= 10
		if decimals--; decimals == 0 {
			i--
			buf[i] = '.'
		}
	}
	if i == len(buf) {
		return append(b, '0')
	}
	return append(b, buf[i:]...)
}

// appendHundredths is appendFixed for less than 1000 and two decimals.
func appendHundredths(b []byte, v uint32) []byte {
	whole, part := v/100, v%100
	switch {
	case whole >= 100:
		b = append(b, byte('0'+whole/100), byte('0'+whole/10%10), byte('0'+whole%10))
	case whole >= 10:
		b = append(b, byte('0'+whole/10), byte('0'+whole%10))
	case whole > 0 || part == 0:
		b = append(b, byte('0'+whole))
	}
	switch {
	case part == 0:
		return b
	case part%10 == 0:
		return append(b, '.', byte('0'+part/10))
	}
	return append(b, '.', byte('0'+part/10), byte('0'+part%10))
}

// appendNext appends a number that follows another in path data: a sign parts
// them by itself, else a blank does.
func appendNext(b []byte, v int64, decimals int) []byte {
	if v >= 0 {
		b = append(b, ' ')
	}
	return appendFixed(b, v, decimals)
}

// appendPoint appends "x y".
func appendPoint(b []byte, p point, decimals int) []byte {
	return appendNext(appendFixed(b, p.x, decimals), p.y, decimals)
}

// appendStep appends a straight stroke from p to q as a relative command.
func appendStep(b []byte, p, q point, decimals int) []byte {
	dx, dy := q.x-p.x, q.y-p.y
	switch {
	case dy == 0:
		return appendFixed(append(b, 'h'), dx, decimals)
	case dx == 0:
		return appendFixed(append(b, 'v'), dy, decimals)
	}
	return appendPoint(append(b, 'l'), point{dx, dy}, decimals)
}
