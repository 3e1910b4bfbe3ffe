package eval

import (
	"strconv"

	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// stmts runs statements in a scope of their own.
func (r *run) stmts(b *lang.Body) {
	if b == nil {
		r.failed = true
		return
	}
	scope := len(r.vars)
	for _, s := range b.Stmts {
		if r.stopped && !r.checking {
			break
		}
		if r.step(s) {
			r.stmt(s)
		}
	}
	r.closeScope(scope)
}

func (r *run) stmt(s lang.Stmt) {
	switch s := s.(type) {
	case *lang.Piece:
		r.piece(s)
	case *lang.Let:
		r.declare(s.Name, letName, r.expr(s.Value))
	case *lang.For:
		r.loop(s)
	case *lang.If:
		r.ifs(s)
	case *lang.Check:
		r.check(s)
	case *lang.Accept:
		r.accept(s)
	case *lang.BadStmt:
		r.failed = true
		r.lostCount()
	case *lang.Join, *lang.Section, *lang.Place, *lang.Line, *lang.Keep:
		r.unitStmt(s)
	}
}

// lostCount notes that it is not known which pieces a statement would have made, so
// that nothing is said of the order of those that follow.
func (r *run) lostCount() { r.next, r.pieces = 0, -1 }

// unitStmt runs what may stand in a unit, but not in a section: there the parser
// has refused it.
func (r *run) unitStmt(s lang.Stmt) {
	if r.inside {
		r.failed = true
		return
	}
	switch s := s.(type) {
	case *lang.Join:
		r.join(s)
	case *lang.Section:
		r.sectionStmt(s)
	case *lang.Place:
		r.placeStmt(s)
	case *lang.Line:
		r.lineStmt(s)
	case *lang.Keep:
		r.keepStmt(s)
	}
}

// loop runs a range or a list.
func (r *run) loop(s *lang.For) {
	switch {
	case s.To == nil && len(s.Values) > 0:
		r.loopList(s)
		return
	case s.From == nil || s.To == nil:
		r.failed = true
		r.round(s, value.Value{})
		r.lostCount()
		return
	}
	from, ok1 := r.want(s.From, numberKind, "a range")
	to, ok2 := r.want(s.To, numberKind, "a range")
	if r.checking {
		r.round(s, value.Value{Kind: numberKind})
		return
	}
	if !ok1 || !ok2 {
		r.lostCount()
		return
	}
	first, ok1 := r.wholeEnd(s.From, from)
	last, ok2 := r.wholeEnd(s.To, to)
	if !ok1 || !ok2 {
		r.lostCount()
		return
	}
	if last >= first && uint64(last)-uint64(first) >= maxRange {
		r.fault(LongRange, s.From.Where().To(s.To.Where()), "this range runs "+
			strconv.FormatFloat(to.Num.Float64()-from.Num.Float64()+1, 'f', 0, 64)+" times; "+strconv.Itoa(maxRange)+" is the most")
		return
	}
	for i := first; i <= last && !r.stopped; i++ {
		r.round(s, value.Num(value.Int(i)))
	}
}

func (r *run) wholeEnd(e lang.Expr, v value.Value) (int64, bool) {
	n, ok := v.Num.Whole()
	if !ok {
		r.fault(NotACount, e.Where(), "a range counts in whole numbers, and this is "+v.Num.String()).Help =
			"floor() and ceil() make a number whole"
	}
	return n, ok
}

func (r *run) loopList(s *lang.For) {
	var first value.Value
	for i, e := range s.Values {
		if r.stopped && !r.checking {
			return
		}
		v := r.expr(e)
		if i == 0 {
			first = v
		}
		if v.Kind != first.Kind && v.Kind != value.None && first.Kind != value.None {
			r.fault(KindsDiffer, e.Where(), "this is "+v.Kind.Phrase()+", and the first one is "+first.Kind.Phrase()+
				"; all must be of one kind")
		}
		if !r.checking {
			r.round(s, v)
		}
	}
	if r.checking {
		r.round(s, value.Value{Kind: first.Kind})
	}
}

// round runs a loop's body once.
func (r *run) round(s *lang.For, v value.Value) {
	scope := len(r.vars)
	r.declare(s.Name, loopName, v)
	r.stmts(s.Body)
	r.closeScope(scope)
}

func (r *run) ifs(s *lang.If) {
	for {
		c, ok := r.want(s.Cond, boolKind, "`if`")
		if r.checking {
			r.stmts(s.Then)
		} else if !ok {
			r.lostCount()
			return
		} else if c.True() {
			r.stmts(s.Then)
			return
		}
		switch other := s.Else.(type) {
		case *lang.If:
			s = other
			continue
		case *lang.Body:
			r.stmts(other)
		}
		return
	}
}

func (r *run) check(s *lang.Check) {
	c, ok := r.want(s.Cond, boolKind, "`check`")
	if r.checking || !ok || c.True() {
		return
	}
	message := "`" + r.file.text(s.Cond.Where()) + "` does not hold"
	if s.Message != nil && s.Message.Text != "" {
		message = s.Message.Text
	}
	r.failed = true
	n := len(r.calls)
	if n == 0 || len(r.unit.decl.Params) == 0 {
		r.fault(CheckFailed, s.Cond.Where(), message)
		return
	}
	p := r.report(problem.Error, CheckFailed, r.calls[n-1], "`"+r.unit.decl.Name.Text+"`: "+message)
	p.Labels = []problem.Label{{At: r.file.place(s.Cond.Where()), Text: "this must hold"}}
	p.Help = takes(r.unit)
}

func (r *run) accept(s *lang.Accept) {
	a, ok := r.acceptance(r.file, s)
	if r.checking || !ok {
		return
	}
	to := &r.body.Accepts
	if r.section != nil {
		to = &r.section.Accepts
	}
	for _, b := range *to {
		if b.At == a.At {
			return // a loop came by
		}
	}
	*to = append(*to, a)
}

// acceptance reads an `accept`; whether its code may be accepted is asked by those
// who know the rules.
func (e *evaluator) acceptance(f *file, s *lang.Accept) (Accept, bool) {
	if s.Code.Text == "" || s.Reason == nil {
		return Accept{}, false
	}
	a := Accept{Code: problem.Code(s.Code.Text), Reason: s.Reason.Text, At: f.place(s.Where())}
	switch {
	case !isCode(s.Code.Text):
		e.report(problem.Error, AcceptForm, f.place(s.Code.Span), "`"+s.Code.Text+"` is not the code of a warning").Help =
			"write the code that stands in the warning: a capital letter and three digits, like R301"
	case blank(s.Reason.Text):
		e.report(problem.Error, AcceptForm, f.place(s.Reason.Where()), "a warning is accepted for a reason, and none is given").Help =
			"say in the quotes why it is all right here"
	default:
		return a, true
	}
	return a, false
}

func isCode(s string) bool {
	if len(s) != 4 || s[0] < 'A' || s[0] > 'Z' {
		return false
	}
	_, err := strconv.ParseUint(s[1:], 10, 16)
	return err == nil
}

func blank(s string) bool {
	for _, r := range s {
		if r != ' ' && r != '\t' {
			return false
		}
	}
	return true
}
