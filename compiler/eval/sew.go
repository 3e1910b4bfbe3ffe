package eval

import (
	"math"
	"strconv"

	"seamwright/compiler/pattern"
	"seamwright/compiler/plane"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// part counts one more part of the body, and reports whether it may be added.
func (r *run) part(n lang.Node) bool {
	if r.parts++; r.parts <= maxParts {
		return !r.checking
	}
	r.tooManyPieces(n.Where())
	return false
}

func (r *run) tooManyPieces(at lang.Span) {
	r.stopped = true
	r.fault(TooManyPieces, at, "this unit has more than "+strconv.Itoa(maxParts)+" pieces, joins and places").Help =
		"loops inside loops, and units inside units, multiply"
}

// wantLine works out a line that the geometry will use.
func (r *run) wantLine(e lang.Expr, whose string) (plane.Line, bool) {
	l, plain := r.plainLine(e)
	if !plain {
		v, ok := r.want(e, lineKind, whose)
		if !ok {
			return plane.Line{}, false
		}
		l = plane.Line{A: start(v), B: end(v)}
	}
	switch {
	case r.checking:
	case !reachable(l.A) || !reachable(l.B):
		r.outOfReach(e)
	case math.Hypot(l.A.X-l.B.X, l.A.Y-l.B.Y) < minSegment:
		r.fault(NoLengthLine, e.Where(), "both ends of this line are "+at(l.A)+", so it runs nowhere").Help =
			"a line needs two different points"
	default:
		return l, true
	}
	return plane.Line{}, false
}

// wantPoint works out a point that the geometry will use.
func (r *run) wantPoint(e lang.Expr, whose string) (plane.Point, bool) {
	p, plain := r.plainPoint(e)
	if !plain {
		v, ok := r.want(e, pointKind, whose)
		if !ok {
			return plane.Point{}, false
		}
		p = start(v)
	}
	switch {
	case r.checking:
	case !reachable(p):
		r.outOfReach(e)
	default:
		return p, true
	}
	return plane.Point{}, false
}

func reachable(p plane.Point) bool { return max(math.Abs(p.X), math.Abs(p.Y)) <= maxGrid }

func (r *run) outOfReach(e lang.Expr) {
	r.fault(OutOfReach, e.Where(), "`"+r.file.text(e.Where())+"` lies more than "+strconv.Itoa(maxGrid)+
		" grid squares from the unit's origin").Help = "points are given in grid squares, counted from the lower left corner"
}

// at writes a point for a message.
func at(p plane.Point) string {
	return "(" + coordinate(p.X) + ", " + coordinate(p.Y) + ")"
}

func coordinate(f float64) string {
	return strconv.FormatFloat(math.Round(f*1e4)/1e4+0, 'f', -1, 64)
}

func (r *run) join(s *lang.Join) {
	var from pattern.Length
	if s.From != nil {
		v, ok := r.want(s.From, lengthKind, "`from`")
		switch {
		case !ok || r.checking:
		case v.Num.Float64() <= 0:
			r.fault(SizeRange, s.From.Where(), "a finished size is larger than 0, and this is "+v.Num.String()+"in")
		default:
			from = pattern.Length(v.Num.Float64())
		}
	}
	if s.Partial && s.From != nil {
		r.fault(Misplaced, s.From.Where(), "a partial seam is sewn in the same way at every size: `from` does not go with it").Help =
			"leave `from` out, here and at the join that finishes the seam"
	}
	for _, e := range s.Lines {
		l, ok := r.wantLine(e, "`join`")
		if ok && r.part(e) {
			r.body.Joins = append(r.body.Joins, Join{Line: l, Partial: s.Partial, From: from, At: r.file.place(e.Where())})
		}
	}
}

// sectionStmt runs a section.
func (r *run) sectionStmt(s *lang.Section) {
	at := sectionHead(s, s.Name)
	r.inside, r.next, r.pieces = true, 1, 0
	if r.checking {
		r.stmts(s.Body)
		r.inside = false
		return
	}
	good := r.part(s) && r.newSection(s.Name.Text, at)
	section := Section{Name: s.Name.Text, At: r.file.place(at), Pieces: make([]Piece, 0, written(s.Body))}
	r.section = &section
	r.stmts(s.Body)
	if r.pieces == 0 && !r.failed {
		r.fault(EmptySection, at, "this section has no pieces").Help = "give it at least one, like `1 sky at (1, 1)`"
	}
	r.section, r.inside = nil, false
	if good {
		r.body.Sections = append(r.body.Sections, section)
	}
}

// written counts the statements of a body that are pieces. A section that could
// not be read has no body.
func written(b *lang.Body) int {
	if b == nil {
		return 0
	}
	n := 0
	for _, s := range b.Stmts {
		if _, ok := s.(*lang.Piece); ok {
			n++
		}
	}
	return n
}

// sectionHead is where a section is named, or begins.
func sectionHead(s lang.Node, name lang.Ident) lang.Span {
	if name.Text != "" {
		return name.Span
	}
	at := s.Where()
	at.End = at.Start + int32(len("section"))
	return at
}

// newSection notes a section's name, and reports whether it is new in this unit.
func (r *run) newSection(name string, at lang.Span) bool {
	if name == "" {
		return true
	}
	first, again := r.names[name]
	if !again {
		if r.names == nil {
			r.names = map[string]problem.Span{}
		}
		r.names[name] = at
		return true
	}
	line := strconv.Itoa(r.file.line(first))
	if first == at {
		r.fault(SectionTwice, at, "section "+name+" is already written on line "+line+": a loop writes it again").Help =
			"leave the name out, and every round's section takes the next free letter"
		return false
	}
	p := r.fault(SectionTwice, at, "section "+name+" is already written on line "+line)
	p.Labels = []problem.Label{{At: r.file.place(first), Text: "the first is here"}}
	p.Help = "give it another letter, or none"
	return false
}

// piece runs a piece of a section, or of a drawn unit.
func (r *run) piece(s *lang.Piece) {
	fabric, ok := r.want(s.Fabric, fabricKind, "a piece")
	if !r.inside {
		r.drawnPiece(s, fabric, ok)
		return
	}
	if len(s.Corners) > 0 {
		r.lostCount() // what it was meant to be is not known
		r.fault(Misplaced, s.Corners[0].Where(), "a piece of a section takes a line, not corners: its corners follow from the lines").Help =
			"write `along p -- q`"
	}
	p := Piece{At: r.file.place(s.Where())}
	line := true
	if s.Along != nil {
		p.Line, line = r.wantLine(s.Along, "`along`")
		p.LineAt = r.file.place(s.Along.Where())
	}
	p.Points, p.PointAt = r.points(s.At, "`at`")
	if r.checking {
		return
	}
	r.numbered(s)
	if r.pieces >= 0 {
		r.pieceForm(s, r.pieces == 0)
		r.pieces++
	}
	if ok && line && r.part(s) {
		p.Fabric = fabric.Index()
		r.section.Pieces = append(r.section.Pieces, p)
	}
}

// points works out a list of points; in a check there is no result.
func (r *run) points(es []lang.Expr, whose string) (ps []plane.Point, where []problem.Place) {
	for _, e := range es {
		p, ok := r.wantPoint(e, whose)
		if ok {
			ps = append(ps, p)
			where = append(where, r.file.place(e.Where()))
		}
	}
	return ps, where
}

// numbered holds a written number to the next one, and goes on from what is written:
// one slip is told once.
func (r *run) numbered(s *lang.Piece) {
	if r.next > 0 {
		r.next++
	}
	if s.Number == nil {
		return
	}
	n, due := s.Number, r.next-1
	if r.next > 0 && (n.Num != due || n.Den != 1 || n.Unit != lang.Plain) {
		next := strconv.FormatInt(due, 10)
		p := r.fault(PieceNumber, n.Where(), "this is piece "+next+", not "+r.file.written(n))
		p.Help = "pieces are numbered from 1 in the order in which they are sewn; `piece` counts by itself"
		p.Edits = []problem.Edit{{At: n.Where(), New: next}}
	}
	if n.Den == 1 && n.Unit == lang.Plain && !n.Big && n.Num > 0 && n.Num < maxParts {
		r.next = n.Num + 1
	}
}

// pieceForm holds the first piece to its point and the others to their line.
func (r *run) pieceForm(s *lang.Piece, first bool) {
	switch {
	case first && s.Along != nil:
		r.fault(FirstAlong, s.Along.Where(), "the first piece has no line: it lies where its point is").Help =
			"write `at` and a point inside it; the lines of the pieces that follow give it its shape"
	case first && len(s.At) == 0:
		r.fault(MissingAt, r.pieceHead(s), "the first piece needs `at` and a point inside it: all lines are seen from there").Help =
			"write `at (x, y)` after the fabric"
	case !first && s.Along == nil:
		r.fault(MissingAlong, r.pieceHead(s), "this piece needs `along` and the line on which it is sewn").Help =
			"write `along p -- q` after the fabric; only the first piece of a section has none"
	}
}

// pieceHead returns the span from the number to the fabric.
func (r *run) pieceHead(s *lang.Piece) lang.Span {
	if s.Fabric == nil {
		return s.Where()
	}
	return s.Where().To(s.Fabric.Where())
}
