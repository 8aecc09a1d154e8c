package vent

import (
	"context"

	"puffproof/limits/finding"
	"puffproof/limits/progress"
	"puffproof/limits/recall"
)

// Compute computes how a launcher empties, from every state and both ways. The
// error is the context's, or a WithheldError.
func Compute(ctx context.Context, in Input, detail SheetDetail) (*Report, error) {
	l := in.Launcher
	e := &Report{Within: TimeAllowed(l), Hoses: Hoses(l), LeftLimit: in.Limits.Total.Value}
	e.Target, e.TargetWhy = Target(l, in.Limits.Total.Value)
	e.TooHigh = targetTooHigh(l, e.Target)
	e.RunsOn = RunsOnOf(l, e.Target)
	var ok bool
	if e.Start, e.StartWhy, ok = HighestStart(l); !ok {
		e.Trouble = e.StartWhy
		return e, nil
	}
	for _, step := range []struct {
		name string
		do   func(stage) error
	}{
		{"ways to empty", stage.cases}, {"tests with a stopwatch", stage.stopwatch},
		{"leak-down", stage.leakTests}, {"what is left", stage.leftShot},
	} {
		s := stage{progress.Looking(ctx, finding.Words(step.name)), in, detail, e}
		err := step.do(s)
		if over := ctx.Err(); over != nil { // a run may have been stopped
			err = over
		}
		if err != nil {
			return nil, err
		}
	}
	return e, nil
}

// cases adds every way of emptying, and what its outlets push out of the barrel.
func (s stage) cases() error {
	v := newVenter(s.in, s.report.Start, s.report.Target)
	v.e.stop, v.e.known = s.over, recall.Of(s.ctx)
	ways := scenarios()
	for i, way := range ways {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		progress.Looking(s.ctx, finding.Say("%d of %d, %s", i+1, len(ways), way.String()))
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
