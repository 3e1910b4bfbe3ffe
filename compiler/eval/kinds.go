package eval

import (
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// want works out an expression that must be of some kind; whose it is goes into
// the message. The result is false where there was a fault.
func (r *run) want(e lang.Expr, k value.Kind, whose string) (value.Value, bool) {
	was := r.wanted
	r.wanted = k
	v := r.expr(e)
	r.wanted = was
	if v.Kind == value.None {
		r.failed = true
		return v, false
	}
	if !v.Kind.Fits(k) {
		r.wrongKind(e, v.Kind, k, whose)
		return value.Value{}, false
	}
	if k == value.CountKind && !r.checking {
		if n, ok := v.Num.Whole(); !ok || n < 0 {
			r.fault(NotACount, e.Where(), whose+" must be 0, 1, 2 or another whole number, and this is "+v.Num.String())
			return value.Value{}, false
		}
	}
	return v, true
}

// clash tells that an operator does not fit its two values.
func (r *run) clash(e *lang.Binary, op value.Op, x, y value.Kind) {
	if op == value.Segment {
		p := r.fault(NotPoints, e.Where(), "`--` joins two points, and this is "+x.Phrase()+" and "+y.Phrase())
		switch {
		case x == numberKind && y == numberKind:
			p.Help = "minus is written `-`; to take away what is below 0, write `- (-1)`"
			p.Edits = []problem.Edit{{At: e.At, New: "-"}}
		case x == lineKind || y == lineKind:
			p.Help = "a line has two ends already: write one line after the other, with commas"
		default:
			p.Help = "write a point as (x, y)"
		}
		return
	}
	p := r.fault(KindClash, e.Where(), "`"+r.file.text(e.Where())+"` does not fit: "+x.Phrase()+" and "+y.Phrase()+" with `"+e.Op+"` between them")
	length := x == lengthKind || y == lengthKind
	plain := x == numberKind || y == numberKind
	switch {
	case length && plain && (op == value.Add || op == value.Sub):
		p.Help = "lines and points are given in grid squares, as plain numbers; inches come in with `finished`"
		if n := literal(e.X); n != nil && x == numberKind {
			p.Help += "; if this is a length, write " + r.file.written(n) + "in"
		}
	case (x == angleKind || y == angleKind) && plain && (op == value.Add || op == value.Sub):
		p.Help = "angles are written with deg: 45deg"
	case op == value.Less || op == value.LessEqual || op == value.Greater || op == value.GreaterEqual:
		p.Help = "numbers are compared with numbers, lengths with lengths, angles with angles"
	case (op == value.Equal || op == value.NotEqual) && x == lineKind && y == pointKind:
		p.Help = "`--` binds last of all: put the line in brackets, (p -- q)"
	case op == value.Equal || op == value.NotEqual:
		p.Help = "only things of one kind can be equal"
	case op == value.And || op == value.Or:
		p.Help = "`and` and `or` join what is true or false, like `x > 2`"
	case op == value.Mul && x == pointKind && y == pointKind:
		p.Help = "a point can be multiplied by a number"
	default:
		p.Help = "add and take away like things: numbers, lengths, angles or points; multiply and divide by numbers"
	}
}

// wrongKind tells that something of another kind was wanted, with the cure.
func (r *run) wrongKind(e lang.Expr, got, want value.Kind, whose string) {
	text := r.file.text(e.Where())
	if b, ok := bare(e).(*lang.Binary); ok && want == lineKind && b.Op == "-" {
		p := r.fault(MinusForLine, e.Where(), whose+" takes a line, and `"+text+"` is one point minus another, which is a point")
		p.Help = "a line from point to point is written with two dashes: " + r.file.text(b.X.Where()) + " -- " + r.file.text(b.Y.Where())
		p.Edits = []problem.Edit{{At: b.At, New: "--"}}
		return
	}
	p := r.fault(WrongKind, e.Where(), whose+" takes "+want.Wanted()+", and `"+text+"` is "+got.Phrase())
	n := literal(e)
	switch {
	case want == angleKind && n != nil && got == numberKind:
		p.Help = "angles are written with deg: " + r.file.written(n) + "deg"
		p.Edits = []problem.Edit{{At: n.Where(), New: r.file.written(n) + "deg"}}
	case want == lengthKind && n != nil && got == numberKind:
		p.Help = "lengths are written with their unit: " + r.file.written(n) + "in, " + r.file.written(n) + "cm or " + r.file.written(n) + "mm"
	case (want == numberKind || want == value.CountKind) && got == lengthKind:
		p.Help = "here everything is in grid squares, as plain numbers; inches come in with `finished`"
	case want == lineKind && got == pointKind:
		p.Help = "a line needs two points: p -- q"
	case want == pointKind && got == lineKind:
		p.Help = "mid(" + text + ") is its middle point"
	case want == pointKind && got == numberKind:
		p.Help = "a point is written (x, y)"
	case want == fabricKind && got == value.TextKind:
		p.Help = "write the fabric's name, without quotes"
	case want == boolKind:
		p.Help = "something that is true or false is asked for, like `x > 2`"
	}
}

// literal returns the number that an expression is, brackets aside, or nil.
func literal(e lang.Expr) *lang.Number {
	n, _ := bare(e).(*lang.Number)
	return n
}

// bare takes brackets off.
func bare(e lang.Expr) lang.Expr {
	for {
		p, ok := e.(*lang.Paren)
		if !ok {
			return e
		}
		e = p.X
	}
}
