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
	list, _ := list(outputs, nil, true, w.record)
	err = w.fillFolder(stage, append(outputs[:len(outputs):len(outputs)], list))
	if err == nil {
		w.name = ""
		err = os.Rename(stage, w.folder)
	}
	if err != nil {
		os.RemoveAll(stage)
		return err
	}
	w.done.New = len(outputs)
	return nil
}

// fillFolder writes files into a folder that is ours alone.
func (w *writer) fillFolder(folder string, files []Output) error {
	made := map[string]bool{folder: true}
	for _, o := range files {
		w.name = o.Path
		if w.stop() {
			return ErrStopped
		}
		if !fs.ValidPath(o.Path) {
			return errOutside
		}
		path := filepath.Join(folder, filepath.FromSlash(o.Path))
		if dir := filepath.Dir(path); !made[dir] {
			if err := os.MkdirAll(dir, 0o777); err != nil {
				return err
			}
			made[dir] = true
		}
		f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return err
		}
		if err := fill(f, o.Data); err != nil {
			return err
		}
	}
	return nil
}

// fill writes a file's bytes and closes it.
func fill(f *os.File, data []byte) error {
	_, err := f.Write(data)
	if later := f.Close(); err == nil {
		err = later
	}
	return err
}
