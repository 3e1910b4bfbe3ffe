package main

import (
	"fmt"
	"math"
	"strings"

	"seamwright/compiler/pattern"
)

// sameLength forgives the rounding of 20cm against 7.874in, far below a thread.
func sameLength(a, b pattern.Length) bool { return math.Abs(float64(a-b)) < 0.001 }

// length reads a length as the language writes it: 8in, 20.5cm, 7 1/2in, 150mm.
func length(s string) (pattern.Length, error) {
	text := strings.TrimSpace(s)
	for _, unit := range []struct {
		name string
		is   pattern.Length
	}{{"in", pattern.Inch}, {"cm", pattern.Centimetre}, {"mm", pattern.Millimetre}} {
		if number, ok := strings.CutSuffix(text, unit.name); ok {
			n, ok := mixed(strings.TrimSpace(number))
			if !ok || n <= 0 || n*float64(unit.is) > float64(longest) {
				return 0, fmt.Errorf("%q is no length; write for example 8in, 7 1/2in or 20cm", s)
			}
			return pattern.Length(n) * unit.is, nil
		}
	}
	if n, ok := mixed(text); ok && n > 0 {
		return 0, fmt.Errorf("%q has no unit; write %sin or %scm", s, text, text)
	}
	return 0, fmt.Errorf("%q is no length; write for example 8in, 7 1/2in or 20cm", s)
}

// longest bounds a length on the command line: no quilt block and no printer's
// sheet is larger than this, ten metres.
const longest = 10_000 * pattern.Millimetre

// mixed reads "8", "7.5", "1/2" and "7 1/2".
func mixed(s string) (float64, bool) {
	whole, fraction, isMixed := strings.Cut(s, " ")
	if !isMixed && strings.Contains(s, "/") {
		whole, fraction, isMixed = "0", s, true
	}
	n, ok := decimal(whole)
	if !isMixed || !ok {
		return n, ok
	}
	top, bottom, ok := strings.Cut(fraction, "/")
	a, ok1 := decimal(top)
	b, ok2 := decimal(bottom)
	return n + a/b, ok && ok1 && ok2 && a < b
}

// decimal reads digits with at most one point.
func decimal(s string) (float64, bool) {
	n, scale, digits := 0.0, 0.0, 0
	for _, r := range s {
		switch {
		case r >= '0' && r <= '9':
			n, digits = n*10+float64(r-'0'), digits+1
			scale *= 10
		case r == '.' && scale == 0:
			scale = 1
		default:
			return 0, false
		}
	}
	return n / max(scale, 1), digits > 0 && digits < 10
}

// sheetOf reads a paper: a name, or a width and a height such as 9inx12in.
func sheetOf(s string) (pattern.Sheet, error) {
	if sheet, ok := pattern.SheetNamed(strings.ToLower(s)); ok {
		return sheet, nil
	}
	w, h, ok := strings.Cut(s, "x")
	if !ok {
		return pattern.Sheet{}, fmt.Errorf("%s", unknownWord("it", s, pattern.SheetNames()))
	}
	width, err := length(w)
	if err != nil {
		return pattern.Sheet{}, err
	}
	height, err := length(h)
	if err != nil {
		return pattern.Sheet{}, err
	}
	return pattern.Sheet{Name: s, Paper: pattern.Size{W: width, H: height}, Margin: pattern.DefaultMargin}, nil
}
