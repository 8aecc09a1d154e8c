package app

import (
	"context"

	"puffproof/limits"
)

// measuring gives the services around measurements.
func (s services) measuring() services {
	s.measure = limits.Measure
	s.flights = limits.Flights
	s.plan = func(ctx context.Context, l *limits.Launcher) (*limits.ShotPlan, error) { return limits.Plan(ctx, l, "") }
	return s
}

// measureShots is the type of the service that draws everything from a log.
type measureShots func(ctx context.Context, l *limits.Launcher, log *limits.ShotLog) (*limits.Findings, error)
