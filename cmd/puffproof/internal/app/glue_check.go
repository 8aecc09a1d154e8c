package app

import (
	"context"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/launcher"
)

// checkDesign judges a design with the rules as they stand.
func checkDesign(ctx context.Context, l *launcher.Launcher, o assessment.Options) (limits.Report, error) {
	r, err := limits.Check(ctx, l, o)
	r.TakeDates(l, o.Day)
	return r, err
}
