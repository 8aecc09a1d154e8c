package app

import (
	"context"
	"io"
	"os"

	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/proving"
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
	d, id, err := c.openDesign(name, data, proving.Beside(name))
	if err != nil {
		return nil, show.DesignID{}, err
	}
	return proving.WithPending(name, d).Launcher(), id, nil
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
		f, err := inputfile.Open(name)
		if err != nil {
			return nil, inputErrorf("%v", err)
		}
		defer f.Close()
		c.used(name, f)
		in = f
	}
	data, err := inputfile.ReadAll(ctx, io.LimitReader(in, most+1))
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, inputErrorf("%s: %s", name, inputfile.Cause(err))
	case int64(len(data)) > most:
		return nil, inputErrorf("%s: is larger than %d MiB and so no %s", name, most>>20, kind)
	}
	return data, nil
}
