package app

import (
	"context"

	"puffproof/limits"
)

// ventAsk is what is asked beside the emptying itself.
type ventAsk struct {
	day  string          // of the question, an ISO date
	log  *limits.VentLog // readings while it emptied; nil: none
	leak *limits.VentLog // readings while it was sealed; nil: none
	size bool            // the vents to drill
}

// ventAnswer is all that vent shows.
type ventAnswer struct {
	report *limits.VentReport
	sizes  []limits.VentSize
	log    *limits.LogAnswer
	leak   *limits.LeakAnswer
}

// emptyDesign computes how a launcher empties, and what was asked beside it.
func emptyDesign(ctx context.Context, l *limits.Launcher, ask ventAsk) (ventAnswer, error) {
	var a ventAnswer
	var err error
	if a.report, err = limits.Empty(ctx, l, limits.VentOptions{Day: ask.day}); err != nil {
		return a, err
	}
	if ask.size {
		if a.sizes, err = limits.VentSizes(l, a.report.Target); err != nil {
			return a, err
		}
	}
	if ask.log != nil {
		if a.log, err = limits.JudgeLog(l, *ask.log); err != nil {
			return a, err
		}
	}
	if ask.leak != nil {
		a.leak, err = limits.JudgeLeakDown(l, *ask.leak)
	}
	return a, err
}
