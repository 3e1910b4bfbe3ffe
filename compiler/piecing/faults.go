package piecing

import (
	"seamwright/compiler/plane"
	"seamwright/lang/problem"
)

// Messages about joins, sections and seams.

func (w *work) tellTooMany(s *shape, message string) {
	w.tell(problem.Problem{Code: TooMany, At: s.body.Source, Message: message,
		Help: "look for a loop that runs too often, or that draws lines across each other"})
}

func (w *work) tellLoose(s *shape, e *loose) {
	j := &s.joins[e.join]
	p := problem.Problem{
		Code: LooseEnd, At: j.At,
		Message: "this join stops short: its end " + point(e.end) + " lies inside the unit, " +
			squares(e.end.Dist(e.near)) + " from the nearest edge or join",
		Help:  "the nearest place to end it is " + point(e.near),
		Drawn: drawn(s.body.Name, []plane.Point{e.end, e.near}, []plane.Line{j.Line}),
	}
	if !e.near.Same(e.ahead) {
		p.Help += "; run on straight, it would end at " + point(e.ahead)
	}
	for i := 0; i < e.join; i++ {
		if o := &s.joins[i]; o.Line.Nearest(e.end).Same(e.end) {
			p.Labels = append(p.Labels, problem.Label{At: o.At, Text: "it ends on this join, which is sewn earlier"})
			p.Help = "joins are listed in the order in which they are sewn: a join that ends on another is " +
				"sewn before it, so move this one above the join of line " + lineOf(o.At)
			w.tell(p)
			return
		}
	}
	if span, ok := endSpan(j.At, e.first); ok {
		p.Edits = []problem.Edit{{At: span, New: written(e.near)}}
	}
	w.tell(p)
}

func (w *work) tellIdle(s *shape, join int) {
	j := &s.joins[join]
	p := problem.Problem{
		Code: IdleJoin, At: j.At,
		Message: "this join splits nothing: it runs along the edge or an earlier cut, or outside the unit",
		Help:    "leave it out, or let it run through the inside of the unit",
		Drawn:   drawn(s.body.Name, nil, []plane.Line{j.Line}),
	}
	for i := join + 1; i < len(s.joins); i++ {
		if o := &s.joins[i]; o.Line.Side(j.Line.A) == 0 && o.Line.Side(j.Line.B) == 0 {
			p.Message = "this join splits nothing: it lies on the line of a join that is sewn later"
			p.Labels = []problem.Label{{At: o.At, Text: "on this one"}}
			break
		}
	}
	w.tell(p)
}

func (w *work) tellAnchor(s *shape, section int, at spot) {
	src := &s.body.Sections[section]
	first := &src.Pieces[0]
	p := problem.Problem{Code: AnchorOnJoin, At: pointAt(first.PointAt, 0, first.At),
		Drawn: drawn(s.body.Name, first.Points[:1], nil)}
	anchor := point(first.Points[0])
	switch {
	case at.outside:
		p.Code = AnchorOutside
		p.Message = anchor + " lies outside " + s.body.Name + ", so it cannot say where this section is"
		p.Help = "give a point inside piece 1"
	case at.chord >= 0:
		j := &s.joins[s.cut.chords[at.chord].join]
		p.Message = anchor + " lies on a join, so it cannot say which section is meant"
		p.Help = "give a point well inside piece 1, off every line"
		p.Labels = []problem.Label{{At: j.At, Text: "on this join"}}
		p.Drawn.Lines = drawn("", nil, []plane.Line{j.Line}).Lines
	default:
		p.Message = anchor + " lies on the edge of " + s.body.Name + ", so it cannot say where this section is"
		p.Help = "give a point well inside piece 1"
	}
	w.tell(p)
}

func pointAt(at []problem.Place, i int, or problem.Place) problem.Place {
	if i < len(at) {
		return at[i]
	}
	return or
}

