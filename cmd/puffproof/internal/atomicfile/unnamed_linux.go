package atomicfile

import (
	"fmt"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// openUnnamed opens a file in folder that has no name and is gone with its last
// descriptor, however the process ends (open(2), O_TMPFILE). It gives nil where the file
// system knows none, and where /proc is missing, by which such a file gets its name.
func openUnnamed(folder string, mode fs.FileMode) *os.File {
	fd, err := unix.Open(folder, unix.O_TMPFILE|unix.O_WRONLY|unix.O_CLOEXEC, uint32(mode))
	if err != nil {
		return nil
	}
	f := os.NewFile(uintptr(fd), folder)
	if _, err := os.Stat(procName(f)); err != nil {
		_ = f.Close()
		return nil
	}
	return f
}

// linkUnnamed gives an unnamed file its name; the error matches fs.ErrExist where it is
// taken.
func linkUnnamed(f *os.File, name string) error {
	if err := unix.Linkat(unix.AT_FDCWD, procName(f), unix.AT_FDCWD, name, unix.AT_SYMLINK_FOLLOW); err != nil {
		return &fs.PathError{Op: "link", Path: name, Err: err}
	}
	return nil
}

func procName(f *os.File) string { return fmt.Sprintf("/proc/self/fd/%d", f.Fd()) }
