package app

import (
	"context"
	"fmt"

	"puffproof/cmd/puffproof/internal/atomicfile"
	"puffproof/cmd/puffproof/internal/render"
)

// writeNew writes a file that is not there yet; --force lets it replace one.
func (c *Call) writeNew(ctx context.Context, name string, data []byte) error {
	existing := atomicfile.Keep
	if c.flags.Bool("force") {
		existing = atomicfile.Replace
	}
	if err := atomicfile.Write(ctx, name, data, existing); err != nil {
		if existing == atomicfile.Keep && exists(err) {
			return inputErrorf("%s: exists already and is kept; --force replaces it", name)
		}
		return writeError(ctx, name, err)
	}
	if !c.json && !c.quiet {
		fmt.Fprintf(c.Out, "Wrote %s.\n", render.Clean(name))
	}
	return nil
}
