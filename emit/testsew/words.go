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

// place tells a point of the block or section from its lower left.
func place(p pt) string { return "at " + figure(p.x) + ", " + figure(p.y) + " in" }

// space names a space as it is printed.
func (s *section) space(number int) string { return s.name + strconv.Itoa(number) }
