package app

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

	"puffproof/cmd/puffproof/internal/keys"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/launcher"
)

// readDesign reads and understands the design file of a name.
func (c *Call) readDesign(ctx context.Context, name string) (*launcher.Launcher, show.DesignID, error) {
	data, err := c.readFile(ctx, name)
	if err != nil {
		return nil, show.DesignID{}, err
	}
	c.designText = data
	d, id, err := c.openDesign(name, data)
	if err != nil {
		return nil, show.DesignID{}, err
	}
	if d, err = c.withPending(name, d); err != nil {
		return nil, show.DesignID{}, err
	}
	return d.Launcher(), id, nil
}

// The most bytes that are read of a file; more is a wrong file.
const (
	mostDesign = 1 << 20 // of a design, a file of shots, a log
	mostPaper  = 32 << 20
	mostRecord = 4 << 20 // what a paper can carry
)

// readFile reads a design, or a file that is laid beside one.
func (c *Call) readFile(ctx context.Context, name string) ([]byte, error) {
	return c.readUpTo(ctx, name, mostDesign, "file of this program")
}

// readUpTo reads a regular file, or standard input for "-", and says in one line what
// is wrong where it cannot. Nothing else is read: a pipe or a device may never end. It
// ends with ctx, whatever standard input waits for.
func (c *Call) readUpTo(ctx context.Context, name string, most int64, kind string) ([]byte, error) {
	var in io.Reader = c.Stdin
	switch name {
	case "":
		return nil, inputErrorf("the file name is empty")
	case "-":
		if f, ok := c.Stdin.(*os.File); ok {
			c.used("standard input", f)
		}
	default:
		f, err := openRegular(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		c.used(name, f)
		in = f
	}
	data, err := readAll(ctx, io.LimitReader(in, most+1))
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, inputErrorf("%s: %s", name, cause(err))
	case int64(len(data)) > most:
		return nil, inputErrorf("%s: is larger than %d MiB and so no %s", name, most>>20, kind)
	}
	return data, nil
}

// openRegular opens a regular file. Opening a pipe would wait for its writer, if it
// were not told not to.
func openRegular(name string) (*os.File, error) {
	f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, inputErrorf("%s: %s%s", name, cause(err), show.Lead("; ", keys.Meant(besides(name))))
	}
	if err != nil {
		return nil, inputErrorf("%s: %s", name, cause(err))
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("is %s", kindOf(info.Mode()))
	}
	if err != nil {
		_ = f.Close()
		return nil, inputErrorf("%s: %s", name, cause(err))
	}
	return f, nil
}

// mostBeside is how many files of a folder are looked at for one that was meant.
const mostBeside = 2000

// besides is the file beside a missing one that was probably meant, of the same kind; "" none.
func besides(name string) string {
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

// readAll reads to the end, or to the end of ctx: the read itself then stays behind,
// since nothing wakes one that waits.
func readAll(ctx context.Context, in io.Reader) ([]byte, error) {
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
