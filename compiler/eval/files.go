package eval

import (
	"strconv"
	"strings"

	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A file is one text with its names. Units, and values (here: fabrics), are name
// spaces of their own.
type file struct {
	tree    *lang.File
	source  *problem.Source
	units   []*unit // written here, in order
	unit    map[string]*unitName
	fabric  map[string]*fabric
	fabrics []*fabric
	holes   []lang.Span // text that could not be read
}

// A unitName is what a unit is called in one file.
type unitName struct {
	unit     *unit // nil where the file that should hold it could not be read
	at       lang.Span
	imported bool
	used     bool
}

// A fabric is a role, with what the unused-name warning and the result need.
type fabric struct {
	pattern.Fabric
	id   int
	at   lang.Span
	file *file
	says *lang.String // its words, where they are written
	used bool         // named somewhere
	kept bool         // goes into the pattern
}

// A unit is a unit or block as written.
type unit struct {
	id     int
	decl   *lang.Unit
	file   *file
	kinds  []value.Kind       // of the parameters
	broken bool               // on a circle, or full of holes: not evaluated
	taken  map[lang.Span]bool // declarations of names that are taken
	places []placed           // every unit placed in it, run or not
}

type placed struct {
	unit *unit
	at   lang.Span
}

func (f *file) place(at lang.Span) problem.Place { return problem.Place{Source: f.source, Span: at} }

func (f *file) line(at lang.Span) int { return f.source.Position(at.Start).Line }

// written returns a number as it is written.
func (f *file) written(n *lang.Number) string { return f.source.Text[n.Span.Start:n.Span.End] }

// text returns the words at a span, shortened for a message.
func (f *file) text(at lang.Span) string {
	const longest = 40
	s := f.source.Text
	if at.Start < 0 || at.End > int32(len(s)) || at.Start > at.End {
		return ""
	}
	s = strings.Join(strings.Fields(s[at.Start:at.End]), " ")
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest-3]) + "..."
	}
	return s
}

// inHole reports whether a name stands in text that could not be read. What is
// said there is unknown, so nothing is said of the name.
func (f *file) inHole(name string) bool {
	for _, h := range f.holes {
		if h.End > int32(len(f.source.Text)) || h.Start < 0 || h.Start > h.End {
			continue
		}
		for _, word := range strings.FieldsFunc(f.source.Text[h.Start:h.End], notInName) {
			if word == name {
				return true
			}
		}
	}
	return false
}

func notInName(r rune) bool {
	return !(r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 127)
}

// open declares what a parsed file holds and opens the files it uses.
func (e *evaluator) open(tree *lang.File) *file {
	f := &file{tree: tree, source: tree.Source, unit: map[string]*unitName{}, fabric: map[string]*fabric{}}
	e.files = append(e.files, f)
	e.opening = append(e.opening, f)
	for _, d := range tree.Decls {
		switch d := d.(type) {
		case *lang.Fabric:
			e.declareFabric(f, d)
		case *lang.Unit:
			e.declareUnit(f, d)
		case *lang.BadDecl:
			f.holes = append(f.holes, d.Where())
		}
	}
	for _, d := range tree.Decls {
		if use, ok := d.(*lang.Use); ok {
			e.use(f, use)
		}
	}
	e.opening = e.opening[:len(e.opening)-1]
	return f
}

func (e *evaluator) declareFabric(f *file, d *lang.Fabric) {
	if d.Name.Text == "" {
		return
	}
	words := strings.ReplaceAll(d.Name.Text, "_", " ")
	if d.Words != nil {
		words = d.Words.Text
	}
	fab := &fabric{id: len(e.fabrics), at: d.Name.Span, file: f, says: d.Words, Fabric: pattern.Fabric{
		Name:    d.Name.Text,
		Words:   words,
		Value:   e.fabricValue(f, d.Value),
		Colour:  d.Colour.RGB,
		Scrappy: d.Scrappy.Text,
		Source:  f.modelSource(d.Name.Span),
	}}
	if isCompass(d.Name.Text) {
		e.taken(f, d.Name)
		return
	}
	if first := f.fabric[d.Name.Text]; first != nil {
		e.twice(f, d.Name, "fabric", first.at)
		return
	}
	e.fabrics = append(e.fabrics, fab)
	f.fabrics = append(f.fabrics, fab)
	f.fabric[d.Name.Text] = fab
}

