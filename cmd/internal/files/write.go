package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

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
}

// A Written is what [Write] did.
type Written struct {
	New, Changed, Same, Removed int
}

// Write makes a folder hold a set of outputs, all or none. Everything is first
// written beside, inside the folder itself and so on the same disk; only then
// are the files renamed into place, and if one of those renamings fails the
// others are undone. Files that would not change are left alone.
//
// Where whole is true the outputs are the complete set, and files of an earlier
// call that are no longer among them are removed. No other file is removed or
// replaced: one that is in the way and was not written by an earlier call is an
// error.
//
// Stop is asked between files; where it is true, nothing changes and the error
// is [ErrStopped]. Nothing is flushed to the disk itself: after a power cut, build
// again.
func Write(folder string, outputs []Output, whole bool, stop func() bool) (Written, *problem.Problem) {
	w := writer{folder: folder, stop: stop}
	err := w.open()
	if err == nil {
		err = w.write(outputs, whole)
	}
	w.close(err != nil)
	if err != nil {
		return Written{}, unwritable(w.at(), err, w.fresh)
	}
	return w.done, nil
}

// ErrStopped says that a person stopped the writing.
var ErrStopped = errors.New("stopped")

// errForeign says that a file of somebody else's is in the way.
var errForeign = errors.New("was there before and was not written by seamwright")

type writer struct {
	folder string
	stop   func() bool
	root   *os.Root
	fresh  bool   // the folder was made by this call
	stage  string // a folder in root, "" until it is needed
	name   string // of the file at work, for the message
	made   []string
	done   Written
	undo   []func() error
}

func (w *writer) at() string { return filepath.Join(w.folder, filepath.FromSlash(w.name)) }

func (w *writer) open() error {
	if err := os.MkdirAll(filepath.Dir(w.folder), 0o777); err != nil {
		return err
	}
	err := os.Mkdir(w.folder, 0o777)
	w.fresh = err == nil
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	w.root, err = os.OpenRoot(w.folder)
	return err
}

// close removes what was not put into place, and after a failure the folders
// that were made for it.
func (w *writer) close(failed bool) {
	if w.root == nil {
		return
	}
	if w.stage != "" {
		w.root.RemoveAll(w.stage)
	}
	if failed {
		for i := len(w.made) - 1; i >= 0; i-- {
			w.root.Remove(w.made[i])
		}
	}
	w.root.Close()
	if failed && w.fresh {
		os.Remove(w.folder)
	}
}

func (w *writer) write(outputs []Output, whole bool) error {
	ours, err := w.listed()
	if err != nil {
		return err
	}
	var changed []Output
	for _, o := range outputs {
		w.name = o.Path
		if !fs.ValidPath(o.Path) {
			return fmt.Errorf("%w: not a path inside the folder", fs.ErrInvalid)
		}
		same, err := w.same(o, ours[o.Path])
		if err != nil {
			return err
		}
		if same {
			w.done.Same++
		} else {
			changed = append(changed, o)
		}
	}
	list, stale := list(outputs, ours, whole)
	w.name = Listing
	same, err := w.same(list, true)
	if err != nil {
		return err
	}
	if !same {
		changed = append(changed, list)
	}
	if err := w.stageAll(changed); err != nil {
		return err
	}
	if err := w.place(changed, stale); err != nil {
		for i := len(w.undo) - 1; i >= 0; i-- {
			w.undo[i]() // each is the reverse of what just worked; there is nothing better to try
		}
		return err
	}
	return nil
}
