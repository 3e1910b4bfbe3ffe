package files

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"strconv"
	"time"
)

const (
	// stagePrefix begins the name of a folder of files that are being written.
	stagePrefix = ".seamwright-new-"
	// maxStages is how many builds may write into one folder at a time; more are
	// a mistake that is better told than joined.
	maxStages = 16
)

// stageAll writes files beside, each under its number.
func (w *writer) stageAll(files []Output) error {
	if len(files) == 0 {
		return nil
	}
	var err error
	if w.stage, err = newStage(w.root); err != nil {
		return err
	}
	for i, o := range files {
		w.name = o.Path
		if w.stop() {
			return ErrStopped
		}
		f, err := w.root.OpenFile(w.staged(i), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		if err := fill(f, o.Data); err != nil {
			return err
		}
	}
	return nil
}

// newStage makes a folder to write in. One that is there already belongs to
// another build at work, or was left by one that was killed: an hour later it
// can only be the latter.
func newStage(in *os.Root) (string, error) {
	for n := 0; ; n++ {
		name := stagePrefix + strconv.Itoa(n)
		err := in.Mkdir(name, 0o777)
		if errors.Is(err, fs.ErrExist) {
			if info, e := in.Lstat(name); e == nil && time.Since(info.ModTime()) > time.Hour {
				in.RemoveAll(name)
				err = in.Mkdir(name, 0o777)
			}
		}
		if err == nil {
			return name, nil
		}
		if !errors.Is(err, fs.ErrExist) || n == maxStages {
			return "", err
		}
	}
}

func (w *writer) staged(i int) string   { return path.Join(w.stage, strconv.Itoa(i)) }
func (w *writer) replaced(i int) string { return path.Join(w.stage, "old-"+strconv.Itoa(i)) }

// place renames what was staged into place and removes what is stale,
// remembering how each step is undone.
func (w *writer) place(files []Output, stale []string) error {
	for i, o := range files {
		w.name = o.Path
		if err := w.folders(path.Dir(o.Path)); err != nil {
			return err
		}
		replaced, err := w.keep(o.Path, i)
		if err != nil {
			return err
		}
		if err := w.root.Rename(w.staged(i), o.Path); err != nil {
			return err
		}
		switch {
		case replaced:
			w.undo = append(w.undo, func() error { return w.root.Rename(w.replaced(i), o.Path) })
		default:
			w.undo = append(w.undo, func() error { return w.root.Remove(o.Path) })
		}
		switch {
		case o.Path == Listing: // not one of the outputs
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
		if err := w.root.Rename(name, w.replaced(i)); err != nil {
			return err
		}
		w.undo = append(w.undo, func() error { return w.root.Rename(w.replaced(i), name) })
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
	err := w.root.Link(name, w.replaced(i))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil { // disks without links: FAT, some network drives
		err = w.root.Rename(name, w.replaced(i))
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
