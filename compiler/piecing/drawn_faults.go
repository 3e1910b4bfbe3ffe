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

// faults tells what keeps the lines from making patches that can be sewn, and
// reports whether there is anything.
func (k *sketch) faults() bool {
	witnesses := k.part.Unsewable()
	if len(k.part.Faults) == 0 && len(witnesses) > 0 && slices.ContainsFunc(k.body.Lines, func(l eval.Line) bool { return l.Partial }) {
		if k.open = k.part.Openings(k.marked); k.open != nil {
			witnesses = nil
		}
	}
	if len(k.part.Faults)+len(witnesses) == 0 {
		for _, i := range k.part.Idle {
			if i < len(k.body.Lines) {
				k.tellIdleLine(i)
			}
		}
		return false
	}
	if len(k.part.Near) > 0 { // what follows from that would only confuse
		for i := range k.part.Near {
			if i < enough {
				k.tellAlmostOne(&k.part.Near[i])
			}
		}
		return true
	}
	openings := k.openings(witnesses)
	told := map[int]bool{} // witnesses told with a fault; for look-up only
	for i := range k.part.Faults {
		if i >= enough {
			return true
		}
		switch f := &k.part.Faults[i]; f.Kind {
		case solver.LooseEnd:
			k.tellLooseLine(f)
		case solver.Floating:
			k.tellFloating(f)
		case solver.NotConvex:
			k.tellNotConvex(f, witnesses, told)
		default:
			k.tellFault("the lines of this drawing could not be told apart")
		}
	}
	if len(told) == 0 && len(k.part.Faults) > 0 {
		return true
	}
	for i := range witnesses {
		if i < enough && !told[i] {
			k.tellNotSewable(&witnesses[i], openings)
		}
	}
	return true
}

// mostGround is how many lines are given with a fault, to be drawn beneath it: more
// are not told apart in a small picture.
const mostGround = 400

// tell tells a fault, with all of the drawing where it lies on that.
func (k *sketch) tell(p problem.Problem) {
	if p.Drawn != nil && p.Severity == problem.Error && len(k.lines) <= mostGround {
		if k.ground == nil {
			all := drawn("", k.body.Outline, k.lines)
			k.ground = &problem.Ground{Outline: all.Points, Lines: all.Lines}
		}
		p.Drawn.Ground = k.ground
	}
	k.work.tell(p)
}

// marked reports whether a line may be sewn in two goes.
func (k *sketch) marked(line int) bool {
	return line >= 0 && line < len(k.body.Lines) && k.body.Lines[line].Partial
}

// openings finds the seams that would have to be sewn in two goes, if that helps.
func (k *sketch) openings(witnesses []solver.Witness) []solver.Opening {
	if len(k.part.Faults) > 0 || len(witnesses) == 0 {
		return nil
	}
	return k.part.Openings(func(line int) bool { return line >= 0 && line < len(k.body.Lines) })
}

func (k *sketch) tellFault(message string) {
	k.tell(problem.Problem{Code: NotCovered, At: k.body.Source, Message: message,
		Help: "this is a fault of the program, not of the pattern; please report it with the pattern"})
}

// editOn lets a line run on from its end; in the middle of a chain the rest of
// the chain stays where it is.
func (k *sketch) editOn(line int, end, to plane.Point) []problem.Edit {
	edits := k.editEnd(line, end, to)
	if len(edits) == 0 {
		return nil
	}
	e := &edits[0]
	was := k.at[line].Source.Text[e.At.Start:e.At.End]
	for i := range k.body.Lines {
		switch other := k.at[i].Span; {
		case i == line:
		case other.Start == e.At.Start: // the chain goes on here
			e.New = was + " -- " + written(to) + ", " + was
		case other.End == e.At.End: // it comes from there
			e.New = was + ", " + written(to) + " -- " + was
		}
	}
	return edits
}

