package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/inputfile"
	"puffproof/cmd/puffproof/internal/proving"
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

// willRead remembers the files that the line names as inputs, before they are read.
func (c *Call) willRead(options []Option) {
	names := slices.Clone(c.Args)
	for _, o := range options {
		if o.Files && !o.Writes && c.flags.IsSet(o.Name) {
			names = append(names, c.flags.String(o.Name))
		}
	}
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() {
			c.inputs = append(c.inputs, usedFile{name, info})
		}
	}
	if f, ok := c.Stdin.(*os.File); ok && slices.Contains(names, "-") {
		c.used("standard input", f)
	}
}

// tryTargets tries the files that the line asks for before anything is computed. Where a
// paper goes depends on its format: paper tries it.
func (c *Call) tryTargets(options []Option) error {
	c.willRead(options)
	seen := map[string]string{}
	for _, o := range options {
		if !o.Writes || o.Name == "o" || !c.flags.IsSet(o.Name) {
			continue
		}
		name := c.flags.String(o.Name)
		if o.Name == "plot" {
			if err := figure.CheckName(name); err != nil {
				return inputErrorf("--plot: %v", err)
			}
		}
		if err := c.target(name); err != nil {
			return err
		}
		if other, twice := seen[filepath.Clean(name)]; twice {
			return inputErrorf("--%s and --%s both name %s", other, o.Name, name)
		}
		seen[filepath.Clean(name)] = o.Name
	}
	return nil
}

// target tells whether a file can and may be written: never over a file that this run
// reads, by whatever name, link or path, and over any other one only with --force.
func (c *Call) target(name string) error {
	switch name {
	case "":
		return inputErrorf("the name of the file to write is empty")
	case "-":
		return inputErrorf("-: standard output holds the screen; name a file (./- for one of that name)")
	}
	if info, err := os.Stat(name); err == nil {
		for _, in := range c.inputs {
			if os.SameFile(in.info, info) {
				return inputErrorf("%s: is the input %s of this run and is never overwritten; name another file", name, in.name)
			}
			if beside, err := os.Stat(proving.RecordName(in.name)); err == nil && os.SameFile(beside, info) {
				return notWritten(name, atomicfile.ErrRecord)
			}
		}
	}
	return notWritten(name, atomicfile.Try(name, c.existing()))
}

// existing is what becomes of a file that is there.
func (c *Call) existing() atomicfile.Existing {
	if c.flags.Bool("force") {
		return atomicfile.Replace
	}
	return atomicfile.Keep
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
	if err := atomicfile.Write(ctx, name, data, c.existing()); err != nil {
		return writeError(ctx, name, err)
	}
	c.wrote = append(c.wrote, name)
	return nil
}

// writeError says why a file was not written, unless the run was interrupted.
func writeError(ctx context.Context, name string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return notWritten(name, err)
}

// notWritten says why a file cannot be written; nil stays nil.
func notWritten(name string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return keptError(name)
	}
	return inputErrorf("%s: not written: %s", name, inputfile.Cause(err))
}

// plot draws the figure that --plot asks for into its file.
func (c *Call) plot(ctx context.Context, draw func() ([]byte, error)) error {
	if !c.flags.IsSet("plot") {
		return nil
	}
	svg, err := draw()
	if err != nil {
		return fmt.Errorf("the figure: %w", err)
	}
	return c.writeNew(ctx, c.flags.String("plot"), svg)
}
