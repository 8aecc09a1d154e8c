package app

import (
	"context"
	"puffproof/limits"
	"puffproof/limits/launcher"
	"puffproof/limits/vent"
)

// ventAsk is what is asked beside the emptying itself.
type ventAsk struct {
	day  string    // of the question, an ISO date
	log  *vent.Log // readings while it emptied; nil: none
	leak *vent.Log // readings while it was sealed; nil: none
	size bool      // the vents to drill
}

// ventAnswer is all that vent shows.
type ventAnswer struct {
	report *vent.Report
	sizes  []vent.VentSize
	log    *vent.LogAnswer
	leak   *vent.LeakAnswer
}

// emptyDesign computes how a launcher empties, and what was asked beside it.
func emptyDesign(ctx context.Context, l *launcher.Launcher, ask ventAsk) (ventAnswer, error) {
	var a ventAnswer
	var err error
	if a.report, err = limits.Empty(ctx, l, limits.VentOptions{Day: ask.day}); err != nil {
		return a, err
	}
	if ask.size {
		if a.sizes, err = vent.Sizes(l, a.report.Target); err != nil {
			return a, err
		}
	}
	if ask.log != nil {
		if a.log, err = vent.JudgeLog(l, *ask.log); err != nil {
			return a, err
		}
	}
	if ask.leak != nil {
		a.leak, err = vent.JudgeLeakDown(l, *ask.leak)
	}
	return a, err
}
