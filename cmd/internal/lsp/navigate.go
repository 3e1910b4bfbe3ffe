package lsp

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/names"
)

// A symbol is a declaration in a text.
type symbol struct {
	*text
	decl int
}

func (y symbol) what() *names.Decl { return &y.names().Decls[y.decl] }

// A use is one place where a symbol's name stands.
type use struct {
	*text
	at lang.Span
}

// symbolAt returns what the name at an offset stands for. A unit of another file is
// that file's own, unless it has another name here and deep is not set.
func (s *server) symbolAt(d *document, offset int32, deep bool) (symbol, bool) {
	t := d.names()
	if i := t.Ref(offset); i >= 0 {
		r := &t.Refs[i]
		switch {
		case r.Kind == names.Exported:
			return s.imported(d, r.Of, true)
		case r.Of >= 0:
			if unit, ok := s.imported(d, r.Of, true); ok && unit.what().Kind == names.Unit {
				if p := unit.names().Param(unit.what().Node.(*lang.Unit), r.Name); p >= 0 {
					return symbol{unit.text, p}, true
				}
			}
			return symbol{}, false
		case r.Decl >= 0:
			return s.imported(d, r.Decl, deep)
		}
		return symbol{}, false
	}
	if i := t.Decl(offset); i >= 0 {
		return s.imported(d, i, deep)
	}
	return symbol{}, false
}

// imported returns the unit of another file that a declaration takes from it; any
// other declaration is itself.
func (s *server) imported(d *document, decl int, deep bool) (symbol, bool) {
	own := symbol{d.text, decl}
	if own.what().Kind != names.Imported {
		return own, true
	}
	u := own.what().Node.(*lang.Use)
	for _, n := range u.Names {
		renamed := n.As.Text != ""
		if !(n.Name.Span == own.what().At || n.As.Span == own.what().At) || renamed && !deep {
			continue
		}
		if from := s.other(d.text, u); from != nil {
			if i := from.names().Exported(n.Name.Text); i >= 0 {
				return symbol{from, i}, true
			}
		}
	}
	return own, true
}

// other returns the text that a `use` of a text takes from, nil if there is none.
func (s *server) other(t *text, u *lang.Use) *text {
	if u.Path == nil {
		return nil
	}
	load := s.Loader(s.held)
	defer load.Close()
	src, _ := load.Load(t.source, u.Path.Text)
	switch {
	case src == nil:
		return nil
	case s.byName[src.Name] != nil:
		return s.byName[src.Name].text
	}
	return newText(src.Name, src.Text, s.utf8)
}

// uses returns every place where a symbol's name stands, its declaration first.
func (s *server) uses(y symbol) []use {
	what := y.what()
	found := []use{{y.text, what.At}}
	for _, at := range y.names().RefsTo(y.decl) {
		found = append(found, use{y.text, at})
	}
	if what.Kind != names.Unit && what.Kind != names.Parameter {
		return found
	}
	unit := what.Name
	if what.Kind == names.Parameter {
		unit = what.Unit.Name.Text
	}
	for _, t := range s.texts(y.source.Name, unit) {
		found = append(found, s.usesIn(t, y, unit)...)
	}
	return found
}

// usesIn returns the uses of another file's unit, or of its parameter.
func (s *server) usesIn(t *text, y symbol, unit string) (found []use) {
	table, param := t.names(), y.what().Kind == names.Parameter
	for i := range table.Refs {
		r := &table.Refs[i]
		if r.Kind != names.Exported || r.Name != unit {
			continue
		}
		u := table.Decls[r.Of].Node.(*lang.Use)
		if from := s.other(t, u); from == nil || from.source.Name != y.source.Name {
			continue
		}
		if param {
			for k := range table.Refs {
				if a := &table.Refs[k]; a.Kind == names.Parameter && a.Of == r.Of && a.Name == y.what().Name {
					found = append(found, use{t, a.At})
				}
			}
			continue
		}
		found = append(found, use{t, r.At})
		if table.Decls[r.Of].At == r.At { // it keeps its name here
			for _, at := range table.RefsTo(r.Of) {
				found = append(found, use{t, at})
			}
		}
	}
	return found
}

