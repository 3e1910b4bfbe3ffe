package files

import (
	"io/fs"
	"os"
	"path/filepath"
)

// writeFresh makes the whole folder under another name beside, then renames it.
// Nobody else knows that name, so that files are made without further care.
func (w *writer) writeFresh(outputs []Output) error {
	parent := filepath.Dir(w.folder)
	if err := os.MkdirAll(parent, 0o777); err != nil {
		return err
	}
	root, err := os.OpenRoot(parent)
	if err != nil {
		return err
	}
	defer root.Close()
	name, err := newStage(root)
	if err != nil {
		return err
	}
	stage := filepath.Join(parent, name)
	defer func() {
		if w.done.New == 0 { // an error, or a panic in the making of an output
			os.RemoveAll(stage)
		}
	}()
	if err := w.fillFolder(stage, outputs); err != nil {
		return err
	}
	if w.name = Listing; w.stop() {
		return ErrStopped
	}
	list, _ := list(outputs, nil, true, w.record)
	if err := create(filepath.Join(stage, Listing), list.Data); err != nil { // last: it is newer than all that it lists
		return err
	}
	w.name = ""
	if err := os.Rename(stage, w.folder); err != nil {
		return err
	}
	w.done.New = len(outputs)
	return nil
}

// fillFolder writes files into a folder that is ours alone.
func (w *writer) fillFolder(folder string, outputs []Output) error {
	at := func(o *Output) string { return filepath.Join(folder, filepath.FromSlash(o.Path)) }
	made := map[string]bool{folder: true}
	for i := range outputs {
		if w.name = outputs[i].Path; !fs.ValidPath(w.name) {
			return errOutside
		}
		if dir := filepath.Dir(at(&outputs[i])); !made[dir] {
			if err := os.MkdirAll(dir, 0o777); err != nil {
				return err
			}
			made[dir] = true
		}
	}
	return w.each(outputs, func(i int, data []byte, _ *desk) error { return create(at(&outputs[i]), data) })
}

// create writes a file that is not there yet.
func create(path string, data []byte) error {
	f, err := openPlain(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	return fill(f, data)
}

// fill writes a file's bytes and closes it.
func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
	if later := f.Close(); err == nil {
		err = later
	}
	return err
}
