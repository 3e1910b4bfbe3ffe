package piecing

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// num writes a number of squares for reading: at most four decimals.
func num(x float64) string { return decimals(x, 4) }

// decimals writes a number without needless zeros.
func decimals(x float64, n int) string {
	s := strconv.FormatFloat(x, 'f', n, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// writtenDigits is how many decimals a number gets that is offered as text:
// enough to be the same place again (see plane.Tol).
const writtenDigits = 9

// point writes a point for reading, written one for the text of an edit.
func point(p plane.Point) string { return "(" + num(p.X) + ", " + num(p.Y) + ")" }

func written(p plane.Point) string {
	return "(" + decimals(p.X, writtenDigits) + ", " + decimals(p.Y, writtenDigits) + ")"
}

// squares writes an area or a length in squares, with the word.
func squares(x float64) string {
	if s := num(x); s != "1" {
		return s + " squares"
	}
	return "1 square"
}

// lineOf returns the line of the text that a place begins on.
func lineOf(at problem.Place) string {
	if at.Source == nil {
		return "?"
	}
	return strconv.Itoa(at.Source.Position(at.Span.Start).Line)
}

// drawn marks points and lines on a unit.
func drawn(unit string, points []plane.Point, lines []plane.Line) *problem.Drawn {
	d := &problem.Drawn{Unit: unit}
	for _, p := range points {
		d.Points = append(d.Points, [2]float64{p.X, p.Y})
	}
	for _, l := range lines {
		d.Lines = append(d.Lines, [2][2]float64{{l.A.X, l.A.Y}, {l.B.X, l.B.Y}})
	}
	return d
}

// around lists a polygon's sides.
func around(p plane.Polygon) []plane.Line {
	lines := make([]plane.Line, len(p))
	for i := range p {
		lines[i] = p.Side(i)
	}
	return lines
}

// endSpan finds the text of one end of a line written as `P -- Q`; false where
// the line is written in another way.
func endSpan(at problem.Place, first bool) (problem.Span, bool) {
	if at.Source == nil || at.Span.Start < 0 || int(at.Span.End) > len(at.Source.Text) || at.Span.Start > at.Span.End {
		return problem.Span{}, false
	}
	text := at.Source.Text[at.Span.Start:at.Span.End]
	depth, dashes, found := 0, -1, 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '(':
			depth++
		case ')':
			depth--
		case ',', '"', '\n':
			if depth == 0 || text[i] != ',' {
				return problem.Span{}, false
			}
		case '-':
			if i+1 < len(text) && text[i+1] == '-' {
				if depth > 0 {
					return problem.Span{}, false
				}
				dashes, found = i, found+1
				i++
			}
		}
	}
	if found != 1 || strings.Contains(text, "//") {
		return problem.Span{}, false
	}
	from, to := 0, dashes
	if !first {
		from, to = dashes+2, len(text)
	}
	part := text[from:to]
	from += len(part) - len(strings.TrimLeft(part, " \t"))
	to -= len(part) - len(strings.TrimRight(part, " \t"))
	if strings.HasPrefix(text[from:to], "join ") || from >= to {
		return problem.Span{}, false
	}
	return problem.Span{Start: at.Span.Start + int32(from), End: at.Span.Start + int32(to)}, true
}

// areaSlack is the area that rounding may make of a border of some length: what
// a strip along it would have that is as wide as the tolerance.
func areaSlack(border float64) float64 { return plane.Tol * math.Max(1, border) }
