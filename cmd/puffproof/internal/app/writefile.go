package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/show"
)

// usedFile is a file that this run has read.
type usedFile struct {
	name string
	info fs.FileInfo
}

// used remembers a file that is read, so that no output takes its place.
func (c *Call) used(name string, f *os.File) {
	if info, err := f.Stat(); err == nil && info.Mode().IsRegular() {
		c.inputs = append(c.inputs, usedFile{name, info})
	}
}

// target tells whether a file may be written: never over a file that this run
// has read, by whatever name, link or path, and over any other one only with
// --force.
func (c *Call) target(name string) error {
	if name == "-" {
		return inputErrorf("-: standard output holds the screen; name a file (./- for one of that name)")
	}
	if info, err := os.Stat(name); err == nil {
		for _, in := range c.inputs {
			if os.SameFile(in.info, info) {
				return inputErrorf("%s: is the input %s of this run and is never overwritten; name another file", name, in.name)
			}
		}
	}
	if _, err := os.Lstat(name); err == nil && !c.flags.Bool("force") {
		return keptError(name)
	}
	return nil
}

// targets checks the files of several flags before the first is written.
func (c *Call) targets(flags ...string) error {
	seen := map[string]string{}
	for _, f := range flags {
		if !c.flags.IsSet(f) {
			continue
		}
		name := c.flags.String(f)
		if err := c.target(name); err != nil {
			return err
		}
		if other, twice := seen[filepath.Clean(name)]; twice {
			return inputErrorf("--%s and --%s both name %s", other, f, name)
		}
		seen[filepath.Clean(name)] = f
	}
	return nil
}

func keptError(name string) error {
	return inputErrorf("%s: exists already and is kept; --force replaces it", name)
}

// writeNew writes a file that is not there yet; --force lets it replace one that
// is no input of this run.
func (c *Call) writeNew(ctx context.Context, name string, data []byte) error {
	if err := c.place(ctx, name, data); err != nil {
		return err
	}
	if !c.json && !c.quiet {
		fmt.Fprintf(c.Out, "Wrote %s.\n", show.Clean(name))
	}
	return nil
}

// place is writeNew without its message.
func (c *Call) place(ctx context.Context, name string, data []byte) error {
	if err := c.target(name); err != nil {
		return err
	}
	existing := atomicfile.Keep
	if c.flags.Bool("force") {
		existing = atomicfile.Replace
	}
	if err := atomicfile.Write(ctx, name, data, existing); err != nil {
		if existing == atomicfile.Keep && errors.Is(err, fs.ErrExist) {
			return keptError(name)
		}
		return writeError(ctx, name, err)
	}
	return nil
}

// writeError says why a file was not written, unless the run was interrupted.
func writeError(ctx context.Context, name string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return inputErrorf("%s: not written: %s", name, cause(err))
}

// plot draws the figure that --plot asks for into its file.
func (c *Call) plot(ctx context.Context, draw func() ([]byte, error)) error {
	if !c.flags.IsSet("plot") {
		return nil
	}
	name := c.flags.String("plot")
	if err := figure.CheckName(name); err != nil {
		return inputErrorf("--plot: %v", err)
	}
	svg, err := draw()
	if err != nil {
		return fmt.Errorf("the figure: %w", err)
	}
	return c.writeNew(ctx, name, svg)
}
