package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"strings"
	"time"

	"seamwright/cmd/internal/files"
	"seamwright/emit"
	"seamwright/lang/problem"
)

// A finished is one pattern of many: made and written, or found to be as before.
type finished struct {
	*product
	before  bool // all of it was there already
	last    files.Record
	written files.Written
	fault   *problem.Problem // in writing
}

// buildMany builds patterns on all processors, and tells of them in order, in a
// line each. A pattern whose results are there already is passed over.
func (c *call) buildMany(r *reporter, names, folders []string, o emit.Options) {
	debug.SetGCPercent(heapGrowth)
	interrupted, end := onInterrupt(false)
	defer end()
	m := &catalogue{call: c, asked: c.asked(o, r.strict), options: o, strict: r.strict, interrupted: interrupted, text: len(names) * usualText}
	t := total{call: c, progress: progress{w: c.stderr, of: len(names), on: terminal(c.stderr) && c.getenv("TERM") != "dumb"}}
	inOrder(len(names), func(i int) *finished { return m.finish(names[i], folders[i]) }, func(_ int, f *finished) { t.tell(r, f) })
	t.end()
	if interrupted() {
		r.worst(stopped)
	}
}

// A catalogue is what the builds of many patterns have in common.
type catalogue struct {
	*call
	asked       string
	options     emit.Options
	strict      bool
	interrupted func() bool
	text        int // how long all texts usually are, in bytes
	rooms       files.Rooms
}

// finish makes and writes one pattern.
func (m *catalogue) finish(name, folder string) *finished {
	f := &finished{product: &product{name: name, folder: folder}}
	if m.interrupted() {
		return f
	}
	room := m.rooms.Take()
	last, ok := asBefore(m.asked, name, folder, room)
	m.rooms.Back(room)
	if ok {
		f.before, f.last = true, last
		return f
	}
	m.memory.tune(m.text) // not before: most catalogues are passed over
	f.product = m.make(name, folder, m.asked, m.options, m.strict)
	if f.outputs != nil {
		f.written, f.fault = files.Write(folder, f.files(), whole(m.options), 1, m.interrupted, f.record)
		f.outputs = nil // thousands of patterns do not fit into memory
	}
	return f
}

// A total counts what came of many patterns.
type total struct {
	*call
	progress                     progress
	built, before, failed, empty int
	warnings, notes              int // of those that are as before
}

func (t *total) tell(r *reporter, f *finished) {
	t.progress.step()
	if f.before {
		t.before++
		t.warnings, t.notes = t.warnings+f.last.Warnings, t.notes+f.last.Notes
		r.made = append(r.made, made{f.folder, f.last.Sources})
		return
	}
	t.progress.clear()
	r.tell(f.problems)
	switch {
	case f.stopped:
		t.failed++
		t.kept(f.folder)
	case f.misuse != "":
		t.failed++
		fmt.Fprintf(t.stderr, "seamwright: %s: %s\n", f.name, f.misuse)
		r.worst(misuse)
	case f.fault != nil:
		t.failed++
		r.tell([]problem.Problem{*f.fault})
		r.worst(misuse)
	case f.pattern == nil: // stopped before it began
	case t.call.empty(f.product, t.args):
		t.empty++
	default:
		t.built++
		r.made = append(r.made, made{f.folder, f.record.Sources})
		fmt.Fprintf(t.stdout, "%s: %s in %s\n", f.name, did(f.written), f.folder)
	}
}

// end says what came of all.
func (t *total) end() {
	t.progress.clear()
	var parts []string
	for _, part := range []struct {
		n    int
		what string
	}{{t.built, "built"}, {t.before, "as before"}, {t.failed, "not built"}, {t.empty, "without a block"}} {
		if part.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", part.n, part.what))
		}
	}
	fmt.Fprintf(t.stdout, "%s: %s\n", count(t.built+t.before+t.failed+t.empty, "pattern"), strings.Join(parts, ", "))
	if t.warnings+t.notes > 0 {
		fmt.Fprintf(t.stdout, "Those as before have %s and %s; `seamwright check` tells them.\n", count(t.warnings, "warning"), count(t.notes, "note"))
	}
}

// A progress shows on a terminal how far a long run is.
type progress struct {
	w     io.Writer
	on    bool
	at    int
	of    int
	shown time.Time
}

// progressStep is how often the line is written anew: steady to the eye, and far
// from slowing anything.
const progressStep = 100 * time.Millisecond

func (p *progress) step() {
	p.at++
	if now := time.Now(); p.on && now.Sub(p.shown) >= progressStep {
		const width = 30
		full := width * p.at / p.of
		fmt.Fprintf(p.w, "\r%s%s %d of %d patterns\x1b[K", strings.Repeat("=", full), strings.Repeat("-", width-full), p.at, p.of)
		p.shown = now
	}
}

func (p *progress) clear() {
	if p.on && !p.shown.IsZero() {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = time.Time{}
	}
}
