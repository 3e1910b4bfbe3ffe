package files

import (
	"io"
	"os"
	"slices"
	"syscall"
)

// A catalogue of a thousand patterns is passed over by reading three thousand small
// files and looking at ten thousand. What the os package does for each beyond
// that, so that it may be waited for and closed by anybody, would be half of it.

// glance reads a regular file of at most so many bytes, into buf where there is
// room. A symbolic link is followed.
func glance(name string, buf []byte, most int64) ([]byte, error) {
	fd, err := open(name, 0)
	if err != nil {
		return nil, err
	}
	defer syscall.Close(fd)
	n, err := retried(func() (int, error) { return syscall.Read(fd, buf) })
	if err != nil || n < len(buf) { // that was all of it
		return buf[:max(n, 0)], err
	}
	size, _, err := known(fd, most)
	if err != nil {
		return nil, err
	}
	return rest(fd, buf[:n], size)
}

// glanceDated is glance and tells when the file was changed, but a link is an error.
func glanceDated(name string, buf []byte, most int64) (data []byte, changed int64, err error) {
	fd, err := open(name, syscall.O_NOFOLLOW)
	if err != nil {
		return nil, 0, err
	}
	defer syscall.Close(fd)
	size, changed, err := known(fd, most)
	if err != nil {
		return nil, 0, err
	}
	data, err = rest(fd, buf[:0], size)
	return data, changed, err
}

func open(name string, flags int) (int, error) {
	flags |= syscall.O_RDONLY | syscall.O_CLOEXEC | syscall.O_NONBLOCK // a pipe is not waited for
	return retried(func() (int, error) { return syscall.Open(name, flags, 0) })
}

// openPlain is [os.OpenFile] for regular files, for which the system is not asked to tell
// when they can be read or written: it would be asked five times for each, and refuse.
func openPlain(name string, flags int, mode uint32) (*os.File, error) {
	fd, err := retried(func() (int, error) { return syscall.Open(name, flags|syscall.O_CLOEXEC, mode) })
	if err != nil {
		return nil, &os.PathError{Op: "open", Path: name, Err: err}
	}
	return os.NewFile(uintptr(fd), name), nil
}

// known tells the size of an open file and when it was changed.
func known(fd int, most int64) (size, changed int64, err error) {
	var s syscall.Stat_t
	if err := syscall.Fstat(fd, &s); err != nil {
		return 0, 0, err
	}
	if s.Mode&syscall.S_IFMT != syscall.S_IFREG || s.Size > most {
		return 0, 0, os.ErrInvalid
	}
	return s.Size, s.Mtim.Nano(), nil
}

// rest reads what of a file is not in data yet.
func rest(fd int, data []byte, size int64) ([]byte, error) {
	data = slices.Grow(data, max(0, int(size)-len(data)))
	for int64(len(data)) < size {
		n, err := retried(func() (int, error) { return syscall.Read(fd, data[len(data):size]) })
		if err != nil {
			return nil, err
		}
		if n == 0 {
			return nil, io.ErrUnexpectedEOF
		}
		data = data[:len(data)+n]
	}
	return data, nil
}

// retried calls again where a signal came between.
func retried(f func() (int, error)) (n int, err error) {
	for {
		if n, err = f(); err != syscall.EINTR {
			return n, err
		}
	}
}

// olderThan reports whether a name is of a regular file, not of a link, that was not changed
// after a time.
func olderThan(name string, time int64) bool {
	var s syscall.Stat_t
	return syscall.Lstat(name, &s) == nil && s.Mode&syscall.S_IFMT == syscall.S_IFREG && s.Mtim.Nano() <= time
}
