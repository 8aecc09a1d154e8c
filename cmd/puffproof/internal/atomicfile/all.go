package atomicfile

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// File is a file to be written: its path, and all that it will hold.
type File struct {
	Path string
	Data []byte
}

// WriteAll writes several files as Write does each, or none of them: all are on the disk
// before the first gets its name, and where a later one cannot get its own, those before
// it are as they were. Only a run that is killed between two names, or a disk that fails
// there, leaves some of them. An error comes with the path that it belongs to; of two
// paths of one file the second fails with fs.ErrExist.
func WriteAll(ctx context.Context, files []File, existing Existing) (path string, err error) {
	var all []*coming
	defer func() {
		for _, c := range all {
			c.temp.drop()
			sweep(filepath.Dir(c.target))
		}
	}()
	for _, f := range files {
		c, err := prepare(f, existing)
		if err == nil && len(files) > 1 {
			c.before, err = contents(c.target)
		}
		if err != nil {
			return f.Path, err
		}
		all = append(all, c)
		for _, o := range all[:len(all)-1] {
			if o.target == c.target {
				return f.Path, &fs.PathError{Op: "write", Path: f.Path, Err: fs.ErrExist}
			}
		}
	}
	if err := ctx.Err(); err != nil {
		return "", err
	}
	for i, c := range all {
		if err := c.temp.place(c.target, existing); err != nil {
			for _, placed := range all[:i] {
				err = errors.Join(err, placed.undo())
			}
			return files[i].Path, err
		}
	}
	for i, c := range all {
		if err := syncFolder(filepath.Dir(c.target)); err != nil {
			return files[i].Path, err
		}
	}
	return "", nil
}

// coming is a file that is on the disk and has no name yet.
type coming struct {
	target string
	mode   fs.FileMode
	temp   *temp
	before []byte // what it takes the place of; nil: nothing
}

// contents is what a file holds that is there; nil: it is not.
func contents(path string) ([]byte, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return data, err
}

// prepare puts a file on the disk without its name.
func prepare(f File, existing Existing) (*coming, error) {
	target, mode, err := resolve(f.Path, existing)
	if err != nil {
		return nil, err
	}
	c := &coming{target: filepath.Clean(target), mode: mode}
	if c.temp, err = newTemp(filepath.Dir(target), mode); err != nil {
		return nil, err
	}
	if err := c.temp.fill(f.Data); err != nil {
		c.temp.drop()
		return nil, err
	}
	return c, nil
}

// undo gives the name back to what had it before.
func (c *coming) undo() error {
	if c.before == nil {
		return os.Remove(c.target)
	}
	old, err := newTemp(filepath.Dir(c.target), c.mode)
	if err != nil {
		return err
	}
	defer old.drop()
	if err := old.fill(c.before); err != nil {
		return err
	}
	return old.place(c.target, Replace)
}
