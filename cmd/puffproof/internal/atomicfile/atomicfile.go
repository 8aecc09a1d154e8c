// Package atomicfile writes a whole file or nothing.
//
// The bytes go to a file without a name where the platform has such (Linux), else to a
// hidden one in the same folder, are forced to the disk, and only then take the wanted
// name. A reader never sees half a file. An interrupted run leaves nothing behind; what
// a killed one may leave where a hidden name was needed, the next run that writes into
// the folder clears away. It leaves out appending, locking and extended attributes.
package atomicfile

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Existing says what happens to a file that already has the wanted name.
type Existing uint8

const (
	Keep    Existing = iota // the old file stays and Write fails with fs.ErrExist
	Replace                 // the new file takes the place of the old one
)

var (
	// ErrNotRegular is returned where the name belongs to a folder, a device or a
	// pipe. Such a thing is never replaced.
	ErrNotRegular = errors.New("is not a regular file")
	// ErrReadOnly is returned where the file to replace is protected from writing.
	ErrReadOnly = errors.New("is read-only")
	// ErrLink is the error of whoever wants a file itself where the name is that of a link.
	ErrLink = errors.New("is a link, not the file itself")
	// ErrRecord is returned where the name, or what a link of it points to, is that of a
	// record of a commissioning: such a file only grows, and nothing is ever put in its place.
	ErrRecord = errors.New("is the name of a record of a commissioning")
)

// RecordEnding ends the name of every record of a commissioning.
const RecordEnding = ".record"

// ofRecord tells whether a name is that of a record, in whatever capitals: some file systems know no difference.
func ofRecord(name string) bool { return strings.EqualFold(filepath.Ext(name), RecordEnding) }

// defaultMode is what an editor would give a new file; the umask narrows it.
const defaultMode fs.FileMode = 0o644

// Write makes the file path hold data, and nothing else.
//
// With Keep, any existing entry of that name, a dangling symbolic link too, is
// left alone and the error matches fs.ErrExist. With Replace, a symbolic link
// stays a link and the file it points to is replaced, with its permissions
// kept; a file that is read-only is not, and a record of a commissioning neither. When ctx ends before the new file has its
// name, nothing is changed and ctx's error is returned. Other errors are those of
// package os.
func Write(ctx context.Context, path string, data []byte, existing Existing) error {
	_, err := WriteAll(ctx, []File{{path, data}}, existing)
	return err
}

// Try tells whether Write could do its work now, as far as can be known without
// data, and leaves nothing behind. The errors are those of Write.
func Try(path string, existing Existing) error {
	target, mode, err := resolve(path, existing)
	if err != nil {
		return err
	}
	return tryFolder(filepath.Dir(target), mode)
}

// TryFolder tells whether a file could be made in a folder now, and leaves nothing behind.
func TryFolder(folder string) error { return tryFolder(folder, defaultMode) }

func tryFolder(folder string, mode fs.FileMode) error {
	temp, err := newTemp(folder, mode)
	if err != nil {
		return err
	}
	temp.drop()
	return nil
}

// resolve finds the file that will really be written and its permissions.
func resolve(path string, existing Existing) (string, fs.FileMode, error) {
	if ofRecord(path) {
		return "", 0, fmt.Errorf("%s: %w", path, ErrRecord)
	}
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, defaultMode, nil
	case err != nil:
		return "", 0, err
	}
	if !info.Mode().IsRegular() && info.Mode()&fs.ModeSymlink == 0 {
		return "", 0, fmt.Errorf("%s: %w", path, ErrNotRegular)
	}
	if existing == Keep {
		return "", 0, &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist}
	}
	target := path
	if info.Mode()&fs.ModeSymlink != 0 {
		if target, err = filepath.EvalSymlinks(path); err != nil {
			return "", 0, err
		}
		if ofRecord(target) {
			return "", 0, fmt.Errorf("%s: %w", path, ErrRecord)
		}
		if info, err = os.Stat(target); err != nil {
			return "", 0, err
		}
	}
	if !info.Mode().IsRegular() {
		return "", 0, fmt.Errorf("%s: %w", path, ErrNotRegular)
	}
	return target, info.Mode().Perm(), writable(target, info)
}

// writable tells whether a file may be changed. A rename would not ask: it needs the
// folder's permission only. The superuser may write anything, and for him too a file
// that nobody may write was locked by somebody.
func writable(target string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return fmt.Errorf("%s: %w", target, ErrReadOnly)
	}
	f, err := os.OpenFile(target, os.O_WRONLY, 0)
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%s: %w", target, ErrReadOnly)
	}
	if err != nil {
		return err
	}
	return f.Close()
}

// syncFolder makes the new name last through a power cut. A file system that
// cannot sync a folder is no reason to fail: the file itself is written.
func syncFolder(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return nil //nolint:nilerr // a folder may be writable and not readable
	}
	_ = d.Sync()
	return d.Close()
}
