package files

import (
	"fmt"
	"io/fs"
	"runtime/debug"
	"sync"

	"seamwright/compiler/parallel"
)

// A round is the work on some outputs by several workers at once, in order but
// for what is done side by side.
type round struct {
	*writer
	outputs []Output
	mu      sync.Mutex
	next    int    // the output to be worked on next
	failed  int    // the first output that failed, if err is set
	err     error  // its error: no further output is begun
	panic   string // what broke in the making of an output
}

// each calls do with every output and its bytes, on several processors. The first
// error ends it, and w.name is then the output that it is about. A panic in the
// making of an output becomes one here, where the caller can meet it.
func (w *writer) each(outputs []Output, do func(i int, data []byte, d *desk) error) error {
	r := &round{writer: w, outputs: outputs}
	work := func() {
		defer r.broken()
		d := &desk{}
		for i, ok := r.begin(); ok; i, ok = r.begin() {
			r.end(i, outputs[i].give(func(data []byte) error { return do(i, data, d) }))
		}
	}
	var wait sync.WaitGroup
	for range min(w.workers, len(outputs)) - 1 {
		wait.Go(func() {
			parallel.GrowStack(w.workers)
			work()
		})
	}
	work()
	wait.Wait()
	if r.panic != "" {
		panic(r.panic)
	}
	if r.err != nil {
		w.name = outputs[r.failed].Path
	}
	return r.err
}

// A desk is what one worker has beside it.
type desk struct {
	old []byte // of a file that is compared
}

// begin takes the next output, if there is one and nothing has failed.
func (r *round) begin() (int, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	i := r.next
	if r.err != nil || r.panic != "" || i == len(r.outputs) {
		return 0, false
	}
	r.next++
	switch {
	case r.stop():
		r.failed, r.err = i, ErrStopped
	case !fs.ValidPath(r.outputs[i].Path):
		r.failed, r.err = i, errOutside
	default:
		return i, true
	}
	return 0, false
}

func (r *round) end(i int, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if err != nil && (r.err == nil || i < r.failed) {
		r.failed, r.err = i, err
	}
}

func (r *round) broken() {
	if told := recover(); told != nil {
		r.mu.Lock()
		defer r.mu.Unlock()
		r.panic = fmt.Sprintf("%v\n%s", told, debug.Stack())
	}
}
