package eval

import (
	"math"

	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang"
)

// What stands in a drawn unit.

// lineStmt runs a `line`.
func (r *run) lineStmt(s *lang.Line) {
	for _, chain := range s.Chains {
		if len(chain) == 1 {
			if l, ok := r.wantLine(chain[0], "`line`"); ok && r.part(s) {
				r.body.Lines = append(r.body.Lines, Line{Line: l, Partial: s.Partial, At: r.file.place(chain[0].Where()), Stmt: r.file.place(s.Where())})
			}
			continue
		}
		r.chain(s, chain)
	}
}

func (r *run) chain(s *lang.Line, chain []lang.Expr) {
	var last plane.Point
	known := false
	for i, e := range chain {
		p, ok := r.wantPoint(e, "`line`")
		if ok && known && r.part(e) {
			span := chain[i-1].Where().To(e.Where())
			if math.Hypot(p.X-last.X, p.Y-last.Y) < minSegment {
				r.fault(NoLengthLine, span, "both ends of this line are "+at(p)+", so it runs nowhere").Help =
					"a line needs two different points"
			} else {
				r.body.Lines = append(r.body.Lines, Line{Line: plane.Line{A: last, B: p}, Partial: s.Partial,
					At: r.file.place(span), Stmt: r.file.place(s.Where())})
			}
		}
		last, known = p, ok
	}
}

// keepStmt runs a `section` that says which patches share it.
func (r *run) keepStmt(s *lang.Keep) {
	at := sectionHead(s, s.Name)
	k := Keep{Name: s.Name.Text, At: r.file.place(s.Where())}
	k.Points, k.PointAt = r.points(s.At, "`at`")
	for _, e := range s.Along {
		if l, ok := r.wantLine(e, "`along`"); ok {
			k.Lines, k.LineAt = append(k.Lines, l), append(k.LineAt, r.file.place(e.Where()))
		}
	}
	if r.checking {
		return
	}
	if r.part(s) && r.newSection(k.Name, at) {
		r.body.Keeps = append(r.body.Keeps, k)
	}
}

func (r *run) drawnPiece(s *lang.Piece, fabric value.Value, ok bool) {
	first := s.Number != nil && s.Number.Num == 1 && s.Number.Den == 1 && s.Number.Unit == lang.Plain
	switch {
	case s.Along != nil:
		r.fault(Misplaced, s.Along.Where(), "a piece sewn along a line belongs into a section").Help =
			"put `section { ... }` around the pieces; in a drawn unit a piece has only `at`, or corners"
		r.wantLine(s.Along, "`along`")
	case s.Number != nil && !first:
		r.fault(Misplaced, s.Number.Where(), "in a drawn unit the numbers are worked out; only 1 may be written, for a piece that is sewn first").Help =
			"write `piece`; or put `section { ... }` around the pieces and give all but the first a line"
	case len(s.At) == 0 && len(s.Corners) == 0:
		r.fault(MissingAt, r.pieceHead(s), "this piece needs `at` and a point inside it")
	}
	d := Drawn{First: first, At: r.file.place(s.Where())}
	d.Points, d.PointAt = r.points(s.At, "`at`")
	d.Corners, _ = r.points(s.Corners, "a corner")
	if ok && r.part(s) {
		d.Fabric = fabric.Index()
		if n, ok := s.Fabric.(*lang.Name); ok && paramIndex(r.unit.decl.Params, n.Text) >= 0 {
			d.Param = n.Text
		}
		r.body.Drawn = append(r.body.Drawn, d)
	}
}
