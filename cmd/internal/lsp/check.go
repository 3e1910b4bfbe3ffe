package lsp

import (
	"fmt"
	"runtime/debug"
	"slices"
	"time"

	"seamwright/cmd/internal/files"
	"seamwright/compiler/eval"
	"seamwright/compiler/pattern"
	"seamwright/compiler/value"
	"seamwright/lang"
	"seamwright/lang/problem"
)

// quiet is how long no key must be pressed before a text is compiled: shorter than
// a pause for thought, longer than between the letters of a word.
const quiet = 120 * time.Millisecond

// A checked is what compiling one state of a document told.
type checked struct {
	doc      *document
	text     *text
	version  int32
	pattern  *pattern.Pattern // nil where there is an error
	problems []problem.Problem
	texts    []*problem.Source // that it used
	pieces   map[pattern.Source][]made
	joins    map[pattern.Source][]made
	sections map[pattern.Source][]made
	values   map[int32]*worth // what names came to, by where they are declared
}

// A worth is what a name came to.
type worth struct {
	first, last value.Value
	times       int
	worked      bool // else only its kind is known
}

// changed has a document compiled after a while, and those that use it.
func (s *server) changed(doc *document, after time.Duration) {
	due := time.Now().Add(after)
	doc.due = due
	for _, d := range s.docs {
		if d != doc && d.last != nil && d.last.uses(doc.source.Name) {
			d.due = due
		}
	}
}

// uses reports whether a compiled text used a file, or looked for one in vain.
func (c *checked) uses(name string) bool {
	return slices.ContainsFunc(c.texts, func(src *problem.Source) bool { return src.Name == name }) ||
		slices.ContainsFunc(c.problems, func(p problem.Problem) bool {
			return p.Code == eval.NoFile || p.Code == eval.NotInFile
		})
}

// checkAll has every open document compiled.
func (s *server) checkAll() {
	for _, d := range s.docs {
		d.due = time.Now()
	}
}

// next returns the document that is to be checked first, or nil.
func (s *server) next() *document {
	var first *document
	for _, d := range s.docs {
		if !d.due.IsZero() && (first == nil || d.due.Before(first.due) || d.due.Equal(first.due) && d.uri < first.uri) {
			first = d
		}
	}
	return first
}

// check begins to compile the document that is due. All that the editor holds is
// taken as it is now: what is typed meanwhile is checked later.
func (s *server) check() {
	doc := s.next()
	if doc == nil || s.checking != nil {
		return
	}
	doc.due = time.Time{}
	s.checking = doc
	c := &checked{doc: doc, text: doc.text, version: doc.version}
	held := make(map[string]string, len(s.byName))
	for name, d := range s.byName {
		held[name] = d.source.Text
	}
	go func() {
		defer func() {
			if r := recover(); r != nil {
				fmt.Fprintf(s.Log, "seamwright lsp: please report this: %v\n%s", r, debug.Stack())
			}
			s.done <- c
		}()
		load := s.Loader(func(path string) (string, bool) { text, ok := held[path]; return text, ok })
		defer load.Close()
		c.pattern, c.problems = s.Check(c.text.source, load)
		c.texts = load.Texts()
		if c.pattern != nil {
			c.index()
		}
		c.evaluate(load)
	}()
}

// evaluate notes what the text's names came to.
func (c *checked) evaluate(load Loader) {
	file, _ := lang.Parse(c.text.source)
	c.values = map[int32]*worth{}
	eval.Values(file, load.Load, func(at problem.Place, v value.Value, worked bool) {
		if at.Source != c.text.source {
			return
		}
		w := c.values[at.Span.Start]
		if w == nil || worked && !w.worked {
			w = &worth{first: v, worked: worked}
			c.values[at.Span.Start] = w
		}
		if worked == w.worked {
			w.last = v
			w.times++
		}
	})
}

// finish takes what was compiled and tells the editor.
func (s *server) finish(c *checked) {
	s.checking = nil
	if s.docs[c.doc.uri] != c.doc {
		return // closed meanwhile
	}
	c.doc.last = c
	if c.pattern != nil {
		c.doc.good = c
	}
	s.publish()
	if s.state == running && s.client.Capabilities.Workspace.InlayHint.RefreshSupport {
		s.ask("workspace/inlayHint/refresh", nil)
	}
}

// shown is the size that facts are told for: the one that the settings name, else
// the smallest.
func (s *server) shown(b *pattern.Block) *pattern.Sized {
	if len(b.Sizes) == 0 {
		return nil
	}
	best := &b.Sizes[0]
	for i := range b.Sizes {
		z := &b.Sizes[i]
		if s.size != "" && spaceless(z.Finished.W.Exact()) == spaceless(s.size) {
			return z
		}
		if z.Finished.W < best.Finished.W {
			best = z
		}
	}
	return best
}

// isFamily reports whether a source is shipped with the program.
func isFamily(name string) bool {
	return len(name) > len(files.Shipped) && name[:len(files.Shipped)] == files.Shipped
}
