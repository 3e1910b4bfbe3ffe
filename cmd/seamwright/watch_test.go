package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"testing"

	"seamwright/cmd/internal/live"
	"seamwright/compiler"
	"seamwright/lang/problem"
)

// While a save may not be complete the page is shown what is good, but not the
// beginning of what it was.
func TestPeek(t *testing.T) {
	server, err := live.Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer server.Close()
	const first = "fabric a \"lamp\" light #f0dca0\nblock one 4 x 4 finished 4in {\n  section { 1 a at c }\n}\n"
	const second = "\nblock two 2 x 2 finished 4in {\n  section { 1 a at c }\n}\n"
	w := &watching{call: &call{env: env{stdout: io.Discard, stderr: io.Discard, getenv: func(string) string { return "" }}}, ctx: t.Context(), name: "one.seam", folder: t.TempDir(), server: server}
	defer w.kept.Close()
	make := func(text string) {
		src := &problem.Source{Name: "one.seam", Text: text}
		w.made = built{texts: []*problem.Source{src}}
		w.made.pattern, w.made.problems = compiler.Compile(src, newLoader())
		w.made.make()
		w.peeked = false
		w.peek()
	}
	for _, c := range []struct {
		text   string
		peeked bool
	}{
		{first + second, true},
		{first, false},             // half of it
		{first + "// two", true},   // other words in its place
		{first + "block", false},   // with an error
		{"// one\n" + first, true}, // something before it
		{"// one\n" + first, true}, // nothing new
	} {
		if make(c.text); w.peeked != c.peeked {
			t.Errorf("shown before the save is complete: %t, of %q", w.peeked, c.text)
		}
		w.build()
		if w.shown.Good && (len(w.shown.Sources) != 1 || w.shown.Sources[0].Text != c.text) {
			t.Errorf("shown at last: %v, not %q", w.shown.Sources, c.text)
		}
	}
}

// PDF files follow what was written last, though a text with an error was saved before
// they had, or watch was stopped.
func TestPDFFollowsWhatWasWritten(t *testing.T) {
	const good = "fabric a \"lamp\" light #f0dca0\nblock one 4 x 4 finished 4in {\n  section { 1 a at c }\n}\n"
	for _, then := range []string{"a mistake", "a stop"} {
		ctx, stop := context.WithCancel(t.Context())
		w := &watching{call: &call{env: env{stdout: io.Discard, stderr: io.Discard, getenv: func(string) string { return "" }}}, ctx: ctx, name: "one.seam", folder: filepath.Join(t.TempDir(), "out")}
		save := func(text string) {
			src := &problem.Source{Name: "one.seam", Text: text}
			w.made = built{texts: []*problem.Source{src}}
			w.made.pattern, w.made.problems = compiler.Compile(src, newLoader())
			w.made.make()
			w.build()
		}
		booklet := func() bool {
			_, err := os.Stat(filepath.Join(w.folder, "one", "4in", "booklet.pdf"))
			return err == nil
		}
		if save(good); booklet() {
			t.Error("the booklet did not wait")
		}
		if then == "a mistake" {
			save(good + "block")
		}
		stop()
		if w.rest(); !booklet() {
			t.Errorf("after %s no booklet followed", then)
		}
		w.kept.Close()
	}
}
