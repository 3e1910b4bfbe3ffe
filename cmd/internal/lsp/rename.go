package lsp

import (
	"slices"

	"seamwright/cmd/internal/lsp/wire"
	"seamwright/lang"
	"seamwright/lang/names"
	"seamwright/lang/problem"
)

func refused(message string) *wire.Error {
	return &wire.Error{Code: wire.RequestFailed, Message: message}
}

// prepareRename answers whether the word here is a name that can be changed.
func (s *server) prepareRename(d *document, at *wire.At) (any, *wire.Error) {
	offset := d.offset(at.Position)
	if _, ok := s.symbolAt(d, offset, false); !ok {
		t := d.names()
		if i := t.Ref(offset); i >= 0 && t.Refs[i].Kind == names.Compass {
			return nil, refused("`" + t.Refs[i].Name + "` is the unit's own point or side; its name can't be changed")
		}
		return nil, refused("there is no name of yours here")
	}
	span := d.nameSpan(offset)
	return wire.PrepareRename{Range: d.rang(span), Placeholder: d.at(span)}, nil
}

// nameSpan returns the use or declaration at an offset.
func (t *text) nameSpan(offset int32) lang.Span {
	table := t.names()
	if i := table.Ref(offset); i >= 0 {
		return table.Refs[i].At
	}
	if i := table.Decl(offset); i >= 0 {
		return table.Decls[i].At
	}
	return lang.Span{Start: offset, End: offset}
}

// rename changes a name wherever it stands. A unit that is shipped gets another
// name in this file alone.
func (s *server) rename(d *document, at *wire.At) (any, *wire.Error) {
	offset, name := d.offset(at.Position), at.NewName
	y, ok := s.symbolAt(d, offset, false)
	if !ok {
		return nil, refused("there is no name of yours here")
	}
	if why := badName(name); why != "" {
		return nil, refused(why)
	}
	if isFamily(y.source.Name) && y.text != d.text {
		return s.renameFamily(d, offset, name)
	}
	edits := map[string][]wire.TextEdit{}
	checked := map[*text]bool{}
	for _, u := range s.uses(y) {
		if !checked[u.text] {
			if why := u.taken(y, name); why != "" {
				return nil, refused(why)
			}
			checked[u.text] = true
		}
		l := s.location(d, u)
		edits[l.URI] = append(edits[l.URI], wire.TextEdit{Range: l.Range, NewText: name})
	}
	return wire.WorkspaceEdit{Changes: edits}, nil
}

// badName says why a word can't be a name; "" if it can.
func badName(name string) string {
	tokens, sound := lang.Tokens(name)
	switch {
	case names.IsCompass(name):
		return "`" + name + "` is a point or side of every unit, so nothing else can have this name"
	case len(tokens) == 1 && sound && tokens[0].Text == name && (tokens[0].Class == "Name" || name == "x"):
		return ""
	case slices.Contains(reserved(), name):
		return "`" + name + "` is a word of the language, and can't be a name"
	}
	return "a name is made of letters, digits and _, and does not begin with a digit"
}

// taken says why a symbol can't be called so in a text; "" if it can.
func (t *text) taken(y symbol, name string) string {
	t.tree()
	if problem.Failed(t.faults) {
		return "first mend the mistakes in " + t.source.Name + ": a use of the name may be among them"
	}
	what, table := y.what(), t.names()
	isUnit := func(k names.Kind) bool { return k == names.Unit || k == names.Imported }
	for i := range table.Decls {
		o := &table.Decls[i]
		if o.Name != name || o == what {
			continue
		}
		var clash bool
		switch {
		case isUnit(what.Kind) || isUnit(o.Kind):
			clash = isUnit(what.Kind) && isUnit(o.Kind)
		case what.Kind == names.Section, what.Kind == names.Colorway:
			clash = o.Kind == what.Kind && o.Unit == what.Unit
		case o.Kind == names.Section, o.Kind == names.Colorway, t != y.text:
		default:
			clash = o.Scope.Start < what.Scope.End && what.Scope.Start < o.Scope.End
		}
		if clash {
			p := t.source.Position(o.At.Start)
			return "`" + name + "` is taken: it is declared on line " + itoa(p.Line) + " of " + t.source.Name
		}
	}
	return ""
}

// renameFamily gives a shipped unit a name of its own here: `use a as b`.
func (s *server) renameFamily(d *document, offset int32, name string) (any, *wire.Error) {
	t := d.names()
	decl := t.Decl(offset)
	if i := t.Ref(offset); i >= 0 {
		if decl = t.Refs[i].Decl; t.Refs[i].Kind == names.Exported {
			decl = t.Refs[i].Of
		}
	}
	if decl < 0 {
		return nil, refused("this belongs to a family that is shipped with the program, and can't be changed")
	}
	if why := d.taken(symbol{d.text, decl}, name); why != "" {
		return nil, refused(why)
	}
	at := t.Decls[decl].At
	edits := []wire.TextEdit{{Range: d.rang(lang.Span{Start: at.End, End: at.End}), NewText: " as " + name}}
	for _, u := range t.RefsTo(decl) {
		edits = append(edits, wire.TextEdit{Range: d.rang(u), NewText: name})
	}
	return wire.WorkspaceEdit{Changes: map[string][]wire.TextEdit{d.uri: edits}}, nil
}
