package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
)

// services are the parts of the program that the commands call. They are
// functions so that a test of the command line can give its own. A command
// whose service is nil is not in the registry.
type services struct {
	// template is the commented design file that init writes.
	template func() []byte
	// read understands a design file. Its error lists every problem with its place.
	read func(name string, data []byte) (*limits.Launcher, error)
	// gauge reads a gauge pressure such as "0.8 bar" [Pa gauge]; ambient is absolute [Pa].
	gauge func(text string, ambient float64) (float64, error)
	// dimensionOf tells what a key of the design file measures; nil where that is
	// not known, the screens then show keys without their values.
	dimensionOf func(key string) (unit.Dimension, bool)
	// check judges a design.
	check func(ctx context.Context, l *limits.Launcher) (limits.Report, error)
	// shot computes one shot with nominal values at the start pressure at
	// [Pa gauge]; nil means the cut-out.
	shot func(ctx context.Context, l *limits.Launcher, at *float64) (render.ShotView, error)
}
