package compiler

import (
	"math"
	"slices"
	"strings"

	"seamwright/compiler/eval"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// Where the parser could not read something, the rest of the file is looked at all
// the same, so that every mistake is told in one run. But some of what is found
// then only follows from what was not read: the name that is unknown was declared
// there. Such problems are left out; they are told in the next run, if they are
// still true.

// unread is what could not be read of the texts.
type unread struct {
	root     *lang.File
	mistakes map[*problem.Source][]mistake
}

// A mistake is what the parser reported: where, and what stands about there.
type mistake struct {
	at    int32
	about []rune // of its line
}

const (
	// lookAbout is how many bytes before and behind a mistake its line is searched
	// for a name; lines of people are shorter.
	lookAbout = 100
	// manyMistakes in one text leave so little of it that nothing is said of unknown
	// names; and comparing every name with every mistake stays cheap.
	manyMistakes = 20
)

// newUnread gathers the mistakes that parsing has reported among these problems.
func newUnread(root *lang.File, problems []problem.Problem) *unread {
	u := &unread{root: root, mistakes: map[*problem.Source][]mistake{}}
	for i := range problems {
		p := &problems[i]
		if src := p.At.Source; p.Severity == problem.Error && src != nil && misread(p.Code) {
			at := p.At.Span.Start
			line, start := src.Line(src.Position(at).Line)
			end := min(int(at-start)+lookAbout, len(line))
			u.mistakes[src] = append(u.mistakes[src], mistake{at, []rune(line[min(max(int(at-start)-lookAbout, 0), end):end])})
		}
	}
	return u
}

// misread reports whether a code is the parser's, and not one of those after which
// the text was surely read as it was meant.
func misread(c problem.Code) bool {
	switch c {
	case lang.Typographic, lang.UnitSpelling, lang.UnitApart:
		return false
	}
	return strings.HasPrefix(string(c), "L1")
}

// drop leaves out the problems that may follow from what could not be read.
func (u *unread) drop(problems []problem.Problem) []problem.Problem {
	if len(u.mistakes) == 0 {
		return problems
	}
	kept := problems[:0]
	for i := range problems {
		if !u.follows(&problems[i]) {
			kept = append(kept, problems[i])
		}
	}
	return kept
}

// follows reports whether a problem may follow from what could not be read.
func (u *unread) follows(p *problem.Problem) bool {
	switch p.Code {
	case eval.Unused: // it may be used there
		return true
	case eval.UnknownName, eval.UnknownUnit, eval.UnknownFabric, eval.UnknownBlock,
		eval.UnknownArgument, eval.MissingArgument, eval.TooManyArguments:
		return u.said(p.At)
	case eval.PieceNumber, eval.FirstAlong, eval.MissingAlong, eval.MissingAt:
		return u.before(p.At)
	case eval.UnknownSetting, eval.NoResult:
		return u.within(u.declaration(p.At), p.At.Source)
	}
	return p.Code[0] == 'G' && u.within(u.declaration(p.At), p.At.Source)
}

// said reports whether a name is said on a line that could not be read, or would
// be but for one slip.
func (u *unread) said(at problem.Place) bool {
	if at.Source == nil {
		return false
	}
	mistakes := u.mistakes[at.Source]
	if len(mistakes) >= manyMistakes {
		return true
	}
	name := []rune(at.Source.Text[at.Span.Start:at.Span.End])
	return slices.ContainsFunc(mistakes, func(m mistake) bool { return slipsWithin(name, m.about) <= 1 })
}

// before reports whether something before a place, in the same section, could not
// be read.
func (u *unread) before(at problem.Place) bool {
	span := u.declaration(at)
	for _, d := range u.root.Decls {
		if unit, ok := d.(*lang.Unit); ok && unit.Body != nil && at.Source == u.root.Source && d.Where() == span {
			span = sectionAt(unit.Body, at.Span.Start, span)
		}
	}
	span.End = at.Span.Start
	return u.within(span, at.Source)
}

// sectionAt returns the section of a body that holds a place, or the span given
// where there is none.
func sectionAt(b *lang.Body, at int32, span problem.Span) problem.Span {
	if b == nil {
		return span
	}
	for _, s := range b.Stmts {
		if !holds(s.Where(), at) {
			continue
		}
		switch s := s.(type) {
		case *lang.Section:
			return s.Where()
		case *lang.For:
			return sectionAt(s.Body, at, span)
		case *lang.If:
			span = sectionAt(s.Then, at, span)
			switch other := s.Else.(type) {
			case *lang.Body:
				span = sectionAt(other, at, span)
			case *lang.If:
				span = sectionAt(&lang.Body{Stmts: []lang.Stmt{other}}, at, span)
			}
		}
	}
	return span
}

// declaration returns the declaration that holds a place. Of other files than the
// root's all is taken for one.
func (u *unread) declaration(at problem.Place) problem.Span {
	if at.Source == u.root.Source {
		for _, d := range u.root.Decls {
			if holds(d.Where(), at.Span.Start) {
				return d.Where()
			}
		}
	}
	return problem.Span{End: math.MaxInt32}
}

func holds(s problem.Span, at int32) bool { return s.Start <= at && at <= s.End }

// within reports whether something in a part of a text could not be read.
func (u *unread) within(part problem.Span, of *problem.Source) bool {
	return slices.ContainsFunc(u.mistakes[of], func(m mistake) bool { return holds(part, m.at) })
}

// slipsWithin returns how many slips there are between a word and what is nearest to
// it in a line: how many letters must be put in, left out,
// changed or exchanged with their neighbor (P. H. Sellers, "The theory and computation
// of evolutionary distances", J. Algorithms 1, 1980; from memory).
func slipsWithin(word, line []rune) int {
	n := len(word)
	before, last, now := make([]int, n+1), make([]int, n+1), make([]int, n+1)
	for i := range last {
		last[i] = i
	}
	best := n
	for j := range line {
		now[0] = 0 // it may begin anywhere
		for i := 1; i <= n; i++ {
			change := last[i-1]
			if word[i-1] != line[j] {
				change++
			}
			now[i] = min(change, last[i]+1, now[i-1]+1)
			if i > 1 && j > 0 && word[i-1] == line[j-1] && word[i-2] == line[j] {
				now[i] = min(now[i], before[i-2]+1)
			}
		}
		best = min(best, now[n])
		before, last, now = last, now, before
	}
	return best
}
