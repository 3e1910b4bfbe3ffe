package watch

import (
	"context"
	"time"

	"github.com/fsnotify/fsnotify"
)

const (
	// quiet is how long nothing may happen before a file is looked at: editors
	// save in several steps, which follow each other within a few milliseconds.
	quiet = 20 * time.Millisecond
	// longest is how long such steps are waited for; a program that writes
	// without a pause would be waited for forever.
	longest = 250 * time.Millisecond
	// doubt is how long a file must have been gone or empty to be believed to
	// be: many editors empty a file, or move it away, before they write it.
	doubt = 200 * time.Millisecond
	// pause is how long a person must not have saved for what takes longer to be
	// made: long enough that a few saves in a row don't wait for it, and no longer
	// than it takes to turn to another window.
	pause = 300 * time.Millisecond
)

// A Before is told of every file that a build is about to read, also of one
// that may not be there. It is not safe for concurrent use.
type Before func(name string)

// Run calls build, and calls it again whenever a file holds something else than
// it did before it was read, until the context ends. It calls rest, if there is
// one, after a build when nothing has happened for a while, and at the end where
// that had not come. Between builds it sleeps. The error says that the system
// can't watch folders.
func Run(ctx context.Context, build func(Before), rest func()) error {
	notify, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer notify.Close()
	w := &watcher{notify: notify, folders: folders{}}
	for ctx.Err() == nil {
		w.begin()
		build(w.before)
		w.arm()
		w.wait(ctx, rest)
	}
	if rest != nil {
		rest()
	}
	return nil
}

// wait returns when a file has changed or the context has ended. It looks once
// at the beginning: a file may have changed after it was read and before its
// folder was watched.
func (w *watcher) wait(ctx context.Context, rest func()) {
	look, idle := time.NewTimer(0), time.NewTimer(pause)
	defer look.Stop()
	defer idle.Stop()
	var first time.Time // of the events that were not yet looked into
	doubted := false
	soon := func() {
		if first.IsZero() {
			first = time.Now()
		}
		doubted = false
		idle.Reset(pause)
		look.Reset(min(quiet, time.Until(first.Add(longest))))
	}
	for {
		select {
		case <-ctx.Done():
			return
		case e := <-w.notify.Events:
			if w.concerns(e) {
				soon()
			}
		case <-w.notify.Errors: // events were lost, so anything may have happened
			soon()
		case <-idle.C:
			if rest != nil {
				rest()
				rest = nil
			}
		case <-look.C:
			first = time.Time{}
			w.arm()
			switch changed := w.changed(); {
			case changed == surely, changed == perhaps && doubted:
				return
			case changed == perhaps:
				doubted = true
				look.Reset(doubt)
			}
		}
	}
}
