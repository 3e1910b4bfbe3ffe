package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"syscall"
	"time"

	"seamwright/cmd/internal/files"
	"seamwright/cmd/internal/live"
	"seamwright/cmd/internal/render"
	"seamwright/cmd/internal/watch"
	"seamwright/compiler"
	"seamwright/compiler/pattern"
	"seamwright/emit"
	"seamwright/emit/pdf"
	"seamwright/lang/problem"
)

// watchFile builds a pattern whenever it is saved.
func watchFile(c *call) int {
	f := c.flagSet()
	out := f.String("out", "", "the `folder` to write into, instead of NAME-out/ beside the pattern")
	open := f.Bool("open", false, "open the live page in the browser")
	port := f.Int("port", 0, fmt.Sprintf("the `number` of the live page's port; unless said %d, or any that is free", live.Port))
	noPage := f.Bool("no-page", false, "serve no live page")
	if code, ok := c.parse(); !ok {
		return code
	}
	if *port < 0 || *port > 65535 {
		return c.misused("--port takes a number from 1 to 65535")
	}
	if *noPage && (*open || *port != 0) {
		return c.misused("--no-page leaves nothing to open")
	}
	if len(c.args) != 1 || c.args[0] == files.Stdin {
		return c.misused("watch needs the name of one pattern")
	}
	name := c.args[0]
	if _, fault := files.Read(name, nil); fault != nil && fault.Code != files.Empty {
		r := &reporter{call: c, format: "text"}
		r.tell([]problem.Problem{*fault})
		return r.end()
	}
	folders, err := outFolders(c.args, *out)
	if err != nil {
		return c.misused("%v", err)
	}
	ctx, end := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer end()
	w := &watching{call: c, ctx: ctx, name: name, folder: folders[0]}
	fmt.Fprintf(c.stdout, "Watching %s; results go to %s; Ctrl-C ends\n", name, w.folder)
	if !*noPage {
		server, err := live.Listen(*port)
		if err != nil {
			fmt.Fprintf(c.stderr, "seamwright: the live page can't be served: %v\n  choose another --port, or --no-page\n", err)
			return misuse
		}
		defer server.Close()
		go server.Serve()
		w.server = server
		fmt.Fprintf(c.stdout, "The live page: %s\n", server.Address())
		if *open {
			c.browse(server.Address())
		}
	}
	if err := watch.Run(ctx, w.build, w.rest); err != nil {
		fmt.Fprintf(c.stderr, "seamwright: this system can't watch folders: %v\n", err)
		return misuse
	}
	return good
}

// A watching is a pattern that is built again and again.
type watching struct {
	*call
	ctx          context.Context
	name, folder string
	told         map[string]int // the problems of the last build

	server *live.Server // nil without a page
	shown  live.Shown   // what the page shows now
	fits   []live.Fit
	store  pdf.Store

	waiting   *built         // the last good build, while its PDF files are to be made
	toldLater map[string]int // the problems that only they brought to light
}

// A built is what one build made. The pattern is nil where the text has an error;
// outputs are nil where there is any.
type built struct {
	pattern  *pattern.Pattern
	outputs  []files.Output
	problems []problem.Problem
	texts    []*problem.Source // the pattern first; none where it can't be read
}

// build compiles, shows, writes, and tells what is new. The page comes first: a
// person looks at it while they save, and at the files later. PDF files, which
// take most of the time, come last, in rest.
func (w *watching) build(before watch.Before) {
	begun := time.Now()
	b := w.compile(before)
	if w.server != nil {
		w.show(&b)
	}
	w.make(&b)
	var wrote files.Written
	if b.outputs != nil {
		var fault *problem.Problem
		if wrote, fault = files.Write(w.folder, b.outputs, false, func() bool { return w.ctx.Err() != nil }, files.Record{}); fault != nil {
			b.problems = append(b.problems, *fault)
		}
	}
	if w.ctx.Err() != nil {
		return
	}
	if b.outputs != nil {
		w.waiting = &b
	}
	w.say(&b, wrote, time.Since(begun))
	if w.server != nil {
		w.ready(&b)
	}
}

