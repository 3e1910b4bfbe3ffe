package eval

import (
	"math"

	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// expr works out an expression. The value has no kind where there was a fault.
func (r *run) expr(e lang.Expr) value.Value {
	if e == nil {
		r.failed = true
		return value.Value{}
	}
	if !r.step(e) {
		return value.Value{}
	}
	switch e := e.(type) {
	case *lang.Number:
		return r.number(e)
	case *lang.Name:
		return r.lookup(e)
	case *lang.Binary:
		return r.binary(e)
	case *lang.Point:
		return r.point(e)
	case *lang.Paren:
		return r.expr(e.X)
	case *lang.Call:
		return r.call(e)
	case *lang.Unary:
		return r.unary(e)
	case *lang.Field:
		return r.field(e)
	case *lang.Cond:
		return r.cond(e)
	case *lang.String:
		return value.Text(e.Text)
	case *lang.Bool:
		return value.Bool(e.Value)
	}
	r.failed = true // a hole
	return value.Value{}
}

func (r *run) number(e *lang.Number) value.Value {
	if e.Big {
		r.failed = true
		return value.Value{}
	}
	n := value.Int(e.Num)
	if e.Den != 1 {
		n = value.Fraction(e.Num, e.Den)
	}
	switch e.Unit {
	case "":
		return value.Num(n)
	case "in":
		return value.Length(n)
	case "cm":
		return value.Length(n.Mul(value.Centimetre()))
	case "mm":
		return value.Length(n.Mul(value.Millimetre()))
	}
	return value.Angle(n)
}

func (r *run) binary(e *lang.Binary) value.Value {
	x := r.expr(e.X)
	op := value.OpNamed(e.Op)
	if !r.checking && x.Kind == boolKind && (op == value.And && !x.True() || op == value.Or && x.True()) {
		return x
	}
	y := r.expr(e.Y)
	if x.Kind == value.None || y.Kind == value.None {
		return value.Value{}
	}
	gives := op.Gives(x.Kind, y.Kind)
	if gives == value.None {
		r.clash(e, op, x.Kind, y.Kind)
		return value.Value{}
	}
	if r.checking {
		return value.Value{Kind: gives}
	}
	v, fault := op.Apply(x, y)
	switch fault {
	case value.DividedByZero:
		r.fault(DividedByZero, e.Where(), "`"+r.file.text(e.Y.Where())+"` is 0 here, and nothing can be divided by 0")
		return value.Value{}
	case value.TooLarge:
		r.tooLarge(e)
		return value.Value{}
	}
	return v
}

func (r *run) tooLarge(e lang.Expr) {
	r.fault(OutOfReach, e.Where(), "`"+r.file.text(e.Where())+"` grows too large to be worked out")
}

func (r *run) point(e *lang.Point) value.Value {
	x, ok1 := r.want(e.X, numberKind, "a point's x")
	y, ok2 := r.want(e.Y, numberKind, "a point's y")
	if !ok1 || !ok2 {
		return value.Value{}
	}
	return value.Point(x.Num.Float64(), y.Num.Float64())
}

func (r *run) unary(e *lang.Unary) value.Value {
	x := r.expr(e.X)
	if x.Kind == value.None {
		return x
	}
	switch {
	case e.Op == "not" && x.Kind == boolKind:
		return value.Bool(!x.True())
	case e.Op == "-" && x.Kind == pointKind:
		return value.Point(-x.X, -x.Y)
	case e.Op == "-" && (x.Kind == numberKind || x.Kind == lengthKind || x.Kind == angleKind):
		return value.Value{Kind: x.Kind, Num: x.Num.Neg()}
	}
	r.fault(KindClash, e.Where(), "`"+e.Op+"` does not fit "+x.Kind.Phrase())
	return value.Value{}
}

func (r *run) field(e *lang.Field) value.Value {
	x := r.expr(e.X)
	if x.Kind == value.None || e.Name.Text == "" {
		r.failed = true
		return value.Value{}
	}
	switch {
	case x.Kind != pointKind:
		r.fault(UnknownField, e.Name.Span, "only a point has .x and .y, and `"+r.file.text(e.X.Where())+"` is "+x.Kind.Phrase())
	case e.Name.Text == "x":
		return value.Num(value.Float(x.X))
	case e.Name.Text == "y":
		return value.Num(value.Float(x.Y))
	default:
		r.fault(UnknownField, e.Name.Span, "a point has .x and .y, but no ."+e.Name.Text)
	}
	return value.Value{}
}

func (r *run) cond(e *lang.Cond) value.Value {
	c, ok := r.want(e.If, boolKind, "`if`")
	if r.checking {
		then, other := r.expr(e.Then), r.expr(e.Else)
		return r.alike(e, then, other)
	}
	switch {
	case !ok:
		return value.Value{}
	case c.True():
		return r.expr(e.Then)
	}
	return r.expr(e.Else)
}

func (r *run) alike(e *lang.Cond, then, other value.Value) value.Value {
	switch {
	case then.Kind == value.None || other.Kind == value.None:
		return value.Value{}
	case then.Kind != other.Kind:
		r.fault(KindsDiffer, e.Where(), "after `then` stands "+then.Kind.Phrase()+", after `else` "+other.Kind.Phrase()+
			"; both must be of one kind")
		return value.Value{}
	}
	return value.Value{Kind: then.Kind}
}

// want works out an expression that must be of some kind; whose it is goes into
// the message. The result is false where there was a fault.
func (r *run) want(e lang.Expr, k value.Kind, whose string) (value.Value, bool) {
	v := r.expr(e)
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
			p.Help += "; if this is a length, write " + n.Text + "in"
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
		p.Help = "angles are written with deg: " + n.Text + "deg"
		p.Edits = []problem.Edit{{At: n.Where(), New: n.Text + "deg"}}
	case want == lengthKind && n != nil && got == numberKind:
		p.Help = "lengths are written with their unit: " + n.Text + "in, " + n.Text + "cm or " + n.Text + "mm"
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

func reachable(v value.Value) bool {
	far := max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.X2), math.Abs(v.Y2))
	return far <= maxGrid
}
