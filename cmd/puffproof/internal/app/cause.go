package app

import (
	"errors"
	"io/fs"

	"puffproof/cmd/puffproof/internal/atomicfile"
)

// cause says why a file cannot be used, without the path and the system call
// that Go puts around it.
func cause(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file"
	case errors.Is(err, fs.ErrPermission):
		return "no permission"
	case errors.Is(err, fs.ErrExist):
		return "exists already and is kept"
	case errors.Is(err, atomicfile.ErrNotRegular):
		return "is a folder or a device, not a file"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// exists tells whether a file was kept because its name was taken.
func exists(err error) bool { return errors.Is(err, fs.ErrExist) }
