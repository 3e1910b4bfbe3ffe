package lsp

import "seamwright/lang"

// statement returns the innermost statement that holds an offset, or nil.
func (t *text) statement(offset int32) lang.Stmt {
	for _, d := range t.tree().Decls {
		if u, ok := d.(*lang.Unit); ok && u.Body != nil && holds(u.Body.Span, offset) {
			return within(u.Body, offset)
		}
	}
	return nil
}

func holds(s lang.Span, offset int32) bool { return s.Start <= offset && offset <= s.End }

func within(b *lang.Body, offset int32) lang.Stmt {
	if b == nil {
		return nil
	}
	for _, s := range b.Stmts {
		if !holds(s.Where(), offset) {
			continue
		}
		for _, inner := range bodies(s) {
			if inner != nil && holds(inner.Span, offset) {
				if found := within(inner, offset); found != nil {
					return found
				}
			}
		}
		return s
	}
	return nil
}

// bodies returns the braces of a statement.
func bodies(s lang.Stmt) []*lang.Body {
	switch s := s.(type) {
	case *lang.Section:
		return []*lang.Body{s.Body}
	case *lang.For:
		return []*lang.Body{s.Body}
	case *lang.If:
		list := []*lang.Body{s.Then}
		for {
			switch other := s.Else.(type) {
			case *lang.If:
				list = append(list, other.Then)
				s = other
				continue
			case *lang.Body:
				list = append(list, other)
			}
			return list
		}
	}
	return nil
}

// eachStatement visits every statement of a text, in order.
func (t *text) eachStatement(visit func(lang.Stmt)) {
	var walk func(b *lang.Body)
	walk = func(b *lang.Body) {
		if b == nil {
			return
		}
		for _, s := range b.Stmts {
			visit(s)
			for _, inner := range bodies(s) {
				walk(inner)
			}
		}
	}
	for _, d := range t.tree().Decls {
		if u, ok := d.(*lang.Unit); ok {
			walk(u.Body)
		}
	}
}