// called is how a section is spoken of.
func called(name string) string {
	if name == "" {
		return "this section"
	}
	return "section " + name
}

func (w *work) tellTwice(s *shape, first, second int) {
	a, b := &s.body.Sections[first], &s.body.Sections[second]
	w.tell(problem.Problem{
		Code: TwoInOne, At: b.At,
		Message: called(b.Name) + " and the section of line " + lineOf(a.At) + " lie in the same region",
		Labels:  []problem.Label{{At: a.At, Text: "the other section"}},
		Help:    "write the join that divides them, or correct the point of one of them",
		Drawn: drawn(s.body.Name,
			[]plane.Point{a.Pieces[0].Points[0], b.Pieces[0].Points[0]}, nil),
	})
}

func (w *work) tellEmpty(s *shape, f *plane.Face) {
	w.tell(problem.Problem{
		Code: EmptyRegion, At: s.body.Source,
		Message: "the region of " + s.body.Name + " about " + point(f.Corners.Interior()) +
			" has neither a section nor a placed unit",
		Help:  "write a section whose piece 1 has a point there",
		Drawn: drawn(s.body.Name, []plane.Point{f.Corners.Interior()}, around(f.Corners)),
	})
}

func (w *work) tellFlaw(s *shape, c *cell, f *flaw) {
	src := &c.section.src.Pieces[f.piece]
	number := num(float64(f.piece + 1))
	p := problem.Problem{At: src.LineAt, Drawn: drawn(s.body.Name, nil, []plane.Line{src.Line})}
	anchor := c.section.src.Pieces[0].Points[0]
	switch f.kind {
	case onSeam:
		p.Code = AnchorOnSeam
		first := &c.section.src.Pieces[0]
		p.At = pointAt(first.PointAt, 0, first.At)
		p.Message = point(anchor) + " lies on a seam, that of piece " + number + ", so it cannot say on which side piece 1 is"
		p.Help = "give a point well inside piece 1, off every line"
		p.Labels = []problem.Label{{At: src.LineAt, Text: "on this line"}}
		p.Drawn.Points = [][2]float64{{anchor.X, anchor.Y}}
	case missing:
		p.Code = PieceMissing
		p.Message = "the line of piece " + number + " misses the section: all of it lies on the side of piece 1"
		p.Help = "the seam must cross the region of the section, which is shown on the drawing"
		p.Drawn.Lines = append(p.Drawn.Lines, drawn("", nil, around(c.face.Corners)).Lines...)
	case swallowed:
		p.Code = PieceSwallowed
		p.Message = "piece " + number + " lies wholly under pieces sewn later: nothing of it would be seen"
		p.Help = "pieces are listed in the order in which they are sewn; list it after the pieces that cover it, or leave it out"
		for k := f.piece + 1; k < len(c.section.src.Pieces); k++ {
			p.Drawn.Lines = append(p.Drawn.Lines, drawn("", nil, []plane.Line{c.section.src.Pieces[k].Line}).Lines...)
		}
	case scattered:
		p.Code = PieceScattered
		p.Message = "the seam of piece " + number + " crosses this section more than once, so a piece would be in two parts"
		p.Help = "divide the section with a join at its inward corner"
		p.Drawn.Lines = drawn("", nil, f.lines).Lines
	}
	w.tell(p)
}

func (w *work) tellDividesUnit(s *shape, c *cell) {
	for i := range s.joins {
		if s.joins[i].From > 0 {
			w.tell(problem.Problem{
				Code: DividesUnit, At: s.joins[i].At,
				Message: "a join `from` a size divides sections, but this one runs through the " +
					c.place.Body.Name + " of line " + lineOf(c.place.At),
				Labels: []problem.Label{{At: c.place.At, Text: "placed here"}},
				Help:   "write such a join inside the unit " + c.place.Body.Name,
				Drawn:  drawn(s.body.Name, nil, []plane.Line{s.joins[i].Line}),
			})
		}
	}
}
