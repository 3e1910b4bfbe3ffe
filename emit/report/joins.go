package report

import (
	"math"
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/emit/table"
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
	t.heading("join_order")
	for i := range s.Joins {
		j := &s.Joins[i]
		words := t.say("join_of", "left", t.side(s, j.Left), "right", t.side(s, j.Right), "length", t.long(between(j.A, j.B)))
		if n := len(j.Points); n > 0 {
			words += "; " + t.said.Count("join_points", n)
		}
		for _, more := range [...]string{t.partial(s, j), t.press(s, j)} {
			if more != "" {
				words += "; " + more
			}
		}
		t.item(t.say("join", "n", strconv.Itoa(j.Number)), words)
	}
}

// partial says how a partial seam is begun and finished.
func (t *telling) partial(s *pattern.Sized, j *pattern.Join) string {
	switch {
	case j.Begins > 0:
		return t.say("join_begins", "n", strconv.Itoa(j.Begins))
	case j.Begun > 0:
		from, to := s.Rest(j)
		return t.say("join_finishes", "n", strconv.Itoa(j.Begun), "length", t.long(between(from, to)))
	}
	return ""
}

// press says which way a join is pressed, and why.
func (t *telling) press(s *pattern.Sized, j *pattern.Join) string {
	why := table.WhyWords(t.said, j.Why, j.Meet)
	switch j.Press {
	case pattern.PressLeft:
		return t.say("press_toward", "side", t.side(s, j.Left), "why", why)
	case pattern.PressRight:
		return t.say("press_toward", "side", t.side(s, j.Right), "why", why)
	case pattern.PressOpen:
		return t.say("press_open", "why", why)
	}
	return ""
}

// side names what lies on one side of a join: "A", "A, B and C", "4 x A".
func (t *telling) side(s *pattern.Sized, copies []int) string {
	var names []string
	for i := 0; i < len(copies) && len(names) < most; {
		name, n := nameOfCopy(s, copies[i]), 0
		for ; i < len(copies) && nameOfCopy(s, copies[i]) == name; i++ {
			n++
		}
		if n > 1 {
			name = strconv.Itoa(n) + " x " + name
		}
		names = append(names, name)
		if len(names) == most && i < len(copies) {
			names = append(names, t.say("join_more", "n", strconv.Itoa(len(copies)-i)))
		}
	}
	return t.list(names)
}

func nameOfCopy(s *pattern.Sized, c int) string { return nameOf(s, s.Copies[c].Drawing) }

// list writes "A", "A and B", "A, B and C".
func (t *telling) list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return t.say("and", "names", strings.Join(names[:last], ", "), "last", names[last])
}

func between(a, b pattern.Pos) pattern.Length {
	return pattern.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
}
