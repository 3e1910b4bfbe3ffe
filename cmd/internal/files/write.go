package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"seamwright/lang/problem"
)

// OutSuffix is how the name of a folder of results ends unless --out says
// otherwise.
const OutSuffix = "-out"

// An Output is one file to be written: a path relative to the folder, with
// forward slashes, and its bytes.
type Output struct {
	Path string
	Data []byte
	Give func(put func(data []byte) error) error // instead of Data: calls put with the bytes, which are put's until it returns
}

func (o *Output) give(put func([]byte) error) error {
	if o.Give != nil {
		return o.Give(put)
	}
	return put(o.Data)
}

// A Written is what [Write] did.
type Written struct {
	New, Changed, Same, Removed int
}

// Write makes a folder hold a set of outputs, all or none. A folder that is not
// there yet is made under another name and renamed when it is complete. In one
// that is, everything is first written beside, inside the folder itself and so on
// the same disk; only then are the files renamed into place, and if one of those
// renamings fails the others are undone. Files that would not change are left
// alone.
//
// Where whole is true the outputs are the complete set, and files of an earlier
// call that are no longer among them are removed. No other file is removed or
// replaced: one that is in the way and was not written by an earlier call is an
// error.
//
// Files are made and written by so many workers at once, one or more. Stop is asked
// between files, never twice at a time; where it is true, nothing changes and the error
// is [ErrStopped]. Nothing is flushed to the disk itself: after a power cut, build
// again.
//
// The record is kept in the folder; [Last] finds it again.
func Write(folder string, outputs []Output, whole bool, workers int, stop func() bool, record Record) (Written, *problem.Problem) {
	w := writer{folder: folder, workers: workers, stop: stop, record: record}
	_, err := os.Lstat(folder)
	fresh := errors.Is(err, fs.ErrNotExist)
	if fresh {
		err = w.writeFresh(outputs)
	} else if w.root, err = os.OpenRoot(folder); err == nil {
		err = w.writeInto(outputs, whole)
	}
	if err != nil {
		return Written{}, unwritable(w.at(), err, fresh)
	}
	return w.done, nil
}

// ErrStopped says that a person stopped the writing.
var ErrStopped = errors.New("stopped")

// errForeign says that a file of somebody else's is in the way.
var errForeign = errors.New("was there before and was not written by seamwright")

// errOutside says that an output's path is not one inside the folder.
var errOutside = errors.New("not a path inside the folder")

type writer struct {
	folder  string
	workers int
	stop    func() bool
	record  Record
	name    string // of the file at work, for the message
	done    Written
	// in a folder that is there already
	root  *os.Root
	mu    sync.Mutex // of stage
	stage string     // a folder in root, "" until it is needed
	made  []string
	undo  []func() error
}

func (w *writer) at() string { return filepath.Join(w.folder, filepath.FromSlash(w.name)) }

// close removes what was not put into place, and after a failure the folders
// that were made for it.
func (w *writer) close(failed bool) {
	if w.stage != "" {
		w.root.RemoveAll(w.stage)
	}
	if failed {
		for i := len(w.made) - 1; i >= 0; i-- {
			w.root.Remove(w.made[i])
		}
	}
	w.root.Close()
}

func (w *writer) writeInto(outputs []Output, whole bool) error {
	failed := true // too where the making of an output panics
	defer func() { w.close(failed) }()
	err := w.write(outputs, whole)
	failed = err != nil
	return err
}

func (w *writer) write(outputs []Output, whole bool) error {
	ours, err := w.listed()
	if err != nil {
		return err
	}
	changed, err := w.stageChanged(outputs, ours)
	if err != nil {
		return err
	}
	w.done.Same = len(outputs) - len(changed)
	list, stale := list(outputs, ours, whole, w.record)
	w.name = Listing
	if w.stop() {
		return ErrStopped
	}
	same, err := w.same(Listing, list.Data, true, &desk{})
	if err != nil {
		return err
	}
	if !same || len(changed) > 0 { // the listing is newer than all that it lists
		if err := w.stageOne(len(outputs), list.Data); err != nil {
			return err
		}
		changed = append(changed, change{Listing, len(outputs)})
	}
	if err := w.place(changed, stale, len(outputs)+1); err != nil {
		for i := len(w.undo) - 1; i >= 0; i-- {
			w.undo[i]() // each is the reverse of what just worked; there is nothing better to try
		}
		return err
	}
	return nil
}
