package diagram

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

// An arrow's head is as wide as it is long.
const arrowHead = 1.6 * pattern.Millimetre

// press draws which way a join is pressed, in the gap between its parts: one
// arrow to a side, or two, for open. They stand where no ring is near.
func (f frame) press(j *pattern.Join, away pos) (items []drawing.Item) {
	at := freest(j)
	along := func(t length) pos { return f.at(pos{X: at.X + t*away.X, Y: at.Y + t*away.Y}) }
	switch j.Press {
	case pattern.PressLeft:
		items = arrow(along(-0.7), along(1))
	case pattern.PressRight:
		items = arrow(along(0.7), along(-1))
	case pattern.PressOpen:
		items = append(arrow(along(0), along(1)), arrow(along(0), along(-1))...)
	}
	return items
}

// freest returns the middle of the longest stretch of a join without a ring.
func freest(j *pattern.Join) pos {
	dx, dy := j.B.X-j.A.X, j.B.Y-j.A.Y
	square := dx*dx + dy*dy
	if square == 0 {
		return j.A
	}
	stops := []length{0, 1}
	for _, p := range j.Points {
		stops = append(stops, ((p.X-j.A.X)*dx+(p.Y-j.A.Y)*dy)/square)
	}
	slices.Sort(stops)
	widest, t := length(0), length(0)
	for i := 1; i < len(stops); i++ {
		if gap := stops[i] - stops[i-1]; gap > widest+tiny {
			widest, t = gap, stops[i-1]+gap/2
		}
	}
	return pos{X: j.A.X + t*dx, Y: j.A.Y + t*dy}
}

// arrow draws a stroke on the page that ends in a head.
func arrow(from, tip pos) []drawing.Item {
	dx, dy := tip.X-from.X, tip.Y-from.Y
	l := length(math.Hypot(float64(dx), float64(dy)))
	if l <= tiny {
		return nil
	}
	dx, dy = dx/l, dy/l
	head := min(arrowHead, l)
	base := pos{X: tip.X - dx*head, Y: tip.Y - dy*head}
	wing := func(side length) pos {
		return pos{X: base.X - dy*side*head/2, Y: base.Y + dx*side*head/2}
	}
	return []drawing.Item{
		&drawing.Path{Style: drawing.MarkLine, Points: []pos{from, base}, Fill: drawing.NoColour},
		&drawing.Path{Style: drawing.MarkLine, Points: []pos{tip, wing(1), wing(-1)}, Closed: true, Fill: 0},
	}
}
