package app

import (
	"bytes"
	"context"

	"puffproof/cmd/puffproof/internal/atomicfile"
)

// rewritable tells whether a file that was read may be written again, before anything is computed.
func (c *Call) rewritable(name string) error {
	if name == "-" {
		return inputErrorf("-: standard input cannot be written; name the design's file")
	}
	return notWritten(name, atomicfile.Try(name, atomicfile.Replace))
}

// rewrite puts now in the place of a file that this run has read as was. It refuses where the file is read-only, and where
// somebody changed it meanwhile: nobody's work is lost.
func (c *Call) rewrite(ctx context.Context, name string, was, now []byte) error {
	data, err := c.readFile(ctx, name)
	switch {
	case err != nil:
		return err
	case !bytes.Equal(data, was):
		return inputErrorf("%s: was changed while this ran and is kept as it is now; run it again", name)
	}
	if err := atomicfile.Write(ctx, name, now, atomicfile.Replace); err != nil {
		return writeError(ctx, name, err)
	}
	c.wrote = append(c.wrote, name)
	return nil
}
