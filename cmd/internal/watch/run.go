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
	// settled is how long nothing may happen before what a file holds is made ahead: most
	// saves are one step, and then it is done when the wait is over.
	settled = 2 * time.Millisecond
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

// A Work is what is done whenever a file holds something else.
type Work struct {
	Make func(Before) // reads the files and makes what is to be made, in memory
	Peek func()       // does, if it is not nil, what can be undone with what was made of a save that may not be complete
	Show func()       // shows and writes what was made last
	Rest func()       // does, if it is not nil, what takes longer
}

// Run calls Make and Show, and calls them again whenever a file holds something
// else than it did before it was read, until the context ends. Make is called ahead, and
// Peek after it, while it is waited for a save to be complete; what was made then may
// never come to Show.
// Rest is called after Show when nothing has happened for a while, and at the end
// where that had not come. Between builds Run sleeps. The error says that the system
// can't watch folders.
func Run(ctx context.Context, work Work) error {
	notify, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	defer notify.Close()
	w := &watcher{notify: notify, folders: folders{}}
	for ctx.Err() == nil {
		w.make(work)
		work.Show()
		w.arm()
		w.wait(ctx, work)
	}
	if work.Rest != nil {
		work.Rest()
	}
	return nil
}

func (w *watcher) make(work Work) {
	w.begin()
	work.Make(w.before)
}

// wait returns when a file has changed and was not made ahead, or the context has
// ended. It looks once at the beginning: a file may have changed after it was read
// and before its folder was watched.
func (w *watcher) wait(ctx context.Context, work Work) {
	look, idle, early := time.NewTimer(0), time.NewTimer(pause), time.NewTimer(pause)
	early.Stop()
	defer look.Stop()
	defer idle.Stop()
	defer early.Stop()
	rest := work.Rest
	var first time.Time // of the events that were not yet looked into
	doubted, tried, ahead := false, false, false
	soon := func() {
		if first.IsZero() {
			first, tried = time.Now(), false
		}
		doubted = false
		idle.Reset(pause)
		look.Reset(min(quiet, time.Until(first.Add(longest))))
		if !tried {
			early.Reset(settled)
		}
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
		case <-early.C:
			if tried = true; w.changed() == surely {
				w.make(work)
				if ahead = true; work.Peek != nil {
					work.Peek()
				}
				w.arm()
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
			case ahead:
				work.Show()
				ahead, rest = false, work.Rest
				idle.Reset(pause)
			}
		}
	}
}
