package piecing

import (
	"slices"
	"strconv"
	"strings"

	"seamwright/compiler/eval"
	"seamwright/compiler/plane"
	"seamwright/compiler/solver"
	"seamwright/lang/problem"
)

// Messages about which fabric a patch has, and about the sections found.

func (k *sketch) tellNoPatch(at plane.Point, where problem.Place) {
	p := problem.Problem{
		Code: PointOnLine, At: where,
		Message: point(at) + " lies on the edge of " + k.body.Name + ", so it cannot say which patch is meant",
		Help:    "give a point well inside the patch",
		Drawn:   drawn(k.body.Name, []plane.Point{at}, nil),
	}
	if k.part != nil && k.body.Outline.Locate(at) < 0 {
		p.Message = point(at) + " lies outside " + k.body.Name + ", where no patch is"
	}
	for _, e := range k.part.Edges {
		l := plane.Line{A: k.part.Points[e.From].Point, B: k.part.Points[e.To].Point}
		if e.Line >= 0 && l.Nearest(at).Same(at) {
			p.Message = point(at) + " lies on a line, so it cannot say which patch is meant"
			p.Labels = []problem.Label{{At: k.place(e.Line), Text: "on this line"}}
			p.Drawn.Lines = drawn("", nil, []plane.Line{l}).Lines
			break
		}
	}
	k.tell(p)
}

func (k *sketch) tellCorners(i, patch int) {
	d := &k.body.Drawn[i]
	p := problem.Problem{
		Code: CornersDiffer, At: d.At,
		Message: "these corners are not those of one patch",
		Help:    "give the corners in order round one patch that no line divides, or a point inside each part",
		Drawn:   drawn(k.body.Name, nil, around(d.Corners)),
	}
	if patch >= 0 {
		p.Message += ": the patch about " + point(k.part.Polygon(patch).Interior()) + " has other ones"
	}
	k.tell(p)
}

func (k *sketch) tellNamedTwice(patch, i, j int) {
	d, first := &k.body.Drawn[i], &k.body.Drawn[k.fabric[patch]-1]
	at := pointAt(d.PointAt, j, d.At)
	if j < 0 {
		at = d.At
	}
	was := first.At
	if n := k.point[patch]; n >= 0 {
		was = pointAt(first.PointAt, n, first.At)
	}
	k.tell(problem.Problem{
		Code: NamedTwice, At: at,
		Message: "the patch about " + point(k.part.Polygon(patch).Interior()) + " has its fabric already, from line " + lineOf(was),
		Labels:  []problem.Label{{At: was, Text: "here"}},
		Help:    "leave one of them out, or draw the line that divides the patch",
		Drawn:   drawn(k.body.Name, nil, around(k.part.Polygon(patch))),
	})
}

// allNamed tells of patches without fabric.
func (k *sketch) allNamed() bool {
	var missing []plane.Point
	var lines []plane.Line
	for i, f := range k.fabric {
		if f == 0 {
			polygon := k.part.Polygon(i)
			missing, lines = append(missing, polygon.Interior()), append(lines, around(polygon)...)
		}
	}
	if len(missing) == 0 {
		return true
	}
	p := problem.Problem{
		Code: Unnamed, At: k.body.Source,
		Message: "the patch about " + point(missing[0]) + " has no fabric",
		Help:    "write `piece FABRIC at " + point(missing[0]),
		Drawn:   drawn(k.body.Name, missing, lines),
	}
	if n := len(missing); n > 1 {
		p.Message = strconv.Itoa(n) + " patches have no fabric: those about " + point(missing[0])
		for i, at := range missing[1:min(n, enough)] {
			word := ", "
			if i == n-2 {
				word = " and "
			}
			p.Message += word + point(at)
			p.Help += ", " + point(at)
		}
		if n > enough {
			p.Message += " and others"
		}
	}
	p.Help += "`"
	k.tell(p)
	return false
}

// note says how many sections were found, and why there are not fewer.
func (k *sketch) note(plan *solver.Plan) {
	n := len(plan.Sections)
	p := problem.Problem{
		Code: Sections, Severity: problem.Note, At: k.body.Source,
		Message: k.body.Name + " is sewn in " + many(n, "section") + " of " + many(len(k.part.Patches), "patch"),
		Help:    "`seamwright number` writes them into the text, so that they stay as they are",
		Drawn:   drawn(k.body.Name, nil, nil),
	}
	switch {
	case len(k.open) > 0:
		p.Message += ", with " + many(len(k.open), "partial seam")
	case n == 1:
	case n == plan.Least && plan.Proved:
		p.Message += "; there can't be fewer"
	case n == plan.Least:
		p.Message += "; that is the fewest found, and there can't be fewer than " + strconv.Itoa(plan.Bound)
	case len(k.together)+len(k.uncuts)+len(k.first) > 0:
		p.Message += "; " + strconv.Itoa(plan.Least) + " would do, but for what the text asks of them and for size"
	default:
		p.Message += "; " + strconv.Itoa(plan.Least) + " would do, but a section is to have no more than " +
			strconv.Itoa(mostPieces) + " pieces and to lie on the sheet"
	}
	if len(plan.Over) > 0 {
		p.Message += "; " + strconv.Itoa(len(plan.Over)) + " of them could not be made so small"
	}
	if len(k.open) == 0 && slices.ContainsFunc(k.body.Lines, func(l eval.Line) bool { return l.Partial }) {
		p.Message += "; no partial seam is needed"
	}
	if len(plan.Certificate) > 1 && len(plan.Certificate) == plan.Bound {
		if p.Message += ": "; n != plan.Least {
			p.Message = strings.TrimSuffix(p.Message, ": ") + "; "
		}
		p.Message += "no two of the patches about "
		for i, patch := range plan.Certificate {
			at := k.part.Polygon(patch).Interior()
			p.Drawn.Points = append(p.Drawn.Points, [2]float64{at.X, at.Y})
			switch {
			case i >= shownJoins:
				continue
			case i > 0 && i == len(plan.Certificate)-1:
				p.Message += " and "
			case i > 0:
				p.Message += ", "
			}
			p.Message += point(at)
		}
		if len(plan.Certificate) > shownJoins {
			p.Message += " and so on"
		}
		p.Message += " can share one"
	}
	for _, j := range plan.Joins {
		p.Drawn.Lines = append(p.Drawn.Lines, [2][2]float64{{j.A.X, j.A.Y}, {j.B.X, j.B.Y}})
	}
	k.tell(p)
}

// many puts a number before a word.
func many(n int, word string) string {
	switch {
	case n == 1:
		return "1 " + word
	case word == "patch":
		word = "patche"
	}
	return strconv.Itoa(n) + " " + word + "s"
}
