package tiling

import (
	"math"
	"slices"

	"seamwright/compiler/pattern"
	"seamwright/emit/drawing"
)

const (
	// farthest is how far apart crosses stand on a line, where there is room.
	farthest = 4 * pattern.Inch

	// textGap is between a joining line and its letters.
	textGap = 0.7 * pattern.Millimetre
)

// Letters sets the letters of every joining line on both of its sides, and further
// crosses on long ones, wherever free says that nothing else is printed. Forms are
// the ways to say a letter, the fullest first.
func (t *Tiling) Letters(size length, forms func(letter string) []string, free func(drawing.Reach) bool) {
	var taken []drawing.Item // letters of lines before: near a corner two lines are close
	clear := func(r drawing.Reach) bool {
		for i := range taken {
			o := drawing.ReachOf(taken[i : i+1])
			if r.X0 < o.X1+textGap && o.X0 < r.X1+textGap && r.Y0 < o.Y1+textGap && o.Y0 < r.Y1+textGap {
				return false
			}
		}
		return free(r)
	}
	for i := range t.Joints {
		j := &t.Joints[i]
		j.cross(free)
		for _, text := range forms(j.Letter) {
			if j.letters(text, size, clear) {
				taken = append(taken, j.texts[0], j.texts[1])
				break
			}
		}
	}
}

// at returns the point of a joining line that is so far from its beginning.
func (j *Joint) at(d length) pos {
	if j.Upright {
		return pos{X: j.A.X, Y: j.A.Y + d}
	}
	return pos{X: j.A.X + d, Y: j.A.Y}
}

// nearest lists the points of a joining line, the nearest to one first.
func (j *Joint) nearest(to, within length) []length {
	var out []length
	for i := 1; step*length(i) < j.Long()-noise; i++ {
		if d := step * length(i); length(math.Abs(float64(d-to))) <= within {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b length) int {
		switch da, db := math.Abs(float64(a-to)), math.Abs(float64(b-to)); {
		case da < db-noise:
			return -1
		case da > db+noise:
			return 1
		}
		return 0
	})
	return out
}

// cross puts crosses between the ends of a long line.
func (j *Joint) cross(free func(drawing.Reach) bool) {
	n := int(math.Ceil(float64(j.Long()/farthest) - noise))
	for k := 1; k < n; k++ {
		for _, d := range j.nearest(j.Long()*length(k)/length(n), farthest/4) {
			if p := j.at(d); free(around(p)) {
				j.crosses = append(j.crosses, p)
				break
			}
		}
	}
}

func around(p pos) drawing.Reach {
	return drawing.Reach{X0: p.X - arm, Y0: p.Y - arm, X1: p.X + arm, Y1: p.Y + arm}
}

// letters sets a text on both sides of the line, as near as may be to its middle.
func (j *Joint) letters(text string, size length, free func(drawing.Reach) bool) bool {
	turn := 0.0
	if j.Upright {
		turn = 90
	}
	r := drawing.ReachOf([]drawing.Item{&drawing.Text{Text: text, Size: size, Turn: turn}})
	for _, d := range j.nearest(j.Long()/2, j.Long()) {
		p := j.at(d)
		shift := [2]pos{{X: p.X - (r.X0+r.X1)/2, Y: p.Y - textGap - r.Y1}, {X: p.X - (r.X0+r.X1)/2, Y: p.Y + textGap - r.Y0}}
		if j.Upright {
			shift = [2]pos{{X: p.X - textGap - r.X1, Y: p.Y - (r.Y0+r.Y1)/2}, {X: p.X + textGap - r.X0, Y: p.Y - (r.Y0+r.Y1)/2}}
		}
		ok := true
		for _, s := range shift {
			ok = ok && free(drawing.Reach{X0: r.X0 + s.X, Y0: r.Y0 + s.Y, X1: r.X1 + s.X, Y1: r.Y1 + s.Y})
		}
		for _, c := range append([]pos{j.A, j.B}, j.crosses...) {
			long := max(r.X1-r.X0, r.Y1-r.Y0) / 2
			ok = ok && max(math.Abs(float64(c.X-p.X)), math.Abs(float64(c.Y-p.Y))) > float64(long+arm+textGap)
		}
		if ok {
			for i, s := range shift {
				j.texts[i] = &drawing.Text{Text: text, At: s, Size: size, Turn: turn}
			}
			return true
		}
	}
	return false
}

