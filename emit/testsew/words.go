package testsew

import (
	"math"
	"strconv"
	"strings"
)

func count(n int) string { return strconv.Itoa(n) }

// figure writes a number of inches, or square inches, to the thousandth.
func figure(f float64) string { return strconv.FormatFloat(math.Round(f*1000)/1000, 'f', -1, 64) }

func and(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// A unit is what a report tells lengths in.
type unit struct {
	name   string
	inches float64 // of one
}

// unitOf is the unit of a pattern.
func unitOf(metric bool) unit {
	if metric {
		return unit{"cm", inch * 10}
	}
	return unit{"in", 1}
}

// of is a length, given in inches, without the unit's name. Thousandths are for inches alone.
func (u unit) of(inches float64, decimals int) string {
	if u.inches != 1 {
		decimals = min(decimals, 2)
	}
	return strconv.FormatFloat(inches/u.inches, 'f', decimals, 64)
}

// long is a length with the unit's name.
func (u unit) long(inches float64, decimals int) string { return u.of(inches, decimals) + " " + u.name }

// at is a place from the lower left corner.
func (u unit) at(x, y float64) string { return u.of(x, 2) + ", " + u.long(y, 2) }

// place tells a point of the block or section from its lower left.
func place(p pt) string { return "at " + figure(p.x) + ", " + figure(p.y) + " in" }

// space names a space as it is printed.
func (s *section) space(number int) string { return s.name + strconv.Itoa(number) }
