package pattern

import (
	"math"
	"strconv"
)

// Lengths in words: plain ASCII fractions, because fraction glyphs get lost in
// copies, and a unit after every number, so that no count is read into a size.

// rounding is what a length may exceed a step by and still count as that step:
// far below a thread of cloth (about 1/70 in), far above the noise of doubles.
const rounding Length = 1e-6

// onRuler is how near, in inches, a length must be to a mark of the ruler to be
// told as one. Nearer than any pencil, and 20 cm is not yet 7 7/8 in (0.0010).
const onRuler = 1.0 / 4000

// RoundUp returns the least multiple of step that is at least l, forgiving
// noise below a millionth of an inch. A step of 0 returns l.
func RoundUp(l, step Length) Length {
	if step <= 0 {
		return l
	}
	return Length(math.Ceil(float64((l-rounding)/step))) * step
}

// In returns the length in inches to the nearest 1/to, "3 1/4 in"; to is a
// power of two. Where that would hide a length altogether, it says "under".
func (l Length) In(to int) string { return string(l.AppendIn(nil, to)) }

// AppendIn appends what In returns.
func (l Length) AppendIn(b []byte, to int) []byte {
	n := int64(math.Round(math.Abs(float64(l)) * float64(to)))
	if n == 0 && l > rounding {
		b, n = append(b, "under "...), 1
	}
	if l < 0 && n > 0 {
		b = append(b, '-')
	}
	return append(appendMixed(b, n, int64(to)), " in"...)
}

// appendMixed appends n/d as a mixed number in lowest terms.
func appendMixed(b []byte, n, d int64) []byte {
	for n%2 == 0 && d > 1 {
		n, d = n/2, d/2
	}
	whole, rest := n/d, n%d
	if whole > 0 || rest == 0 {
		b = strconv.AppendInt(b, whole, 10)
	}
	if rest == 0 {
		return b
	}
	if whole > 0 {
		b = append(b, ' ')
	}
	b = append(strconv.AppendInt(b, rest, 10), '/')
	return strconv.AppendInt(b, d, 10)
}

// Cm returns the length in centimetres to the nearest millimetre, "8.3 cm"; a
// metre and more is told in whole centimetres. More digits would promise an
// exactness that cutting and printing have not (NIST LC 1137).
func (l Length) Cm() string { return string(l.AppendCm(nil)) }

// AppendCm appends what Cm returns.
func (l Length) AppendCm(b []byte) []byte {
	mm := int64(math.Round(l.MM()))
	if mm >= metre || mm <= -metre {
		mm = (mm + 5) / 10 * 10
	}
	if mm < 0 {
		b, mm = append(b, '-'), -mm
	}
	b = strconv.AppendInt(b, mm/10, 10)
	if mm%10 != 0 {
		b = append(b, '.', byte('0'+mm%10))
	}
	return append(b, " cm"...)
}

// CmSum returns a sum of lengths that are told in centimetres, to the millimetre
// however long it is: "232.5 cm".
func (l Length) CmSum() string {
	mm := int64(math.Round(l.MM()))
	b := strconv.AppendInt(nil, mm/10, 10)
	if mm%10 != 0 {
		b = append(b, '.', byte('0'+mm%10))
	}
	return string(append(b, " cm"...))
}

// Told returns the length that [Length.Cm] tells, or [Length.In] to eighths: what
// stands in a printed sum is added up as it is told.
func (l Length) Told(metric bool) Length {
	if !metric {
		return Length(math.Round(float64(l)*8) / 8)
	}
	mm := math.Round(l.MM())
	if mm >= metre || mm <= -metre {
		mm = math.Floor((mm+5)/10) * 10
	}
	return Length(mm) * Millimetre
}

// metre is where whole centimetres are enough, in millimetres.
const metre = 1000

// Exact returns the length as an author would write it: "7 1/2 in" where it is
// a sixteenth of an inch, "20 cm" where it is a whole millimetre, else inches
// to the hundredth, "7.37 in". For finished sizes, which are never rounded.
func (l Length) Exact() string {
	mm := l.MM()
	switch {
	case l.onRuler():
		return l.In(16)
	case math.Abs(mm-math.Round(mm))/25.4 < onRuler:
		return l.Cm()
	}
	return strconv.FormatFloat(float64(l), 'f', 2, 64) + " in"
}

// Words returns the length in both systems, "3 1/4 in (8.3 cm)", the metric
// one first if metric is set. Inches are to the nearest 1/to.
func (l Length) Words(metric bool, to int) string {
	if metric {
		return l.Cm() + " (" + l.In(to) + ")"
	}
	return l.In(to) + " (" + l.Cm() + ")"
}

// OnRuler returns a seam allowance as the line of a ruler that is laid on it: in
// inches where it is a sixteenth, with whole millimetres beside it if metric is
// set; else in millimetres and halves, "7.5 mm".
func (l Length) OnRuler(metric bool) string {
	const half = 0.5 // of a millimetre is as fine as rulers are
	switch {
	case !l.onRuler():
		return strconv.FormatFloat(math.Round(l.MM()/half)*half, 'f', -1, 64) + " mm"
	case metric:
		return l.In(16) + " (" + strconv.Itoa(int(math.Round(l.MM()))) + " mm)"
	}
	return l.In(16)
}

// In returns both sides in inches, "6 1/2 in x 3 in".
func (s Size) In(to int) string {
	return string(s.H.AppendIn(append(s.W.AppendIn(nil, to), " x "...), to))
}

// Cm returns both sides in centimetres, "16.5 cm x 7.6 cm".
func (s Size) Cm() string {
	return string(s.H.AppendCm(append(s.W.AppendCm(nil), " x "...)))
}

// Exact returns both sides as [Length.Exact] does, or one where they are equal.
func (s Size) Exact() string {
	if math.Abs(float64(s.W-s.H)) < onRuler {
		return s.W.Exact()
	}
	return s.W.Exact() + " x " + s.H.Exact()
}

// Words returns a finished size in both systems, "8 in (20.3 cm)", the
// one first in which it comes out even.
func (s Size) Words(metric bool) string {
	in, cm := s.In(16), s.Cm()
	if math.Abs(float64(s.W-s.H)) < onRuler {
		in, cm = s.W.In(16), s.W.Cm()
	}
	if metric || !s.W.onRuler() || !s.H.onRuler() {
		return cm + " (" + in + ")"
	}
	return in + " (" + cm + ")"
}

// onRuler reports whether a length is a sixteenth of an inch.
func (l Length) onRuler() bool {
	in16 := float64(l) * 16
	return math.Abs(in16-math.Round(in16))/16 < onRuler
}
