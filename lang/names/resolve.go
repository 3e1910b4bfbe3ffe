package names

import (
	"sort"

	"seamwright/lang"
)

// Resolve makes the table of a file.
func Resolve(f *lang.File) *Table {
	r := &resolver{t: &Table{}, values: map[string][]int{}, units: map[string]int{}, params: map[*lang.Unit]map[string]int{}}
	if f.Source != nil {
		r.text = f.Source.Text
		r.whole = lang.Span{End: int32(len(r.text))}
	}
	for _, d := range f.Decls {
		r.declare(d)
	}
	for _, d := range f.Decls {
		r.inside(d)
	}
	for _, a := range r.args {
		r.argument(a)
	}
	return r.sorted()
}

// A resolver walks a file twice: for what is known everywhere, then for the rest.
type resolver struct {
	t      *Table
	text   string
	whole  lang.Span
	values map[string][]int // the declarations of a value's name, innermost last
	open   []int            // the values declared in the braces that are open
	units  map[string]int
	params map[*lang.Unit]map[string]int
	args   []argument // looked up when all units are known
	unit   *lang.Unit
}

// An argument is named in a place statement.
type argument struct {
	name lang.Ident
	unit int // index into Decls; -1 where there is no such unit
}

func (r *resolver) add(kind Kind, name lang.Ident, scope lang.Span, node lang.Node) int {
	if name.Text == "" {
		return -1
	}
	r.t.Decls = append(r.t.Decls, Decl{Kind: kind, Name: name.Text, At: name.Span, Scope: scope, Node: node, Unit: r.unit})
	return len(r.t.Decls) - 1
}

// end is where what is declared in some braces is forgotten. Braces that are not
// closed yet run on: somebody is writing in them.
func (r *resolver) end(braces lang.Span) int32 {
	if e := int(braces.End); e > 0 && e <= len(r.text) && r.text[e-1] != '}' {
		return r.whole.End
	}
	return braces.End
}

func (r *resolver) use(kind Kind, name string, at lang.Span, decl int) {
	if name != "" {
		r.t.Refs = append(r.t.Refs, Ref{Kind: kind, Name: name, At: at, Decl: decl, Of: -1})
	}
}

// declare notes what is known in the whole file. Of two with one name the first
// counts.
func (r *resolver) declare(d lang.Decl) {
	switch d := d.(type) {
	case *lang.Fabric:
		if i := r.add(Fabric, d.Name, r.whole, d); i >= 0 && r.values[d.Name.Text] == nil {
			r.values[d.Name.Text] = []int{i}
		}
	case *lang.Unit:
		r.nameUnit(d.Name.Text, r.add(Unit, d.Name, r.whole, d))
	case *lang.Use:
		for _, n := range d.Names {
			as := n.Name
			if n.As.Text != "" {
				as = n.As
			}
			i := r.add(Imported, as, r.whole, d)
			r.nameUnit(as.Text, i)
			r.use(Exported, n.Name.Text, n.Name.Span, -1)
			if n.Name.Text != "" {
				r.t.Refs[len(r.t.Refs)-1].Of = i
			}
		}
	case *lang.Colorway:
		r.add(Colorway, d.Name, r.whole, d)
	}
}

func (r *resolver) nameUnit(name string, decl int) {
	if _, taken := r.units[name]; !taken && decl >= 0 {
		r.units[name] = decl
	}
}

// value declares a parameter, `let` or loop, until its braces close.
func (r *resolver) value(kind Kind, name lang.Ident, scope lang.Span, node lang.Node) {
	if i := r.add(kind, name, scope, node); i >= 0 {
		r.values[name.Text] = append(r.values[name.Text], i)
		r.open = append(r.open, i)
	}
}

// close forgets the values declared since n were open.
func (r *resolver) close(n int) {
	for _, i := range r.open[n:] {
		name := r.t.Decls[i].Name
		r.values[name] = r.values[name][:len(r.values[name])-1]
	}
	r.open = r.open[:n]
}

// lookup uses a value's name: innermost first, then the unit's own points and
// sides, then the file's fabrics.
func (r *resolver) lookup(name string, at lang.Span) {
	known := r.values[name]
	switch {
	case len(known) == 0 && IsCompass(name):
		r.use(Compass, name, at, -1)
	case len(known) == 0:
		r.use(Let, name, at, -1)
	default:
		decl := known[len(known)-1]
		kind := r.t.Decls[decl].Kind
		if kind == Fabric && IsCompass(name) {
			kind, decl = Compass, -1
		}
		r.use(kind, name, at, decl)
	}
}

// fabric uses a name where only a fabric can stand.
func (r *resolver) fabric(name lang.Ident) {
	if known := r.values[name.Text]; len(known) > 0 && r.t.Decls[known[0]].Kind == Fabric {
		r.use(Fabric, name.Text, name.Span, known[0])
		return
	}
	r.use(Fabric, name.Text, name.Span, -1)
}

// unitNamed uses a unit's name and returns its declaration.
func (r *resolver) unitNamed(name string, at lang.Span) int {
	i, known := r.units[name]
	if !known {
		r.use(Unit, name, at, -1)
		return -1
	}
	r.use(r.t.Decls[i].Kind, name, at, i)
	return i
}

func (r *resolver) argument(a argument) {
	ref := Ref{Kind: Parameter, Name: a.name.Text, At: a.name.Span, Decl: -1, Of: -1}
	if a.unit >= 0 {
		switch d := &r.t.Decls[a.unit]; d.Kind {
		case Imported:
			ref.Of = a.unit
		case Unit:
			if i, ok := r.params[d.Node.(*lang.Unit)][a.name.Text]; ok {
				ref.Decl = i
			}
		}
	}
	r.t.Refs = append(r.t.Refs, ref)
}

// sorted puts the table into the order of the text.
func (r *resolver) sorted() *Table {
	t := r.t
	order := make([]int, len(t.Decls))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return t.Decls[order[i]].At.Start < t.Decls[order[j]].At.Start })
	decls, place := make([]Decl, len(order)), make([]int, len(order))
	for to, from := range order {
		decls[to], place[from] = t.Decls[from], to
	}
	moved := func(i int) int {
		if i < 0 {
			return i
		}
		return place[i]
	}
	for i := range t.Refs {
		t.Refs[i].Decl, t.Refs[i].Of = moved(t.Refs[i].Decl), moved(t.Refs[i].Of)
	}
	t.Decls = decls
	sort.SliceStable(t.Refs, func(i, j int) bool { return t.Refs[i].At.Start < t.Refs[j].At.Start })
	return t
}
