//go:build !linux

package files

import "os"

// glance reads a regular file of at most so many bytes. A symbolic link is followed.
func glance(name string, _ []byte, most int64) ([]byte, error) {
	data, _, err := whole(name, most, os.Stat)
	return data, err
}

// glanceDated is glance and tells when the file was changed, but a link is an error.
func glanceDated(name string, _ []byte, most int64) (data []byte, changed int64, err error) {
	return whole(name, most, os.Lstat)
}

func whole(name string, most int64, look func(string) (os.FileInfo, error)) ([]byte, int64, error) {
	info, err := look(name)
	if err != nil {
		return nil, 0, err
	}
	if !info.Mode().IsRegular() || info.Size() > most {
		return nil, 0, os.ErrInvalid
	}
	data, err := os.ReadFile(name)
	return data, info.ModTime().UnixNano(), err
}

// olderThan reports whether a name is of a regular file, not of a link, that was
// not changed after a time.
func olderThan(name string, time int64) bool {
	info, err := os.Lstat(name)
	return err == nil && info.Mode().IsRegular() && info.ModTime().UnixNano() <= time
}

// openPlain is [os.OpenFile] for regular files.
func openPlain(name string, flags int, mode uint32) (*os.File, error) {
	return os.OpenFile(name, flags, os.FileMode(mode))
}
