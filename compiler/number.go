package compiler

import (
	"slices"
	"strings"

	"seamwright/compiler/eval"
	"seamwright/compiler/piecing"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// A Numbered is a text whose drawn units were rewritten.
type Numbered struct {
	Text  string
	Units []string // those that were rewritten, in the order of the text
	Kept  []Kept
}

// A Kept is a drawn unit that stays as it is, and why.
type Kept struct{ Unit, Why string }

// Number rewrites the drawn units of a text as joins and sections: the pattern
// stays the same, and stays so when better sections can be found one day. A unit
// with parameters gets the sections of each set of values that it is used with.
// Comments are kept, and the text is in the usual layout if a unit was
// rewritten. Where any problem is an error, nothing is.
func Number(src *problem.Source, load Loader) (Numbered, []problem.Problem) {
	file, problems := lang.Parse(src)
	result := eval.Evaluate(file, loading(load))
	made, more := sew(result)
	problems = append(append(problems, result.Problems...), more...)
	problem.Sort(problems)
	n := Numbered{Text: src.Text}
	if problem.Failed(problems) {
		return n, problems
	}
	var edits []problem.Edit
	for _, d := range file.Decls {
		u, ok := d.(*lang.Unit)
		if !ok || u.Body == nil || !draws(u.Body.Stmts) {
			continue
		}
		w := writer{unit: u, pattern: &result.Pattern}
		text, why := w.text(usesOf(made.Drawings(), problem.Place{Source: src, Span: u.Name.Span}))
		if why != "" {
			n.Kept = append(n.Kept, Kept{u.Name.Text, why})
			continue
		}
		n.Units = append(n.Units, u.Name.Text)
		edits = append(edits, rewrite(file, u, text)...)
	}
	if len(edits) > 0 {
		n.Text = tidy(apply(src.Text, edits), unused(problems), load)
	}
	return n, problems
}

// usesOf finds what was made of a unit, by the place of its name: once for each
// set of values of its parameters.
func usesOf(made []piecing.Sewn, at problem.Place) (uses []*eval.Body) {
	for i := range made {
		if made[i].Drawn.Source == at {
			uses = append(uses, made[i].Sewn)
		}
	}
	return uses
}

// draws reports whether statements draw, or those in their loops and conditions.
func draws(list []lang.Stmt) bool {
	for _, s := range list {
		switch s := s.(type) {
		case *lang.Line, *lang.Piece, *lang.Keep:
			return true
		case *lang.For:
			if s.Body != nil && draws(s.Body.Stmts) {
				return true
			}
		case *lang.If:
			if drawsIf(s) {
				return true
			}
		}
	}
	return false
}

func drawsIf(s *lang.If) bool {
	if s.Then != nil && draws(s.Then.Stmts) {
		return true
	}
	switch e := s.Else.(type) {
	case *lang.If:
		return e != nil && drawsIf(e)
	case *lang.Body:
		return e != nil && draws(e.Stmts)
	}
	return false
}

// rewrite puts text in the place of the first statement that draws, and takes
// the others away; comments within them stay.
func rewrite(file *lang.File, u *lang.Unit, text string) []problem.Edit {
	var edits []problem.Edit
	for _, s := range u.Body.Stmts {
		if !draws([]lang.Stmt{s}) {
			continue
		}
		at, new := s.Where(), ""
		for _, c := range file.Comments {
			if c.Span.Start >= at.Start && c.Span.End <= at.End {
				new += c.Text + "\n"
			}
		}
		if len(edits) == 0 {
			new += text
		}
		edits = append(edits, problem.Edit{At: withSemicolon(file.Source.Text, at), New: new})
	}
	return edits
}

// withSemicolon adds the semicolon behind a statement to its span.
func withSemicolon(text string, at problem.Span) problem.Span {
	rest := text[at.End:]
	blanks := len(rest) - len(strings.TrimLeft(rest, " \t"))
	if strings.HasPrefix(rest[blanks:], ";") {
		at.End += int32(blanks + 1)
	}
	return at
}

// apply makes edits that are in the order of the text.
func apply(text string, edits []problem.Edit) string {
	var b strings.Builder
	last := int32(0)
	for _, e := range edits {
		b.WriteString(text[last:e.At.Start])
		b.WriteString(e.New)
		last = e.At.End
	}
	b.WriteString(text[last:])
	return b.String()
}

// unused counts the names that nothing uses.
func unused(ps []problem.Problem) map[string]bool {
	names := map[string]bool{}
	for i := range ps {
		if ps[i].Code == eval.Unused {
			names[ps[i].Message] = true
		}
	}
	return names
}

// tidy lays a text out, without the values that only drawing used. Each round
// takes away those that no other needs any more.
func tidy(text string, before map[string]bool, load Loader) string {
	for {
		src := &problem.Source{Name: "number", Text: text}
		file, ps := lang.Parse(src)
		if problem.Failed(ps) {
			return text // never seen; the text is then as right as it can be
		}
		var edits []problem.Edit
		lets := letsOf(file)
		for _, p := range eval.Evaluate(file, loading(load)).Problems {
			if p.Code != eval.Unused || before[p.Message] {
				continue
			}
			for _, l := range lets {
				if l.Name.Span == p.At.Span {
					edits = append(edits, problem.Edit{At: withSemicolon(text, l.Where())})
				}
			}
		}
		if len(edits) == 0 {
			return lang.Format(file)
		}
		slices.SortFunc(edits, func(a, b problem.Edit) int { return int(a.At.Start - b.At.Start) })
		text = apply(text, edits)
	}
}

// letsOf lists the values named right in the braces of units.
func letsOf(file *lang.File) []*lang.Let {
	var list []*lang.Let
	for _, d := range file.Decls {
		if u, ok := d.(*lang.Unit); ok && u.Body != nil {
			for _, s := range u.Body.Stmts {
				if l, ok := s.(*lang.Let); ok {
					list = append(list, l)
				}
			}
		}
	}
	return list
}
