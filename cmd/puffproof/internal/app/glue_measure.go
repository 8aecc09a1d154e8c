package app

import (
	"context"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
)

// measuring gives the services around measurements.
func (s services) measuring() services {
	s.measure = measure.Evaluate
	s.flights = measure.Flights
	s.plan = func(ctx context.Context, l *launcher.Launcher) (*measure.ShotPlan, error) {
		return measure.Plan(ctx, l, "")
	}
	return s
}

// measureShots is the type of the service that draws everything from a log.
type measureShots func(ctx context.Context, l *launcher.Launcher, log *measure.ShotLog) (*measure.Findings, error)
