package eval

import (
	"seamwright/lang"
	"seamwright/lang/problem"
)

// warnUnused names what the root file declares and nothing uses. A file without
// blocks is there to be used by others.
func (e *evaluator) warnUnused(root *file) {
	if len(root.holes) > 0 || !root.hasBlock() {
		return
	}
	for _, f := range root.fabrics {
		if !f.used {
			e.unused(root, f.at, "the fabric `"+f.Name+"`")
		}
	}
	for _, u := range root.units {
		if n := root.unit[u.decl.Name.Text]; n != nil && n.unit == u && !n.used && !u.decl.Block {
			e.unused(root, n.at, "the unit `"+u.decl.Name.Text+"`")
		}
	}
	for _, d := range root.tree.Decls {
		use, ok := d.(*lang.Use)
		if !ok {
			continue
		}
		for _, n := range use.Names {
			name := n.Name
			if n.As.Text != "" {
				name = n.As
			}
			if u := root.unit[name.Text]; u != nil && u.at == name.Span && u.unit != nil && !u.used {
				e.unused(root, u.at, "the unit `"+name.Text+"`")
			}
		}
	}
}

func (e *evaluator) unused(f *file, at lang.Span, what string) {
	e.report(problem.Warning, Unused, f.place(at), what+" is never used").Help = "take it away, or use it"
}

func (f *file) hasBlock() bool {
	for _, u := range f.units {
		if u.decl.Block {
			return true
		}
	}
	return false
}
