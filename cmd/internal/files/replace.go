package files

import (
	"os"
	"path/filepath"

	"seamwright/lang/problem"
)

// Replace rewrites a file, whole or not at all, and keeps its permissions. A
// symbolic link stays, and what it points to is rewritten.
func Replace(name string, data []byte) *problem.Problem {
	if err := replace(name, data); err != nil {
		return unwritable(name, err, false)
	}
	return nil
}

func replace(name string, data []byte) error {
	name, err := filepath.EvalSymlinks(name)
	if err != nil {
		return err
	}
	info, err := os.Stat(name)
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), stagePrefix)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(info.Mode().Perm())
	}
	if later := f.Close(); err == nil {
		err = later
	}
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		os.Remove(f.Name())
	}
	return err
}

// Create writes a file that is not there yet; one that is there is an error.
func Create(name string, data []byte) *problem.Problem {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if os.IsExist(err) {
		return fault(Unwritable, name, "this file is there already, so it is not replaced", "choose another name")
	}
	if err != nil {
		return unwritable(name, err, true)
	}
	if err := fill(f, data); err != nil {
		os.Remove(name)
		return unwritable(name, err, true)
	}
	return nil
}

// Put writes a file, whole or not at all, whether or not it is there.
func Put(name string, data []byte) *problem.Problem {
	info, err := os.Stat(name)
	switch {
	case os.IsNotExist(err):
		return Create(name, data)
	case err == nil && !info.Mode().IsRegular():
		return fault(Unwritable, name, "this is not a file, so nothing is written over it", "choose another name")
	}
	return Replace(name, data)
}
