package eval

import (
	"strconv"
	"strings"

	"seamwright/compiler/plane"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// placeStmt sets a unit.
func (r *run) placeStmt(s *lang.Place) {
	name := r.file.unit[s.Unit.Text]
	if name == nil || name.unit == nil {
		r.failed = true
		r.noUnit(s, name)
		return
	}
	u := name.unit
	if r.checking {
		name.used = name.used || u != r.unit
		r.unit.places = append(r.unit.places, placed{u, s.Unit.Span})
	}
	args, ok := r.arguments(u, s)
	if r.checking {
		f := frame{state: outlineFrame}
		if u.decl.Width != nil {
			f = frame{state: boxFrame}
		}
		r.motion(s, f)
		return
	}
	if !ok {
		return
	}
	r.calls = append(r.calls, r.file.place(r.placeHead(s)))
	body := r.build(u, args)
	r.calls = r.calls[:len(r.calls)-1]
	if body.Failed {
		r.failed = true
		return
	}
	if r.parts += body.parts; r.parts > maxParts {
		r.tooManyPieces(s.Where())
		return
	}
	p, ok := r.motion(s, body.frame())
	if ok && r.part(s) {
		p.Body = body
		r.body.Places = append(r.body.Places, p)
	}
}

// placeHead returns the span from `place` to the arguments.
func (r *run) placeHead(s *lang.Place) lang.Span {
	at := s.Where().To(s.Unit.Span)
	if n := len(s.Args); n > 0 {
		at = at.To(s.Args[n-1].Where())
	}
	return at
}

// noUnit tells that there is no such unit. What else is wrong is told, too.
func (r *run) noUnit(s *lang.Place, name *unitName) {
	if !r.checking {
		return
	}
	for _, a := range s.Args {
		r.expr(a.Value)
	}
	if name != nil || s.Unit.Text == "" || r.file.inHole(s.Unit.Text) {
		return
	}
	p := r.fault(UnknownUnit, s.Unit.Span, "there is no unit called `"+s.Unit.Text+"`")
	var names []string
	for _, u := range r.file.units {
		names = append(names, u.decl.Name.Text)
	}
	for _, d := range r.file.tree.Decls {
		if use, ok := d.(*lang.Use); ok {
			for _, n := range use.Names {
				names = append(names, n.Name.Text)
				if n.As.Text != "" {
					names[len(names)-1] = n.As.Text
				}
			}
		}
	}
	if suggest(p, s.Unit, names) {
		return
	}
	p.Help = "write `unit " + s.Unit.Text + " ...` in this file, or take it from another: use " + s.Unit.Text + " from \"...\""
}

// arguments works out what a unit is given, one value for each parameter; those
// that are left out have no kind.
func (r *run) arguments(u *unit, s *lang.Place) ([]value.Value, bool) {
	if len(u.decl.Params) == 0 && len(s.Args) == 0 {
		return nil, true
	}
	var room [16]lang.Expr
	bound := r.bind(u, s, room[:0])
	args := make([]value.Value, len(bound))
	good := true
	for i, e := range bound {
		switch {
		case e != nil:
			whose := "`" + u.decl.Params[i].Name.Text + "`"
			var ok bool
			if u.kinds[i] == value.None {
				args[i] = r.expr(e)
				ok = false
			} else {
				args[i], ok = r.want(e, u.kinds[i], whose)
			}
			good = good && ok
		case u.decl.Params[i].Default == nil:
			good = false
		}
	}
	if !good {
		r.failed = true
	}
	return args, good
}

// motion works out where a placed unit goes. The compass points of `by` are the
// placed unit's own, all other names those of the place.
func (r *run) motion(s *lang.Place, own frame) (Place, bool) {
	p := Place{As: s.As.Text, At: r.file.place(s.Where()), HasBy: s.By != nil}
	good := true
	if s.By != nil {
		outer := r.frame
		r.frame = own
		by, ok := r.wantPoint(s.By, "`by`")
		r.frame = outer
		p.By, good = by, ok
	}
	var to plane.Point
	if s.At != nil {
		var ok bool
		to, ok = r.wantPoint(s.At, "`at`")
		good = good && ok
	} else {
		good = false
		r.noPlace(s)
	}
	if s.Turn != nil {
		turn, ok := r.want(s.Turn, angleKind, "`turn`")
		good = good && ok
		p.Motion.Turn = turn.Num.Mod(value.Int(360)).Float64()
	}
	p.Motion.Reversed = s.Reversed
	p.Motion.Shift = to.Sub(p.Motion.Apply(p.By))
	return p, good && !r.checking
}

func (r *run) noPlace(s *lang.Place) {
	p := r.fault(MissingAt, r.placeHead(s), "this unit needs `at` and the point where it goes")
	p.Help = "write `at` and a point: the unit's own origin (or the point after `by`) is laid on it"
}

// findCircles tells each circle of units once and breaks the units on it.
func (e *evaluator) findCircles() {
	state := make([]int8, e.units) // 0 new, 1 on the path, 2 done
	var path []placed
	var visit func(u *unit)
	visit = func(u *unit) {
		state[u.id] = 1
		for _, p := range u.places {
			switch state[p.unit.id] {
			case 0:
				path = append(path, placed{u, p.at})
				visit(p.unit)
				path = path[:len(path)-1]
			case 1:
				e.circle(append(path, placed{u, p.at}), p.unit)
			}
		}
		state[u.id] = 2
	}
	for _, f := range e.files {
		for _, u := range f.units {
			if state[u.id] == 0 {
				visit(u)
			}
		}
	}
}

// circle reports the circle that ends a path, at the place that closes it.
func (e *evaluator) circle(path []placed, back *unit) {
	from := 0
	for i := range path {
		if path[i].unit == back {
			from = i
		}
	}
	var names strings.Builder
	for _, p := range path[from:] {
		p.unit.broken = true
		names.WriteString(p.unit.decl.Name.Text + " > ")
	}
	last := path[len(path)-1]
	p := e.report(problem.Error, UnitCircle, last.unit.file.place(last.at),
		"a unit cannot stand inside itself: "+names.String()+back.decl.Name.Text)
	for _, q := range path[from : len(path)-1] {
		p.Labels = append(p.Labels, problem.Label{At: q.unit.file.place(q.at), Text: "placed here"})
	}
	p.Help = "draw what repeats with a loop, or as different units"
}

// tooDeep reports units in units beyond the limit.
func (e *evaluator) tooDeep(u *unit) {
	e.report(problem.Error, TooDeep, e.calls[len(e.calls)-1],
		"units stand inside units more than "+strconv.Itoa(maxDepth)+" deep here")
}