func (w *watching) compile(before watch.Before) (b built) {
	before(w.name)
	src, fault := files.Read(w.name, nil)
	if fault != nil {
		b.problems = []problem.Problem{*fault}
		return b
	}
	loader := newLoader()
	loader.Before = before
	defer loader.Close()
	b.pattern, b.problems = compiler.Compile(src, loader)
	b.texts = append([]*problem.Source{src}, loader.Texts()...)
	return b
}

// rest makes the PDF files of the last good build, and removes what is no longer
// made. It is done when nobody has saved for a while, and at the end: a folder is
// never left with PDF files that are older than the rest of it.
func (w *watching) rest() {
	b := w.waiting
	if b == nil {
		return
	}
	w.waiting = nil
	begun := time.Now()
	made, ps := emit.Build(b.pattern, emit.Options{Store: &w.store, Only: []string{"sheets", "booklet", "pads"}, Forms: []string{"pdf"}})
	all := slices.Clone(b.outputs)
	for _, o := range made {
		all = append(all, files.Output{Path: o.Path, Data: o.Data})
	}
	fresh, told := []problem.Problem{}, map[string]int{}
	for _, p := range ps {
		key := string(p.Code) + p.Message
		told[key]++
		if told[key] > w.toldLater[key] && !slices.ContainsFunc(b.problems, func(q problem.Problem) bool { return q.Code == p.Code && q.Message == p.Message }) {
			fresh = append(fresh, p)
		}
	}
	w.toldLater = told
	wrote, fault := files.Write(w.folder, all, true, func() bool { return false }, files.Record{})
	if fault != nil {
		fresh = append(fresh, *fault)
	}
	render.Text(w.stderr, fresh, render.Style{Colour: w.colour()})
	if fault == nil {
		fmt.Fprintf(w.stdout, "%s: PDF made in %.1f ms; %s, %d written\n", w.name, float64(time.Since(begun).Microseconds())/1000,
			count(len(made), "file"), wrote.New+wrote.Changed)
	}
	if w.server != nil {
		w.server.Ready(all)
	}
}

// make makes the outputs but for PDF files, without writing them.
func (w *watching) make(b *built) {
	if b.pattern == nil || len(b.pattern.Blocks) == 0 {
		return
	}
	outputs, ps := emit.Build(b.pattern, emit.Options{Forms: []string{"svg"}})
	b.problems = append(b.problems, ps...)
	if problem.Failed(ps) {
		return
	}
	b.outputs = make([]files.Output, len(outputs))
	for i, o := range outputs {
		b.outputs[i] = files.Output{Path: o.Path, Data: o.Data}
	}
}

// say tells the problems that the last build did not have, and in one line what
// became of this one.
func (w *watching) say(b *built, wrote files.Written, took time.Duration) {
	fresh, told := []problem.Problem{}, map[string]int{}
	for _, p := range b.problems {
		key := string(p.Code) + p.Message // not its line, which moves while one writes above it
		if p.At.Source != nil {
			key = p.At.Source.Name + ": " + key
		}
		told[key]++
		if told[key] > w.told[key] {
			fresh = append(fresh, p)
		}
	}
	w.told = told
	render.Text(w.stderr, fresh, render.Style{Colour: w.colour()})
	errors, warnings := 0, 0
	for _, p := range b.problems {
		switch p.Severity {
		case problem.Error:
			errors++
		case problem.Warning:
			warnings++
		}
	}
	switch {
	case errors > 0 && files.IsOut(w.folder):
		fmt.Fprintf(w.stdout, "%s: %s; %s still holds what the last good build made\n", w.name, count(errors, "error"), w.folder)
	case errors > 0:
		fmt.Fprintf(w.stdout, "%s: %s; nothing was written\n", w.name, count(errors, "error"))
	case b.outputs == nil:
		fmt.Fprintf(w.stdout, "%s: good, but it has no block, so there is nothing to print from it\n", w.name)
	default:
		also := ""
		if warnings > 0 {
			also = ", " + count(warnings, "warning")
		}
		fmt.Fprintf(w.stdout, "%s: built in %.1f ms; %s, %d written%s\n", w.name, float64(took.Microseconds())/1000,
			count(len(b.outputs), "file"), wrote.New+wrote.Changed, also)
	}
}