// texts returns the texts besides one that may use a unit of it: open ones, and the
// patterns in the editor's folder, or in the text's own.
func (s *server) texts(besides, word string) []*text {
	found := map[string]*text{}
	for name, d := range s.byName {
		found[name] = d.text
	}
	folder := filepath.Dir(besides)
	if root := s.client.RootURI; strings.HasPrefix(root, "file://") {
		folder = s.nameOf(root)
	}
	for _, p := range patternsBelow(folder) {
		if info, err := os.Stat(p); found[p] != nil || err != nil || info.Size() > files.MaxSize {
			continue
		}
		if data, err := os.ReadFile(p); err == nil && strings.Contains(string(data), word) {
			found[p] = newText(p, string(data), s.utf8)
		}
	}
	var all []*text
	for name, t := range found {
		if name != besides {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, func(a, b *text) int { return strings.Compare(a.source.Name, b.source.Name) })
	return all
}

// mostEntries is how many files and folders are looked at for patterns: an editor
// may have been opened on a whole disk, and somebody waits for the answer.
const mostEntries = 20_000

// patternsBelow lists the patterns in and below a folder, in the order of their
// names; of folders that begin with a dot or hold results, none.
func patternsBelow(folder string) []string {
	var found []string
	entries := 0
	filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if entries++; entries > mostEntries {
			return fs.SkipAll
		}
		switch {
		case err != nil:
			return nil // what can't be read holds nothing for us
		case e.IsDir() && path != folder && (strings.HasPrefix(e.Name(), ".") || strings.HasSuffix(e.Name(), files.OutSuffix)):
			return fs.SkipDir
		case e.Type().IsRegular() && filepath.Ext(path) == files.Extension:
			found = append(found, path)
		}
		return nil
	})
	return found
}

func (s *server) location(d *document, u use) wire.Location {
	uri := s.uriOf(u.source.Name)
	if u.text == d.text {
		uri = d.uri
	}
	return wire.Location{URI: uri, Range: u.rang(u.at)}
}

// define answers where a name is declared; of the path of a `use`, where its file
// begins.
func (s *server) define(d *document, at *wire.At) (any, *wire.Error) {
	offset := d.offset(at.Position)
	for _, decl := range d.tree().Decls {
		if u, ok := decl.(*lang.Use); ok && u.Path != nil && u.Path.Span.Start <= offset && offset <= u.Path.Span.End {
			if t := s.other(d.text, u); t != nil {
				return s.location(d, use{t, lang.Span{}}), nil
			}
		}
	}
	y, ok := s.symbolAt(d, offset, true)
	if !ok {
		return nil, nil
	}
	l := s.location(d, use{y.text, y.what().At})
	if l.URI == "" {
		return nil, nil
	}
	return l, nil
}

func (s *server) references(d *document, at *wire.At) (any, *wire.Error) {
	y, ok := s.symbolAt(d, d.offset(at.Position), false)
	if !ok {
		return nil, nil
	}
	all := s.uses(y)
	if !at.Context.IncludeDeclaration {
		all = all[1:]
	}
	list := []wire.Location{}
	for _, u := range all {
		if l := s.location(d, u); l.URI != "" {
			list = append(list, l)
		}
	}
	return list, nil
}

func (s *server) highlight(d *document, at *wire.At) (any, *wire.Error) {
	t, offset := d.names(), d.offset(at.Position)
	decl := t.Decl(offset)
	if i := t.Ref(offset); i >= 0 {
		r := &t.Refs[i]
		if decl = r.Decl; decl < 0 && r.Kind == names.Exported {
			decl = r.Of
		}
	}
	if decl < 0 {
		return nil, nil
	}
	list := []wire.DocumentHighlight{{Range: d.rang(t.Decls[decl].At), Kind: wire.HighlightWrite}}
	for _, u := range t.RefsTo(decl) {
		list = append(list, wire.DocumentHighlight{Range: d.rang(u), Kind: wire.HighlightText})
	}
	return list, nil
}
