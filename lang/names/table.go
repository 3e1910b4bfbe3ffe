package names

import (
	"sort"

	"seamwright/lang"
)

// A Kind is what a name stands for.
type Kind uint8

const (
	Fabric    Kind = iota
	Unit           // a unit or block written here
	Imported       // a unit taken from another file, by the name that it has here
	Parameter      // of a unit; also the name of an argument
	Let            // also a value's name that nothing here declares
	Loop
	Section
	Colorway

	// Kinds that only a Ref has: nobody declares them here.
	Compass // a point or side of the unit
	Helper
	Exported // a unit by the name that it has in the file it is taken from
)

// A Decl gives a name.
type Decl struct {
	Kind  Kind
	Name  string
	At    lang.Span  // the name
	Scope lang.Span  // where it may be used
	Node  lang.Node  // what declares it: a *lang.Fabric, Unit, Use, Param, Let, For, Section, Keep or Colorway
	Unit  *lang.Unit // the unit in which it stands, nil at the top of the file; of a parameter, its own
}

// A Ref is a use of a name.
type Ref struct {
	Kind Kind
	Name string
	At   lang.Span
	Decl int // index into Decls; -1 where nothing in this file is called so
	Of   int // of an Exported name and of an argument of an imported unit: the Decl of the import; else -1
}

// A Table holds the names of one file, in the order of the text.
type Table struct {
	Decls []Decl
	Refs  []Ref
}

// Ref returns the index of the use that holds the offset, its end included, or -1.
func (t *Table) Ref(offset int32) int {
	return at(len(t.Refs), offset, func(i int) lang.Span { return t.Refs[i].At })
}

// Decl returns the index of the declaration whose name holds the offset, its end
// included, or -1.
func (t *Table) Decl(offset int32) int {
	return at(len(t.Decls), offset, func(i int) lang.Span { return t.Decls[i].At })
}

func at(n int, offset int32, span func(int) lang.Span) int {
	i := sort.Search(n, func(i int) bool { return span(i).End >= offset })
	if i < n && span(i).Start <= offset {
		return i
	}
	return -1
}

// RefsTo returns the uses of a declaration.
func (t *Table) RefsTo(decl int) []lang.Span {
	var uses []lang.Span
	for i := range t.Refs {
		if t.Refs[i].Decl == decl {
			uses = append(uses, t.Refs[i].At)
		}
	}
	return uses
}

// Visible returns the values, fabrics and units that may be used at an offset,
// innermost first. Of those that hide each other only the innermost is listed.
func (t *Table) Visible(offset int32) []*Decl {
	type key struct {
		unit bool
		name string
	}
	var found []*Decl
	seen := map[key]bool{}
	for i := len(t.Decls) - 1; i >= 0; i-- {
		d := &t.Decls[i]
		if d.Kind == Section || d.Kind == Colorway || offset < d.Scope.Start || offset > d.Scope.End {
			continue
		}
		k := key{d.Kind == Unit || d.Kind == Imported, d.Name}
		if !seen[k] {
			seen[k] = true
			found = append(found, d)
		}
	}
	sort.SliceStable(found, func(i, j int) bool { return found[i].width() < found[j].width() })
	return found
}

func (d *Decl) width() int32 { return d.Scope.End - d.Scope.Start }

// Exported returns the index of the unit that a file gives to others under a name,
// or -1.
func (t *Table) Exported(name string) int {
	for i := range t.Decls {
		if t.Decls[i].Kind == Unit && t.Decls[i].Name == name {
			return i
		}
	}
	return -1
}

// Param returns the index of a unit's parameter, or -1.
func (t *Table) Param(u *lang.Unit, name string) int {
	for i := range t.Decls {
		if d := &t.Decls[i]; d.Kind == Parameter && d.Unit == u && d.Name == name {
			return i
		}
	}
	return -1
}

// IsCompass reports whether a name is a point or a side of every unit with a width
// and a height, and so never an author's own.
func IsCompass(name string) bool {
	switch name {
	case "nw", "n", "ne", "e", "se", "s", "sw", "w", "c", "north", "east", "south", "west":
		return true
	}
	return false
}
