package eval

import (
	"encoding/binary"
	"math"

	"seamwright/compiler/value"
	"seamwright/lang"
)

// needsArguments reports whether a unit cannot be worked out by itself.
func (u *unit) needsArguments() bool {
	for _, p := range u.decl.Params {
		if p.Default == nil {
			return true
		}
	}
	return false
}

// checkUnit walks a unit without working it out.
func (e *evaluator) checkUnit(u *unit) {
	r := e.newRun(u, true)
	defer e.free(r)
	d := u.decl
	for _, p := range d.Params {
		r.checkParam(p)
	}
	r.shape()
	if d.Block {
		for _, s := range d.Finished {
			r.finishedSize(s)
		}
	}
	r.frame = frame{state: outlineFrame}
	if d.Width != nil {
		r.frame = frame{state: boxFrame}
	}
	if d.Body != nil {
		r.stmts(d.Body)
	}
	r.closeScope(0)
	u.broken = u.broken || d.Body == nil || d.Width == nil && len(d.Outline) == 0
}

func (r *run) checkParam(p *lang.Param) {
	k := value.KindNamed(p.Kind.Text)
	if k == value.None && p.Kind.Text != "" {
		f := r.fault(UnknownKind, p.Kind.Span, "there is no kind called `"+p.Kind.Text+"`")
		if !suggest(f, p.Kind, value.KindNames()) {
			f.Help = "a parameter is one of " + list(value.KindNames(), "or")
		}
	}
	if k == value.None {
		r.unit.broken = true
	}
	if p.Default != nil {
		if k == value.None {
			r.expr(p.Default)
		} else {
			r.want(p.Default, k, "`"+p.Name.Text+"`")
		}
	} else if r.unit.decl.Block && p.Name.Text != "" {
		r.fault(BlockArgument, p.Name.Span, "a block's parameter needs a value: nobody gives `"+p.Name.Text+"` one").Help =
			"write it after the kind: `" + p.Name.Text + ": " + p.Kind.Text + " = ...`"
	}
	if k == value.CountKind {
		k = numberKind
	}
	r.declare(p.Name, parameter, value.Value{Kind: k})
}

// alone works out a unit that needs no arguments.
func (e *evaluator) alone(u *unit) *Body {
	return e.build(u, make([]value.Value, len(u.decl.Params)))
}

// build works out a unit for its arguments, or returns what it made of equal ones
// before. An argument without a kind is left out.
func (e *evaluator) build(u *unit, args []value.Value) *Body {
	if u.broken {
		return &Body{Name: u.decl.Name.Text, Failed: true}
	}
	r := e.newRun(u, false)
	defer e.free(r)
	for i, p := range u.decl.Params {
		v, ok := args[i], true
		if v.Kind == value.None {
			v, ok = r.want(p.Default, u.kinds[i], "`"+p.Name.Text+"`")
		}
		if !ok {
			return &Body{Name: u.decl.Name.Text, Failed: true}
		}
		r.declare(p.Name, parameter, v)
	}
	e.key = appendKey(e.key[:0], u, r.vars)
	if b := e.memo[string(e.key)]; b != nil {
		return b
	}
	key := string(e.key)
	e.steps += bodySteps
	b := &Body{Name: u.decl.Name.Text, Source: u.file.place(u.decl.Name.Span), Box: u.decl.Width != nil}
	r.body = b
	for i := range r.vars {
		b.Args = append(b.Args, Arg{r.vars[i].name, r.vars[i].val})
	}
	if e.depth++; e.depth > maxDepth {
		e.tooDeep(u)
		r.failed = true
	} else {
		r.work()
	}
	e.depth--
	b.Failed = r.failed || e.stopped
	b.parts = r.parts
	e.memo[key] = b
	return b
}

// work runs a unit whose parameters are set: first the checks on them, then its
// size, then the rest.
func (r *run) work() {
	for _, s := range r.unit.decl.Body.Stmts {
		if c, ok := s.(*lang.Check); ok && r.onlyParameters(c.Cond) {
			r.check(c)
		}
	}
	if r.failed {
		return
	}
	r.body.Outline = r.shape()
	if r.failed || r.body.Outline == nil {
		r.failed = true
		return
	}
	r.frame = r.body.frame()
	r.stmts(r.unit.decl.Body)
}

// onlyParameters reports whether an expression asks for nothing but parameters and
// fabrics, so that it can be worked out before the size is.
func (r *run) onlyParameters(e lang.Expr) bool {
	switch e := e.(type) {
	case *lang.Number, *lang.String, *lang.Bool:
		return true
	case *lang.Name:
		return paramIndex(r.unit.decl.Params, e.Text) >= 0 || r.file.fabric[e.Text] != nil
	case *lang.Binary:
		return r.onlyParameters(e.X) && r.onlyParameters(e.Y)
	case *lang.Unary:
		return r.onlyParameters(e.X)
	case *lang.Paren:
		return r.onlyParameters(e.X)
	case *lang.Field:
		return r.onlyParameters(e.X)
	case *lang.Point:
		return r.onlyParameters(e.X) && r.onlyParameters(e.Y)
	case *lang.Cond:
		return r.onlyParameters(e.If) && r.onlyParameters(e.Then) && r.onlyParameters(e.Else)
	case *lang.Call:
		for _, a := range e.Args {
			if !r.onlyParameters(a.Value) {
				return false
			}
		}
		return e.Func.Text != "inset"
	}
	return false
}

// appendKey writes a unit and its parameters' values so that equal ones are equal.
func appendKey(key []byte, u *unit, vars []variable) []byte {
	key = binary.AppendUvarint(key, uint64(u.id))
	for i := range vars {
		v := &vars[i].val
		key = append(key, byte(v.Kind))
		switch v.Kind {
		case value.TextKind:
			key = binary.AppendUvarint(key, uint64(len(v.Text)))
			key = append(key, v.Text...)
		case pointKind, lineKind:
			for _, f := range [...]float64{v.X, v.Y, v.X2, v.Y2} {
				key = binary.LittleEndian.AppendUint64(key, math.Float64bits(f))
			}
		default:
			key = v.Num.AppendKey(key)
		}
	}
	return key
}
