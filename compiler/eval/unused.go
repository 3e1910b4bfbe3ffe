package eval

import (
	"seamwright/lang"
	"seamwright/lang/problem"
)

// An idleName is one that nothing uses.
type idleName struct {
	file *file
	at   lang.Span
	what string
}

// unused notes a name that nothing uses.
func (e *evaluator) unused(f *file, at lang.Span, what string) {
	e.idleNames = append(e.idleNames, idleName{f, at, what})
}

// warnUnused warns of what nothing uses. Where there are errors, they may well be
// the reason, so nothing is said.
func (e *evaluator) warnUnused(root *file) {
	e.rootUnused(root)
	if len(root.holes) > 0 || problem.Failed(e.out.Problems) {
		return
	}
	for _, n := range e.idleNames {
		e.report(problem.Warning, Unused, n.file.place(n.at), n.what+" is never used").Help = "take it away, or use it"
	}
}

// rootUnused notes the fabrics and units of the root file. A file without blocks is
// there to be used by others.
func (e *evaluator) rootUnused(root *file) {
	if !root.hasBlock() {
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

func (f *file) hasBlock() bool {
	for _, u := range f.units {
		if u.decl.Block {
			return true
		}
	}
	return false
}
