package app

import (
	"context"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
)

// papers computes everything that a safety file or a card shows of a design; the
// measurements are in the input already.
func papers(ctx context.Context, l *launcher.Launcher, in *document.Input) error {
	in.Launcher = l
	var err error
	if in.Report, err = limits.Check(ctx, l, assessment.Options{Measured: in.Found, Day: in.Date}); err != nil {
		return err
	}
	in.Report.TakeLogs(l, in.VentLog, in.LeakLog)
	in.Report.TakeDates(l, in.Date)
	if in.Vent, err = limits.Empty(ctx, l, limits.VentOptions{Day: in.Date}); err != nil {
		return err
	}
	if in.Faults, err = limits.Faults(ctx, l, limits.FaultOptions{Day: in.Date}); err != nil {
		return err
	}
	set, err := setpoint.Find(ctx, l, setpoint.Options{Measured: in.Found})
	if err != nil {
		return err
	}
	in.Setpoint = &set
	if in.Flights, err = measure.Flights(ctx, l); err != nil {
		in.Flights, in.NoFlight = nil, err.Error()
	}
	if shot, err := shootDesign(ctx, l, nil, fastModel); err == nil {
		in.Shot = &shot
	}
	for _, answer := range []any{&in.Report, in.Setpoint, in.Vent, in.Faults, in.Flights, in.Found, in.VentLog, in.LeakLog} {
		unit.Sentences(answer, in.Units)
	}
	return ctx.Err()
}

// drafting adds the service of the papers.
func (s services) drafting() services {
	s.papers = papers
	return s
}