// place is where a line is written.
func (k *sketch) place(line int) problem.Place {
	if line < 0 || line >= len(k.at) {
		return k.body.Source
	}
	return k.at[line]
}

// editEnd writes a new end into the text of a line, where that is certain: the
// line is written point to point, once, and not in a loop.
func (k *sketch) editEnd(line int, end, to plane.Point) []problem.Edit {
	if line < 0 || line >= len(k.body.Lines) {
		return nil
	}
	l := &k.body.Lines[line]
	for i := range k.body.Lines {
		if i != line && k.body.Lines[i].At == l.At {
			return nil
		}
	}
	first := l.Line.A.Same(end)
	if !first && !l.Line.B.Same(end) {
		return nil
	}
	span, ok := endSpan(l.At, first)
	if !ok {
		return nil
	}
	return []problem.Edit{{At: span, New: written(to)}}
}

func (k *sketch) tellLooseLine(f *solver.Fault) {
	to := f.Nearest
	if l := k.lines[f.Line]; to.Same(l.A) || to.Same(l.B) { // nothing would be left of it
		to = f.Ahead
	}
	p := problem.Problem{
		Code: LooseLine, At: k.place(f.Line),
		Message: "this line ends in the middle of a patch: its end " + point(f.At) + " is " +
			squares(f.Distance) + " from the nearest line or edge",
		Drawn: drawn(k.body.Name, []plane.Point{f.At, to}, []plane.Line{{A: f.Back, B: f.At}}),
		Edits: k.editEnd(f.Line, f.At, to),
	}
	if to.Same(f.Nearest) {
		p.Help = "the nearest place to end it is " + point(to)
	}
	if !f.Nearest.Same(f.Ahead) {
		p.Help += "; run on straight, it would end at " + point(f.Ahead)
	}
	if !f.Back.Same(f.At) {
		p.Help += "; cut back, at " + point(f.Back)
	}
	p.Help = strings.TrimPrefix(p.Help, "; ")
	k.tell(p)
}

func (k *sketch) tellFloating(f *solver.Fault) {
	k.tell(problem.Problem{
		Code: FloatingLine, At: k.place(f.Line),
		Message: "nothing connects this line with the edge of " + k.body.Name + ": a patch with a hole can't be sewn",
		Help: "lead a line on from " + point(f.At) + ": the nearest place of the edge is " + point(f.Nearest) +
			", " + squares(f.Distance) + " away",
		Drawn: drawn(k.body.Name, []plane.Point{f.At, f.Nearest}, nil),
	})
}

func (k *sketch) tellNotConvex(f *solver.Fault, witnesses []solver.Witness, told map[int]bool) {
	p := problem.Problem{
		Code: NotConvex, At: k.place(f.Line),
		Message: "the patch about " + point(f.Polygon.Interior()) + " turns inwards at " + point(f.At) +
			": no straight seam can be sewn into a corner",
		Drawn: drawn(k.body.Name, []plane.Point{f.At}, around(f.Polygon)),
	}
	found := false
	for i := range witnesses {
		if v := witnesses[i].Point; v >= 0 && k.part.Points[v].Point.Same(f.At) {
			k.cure(&p, &witnesses[i])
			told[i], found = true, true
			break
		}
	}
	if !found {
		p.Help = "let one of the lines run on straight through " + point(f.At) + ", and name both parts of the patch"
	}
	k.tell(p)
}

