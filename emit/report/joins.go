package report

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
)

// most is how many sections are named on one side of a join; of more, the rest
// is a number. Beyond it nobody reads them, and a block of thousands of sections
// would be told thousands of times.
const most = 6

// joins tells the order of sewing.
func (t *telling) joins(s *pattern.Sized) {
	if len(s.Joins) == 0 {
		return
	}
	t.part("Join in this order")
	for i := range s.Joins {
		j := &s.Joins[i]
		words := side(s, j.Left) + " to " + side(s, j.Right) + ", " + length(j).In(16)
		switch len(j.Points) {
		case 0:
		case 1:
			words += "; 1 point to match"
		default:
			words += "; " + strconv.Itoa(len(j.Points)) + " points to match"
		}
		words += partial(s, j)
		if press := press(s, j); press != "" {
			words += "; press " + press
		}
		t.item("join "+strconv.Itoa(j.Number), words)
	}
}

// partial says how a partial seam is begun and finished.
func partial(s *pattern.Sized, j *pattern.Join) string {
	switch {
	case j.Begins > 0:
		return "; a partial seam: begin where both end together, stop after that, and leave the rest open until join " + strconv.Itoa(j.Begins)
	case j.Begun > 0:
		from, to := s.Rest(j)
		return "; finishes the seam of join " + strconv.Itoa(j.Begun) + ": sew the " + between(from, to).In(16) + " that are open"
	}
	return ""
}

// press says which way a join is pressed, and why.
func press(s *pattern.Sized, j *pattern.Join) string {
	switch j.Press {
	case pattern.PressLeft:
		return "toward " + side(s, j.Left) + ": " + j.PressWords()
	case pattern.PressRight:
		return "toward " + side(s, j.Right) + ": " + j.PressWords()
	case pattern.PressOpen:
		return "open: " + j.PressWords()
	}
	return ""
}

// side names what lies on one side of a join: "A", "A-B-C", "A four times".
func side(s *pattern.Sized, copies []int) string {
	var names []string
	for i := 0; i < len(copies) && len(names) < most; {
		name, n := nameOfCopy(s, copies[i]), 0
		for ; i < len(copies) && nameOfCopy(s, copies[i]) == name; i++ {
			n++
		}
		if n > 1 {
			name += " " + times(n)
		}
		names = append(names, name)
		if len(names) == most && i < len(copies) {
			names = append(names, strconv.Itoa(len(copies)-i)+" more")
		}
	}
	return list(names)
}

func nameOfCopy(s *pattern.Sized, c int) string { return nameOf(s, s.Copies[c].Drawing) }

// list writes "A", "A and B", "A, B and C".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

func length(j *pattern.Join) pattern.Length { return between(j.A, j.B) }

func between(a, b pattern.Pos) pattern.Length {
	return pattern.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
}
