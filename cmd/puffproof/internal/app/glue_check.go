package app

import (
	"context"

	"puffproof/limits"
)

// checkDesign judges a design with the rules as they stand.
func checkDesign(ctx context.Context, l *limits.Launcher, o limits.Options) (limits.Report, error) {
	r, err := limits.Check(ctx, l, o)
	r.TakeDates(l, o.Day)
	return r, err
}