func (k *sketch) tellNotSewable(w *solver.Witness, openings []solver.Opening) {
	p := problem.Problem{Code: NotSewable, At: k.body.Source, Drawn: drawn(k.body.Name, nil, nil)}
	if w.Point >= 0 {
		v := k.part.Points[w.Point].Point
		p.Drawn = drawn(k.body.Name, []plane.Point{v}, nil)
		p.Message = "no seam runs straight through " + point(v) + ", so the " + strconv.Itoa(len(w.Patches)) +
			" patches about it can't be sewn with straight seams"
		for _, e := range k.part.Edges {
			if e.Line >= 0 && (e.From == w.Point || e.To == w.Point) {
				p.At = k.place(e.Line)
				break
			}
		}
	} else {
		p.Message = strconv.Itoa(len(w.Cycle)) + " seams each stop inside the next, in a round: " +
			"whichever is sewn first stops in the middle of a patch"
		for i, r := range w.Cycle {
			a, b := k.part.Points[r.From].Point, k.part.Points[r.To].Point
			at := k.place(k.part.Edges[k.part.Seams[r.Seam].First].Line)
			p.Drawn.Lines = append(p.Drawn.Lines, drawn("", nil, []plane.Line{{A: a, B: b}}).Lines...)
			p.Drawn.Points = append(p.Drawn.Points, [2]float64{b.X, b.Y})
			if i == 0 {
				p.At = at
			} else if at != p.At {
				p.Labels = append(p.Labels, problem.Label{At: at, Text: "the seam from " + point(a) + " stops at " + point(b)})
			}
		}
	}
	k.cure(&p, w)
	for i := range openings {
		if slices.Contains(w.Patches, openings[i].Patches[0]) {
			k.offerPartial(&p, &openings[i])
			break
		}
	}
	k.tell(p)
}

// offerPartial says how a part is sewn with a seam in two goes, and offers that as
// the edit: it leaves the picture as it is.
func (k *sketch) offerPartial(p *problem.Problem, o *solver.Opening) {
	l := &k.body.Lines[o.Line]
	p.Help = "it can be sewn as it is with a partial seam: from " + point(o.Seam.B) + " to " + point(o.Stop) +
		" at first, then the others in their round, and the rest at the end; write `partial` behind the line" + k.elsewhere(l.At, p.At) + ". Or " + p.Help
	p.Drawn.Points = append(p.Drawn.Points, [2]float64{o.Stop.X, o.Stop.Y})
	end := l.Stmt.Span.End
	p.Edits = []problem.Edit{{At: problem.Span{Start: end, End: end}, New: " partial"}}
}

// elsewhere tells the line of the text that is meant, if it is not the problem's own.
func (k *sketch) elsewhere(at, own problem.Place) string {
	if lineOf(at) == lineOf(own) {
		return ""
	}
	return " (on line " + lineOf(at) + ")"
}

func (k *sketch) tellAlmostOne(n *solver.Near) {
	p := problem.Problem{
		Code: AlmostOne, At: k.body.Source,
		Message: point(n.A) + " and " + point(n.B) + " are almost one point, " + decimals(n.Distance, 6) +
			" squares apart, and the drawing can't be sewn as it stands",
		Help:  "write the same point in both places",
		Drawn: drawn(k.body.Name, []plane.Point{n.A, n.B}, nil),
	}
	for i := range k.lines {
		for _, end := range [2]plane.Point{k.lines[i].A, k.lines[i].B} {
			if !end.Same(n.A) && !end.Same(n.B) {
				continue
			}
			switch at := k.at[i]; {
			case p.At == k.body.Source:
				p.At = at
			case at != p.At && len(p.Labels) < 3:
				p.Labels = append(p.Labels, problem.Label{At: at, Text: "ends at " + point(end)})
			}
			if other := n.A; end.Same(n.B) && p.Edits == nil && p.At == k.at[i] {
				p.Edits = k.editEnd(i, end, other)
			} else if end.Same(n.A) && p.Edits == nil && p.At == k.at[i] {
				p.Edits = k.editEnd(i, end, n.B)
			}
		}
	}
	k.tell(p)
}

func (k *sketch) tellIdleLine(i int) {
	l := &k.body.Lines[i]
	k.tell(problem.Problem{
		Code: IdleLine, Severity: problem.Note, At: l.At,
		Message: "this line divides nothing: it lies on the edge or outside",
		Help:    "leave it out",
		Drawn:   drawn(k.body.Name, nil, []plane.Line{l.Line}),
	})
}
