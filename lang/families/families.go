package families

import (
	"embed"
	"strings"

	"seamwright/lang"
	"seamwright/lang/problem"
)

//go:embed *.seam
var texts embed.FS

// A Family is what a designer needs to know to use one.
type Family struct {
	Name    string // of the file and of its main unit
	Summary string // the doc comment's first sentence
	Doc     string // the doc comment, without the example
	Params  []Param
	Example string   // a whole pattern
	Others  []string // the other units of the file
}

// A Param is one parameter of a family's main unit, as it is written.
type Param struct {
	Name, Kind string
	Default    string // "" if it must be given
}

// Names returns the names of all families in alphabetical order.
func Names() []string {
	entries, err := texts.ReadDir(".")
	if err != nil {
		return nil // cannot be: the directory is part of the program
	}
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".seam"))
	}
	return names
}

// Source returns the text of a family, and whether there is one of that name.
func Source(name string) (string, bool) {
	data, err := texts.ReadFile(name + ".seam")
	return string(data), err == nil
}

// Find returns the family of a name, and whether there is one.
func Find(name string) (Family, bool) {
	text, ok := Source(name)
	if !ok {
		return Family{}, false
	}
	family := Family{Name: name}
	file, _ := lang.Parse(&problem.Source{Name: "std/" + name, Text: text})
	for _, decl := range file.Decls {
		unit, ok := decl.(*lang.Unit)
		if !ok {
			continue
		}
		if unit.Name.Text != name {
			family.Others = append(family.Others, unit.Name.Text)
			continue
		}
		family.Doc, family.Example = splitExample(unit.Doc)
		family.Summary = firstSentence(family.Doc)
		for _, p := range unit.Params {
			family.Params = append(family.Params, param(p, text))
		}
	}
	return family, true
}

// List returns all families in alphabetical order.
func List() []Family {
	var list []Family
	for _, name := range Names() {
		family, _ := Find(name)
		list = append(list, family)
	}
	return list
}

func param(p *lang.Param, text string) Param {
	out := Param{Name: p.Name.Text, Kind: p.Kind.Text}
	if p.Default != nil {
		span := p.Default.Where()
		out.Default = text[span.Start:span.End]
	}
	return out
}

// exampleIndent marks the lines of the example in a doc comment.
const exampleIndent = "    "

// splitExample parts a doc comment into what is said and the example at its end.
func splitExample(doc string) (said, example string) {
	lines := strings.Split(doc, "\n")
	first := len(lines)
	for first > 0 && (strings.TrimSpace(lines[first-1]) == "" || strings.HasPrefix(lines[first-1], exampleIndent)) {
		first--
	}
	for i := first; i < len(lines); i++ {
		example += strings.TrimPrefix(lines[i], exampleIndent) + "\n"
	}
	example = strings.TrimSpace(example)
	if example != "" {
		example += "\n"
	}
	return strings.TrimSpace(strings.Join(lines[:first], "\n")), example
}

func firstSentence(doc string) string {
	doc = strings.Join(strings.Fields(doc), " ")
	if i := strings.Index(doc, ". "); i >= 0 {
		return doc[:i+1]
	}
	return doc
}
