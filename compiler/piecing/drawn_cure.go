package piecing

import (
	"math"
	"slices"

	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
	"seamwright/lang/problem"
)

// cure words what a witness's cure would draw, and draws it.
func (k *sketch) cure(p *problem.Problem, w *solver.Witness) {
	for i, x := range w.Cure {
		word := ", and the one"
		if i == 0 {
			word = "it can be sewn if the line"
		}
		if at := k.place(x.Line); lineOf(at) != lineOf(p.At) {
			word += " (on line " + lineOf(at) + ")"
		}
		p.Help += word + " that ends at " + point(x.From) + " runs on to " + point(x.To)
		p.Drawn.Cure = append(p.Drawn.Cure, [2][2]float64{{x.From.X, x.From.Y}, {x.To.X, x.To.Y}})
	}
	if len(w.Cure) == 0 {
		p.Help = "draw a line straight on through one of these corners"
		return
	}
	p.Help += "; each patch that it divides then needs a name for both parts"
	if len(w.Cure) == 1 {
		p.Edits = k.editOn(w.Cure[0].Line, w.Cure[0].From, w.Cure[0].To)
		if len(p.Edits) > 0 && k.place(w.Cure[0].Line).Source == p.At.Source {
			p.Edits = append(p.Edits, k.nameBoth(plane.Line{A: w.Cure[0].From, B: w.Cure[0].To}, p.At.Source)...)
		}
	}
}

// nameBoth writes a point in either part of the patches that a new line divides,
// where their names are written as points, each once.
func (k *sketch) nameBoth(l plane.Line, source *problem.Source) (edits []problem.Edit) {
	used := map[problem.Place]int{} // how often a place is used, as in a loop; for look-up only
	var points []plane.Point
	var places []problem.Place
	for i := range k.body.Drawn {
		d := &k.body.Drawn[i]
		for j := range min(len(d.Points), len(d.PointAt)) {
			points, places = append(points, d.Points[j]), append(places, d.PointAt[j])
			used[d.PointAt[j]]++
		}
	}
	for i, spot := range k.part.Locate(points) {
		at := places[i]
		if spot.Patch < 0 || at.Source != source || used[at] > 1 {
			continue
		}
		q := k.part.Polygon(spot.Patch).Corners()
		if !crosses(q, l) {
			continue
		}
		left, right := inside(q, l, 1), inside(q, l, -1)
		switch l.Side(points[i]) {
		case 1:
			edits = append(edits, problem.Edit{At: problem.Span{Start: at.Span.End, End: at.Span.End}, New: ", " + right})
		case -1:
			edits = append(edits, problem.Edit{At: problem.Span{Start: at.Span.End, End: at.Span.End}, New: ", " + left})
		default:
			edits = append(edits, problem.Edit{At: at.Span, New: left + ", " + right})
		}
	}
	return edits
}

// crosses reports whether a line, from end to end, runs through the inside of a patch.
func crosses(q plane.Polygon, l plane.Line) bool {
	at := []float64{0, l.Len()}
	for i := range q {
		if p, ok := l.Meet(q.Side(i)); ok {
			if t := l.Along(p); t > plane.Tol && t < l.Len()-plane.Tol {
				at = append(at, t)
			}
		}
	}
	slices.Sort(at)
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] > plane.Tol && q.Locate(l.At((at[i]+at[i-1])/2)) > 0 {
			return true
		}
	}
	return false
}

// inside writes a point well inside that part of a patch which lies on one side of a
// line, with numbers as short as can be.
func inside(q plane.Polygon, l plane.Line, side float64) string {
	var part plane.Polygon
	for i, a := range q {
		b := q[(i+1)%len(q)]
		u, v := side*l.Offset(a), side*l.Offset(b)
		if u >= -plane.Tol {
			part = append(part, a)
		}
		if min(u, v) < -plane.Tol && max(u, v) > plane.Tol {
			part = append(part, a.Add(b.Sub(a).Mul(u/(u-v))))
		}
	}
	middle := part.Interior()
	clear := part.Nearest(middle).Dist(middle) / 2
	for _, parts := range [...]float64{1, 2, 4, 8} {
		p := plane.Point{X: math.Round(middle.X*parts) / parts, Y: math.Round(middle.Y*parts) / parts}
		if part.Locate(p) > 0 && part.Nearest(p).Dist(p) >= clear {
			return written(p)
		}
	}
	return written(middle)
}
