package measure

import (
	"context"
	"slices"

	"puffproof/limits/launcher"
)

// Evaluate draws everything from a log: speeds, bounds, bench values, the fit. A
// fit narrows bands only where the model is credible, a group of shots counts and
// no reading is in doubt.
// The error is the context's.
func Evaluate(ctx context.Context, l *launcher.Launcher, log *ShotLog) (*Findings, error) {
	e, err := measure(ctx, l, log)
	if err != nil || len(e.Severe()) > 0 {
		return e, err
	}
	e.Wrong, err = contradiction(ctx, l, e.Groups)
	return e, err
}

// measure is Evaluate without the search for contradictions.
func measure(ctx context.Context, l *launcher.Launcher, log *ShotLog) (*Findings, error) {
	e := &Findings{Log: log.Name}
	for i := range log.Shots {
		e.Shots = append(e.Shots, SpeedOf(l, &log.Shots[i]))
	}
	e.Groups = speedGroups(l, e.Shots)
	e.Bench = BenchValues(l, log.Bench)
	for i := range e.Bench {
		if len(e.Bench[i].Trouble) == 0 {
			e.UseBench(l, &e.Bench[i])
		}
	}
	e.Remarks = plausible(l, e, log)
	if len(e.Severe()) > 0 {
		return e, nil
	}
	var err error
	if e.Fit, err = fit(ctx, e.Narrow(l), e.Shots, e.Groups); err != nil {
		return nil, err
	}
	doubted := slices.ContainsFunc(e.Groups, func(g SpeedGroup) bool { return g.Doubted })
	if e.Fit != nil && e.Fit.Credible && e.Best() != nil && !doubted && len(e.Clashes) == 0 {
		for i := range e.Fit.Parameters {
			if p := &e.Fit.Parameters[i]; p.Learned {
				e.useFit(l, p)
			}
		}
	}
	return e, nil
}
