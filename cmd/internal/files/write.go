package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strings"
	"syscall"
	"time"

	"seamwright/lang/problem"
)

// OutSuffix is how the name of a folder of results ends unless --out says
// otherwise.
const OutSuffix = "-out"

// Listing is the file in a folder of results that lists what is ours in it.
const Listing = ".seamwright-files"

const (
	stagePrefix = ".seamwright-new-" // a folder of files that are being written
	// maxStages is how many builds may write into one folder at a time; more are
	// a mistake that is better told than joined.
	maxStages   = 16
	listingHead = "# Written by seamwright, which replaces and removes these files and no others.\n"
)

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
	var stale []string
	listed := make([]string, 0, len(outputs)+len(ours))
	now := make(map[string]bool, len(outputs))
	for _, o := range outputs {
		now[o.Path] = true
		listed = append(listed, o.Path)
	}
	for name := range ours {
		if now[name] {
			continue
		}
		if whole {
			stale = append(stale, name)
		} else {
			listed = append(listed, name)
		}
	}
	sort.Strings(listed)
	sort.Strings(stale)
	if list := (Output{Listing, []byte(listingHead + strings.Join(listed, "\n") + "\n")}); len(changed) > 0 || len(stale) > 0 {
		if same, err := w.same(list, true); err != nil {
			return err
		} else if !same {
			changed = append(changed, list)
		}
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

// listed reads the names that earlier calls have written.
func (w *writer) listed() (map[string]bool, error) {
	ours := map[string]bool{}
	if w.fresh {
		return ours, nil
	}
	w.name = Listing
	f, err := w.root.Open(Listing)
	if errors.Is(err, fs.ErrNotExist) {
		return ours, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := readAll(f, 0)
	if err != nil {
		return nil, err
	}
	for _, line := range strings.Split(string(data), "\n") {
		if line != "" && line[0] != '#' && fs.ValidPath(line) {
			ours[line] = true
		}
	}
	return ours, nil
}

// same reports whether a file already holds an output's bytes.
func (w *writer) same(o Output, ours bool) (bool, error) {
	if w.fresh {
		return false, nil
	}
	info, err := w.root.Lstat(filepath.FromSlash(o.Path))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	if info.Mode().IsRegular() && info.Size() == int64(len(o.Data)) {
		f, err := w.root.Open(filepath.FromSlash(o.Path))
		if err != nil {
			return false, err
		}
		defer f.Close()
		old, err := io.ReadAll(io.LimitReader(f, info.Size()+1))
		if err != nil {
			return false, err
		}
		if bytes.Equal(old, o.Data) {
			return true, nil
		}
	}
	if !ours || !info.Mode().IsRegular() {
		return false, errForeign
	}
	return false, nil
}

// stageAll writes files beside, each under its number.
func (w *writer) stageAll(files []Output) error {
	if len(files) == 0 {
		return nil
	}
	if err := w.newStage(); err != nil {
		return err
	}
	for i, o := range files {
		w.name = o.Path
		if w.stop() {
			return ErrStopped
		}
		f, err := w.root.OpenFile(w.new(i), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		_, err = f.Write(o.Data)
		if later := f.Close(); err == nil {
			err = later
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// newStage makes the folder to write in. One that is there already belongs to
// another build at work, or was left by one that was killed: an hour later it
// can only be the latter.
func (w *writer) newStage() error {
	for n := 0; ; n++ {
		name := stagePrefix + fmt.Sprint(n)
		if info, err := w.root.Lstat(name); err == nil && time.Since(info.ModTime()) > time.Hour {
			w.root.RemoveAll(name)
		}
		err := w.root.Mkdir(name, 0o777)
		if err == nil {
			w.stage = name
			return nil
		}
		if !errors.Is(err, fs.ErrExist) || n == maxStages {
			return err
		}
	}
}

func (w *writer) new(i int) string { return path.Join(w.stage, fmt.Sprint(i)) }
func (w *writer) old(i int) string { return path.Join(w.stage, fmt.Sprint("old-", i)) }

// place renames what was staged into place and removes what is stale,
// remembering how each step is undone.
func (w *writer) place(files []Output, stale []string) error {
	for i, o := range files {
		w.name = o.Path
		if err := w.folders(path.Dir(o.Path)); err != nil {
			return err
		}
		replaced := false
		if !w.fresh {
			var err error
			if replaced, err = w.keep(o.Path, i); err != nil {
				return err
			}
		}
		if err := w.root.Rename(w.new(i), o.Path); err != nil {
			return err
		}
		switch {
		case replaced:
			w.undo = append(w.undo, func() error { return w.root.Rename(w.old(i), o.Path) })
		default:
			w.undo = append(w.undo, func() error { return w.root.Remove(o.Path) })
		}
		switch {
		case o.Path == Listing:
		case replaced:
			w.done.Changed++
		default:
			w.done.New++
		}
	}
	for i, name := range stale {
		w.name = name
		i += len(files)
		info, err := w.root.Lstat(name)
		if err != nil || !info.Mode().IsRegular() {
			continue // gone already, or no longer ours
		}
		if err := w.root.Rename(name, w.old(i)); err != nil {
			return err
		}
		w.undo = append(w.undo, func() error { return w.root.Rename(w.old(i), name) })
		w.done.Removed++
	}
	for _, name := range stale { // nothing can fail any more: tidy up
		for up := path.Dir(name); up != "." && w.root.Remove(up) == nil; up = path.Dir(up) {
			// a folder goes only if it is empty
		}
	}
	return nil
}

// keep gives the file that is about to be replaced a second name. The first
// stays, so that there is no moment without the file.
func (w *writer) keep(name string, i int) (bool, error) {
	err := w.root.Link(name, w.old(i))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil { // disks without links: FAT, some network drives
		err = w.root.Rename(name, w.old(i))
	}
	return err == nil, err
}

// folders makes a folder and those above it.
func (w *writer) folders(dir string) error {
	if dir == "." {
		return nil
	}
	if _, err := w.root.Lstat(dir); err == nil {
		return nil
	}
	if err := w.folders(path.Dir(dir)); err != nil {
		return err
	}
	if err := w.root.Mkdir(dir, 0o777); err != nil {
		return err
	}
	w.made = append(w.made, dir)
	return nil
}

// unwritable words a failed writing.
func unwritable(at string, err error, fresh bool) *problem.Problem {
	kept := "what was there before is untouched"
	if fresh {
		kept = "nothing was written"
	}
	message, help := "this can't be written: "+reason(err), ""
	switch {
	case errors.Is(err, ErrStopped):
		message = "stopped before anything was put into place"
	case errors.Is(err, errForeign):
		message = "this file " + errForeign.Error() + ", so it is not replaced"
		help = "move it away, or choose another folder with --out"
	case errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT):
		message, help = "the disk is full", "make room, or choose a folder on another disk with --out"
	case errors.Is(err, syscall.EROFS):
		message, help = "this disk can only be read", "choose another folder with --out"
	case errors.Is(err, fs.ErrPermission):
		message, help = "you have no permission to write here", "choose another folder with --out"
	case errors.Is(err, syscall.ENOTDIR) || errors.Is(err, fs.ErrExist):
		message, help = "there is a file where a folder is needed", "move it away, or choose another folder with --out"
	}
	return fault(Unwritable, at, message+"; "+kept, help)
}

// IsOut reports whether a folder holds results of an earlier call.
func IsOut(folder string) bool {
	info, err := os.Lstat(filepath.Join(folder, Listing))
	return err == nil && info.Mode().IsRegular()
}
