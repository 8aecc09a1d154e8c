package app

import (
	"context"
	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/selfcheck"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits"
	"puffproof/limits/assessment"
	"puffproof/limits/fault"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/setpoint"
)

// services are the parts of the program that the commands call. They are
// functions so that a test of the command line can give its own. A command
// whose service is nil is not in the registry.
type services struct {
	// template is the commented design file that init writes.
	template func() []byte
	// read understands a design file. Its error lists every problem with its place.
	read func(name string, data []byte) (*launcher.Launcher, error)
	// gauge reads a gauge pressure such as "0.8 bar" [Pa gauge]; ambient is absolute [Pa].
	gauge func(text string, ambient float64) (float64, error)
	// dimensionOf tells what a key of the design file measures; nil where that is
	// not known, the screens then show keys without their values.
	dimensionOf func(key string) (unit.Dimension, bool)
	// check judges a design.
	check func(ctx context.Context, l *launcher.Launcher, o assessment.Options) (limits.Report, error)
	// measure draws everything from a log of measured shots and bench tests.
	measure measureShots
	// flights computes where the projectile goes.
	flights func(ctx context.Context, l *launcher.Launcher) (*measure.FlightReport, error)
	// plan makes a test plan.
	plan func(ctx context.Context, l *launcher.Launcher) (*measure.ShotPlan, error)
	// shot computes one shot with nominal values at the start pressure at
	// [Pa gauge]; nil means the cut-out.
	shot func(ctx context.Context, l *launcher.Launcher, at *float64, m models) (render.ShotView, error)
	// vent computes how a launcher empties, what logs of real tests say, and which
	// vents it needs.
	vent func(ctx context.Context, l *launcher.Launcher, ask ventAsk) (ventAnswer, error)
	// faults runs every single fault.
	faults func(ctx context.Context, l *launcher.Launcher, o limits.FaultOptions) (*fault.Report, error)
	// setpoint finds the highest cut-out of a design.
	setpoint func(ctx context.Context, l *launcher.Launcher, o setpoint.Options) (setpoint.Answer, error)
	// size plans before there is a design.
	size func(q setpoint.SizeQuestion) (setpoint.Size, error)
	// selfCheck runs the published check values.
	selfCheck func(ctx context.Context) ([]selfcheck.Row, error)
	// papers computes what a safety file and a card show of a design.
	papers func(ctx context.Context, l *launcher.Launcher, in *document.Input) error
}
