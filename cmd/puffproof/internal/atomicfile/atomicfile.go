// Package atomicfile writes a whole file or nothing.
//
// The bytes go to a temporary name in the same folder, are forced to the disk,
// and only then take the wanted name. A reader never sees half a file, and an
// interrupted run leaves no temporary file behind. It leaves out appending,
// locking and extended attributes.
package atomicfile

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Existing says what happens to a file that already has the wanted name.
type Existing uint8

const (
	Keep    Existing = iota // the old file stays and Write fails with fs.ErrExist
	Replace                 // the new file takes the place of the old one
)

// ErrNotRegular is returned where the name belongs to a folder, a device or a
// pipe. Such a thing is never replaced.
var ErrNotRegular = errors.New("is not a regular file")

// defaultMode is what an editor would give a new file; the umask narrows it.
const defaultMode fs.FileMode = 0o644

// Write makes the file path hold data, and nothing else.
//
// With Keep, any existing entry of that name, a dangling symbolic link too, is
// left alone and the error matches fs.ErrExist. With Replace, a symbolic link
// stays a link and the file it points to is replaced, with its permissions
// kept. When ctx ends before the new file has its name, nothing is changed and
// ctx's error is returned. Other errors are those of package os.
func Write(ctx context.Context, path string, data []byte, existing Existing) error {
	target, mode, err := resolve(path, existing)
	if err != nil {
		return err
	}
	temp, err := writeTemp(filepath.Dir(target), data, mode)
	if err != nil {
		return err
	}
	// After a rename the temporary name is gone and Remove finds nothing.
	defer os.Remove(temp)
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := place(temp, target, existing); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(target))
}

// resolve finds the file that will really be written and its permissions.
func resolve(path string, existing Existing) (string, fs.FileMode, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return path, defaultMode, nil
	case err != nil:
		return "", 0, err
	}
	if info.IsDir() {
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
		if info, err = os.Stat(target); err != nil {
			return "", 0, err
		}
	}
	if !info.Mode().IsRegular() {
		return "", 0, fmt.Errorf("%s: %w", path, ErrNotRegular)
	}
	return target, info.Mode().Perm(), nil
}

// writeTemp writes data under a fresh hidden name in folder, on the disk when
// it returns. On error the temporary file is gone.
func writeTemp(folder string, data []byte, mode fs.FileMode) (name string, err error) {
	var salt [8]byte
	if _, err := rand.Read(salt[:]); err != nil {
		return "", err
	}
	// The wanted name is no part of it: one near the system's limit would not fit.
	name = filepath.Join(folder, ".puffproof-"+hex.EncodeToString(salt[:])+".tmp")
	// OpenFile, not CreateTemp: the umask then applies to mode as to any file.
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", err
	}
	_, werr := f.Write(data)
	if err = errors.Join(werr, f.Sync(), f.Close()); err != nil {
		os.Remove(name)
		return "", err
	}
	return name, nil
}

// place gives the finished file its name.
func place(temp, target string, existing Existing) error {
	if existing == Replace {
		return os.Rename(temp, target)
	}
	// A hard link, unlike a rename, fails where the name was taken meanwhile.
	err := os.Link(temp, target)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// Some file systems (FAT on a memory stick) know no hard links.
	if _, serr := os.Lstat(target); serr == nil {
		return &fs.PathError{Op: "write", Path: target, Err: fs.ErrExist}
	}
	return os.Rename(temp, target)
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