// fabricValue checks that a value word is one that tables and pictures know.
func (e *evaluator) fabricValue(f *file, v lang.Ident) string {
	switch v.Text {
	case "light", "medium", "dark", "":
		return v.Text
	}
	known := []string{"light", "medium", "dark"}
	p := e.report(problem.Error, FabricValue, f.place(v.Span),
		"a fabric is light, medium or dark; `"+v.Text+"` is none of them")
	suggest(p, v, known)
	return ""
}

func (e *evaluator) declareUnit(f *file, d *lang.Unit) {
	u := &unit{id: e.units, decl: d, file: f}
	e.units++
	for _, p := range d.Params {
		u.kinds = append(u.kinds, value.KindNamed(p.Kind.Text))
	}
	f.units = append(f.units, u)
	if d.Name.Text != "" {
		e.nameUnit(f, d.Name, &unitName{unit: u, at: d.Name.Span})
	}
}

func (e *evaluator) nameUnit(f *file, name lang.Ident, n *unitName) {
	if first := f.unit[name.Text]; first != nil {
		e.twice(f, name, "unit", first.at)
		first.unit = nil // which is meant is not known
		return
	}
	f.unit[name.Text] = n
}

// use opens the file that a `use` names, once, and takes the units it asks for.
func (e *evaluator) use(f *file, d *lang.Use) {
	from := e.otherFile(f, d)
	for _, n := range d.Names {
		if n.Name.Text == "" {
			continue
		}
		as := n.Name
		if n.As.Text != "" {
			as = n.As
		}
		name := &unitName{at: as.Span, imported: true}
		if from != nil {
			name.unit = e.exported(f, from, n.Name, d)
		}
		e.nameUnit(f, as, name)
	}
}

func (e *evaluator) exported(f, from *file, name lang.Ident, d *lang.Use) *unit {
	if n := from.unit[name.Text]; n != nil && !n.imported {
		return n.unit
	}
	if from.inHole(name.Text) {
		return nil
	}
	p := e.report(problem.Error, NotInFile, f.place(name.Span),
		"there is no unit `"+name.Text+"` in \""+d.Path.Text+"\"")
	var names []string
	for _, u := range from.units {
		names = append(names, u.decl.Name.Text)
	}
	if !suggest(p, name, names) && len(names) > 0 {
		p.Help = "it has " + list(names, "and")
	}
	return nil
}

// otherFile returns the file behind a path, read before or now; nil where there is
// none, which has been reported.
func (e *evaluator) otherFile(f *file, d *lang.Use) *file {
	if d.Path == nil {
		return nil
	}
	at := f.place(d.Path.Where())
	var source *problem.Source
	why := "no other file can be read here"
	if e.load != nil {
		source, why = e.load(f.source, d.Path.Text)
	}
	if source == nil {
		e.report(problem.Error, NoFile, at, "\""+d.Path.Text+"\" cannot be used: "+why).Help =
			"a path goes from this file, without .seam; what is shipped begins with std/"
		return nil
	}
	for i, g := range e.opening {
		if g.source.Name == source.Name {
			e.fileCircle(at, e.opening[i:])
			return nil
		}
	}
	for _, g := range e.files {
		if g.source.Name == source.Name {
			return g
		}
	}
	if len(e.files) > maxFiles {
		e.report(problem.Error, TooManyFiles, at, "this pattern uses more than "+strconv.Itoa(maxFiles)+" other files")
		return nil
	}
	tree, problems := lang.Parse(source)
	e.out.Problems = append(e.out.Problems, problems...)
	return e.open(tree)
}

func (e *evaluator) fileCircle(at problem.Place, circle []*file) {
	var b strings.Builder
	for _, g := range circle {
		b.WriteString(g.source.Name + " > ")
	}
	b.WriteString(circle[0].source.Name)
	e.report(problem.Error, FileCircle, at, "these files use each other in a circle: "+b.String()).Help =
		"move the units that both need into a file of their own"
}

func (f *file) modelSource(at lang.Span) pattern.Source {
	p := f.source.Position(at.Start)
	return pattern.Source{File: f.source.Name, Line: p.Line, Column: p.Column}
}
