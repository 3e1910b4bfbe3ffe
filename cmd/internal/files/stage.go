package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
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
