package eval

import (
	"strconv"

	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A run walks one unit, in one of two ways that share all their code. When it is
// checking, values have a kind and nothing else, both sides of every condition and
// the inside of every loop are walked once, and nothing is made: that finds unknown
// names and unfit kinds wherever they stand. When it is not, it works the unit out.
// A value without a kind stands for a fault that has been told.
type run struct {
	*evaluator
	file     *file
	unit     *unit
	body     *Body
	checking bool
	failed   bool
	frame    frame
	vars     []variable    // innermost last
	args     []value.Value // scratch: arguments of the calls being worked on

	section *Section // the one being filled
	inside  bool     // a section, checking or not
	next    int64    // the next piece's number; 0 where a hole makes it unknown
	pieces  int      // so far; -1 where a hole makes it unknown
	names   map[string]problem.Span
	parts   int
	wanted  value.Kind // of the value being worked out, for messages
}

// A variable is a let, a parameter or the name of a loop.
type variable struct {
	name string
	what string
	at   lang.Span
	val  value.Value
	used bool
}

func (e *evaluator) newRun(u *unit, checking bool) *run {
	var r *run
	if n := len(e.idle); n > 0 {
		r, e.idle = e.idle[n-1], e.idle[:n-1]
	} else {
		r = &run{}
	}
	*r = run{evaluator: e, file: u.file, unit: u, checking: checking, vars: r.vars[:0], args: r.args[:0]}
	return r
}

func (e *evaluator) free(r *run) { e.idle = append(e.idle, r) }

// fault reports an error at a span of the run's file.
func (r *run) fault(code problem.Code, at lang.Span, message string) *problem.Problem {
	r.failed = true
	p := r.report(problem.Error, code, r.file.place(at), message)
	if n := len(r.calls); n > 0 && !r.checking && len(r.unit.decl.Params) > 0 {
		p.Labels = append(p.Labels, problem.Label{At: r.calls[n-1], Text: "`" + r.unit.decl.Name.Text + "` is placed here"})
	}
	return p
}

// step counts work, and reports whether there may be more.
func (r *run) step(n lang.Node) bool {
	if r.checking {
		return true // once through the text
	}
	if r.stopped {
		r.failed = true
		return false
	}
	if r.steps++; r.steps > maxSteps {
		r.stopped = true
		r.fault(TooManySteps, n.Where(), "working this out takes more than "+strconv.Itoa(maxSteps)+
			" steps").Help = "loops inside loops multiply: make one of them shorter"
		return false
	}
	return true
}

// lookup finds a value's name: innermost first, then the unit's points and sides,
// then the file's fabrics.
func (r *run) lookup(n *lang.Name) value.Value {
	for i := len(r.vars) - 1; i >= 0; i-- {
		if v := &r.vars[i]; v.name == n.Text {
			v.used = true
			return v.val
		}
	}
	if k := compassKind(n.Text); k != value.None {
		return r.compass(n, k)
	}
	if f := r.file.fabric[n.Text]; f != nil {
		f.used = true
		return value.Fabric(f.id)
	}
	r.unknown(n)
	return value.Value{}
}

func (r *run) compass(n *lang.Name, k value.Kind) value.Value {
	switch r.frame.state {
	case boxFrame:
		if r.checking {
			return value.Value{Kind: k}
		}
		return r.frame.compass(n.Text)
	case outlineFrame:
		r.fault(NoCompass, n.Where(), "`"+n.Text+"` belongs to units with a width and a height; this one has an outline").Help =
			"give the point by its numbers: (x, y)"
	default:
		r.fault(NoCompass, n.Where(), "`"+n.Text+"` is not known before the unit has its size").Help =
			"here only parameters and fabrics have a meaning"
	}
	return value.Value{}
}

func (r *run) unknown(n *lang.Name) {
	r.failed = true
	if n.Text == "" || r.file.inHole(n.Text) {
		return
	}
	p := r.fault(UnknownName, n.Where(), "nothing here is called `"+n.Text+"`")
	name := lang.Ident{Span: n.Where(), Text: n.Text}
	switch {
	case suggest(p, name, r.visible()):
	case helperNamed(n.Text) != nil:
		p.Help = "`" + n.Text + "` is a helper and needs its arguments: " + helperNamed(n.Text).forms[0].signature(n.Text)
	case r.file.unit[n.Text] != nil:
		p.Help = "`" + n.Text + "` is a unit; it is set into the block by `place " + n.Text + " at ...`"
	case r.unit.decl.Body == nil: // a setting
	case r.wanted == fabricKind:
		p.Help = "a fabric is named above the units: fabric " + n.Text + " \"" + n.Text + "\" light #dfeaf0"
	default:
		p.Help = "write `let " + n.Text + " = ...` above; a `let` lives to the end of the braces it stands in"
	}
}

// visible lists every name that could have been meant.
func (r *run) visible() []string {
	var names []string
	for i := len(r.vars) - 1; i >= 0; i-- {
		names = append(names, r.vars[i].name)
	}
	for _, f := range r.file.fabrics {
		names = append(names, f.Name)
	}
	if r.frame.state == boxFrame {
		names = append(names, "north", "east", "south", "west")
	}
	return names
}

// declare adds a name. A parameter may hide a fabric of its file; nothing else
// hides anything. A name that is taken is told once, and then has no kind.
func (r *run) declare(name lang.Ident, what string, v value.Value) {
	if name.Text == "" {
		return
	}
	if r.checking && r.isTaken(name, what) {
		if r.unit.taken == nil {
			r.unit.taken = map[lang.Span]bool{}
		}
		r.unit.taken[name.Span] = true
	}
	if r.unit.taken[name.Span] {
		v = value.Value{}
	}
	if r.told != nil {
		r.tell(name, v)
	}
	r.vars = append(r.vars, variable{name: name.Text, what: what, at: name.Span, val: v})
}

// isTaken reports a name that cannot be given.
func (r *run) isTaken(name lang.Ident, what string) bool {
	if isCompass(name.Text) {
		r.taken(r.file, name)
		return true
	}
	for i := range r.vars {
		if o := &r.vars[i]; o.name == name.Text {
			r.twice(r.file, name, o.what, o.at)
			return true
		}
	}
	f := r.file.fabric[name.Text]
	if f != nil && what != parameter {
		r.twice(r.file, name, "fabric", f.at)
		return true
	}
	return false
}

// What a variable is, for messages.
const (
	parameter = "parameter"
	letName   = "value"
	loopName  = "loop"
)

// closeScope forgets the names declared since there were n.
func (r *run) closeScope(n int) {
	if r.checking {
		for _, v := range r.vars[n:] {
			if !v.used {
				r.unused(r.file, v.at, "`"+v.name+"`")
			}
		}
	}
	r.vars = r.vars[:n]
}
