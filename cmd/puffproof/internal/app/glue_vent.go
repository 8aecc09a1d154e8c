package app

import (
	"context"

	"puffproof/limits"
)

// ventWish says whether the vents to drill are asked for.
type ventWish bool

// ventAnswer is all that vent shows.
type ventAnswer struct {
	report *limits.VentReport
	sizes  []limits.VentSize
	log    *limits.LogAnswer
}

// emptyDesign computes how a launcher empties, and what was asked beside it.
func emptyDesign(ctx context.Context, l *limits.Launcher, log *limits.VentLog, size ventWish) (ventAnswer, error) {
	var a ventAnswer
	var err error
	if a.report, err = limits.Empty(ctx, l); err != nil {
		return a, err
	}
	if size {
		if a.sizes, err = limits.VentSizes(l, a.report.Target); err != nil {
			return a, err
		}
	}
	if log != nil {
		a.log, err = limits.JudgeLog(l, *log)
	}
	return a, err
}