// marks draws what a part has of its joining lines, where the drawing lies: the
// lines, their crosses, and their letters on its own side.
func (t *Tiling) marks(part int) []drawing.Item {
	var items, texts []drawing.Item
	var seen []pos
	for i := range t.Joints {
		j := &t.Joints[i]
		side := 0
		switch part {
		case j.Before:
		case j.After:
			side = 1
		default:
			continue
		}
		items = append(items, line(drawing.GlueLine, j.A, j.B))
		for _, p := range append([]pos{j.A, j.B}, j.crosses...) {
			if slices.ContainsFunc(seen, func(q pos) bool { return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) < noise }) {
				continue // where four parts meet
			}
			seen = append(seen, p)
			items = append(items, line(drawing.MarkLine, pos{X: p.X - arm, Y: p.Y}, pos{X: p.X + arm, Y: p.Y}),
				line(drawing.MarkLine, pos{X: p.X, Y: p.Y - arm}, pos{X: p.X, Y: p.Y + arm}))
		}
		if j.texts[side] != nil {
			texts = append(texts, j.texts[side])
		}
	}
	return append(items, texts...)
}

func line(style drawing.Style, a, b pos) *drawing.Path {
	return &drawing.Path{Style: style, Points: []pos{a, b}, Fill: drawing.NoColour}
}

// Page draws what a part shows, with its joining lines and where its print ends, the
// upper left corner of all that at a place.
func (t *Tiling) Page(part int, whole *drawing.Wide, at pos) []drawing.Item {
	p := &t.Parts[part]
	by := pos{X: at.X - p.Shown.X0, Y: at.Y - p.Shown.Y0}
	shift := func(r drawing.Reach) drawing.Reach {
		return drawing.Reach{X0: r.X0 + by.X, Y0: r.Y0 + by.Y, X1: r.X1 + by.X, Y1: r.Y1 + by.Y}
	}
	clip := frame(shift(p.Own), shift(p.Shown))
	items := []drawing.Item{&drawing.Group{Class: "lines", Clip: clip, Items: whole.Part(p.Shown, at)}}
	glue := &drawing.Group{Class: "glue"}
	for _, item := range append(t.ends(part), t.marks(part)...) {
		glue.Items = append(glue.Items, drawing.Moved(item, by.X, by.Y))
	}
	if len(glue.Items) > 0 {
		items = append(items, glue)
	}
	return items
}

// ends draws where the print of a part ends though the drawing goes on: what lies
// beyond is cut off.
func (t *Tiling) ends(part int) (items []drawing.Item) {
	s := t.Parts[part].Shown
	var done [2][2]bool
	for _, j := range t.Joints {
		across, after := 0, 0
		a, b := pos{X: s.X0, Y: s.Y0}, pos{X: s.X0, Y: s.Y1}
		if !j.Upright {
			across, b = 1, pos{X: s.X1, Y: s.Y0}
		}
		switch {
		case j.Before == part && j.Upright:
			after, a.X, b.X = 1, s.X1, s.X1
		case j.Before == part:
			after, a.Y, b.Y = 1, s.Y1, s.Y1
		case j.After != part:
			continue
		}
		if !done[across][after] {
			items = append(items, line(drawing.RunOnLine, a, b))
		}
		done[across][after] = true
	}
	return items
}

// frame returns a rectangle that a part is clipped to: what it shows, and where that
// ends with the drawing, the whole breadth of its lines there.
func frame(own, shown drawing.Reach) []pos {
	if shown.X0 == own.X0 {
		shown.X0 -= breadth
	}
	if shown.Y0 == own.Y0 {
		shown.Y0 -= breadth
	}
	if shown.X1 == own.X1 {
		shown.X1 += breadth
	}
	if shown.Y1 == own.Y1 {
		shown.Y1 += breadth
	}
	return []pos{{X: shown.X0, Y: shown.Y0}, {X: shown.X1, Y: shown.Y0}, {X: shown.X1, Y: shown.Y1}, {X: shown.X0, Y: shown.Y1}}
}

// breadth is more than half of any line's.
const breadth = 0.4 * pattern.Millimetre
