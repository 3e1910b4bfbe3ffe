package eval

import (
	"seamwright/compiler/value"
	"seamwright/lang"
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
	case lang.Plain:
		return value.Num(n)
	case lang.In:
		return value.Length(n)
	case lang.Cm:
		return value.Length(n.Mul(value.Centimetre()))
	case lang.Mm:
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
	x, ok1 := r.coordinate(e.X, "a point's x")
	y, ok2 := r.coordinate(e.Y, "a point's y")
	if !ok1 || !ok2 {
		return value.Value{}
	}
	return value.Point(x, y)
}

// coordinate works out a number of a point. Nearly all are written as such, and
// need no more than being read.
func (r *run) coordinate(e lang.Expr, whose string) (float64, bool) {
	if n, ok := e.(*lang.Number); ok && plain(n) {
		return float64(n.Num) / float64(n.Den), r.step(n)
	}
	v, ok := r.want(e, numberKind, whose)
	return v.Num.Float64(), ok
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
