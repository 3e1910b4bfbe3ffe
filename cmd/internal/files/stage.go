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
	// abandoned is how old what is being written is when nobody can be writing it
	// any more.
	abandoned = time.Hour
)

// A change is a file that is written beside, under its number.
type change struct {
	path string
	n    int
}

// stageChanged makes every output and writes those beside that differ from what
// is there.
func (w *writer) stageChanged(outputs []Output, ours map[string]bool) (changed []change, err error) {
	differs := make([]bool, len(outputs))
	err = w.each(outputs, func(i int, data []byte, d *desk) error {
		same, err := w.same(outputs[i].Path, data, ours[outputs[i].Path], d)
		if err != nil || same {
			return err
		}
		differs[i] = true
		return w.stageOne(i, data)
	})
	for i := range differs {
		if differs[i] {
			changed = append(changed, change{outputs[i].Path, i})
		}
	}
	return changed, err
}

// stageOne writes a file beside, under its number.
func (w *writer) stageOne(n int, data []byte) error {
	if err := w.needStage(); err != nil {
		return err
	}
	f, err := w.root.OpenFile(w.staged(n), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	return fill(f, data)
}

// needStage makes the folder to write in when the first file needs it.
func (w *writer) needStage() (err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.stage == "" {
		w.stage, err = newStage(w.root)
	}
	return err
}

// newStage makes a folder to write in. One that is there already belongs to
// another build at work, or was left by one that was killed: an hour later it
// can only be the latter.
func newStage(in *os.Root) (string, error) {
	for n := 0; ; n++ {
		name := stagePrefix + strconv.Itoa(n)
		err := in.Mkdir(name, 0o777)
		if errors.Is(err, fs.ErrExist) {
			if info, e := in.Lstat(name); e == nil && time.Since(info.ModTime()) > abandoned {
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
// No file has the number free or a higher one.
func (w *writer) place(changes []change, stale []string, free int) error {
	for _, c := range changes {
		w.name = c.path
		if err := w.folders(path.Dir(c.path)); err != nil {
			return err
		}
		replaced, err := w.keep(c.path, c.n)
		if err != nil {
			return err
		}
		if err := w.root.Rename(w.staged(c.n), c.path); err != nil {
			return err
		}
		switch {
		case replaced:
			w.undo = append(w.undo, func() error { return w.root.Rename(w.replaced(c.n), c.path) })
		default:
			w.undo = append(w.undo, func() error { return w.root.Remove(c.path) })
		}
		switch {
		case c.path == Listing: // not one of the outputs
		case replaced:
			w.done.Changed++
		default:
			w.done.New++
		}
	}
	for i, name := range stale {
		w.name = name
		i += free
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
