package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
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
	debug.SetGCPercent(heapRoom)
	defer w.kept.Close()
	if err := watch.Run(ctx, watch.Work{Make: w.make, Peek: w.ahead, Show: w.build, Rest: w.rest}); err != nil {
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
	kept   files.Kept // what was written
	store  pdf.Store

	made      built          // what was made last, shown or not
	peeked    bool           // it was shown before the save was known to be complete
	waiting   *built         // the last build, while what follows later is to be made
	behind    *built         // the last build that was written, while PDF files and the report are still older
	toldLater map[string]int // the problems that only it brought to light
}

// A built is what one build made. The pattern is nil where the text has an error;
// outputs are nil where there is any, but where a released edition holds them back.
type built struct {
	pattern  *pattern.Pattern
	outputs  []files.Output
	data     []byte // pattern.json as the page draws it: without the cloth of quilts
	problems []problem.Problem
	held     bool              // by a released edition: it is shown and not written
	texts    []*problem.Source // the pattern first; none where it can't be read
	took     time.Duration
}

// atOnce are the kinds of files that are made at every save. PDF files, and the
// report, which holds all of them once more, are made in rest; so is what tells of
// the cloth of quilts, since looking for a good plan takes longer than all the rest.
func atOnce() emit.Options {
	return emit.Options{Only: []string{"json", "sheets", "diagrams", "tables"}, Forms: []string{"svg"}, Soon: true}
}

func later(p *pattern.Pattern) emit.Options {
	o := emit.Options{Only: []string{"sheets", "booklet", "pads", "report"}, Forms: []string{"pdf"}}
	if lays(p) {
		o.Only = append(o.Only, "json", "tables")
	}
	return o
}

// lays reports whether a quilt is laid out.
func lays(p *pattern.Pattern) bool {
	return slices.ContainsFunc(p.Quilts, func(q pattern.Quilt) bool { return q.Layout != nil })
}

// heapRoom lets the heap grow so many times, in percent, before garbage is
// collected. It is collected whenever nothing else is to be done, so that it seldom
// has to be between a save and its last file.
const heapRoom = 400

// make compiles, and makes the files that are made at once, in memory. It changes
// nothing that anybody sees: it may be done while a save is not yet complete.
func (w *watching) make(before watch.Before) {
	begun := time.Now()
	w.kept.Drop()
	w.made = w.compile(before)
	w.made.make()
	w.made.took = time.Since(begun)
	w.peeked = false
}

// ahead does what can be done with what was made while a save may not be complete. The
// files are written beside those that they will replace: renaming them is all that is
// left when the wait is over.
func (w *watching) ahead() {
	w.peek()
	begun := time.Now()
	if w.made.outputs != nil && !w.made.held {
		w.kept.Stage(w.folder, w.made.outputs)
	}
	w.made.took += time.Since(begun)
}

// peek shows what was made while a save may not be complete, on the page alone and
// only if it is good: in most cases it is complete. What is only the beginning of what
// there was is left until the wait is over.
func (w *watching) peek() {
	b := &w.made
	if w.server == nil || b.outputs == nil || problem.Failed(b.problems) {
		return
	}
	for i, src := range b.texts {
		if i < len(w.shown.Sources) {
			if was := w.shown.Sources[i].Text; len(src.Text) < len(was) && strings.HasPrefix(was, src.Text) {
				return
			}
		}
	}
	w.show(b)
	w.peeked = true
}

// build shows and writes what was made, and tells what is new. The page comes first:
// a person looks at it while they save, and at the files later.
func (w *watching) build() {
	begun, b := time.Now(), w.made
	if w.server != nil && !w.peeked {
		w.show(&b)
	}
	var wrote files.Written
	if b.outputs != nil && !b.held {
		var fault *problem.Problem
		if wrote, fault = w.kept.Write(w.folder, b.outputs, false, func() bool { return w.ctx.Err() != nil }); fault != nil {
			b.problems = append(b.problems, *fault)
		} else {
			w.behind = &b // also where a text with an error is saved, or Ctrl-C comes, before they follow
		}
	}
	if w.ctx.Err() != nil {
		return
	}
	w.waiting = &b
	w.say(&b, wrote, b.took+time.Since(begun))
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
	if b.pattern != nil && len(b.pattern.Blocks) > 0 {
		before(editionsOf(w.name))
		sold := held(w.name, b.pattern)
		b.held = problem.Failed(sold)
		b.problems = append(b.problems, sold...)
	}
	return b
}

// make makes the files that are made at once.
func (b *built) make() {
	if b.pattern == nil || len(b.pattern.Blocks) == 0 {
		return
	}
	outputs, ps := emit.Build(b.pattern, atOnce())
	b.problems = append(b.problems, ps...)
	if problem.Failed(ps) {
		return
	}
	b.outputs = make([]files.Output, 0, len(outputs))
	for _, o := range outputs {
		if o.Path == "pattern.json" {
			if b.data = o.Data; lays(b.pattern) {
				continue // it is written when it is whole
			}
		}
		b.outputs = append(b.outputs, files.Output{Path: o.Path, Data: o.Data})
	}
}

// rest makes what was left of the last build, and removes what is no longer made.
// It is done when nobody has saved for a while, and at the end: a folder is never
// left with PDF files that are older than the rest of it.
func (w *watching) rest() {
	b, behind := w.waiting, w.behind
	w.waiting, w.behind = nil, nil
	defer runtime.GC()
	if behind != nil {
		w.follow(behind, behind == b)
	}
	if w.server == nil || b == nil || b.outputs == nil {
		return
	}
	w.server.Layers(layers(b.pattern))
	if fits := fitting(b.pattern); !slices.EqualFunc(fits, w.fits, sameFit) {
		w.fits = fits
		w.server.Fits(fits)
	}
}

// follow makes the files that follow. The page is told of them where it shows that build.
func (w *watching) follow(b *built, shown bool) {
	begun := time.Now()
	o := later(b.pattern)
	o.Store = &w.store
	made, ps := emit.Build(b.pattern, o)
	all := slices.Clone(b.outputs)
	for i := range made {
		f := files.Output{Path: made[i].Path, Data: made[i].Data}
		if at := slices.IndexFunc(b.outputs, func(o files.Output) bool { return o.Path == f.Path }); at >= 0 {
			all[at] = f // a table of a block, made again beside those of its quilt
		} else {
			all = append(all, f)
		}
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
	wrote, fault := w.kept.Write(w.folder, all, true, func() bool { return false })
	if fault != nil {
		fresh = append(fresh, *fault)
	}
	render.Text(w.stderr, fresh, render.Style{Colour: w.colour()})
	if fault == nil {
		fmt.Fprintf(w.stdout, "%s: PDF and report made in %.1f ms; %s, %d written\n", w.name, float64(time.Since(begun).Microseconds())/1000,
			count(len(made), "file"), wrote.New+wrote.Changed)
	}
	if w.server != nil && shown {
		w.server.Ready(all)
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
	case b.held:
		fmt.Fprintf(w.stdout, "%s: %s; edition %d is released as it was, so nothing was written\n", w.name, count(errors, "error"), b.pattern.About.Edition)
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
