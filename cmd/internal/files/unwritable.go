package files

import (
	"errors"
	"io/fs"
	"syscall"

	"seamwright/lang/problem"
)

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
