package eval

import (
	"math"
	"strconv"

	"seamwright/compiler/value"
	"seamwright/lang"
)

// call works out a helper.
func (r *run) call(e *lang.Call) value.Value {
	h := helperNamed(e.Func.Text)
	if h == nil {
		r.unknownHelper(e)
		return value.Value{}
	}
	base := len(r.args)
	good := true
	for _, a := range e.Args {
		if a.Name.Text != "" && good {
			r.fault(HelperArguments, a.Where(), "the arguments of `"+h.name+"` have no names").Help = "write " + h.forms[0].signature(h.name)
			good = false
		}
		v := r.expr(a.Value)
		good = good && v.Kind != value.None
		r.args = append(r.args, v)
	}
	args := r.args[base:]
	r.args = r.args[:base] // what is pushed later comes after args are read
	f := h.form(args)
	switch {
	case !good:
		return value.Value{}
	case f == nil:
		r.noForm(e, h, args)
		return value.Value{}
	}
	gives := f.gives
	if gives == anyKind {
		if gives = r.oneKind(e, args[len(f.kinds)-1:], len(f.kinds)-1); gives == value.None {
			return value.Value{}
		}
	}
	if r.checking {
		return value.Value{Kind: gives}
	}
	v, fault := f.work(r, args)
	if fault != "" {
		r.fault(NoResult, e.Where(), fault)
		return value.Value{}
	}
	if s := v.Num.Float64() + v.X + v.Y + v.X2 + v.Y2; math.IsNaN(s) || math.IsInf(s, 0) {
		r.tooLarge(e)
		return value.Value{}
	}
	return v
}

// form returns the form that takes these values, or nil.
func (h *helper) form(args []value.Value) *form {
	for i := range h.forms {
		if h.forms[i].fits(args) {
			return &h.forms[i]
		}
	}
	return nil
}

// oneKind returns the kind that the values share; the arguments are those from
// the first-th on.
func (r *run) oneKind(e *lang.Call, vs []value.Value, first int) value.Kind {
	for i, v := range vs {
		if v.Kind != vs[0].Kind {
			r.fault(KindsDiffer, e.Args[first+i].Value.Where(), "this is "+v.Kind.Phrase()+", and the first one is "+
				vs[0].Kind.Phrase()+"; all must be of one kind")
			return value.None
		}
	}
	return vs[0].Kind
}

func (r *run) unknownHelper(e *lang.Call) {
	for _, a := range e.Args {
		r.expr(a.Value) // for its own faults, and so that its names count as used
	}
	r.failed = true
	if e.Func.Text == "" {
		return
	}
	p := r.fault(UnknownHelper, e.Func.Span, "there is no helper called `"+e.Func.Text+"`")
	names := make([]string, 0, len(helperTable))
	for i := range helperTable {
		names = append(names, helperTable[i].name)
	}
	switch {
	case suggest(p, e.Func, names):
	case r.file.unit[e.Func.Text] != nil:
		p.Help = "`" + e.Func.Text + "` is a unit; it is set into the block by `place " + e.Func.Text + "(...) at ...`"
	default:
		p.Help = "the helpers are " + list(names, "and")
	}
}

// noForm tells what a helper takes: at the argument that does not fit where there
// is one form of that length, otherwise at the call.
func (r *run) noForm(e *lang.Call, h *helper, args []value.Value) {
	var takes []string
	var near *form
	for i := range h.forms {
		takes = append(takes, h.forms[i].signature(h.name))
		if near == nil && h.forms[i].fitsCount(len(args)) {
			near = &h.forms[i]
		}
	}
	at, message := e.Where(), "`"+h.name+"` does not take "+strconv.Itoa(len(args))+" arguments"
	if len(args) == 1 {
		message = "`" + h.name + "` does not take one argument"
	}
	code := HelperArguments
	if near != nil {
		for i, v := range args {
			want := near.kinds[min(i, len(near.kinds)-1)]
			if want == anyKind || v.Kind == want || v.Kind == value.None {
				continue
			}
			if len(h.forms) == 1 {
				r.wrongKind(e.Args[i].Value, v.Kind, want, "`"+h.name+"`")
				return
			}
			code, at = WrongKind, e.Args[i].Value.Where()
			message = "`" + h.name + "` cannot take " + v.Kind.Phrase() + " here"
			break
		}
	}
	r.fault(code, at, message).Help = "write " + list(takes, "or")
}

// bind sorts a unit's arguments by parameter; an absent one is nil. Faults are
// told when checking.
func (r *run) bind(u *unit, call *lang.Place, into []lang.Expr) []lang.Expr {
	params := u.decl.Params
	for range params {
		into = append(into, nil)
	}
	bound := into[len(into)-len(params):]
	named := false
	for i, a := range call.Args {
		at := i
		switch {
		case a.Name.Text != "":
			named = true
			if at = paramIndex(params, a.Name.Text); at < 0 {
				p := r.fault(UnknownArgument, a.Name.Span, "`"+u.decl.Name.Text+"` has no parameter `"+a.Name.Text+"`")
				if !suggest(p, a.Name, paramNames(params)) {
					p.Help = takes(u)
				}
				continue
			}
		case named:
			r.fault(ArgumentOrder, a.Where(), "arguments without a name come before those with one").Help = takes(u)
			continue
		case i >= len(params):
			if i == len(params) {
				r.fault(TooManyArguments, a.Where(), "`"+u.decl.Name.Text+"` takes "+howMany(len(params))).Help = takes(u)
			}
			continue
		}
		if bound[at] != nil {
			r.fault(ArgumentTwice, a.Where(), "`"+params[at].Name.Text+"` is given twice").Help = "take one of them away"
			continue
		}
		bound[at] = a.Value
		if a.Value == nil {
			r.failed = true
		}
	}
	r.missing(u, call, bound)
	return into
}

func (r *run) missing(u *unit, call *lang.Place, bound []lang.Expr) {
	var names []string
	for i, p := range u.decl.Params {
		if bound[i] == nil && p.Default == nil && p.Name.Text != "" {
			names = append(names, "`"+p.Name.Text+"`")
		}
	}
	if len(names) > 0 && !r.givenInVain(call) {
		r.fault(MissingArgument, call.Unit.Span, "`"+u.decl.Name.Text+"` needs "+list(names, "and")).Help = takes(u)
	}
	if len(names) > 0 {
		r.failed = true
	}
}

// givenInVain reports whether an argument is misnamed: then that has been told,
// and what is missing is the same mistake.
func (r *run) givenInVain(call *lang.Place) bool {
	for _, a := range call.Args {
		if r.seen[fault{UnknownArgument, r.file.place(a.Name.Span)}] {
			return true
		}
	}
	return false
}

func paramIndex(params []*lang.Param, name string) int {
	for i, p := range params {
		if p.Name.Text == name {
			return i
		}
	}
	return -1
}

func paramNames(params []*lang.Param) []string {
	var names []string
	for _, p := range params {
		names = append(names, p.Name.Text)
	}
	return names
}

// takes describes a unit's parameters: "wave(height: number = 2, sea: fabric)".
func takes(u *unit) string {
	s := u.decl.Name.Text + "("
	for i, p := range u.decl.Params {
		if i > 0 {
			s += ", "
		}
		s += p.Name.Text + ": " + p.Kind.Text
		if p.Default != nil {
			s += " = " + u.file.text(p.Default.Where())
		}
	}
	return "it is " + s + ")"
}

func howMany(n int) string {
	switch n {
	case 0:
		return "no arguments"
	case 1:
		return "one argument"
	}
	return strconv.Itoa(n) + " arguments at most"
}
