package lang

import (
	"slices"
	"strings"
	"unicode/utf8"

	"seamwright/lang/problem"
)

// Parse reads a file. The tree is never nil; where problems holds an error the
// tree has holes. Offsets in the tree are bytes of src.Text.
func Parse(src *problem.Source) (*File, []problem.Problem) {
	file := &File{Source: src}
	faults, readable := unreadable(src.Text)
	if readable {
		s := newScanner(src.Text)
		p := run(s)
		if s.at < len(src.Text) {
			return file, finish(src, tooMany(s.at))
		}
		file.Decls, file.Comments = p.decls, s.comments
		attachDocs(file)
		faults = append(faults, s.faults...)
		faults = append(faults, settle(src.Text, s.faults, p.faults)...)
	}
	return file, finish(src, faults)
}

// run reads a text's tokens and parses them.
func run(s *scanner) *parser {
	p := &parser{source: s.text}
	if p.toks, s.comments = scanHalves(s.text); p.toks != nil {
		s.at = len(s.text)
	} else {
		p.toks = s.all(make([]token, 0, roomFor(len(s.text))))
	}
	p.prepare()
	p.file()
	return p
}

// unreadable reports a text that is no text, or far too much of it.
func unreadable(text string) (faults []fault, readable bool) {
	told := func(code problem.Code, at, end int, message, help string) []fault {
		return append(faults, fault{Problem: problem.Problem{Code: code, Message: message, Help: help,
			At: problem.Place{Span: Span{Start: int32(at), End: int32(end)}}}})
	}
	if len(text) > maxText {
		return told(TooLarge, 0, 0, "this text is larger than 1 MiB, far beyond any pattern",
			"is it the file you meant?"), false
	}
	if i := strings.IndexByte(text, 0); i >= 0 {
		return told(NotText, i, i+1, "this is not a text: it holds a zero byte",
			"a pattern is a plain text file in UTF-8; some programs save UTF-16, which must be changed when saving"), false
	}
	if !utf8.ValidString(text) {
		i := 0
		for {
			r, size := utf8.DecodeRuneInString(text[i:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			i += size
		}
		faults = told(NotText, i, i+1, "from here the text is not UTF-8", "save the file as UTF-8 and correct the letter here")
	}
	return faults, true
}

// tooMany reports a text that has more words and signs than are read.
func tooMany(at int) []fault {
	return []fault{{Problem: problem.Problem{Code: TooLarge,
		Message: "this text holds more than 262,144 words and signs, far beyond any pattern",
		Help:    "is it the file you meant?",
		At:      problem.Place{Span: Span{Start: int32(at), End: int32(at)}}}}}
}

// settle leaves out what is most likely said of the same mistake: what the
// parser finds on a line where the lexer found damage, and what it says of a
// whole unit in which something else is wrong. It moves a missing brace to the
// empty line on which it most likely stood.
func settle(text string, lexed, parsed []fault) []fault {
	bad := map[int32]bool{} // lines; true if the lexer has mended all that it found
	for i := range lexed {
		mended, found := bad[lexed[i].Line]
		bad[lexed[i].Line] = lexed[i].Cured && (mended || !found)
	}
	kept := parsed[:0]
	for _, f := range parsed {
		if f.ownLine {
			f.moveToEmptyLine(text)
		}
		if mended, found := bad[f.Line]; !found || mended && f.Cured {
			kept = append(kept, f)
		}
	}
	inside := func(where Span) func(fault) bool {
		return func(f fault) bool {
			at := f.At.Span
			return f.within == Span{} && where.Start <= at.Start && at.Start <= where.End
		}
	}
	return slices.DeleteFunc(kept, func(f fault) bool {
		return f.within != Span{} && (slices.ContainsFunc(lexed, inside(f.within)) || slices.ContainsFunc(parsed, inside(f.within)))
	})
}

func (f *fault) moveToEmptyLine(text string) {
	at, line := int(f.At.Span.Start), f.Line
	for {
		n := strings.IndexByte(text[at:], '\n')
		if n < 0 {
			return
		}
		at, line = at+n+1, line+1
		end := at + len(text[at:])
		if n = strings.IndexByte(text[at:], '\n'); n >= 0 {
			end = at + n
		}
		content := strings.TrimSpace(text[at:end])
		if content == "" && end < len(text) {
			f.At.Span, f.Line = Span{Start: int32(end), End: int32(end)}, line
			return
		}
		if !strings.HasPrefix(content, "//") {
			return
		}
	}
}

// finish gives the problems their source, order and limit.
func finish(src *problem.Source, faults []fault) []problem.Problem {
	if len(faults) == 0 {
		return nil
	}
	problems := make([]problem.Problem, len(faults))
	for i := range faults {
		problems[i] = faults[i].Problem
		problems[i].At.Source = src
		for j := range problems[i].Labels {
			problems[i].Labels[j].At.Source = src
		}
	}
	problem.Sort(problems)
	if len(problems) > maxProblems {
		last := problems[maxProblems].At
		problems = append(problems[:maxProblems], problem.Problem{
			Code: TooMany, Severity: problem.Note, At: last,
			Message: "there are more problems from here on; these are the first 100",
		})
	}
	return problems
}

// attachDocs gives every unit, fabric and colorway the doc comments between it
// and what stands before it.
func attachDocs(f *File) {
	next := 0
	for _, d := range f.Decls {
		var doc *string
		switch d := d.(type) {
		case *Unit:
			doc = &d.Doc
		case *Fabric:
			doc = &d.Doc
		case *Colorway:
			doc = &d.Doc
		}
		var lines []string
		for ; next < len(f.Comments) && f.Comments[next].Span.Start < d.Where().Start; next++ {
			if c := f.Comments[next]; c.Doc {
				lines = append(lines, strings.TrimPrefix(strings.TrimPrefix(c.Text, "///"), " "))
			}
		}
		for next < len(f.Comments) && f.Comments[next].Span.Start < d.Where().End {
			next++ // inside the declaration
		}
		if doc != nil && lines != nil {
			*doc = strings.Join(lines, "\n")
		}
	}
}
