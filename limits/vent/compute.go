package vent

import "context"

// Compute computes how a launcher empties, from every state and both ways. The
// error is the context's, or a WithheldError.
func Compute(ctx context.Context, in Input, detail SheetDetail) (*Report, error) {
	l := in.Launcher
	e := &Report{Within: timeAllowed(l), Hoses: Hoses(l), LeftLimit: in.Limits.Total.Value}
	e.Target, e.TargetWhy = Target(l, in.Limits.Total.Value)
	e.TooHigh = targetTooHigh(l, e.Target)
	e.RunsOn = RunsOnOf(l, e.Target)
	var ok bool
	if e.Start, e.StartWhy, ok = HighestStart(l); !ok {
		e.Trouble = e.StartWhy
		return e, nil
	}
	s := stage{ctx, in, detail, e}
	for _, step := range []func() error{s.cases, s.stopwatch, s.leakTests, s.leftShot} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return e, nil
}

// cases adds every way of emptying, and what its outlets push out of the barrel.
func (s stage) cases() error {
	v := newVenter(s.in, s.report.Start, s.report.Target)
	for _, way := range scenarios() {
		cases, err := v.cases(way, s.detail)
		if err != nil {
			return err
		}
		s.report.Cases = append(s.report.Cases, cases...)
		if err := v.push(s.report, way); err != nil {
			return err
		}
	}
	var err error
	if s.report.ByHand, err = v.byHand(); err != nil {
		return err
	}
	return v.aimed(s.report)
}
