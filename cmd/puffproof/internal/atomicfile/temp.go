package atomicfile

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"
)

// temp is a file on its way to its name.
type temp struct {
	file *os.File
	name string // "": it has none
}

// newTemp opens an empty file in folder, without a name where the platform can.
func newTemp(folder string, mode fs.FileMode) (*temp, error) {
	if f := openUnnamed(folder, mode); f != nil {
		return &temp{file: f}, nil
	}
	name, err := hiddenName(folder)
	if err != nil {
		return nil, err
	}
	// OpenFile, not CreateTemp: the umask then applies to mode as to any file.
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err
	}
	return &temp{file: f, name: name}, nil
}

// hiddenName is a fresh name in folder. The wanted name is no part of it: one near the
// system's limit would not fit.
func hiddenName(folder string) (string, error) {
	var salt [8]byte
	_, err := rand.Read(salt[:])
	return filepath.Join(folder, ".puffproof-"+hex.EncodeToString(salt[:])+".tmp"), err
}

// fill writes the data, on the disk when it returns.
func (t *temp) fill(data []byte) error {
	_, err := t.file.Write(data)
	return errors.Join(err, t.file.Sync())
}

// place gives the filled file its name.
func (t *temp) place(target string, existing Existing) error {
	if t.name == "" && existing == Keep {
		return linkUnnamed(t.file, target)
	}
	if t.name == "" { // no call replaces a name by a file that has none
		name, err := hiddenName(filepath.Dir(target))
		if err != nil {
			return err
		}
		if err := linkUnnamed(t.file, name); err != nil {
			return err
		}
		t.name = name
	}
	// Some platforms name no file that is open.
	if err := t.file.Close(); err != nil {
		return err
	}
	if existing == Replace {
		return os.Rename(t.name, target)
	}
	// A hard link, unlike a rename, fails where the name was taken meanwhile.
	err := os.Link(t.name, target)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// Some file systems (FAT on a memory stick) know no hard links.
	if _, serr := os.Lstat(target); serr == nil {
		return &fs.PathError{Op: "write", Path: target, Err: fs.ErrExist}
	}
	return os.Rename(t.name, target)
}

// drop ends with the file: closed, and without its hidden name. After a rename the
// hidden name is gone and Remove finds nothing.
func (t *temp) drop() {
	_ = t.file.Close()
	if t.name != "" {
		_ = os.Remove(t.name)
	}
}

// hidden is a name that hiddenName makes, and nobody else.
var hidden = regexp.MustCompile(`^\.puffproof-[0-9a-f]{16}\.tmp$`)

// stale is the age from which a hidden file belongs to nobody: it lives for the time
// that one write takes, and no write takes an hour.
const stale = time.Hour

// sweep removes what killed runs left in folder: regular files with a name of ours that
// nobody has written to for an hour. Where that cannot be done nothing is lost.
func sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !hidden.MatchString(e.Name()) {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > stale {
			_ = os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}
