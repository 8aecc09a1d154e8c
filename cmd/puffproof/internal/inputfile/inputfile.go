// Package inputfile opens and reads the files that a run is given, and says in one line why one cannot be used. Only regular
// files are opened: a pipe or a device may never end.
package inputfile

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/keys"
)

// Open opens a regular file. The error says in one line what is wrong, and names a file beside a missing one that was
// probably meant. Opening a pipe would wait for its writer, if it
// were not told not to.
func Open(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: %s%s", name, Cause(err), meant(name))
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %s", name, Cause(err))
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("is %s", kindOf(info.Mode()))
	}
	if err != nil {
		_ = f.Close()
		return nil, fmt.Errorf("%s: %s", name, Cause(err))
	}
	return f, nil
}

// mostBeside is how many files of a folder are looked at for one that was meant.
const mostBeside = 2000

// beside is the file beside a missing one that was probably meant, of the same kind; "" none.
func beside(name string) string {
	dir, err := os.Open(filepath.Dir(name))
	if err != nil {
		return ""
	}
	defer dir.Close()
	there, _ := dir.Readdirnames(mostBeside)
	slices.Sort(there)
	kind := filepath.Ext(name)
	var stems []string
	for _, f := range there {
		if stem, same := strings.CutSuffix(f, kind); same {
			stems = append(stems, stem)
		}
	}
	near := keys.Nearest(strings.TrimSuffix(filepath.Base(name), kind), stems)
	if near == "" {
		return ""
	}
	return filepath.Join(filepath.Dir(name), near+kind)
}

// kindOf says what a thing is that is no regular file, and what to give instead.
func kindOf(mode fs.FileMode) string {
	switch {
	case mode.IsDir():
		return "a folder; give the design file in it"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe, not a file; - reads standard input, which may be one"
	}
	return "a device, not a file"
}

// ReadAll reads to the end, or to the end of ctx: the read itself then stays behind,
// since nothing wakes one that waits.
func ReadAll(ctx context.Context, in io.Reader) ([]byte, error) {
	type result struct {
		data []byte
		err  error
	}
	done := make(chan result, 1)
	go func() {
		data, err := io.ReadAll(in)
		done <- result{data, err}
	}()
	select {
	case r := <-done:
		return r.data, r.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// meant names the file that was probably meant by a missing one.
func meant(name string) string {
	if near := keys.Meant(beside(name)); near != "" {
		return "; " + near
	}
	return ""
}

// Cause says why a file cannot be used, without the path and the system call
// that Go puts around it.
func Cause(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file"
	case errors.Is(err, fs.ErrPermission):
		return "no permission"
	case errors.Is(err, fs.ErrExist):
		return "exists already and is kept"
	case errors.Is(err, atomicfile.ErrNotRegular):
		return "is a folder or a device, not a file"
	case errors.Is(err, atomicfile.ErrLink):
		return "is a link, not the file itself"
	case errors.Is(err, atomicfile.ErrRecord):
		return "belongs to a record of a commissioning, into which only its readings go; name another file"
	case errors.Is(err, atomicfile.ErrReadOnly):
		return "is read-only and is kept"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}
