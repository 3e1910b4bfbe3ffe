package piecing

import (
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// tellTrouble tells what is wrong with a partial join.
func (w *work) tellTrouble(s *shape, t *trouble) {
	j := &s.joins[t.join]
	p := problem.Problem{Code: PartialSeam, At: j.At, Drawn: drawn(s.body.Name, []plane.Point{t.at}, []plane.Line{j.Line})}
	label := func(text string) {
		if t.other >= 0 {
			p.Labels = []problem.Label{{At: s.joins[t.other].At, Text: text}}
			p.Drawn.Lines = append(p.Drawn.Lines, drawn("", nil, []plane.Line{s.joins[t.other].Line}).Lines...)
		}
	}
	switch t.kind {
	case notFinished:
		p.Message = "no later join finishes this partial seam"
		p.Help = "where it is finished, write a join on the same line: from the border to the end at which sewing begins, and no farther"
	case notNeeded:
		p.Message = "this seam need not be sewn in two goes: nothing sewn between runs across either of its ends"
		p.Help = "leave the partial join out"
		label("this join sews all of it")
	case notCrossed:
		p.Message = "nothing sewn after this partial seam, and before it is finished, runs across " + point(t.at) + ", where it begins"
		p.Help = "between the two write the join that runs through " + point(t.at) + "; without one, begin at the border and sew all of the seam"
	case inTheWay:
		p.Message = "this seam is sewn as far as " + point(t.at) + " or farther, but a join that is sewn later ends there"
		p.Help = "stop before " + point(t.at) + ", well away from it"
		label("this one ends there")
		w.shorter(&p, s, t)
	case slitCrossed:
		p.At = s.joins[t.other].At
		p.Message = "this join runs across " + point(t.at) + ", where a partial seam is still open"
		p.Labels = []problem.Label{{At: j.At, Text: "begun here"}}
		p.Help = "write it in two, one on each side: what is sewn before the partial seam stands above that"
	}
	w.tell(p)
}

// shorter offers a place to stop half way to where a seam has to be open.
func (w *work) shorter(p *problem.Problem, s *shape, t *trouble) {
	l := s.joins[t.join].Line
	first := l.A.Dist(t.at) < l.B.Dist(t.at)
	start := l.A
	if first {
		start = l.B
	}
	if span, ok := endSpan(p.At, first); ok {
		p.Edits = []problem.Edit{{At: span, New: written(start.Mid(t.at))}}
	}
}
