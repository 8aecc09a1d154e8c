package app

import (
	"context"
	"errors"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/budget"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// shotCommand shows one shot.
func shotCommand() *Command {
	return &Command{Name: "shot", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runShot,
		Summary: "one shot in detail: speed, energy, pressures, times, a plot",
		Help: []string{
			"Computes one shot of the design DESIGN with its nominal values: every tolerance at its middle, the projectile seated at the stated " +
				"travel. It judges nothing; the worst case is the business of check.",
			"The shot starts at the pressure where the switch cuts out, or at the gauge reading you give with --at. Muzzle figures hold at the " +
				"instant the projectile leaves; final figures include the push of the jet behind it.",
			"The energy account says where the energy of the expanding air went: into the projectile, into the air it pushed away, into " +
				"friction. A shot whose account does not close is withheld.",
			"The fast model takes the air in the barrel as one volume. --model wave also resolves it along the bore, with its waves, up to the " +
				"muzzle, and says how far apart the two are and when that matters.",
		},
		Options: []Option{
			{Name: "at", Value: "PRESSURE", Help: "start at this gauge reading: \"0.8 bar\", \"12 psi\""},
			{Name: "model", Value: "NAME", Choices: []string{"fast", "wave"},
				Help: "wave: show the shot in one-dimensional gas dynamics too, beside the fast model"},
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "also draw pressure and speed over time and travel"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof shot whale.toml", "at the cut-out"},
			{"puffproof shot whale.toml --at \"0.3 bar\"", "from a lower pressure"},
			{"puffproof shot whale.toml --model wave", "both models side by side"},
			{"puffproof shot whale.toml --plot whale.svg", "with a drawing for the wall"},
		},
	}
}

func runShot(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign(ctx, call.Args[0])
	if err != nil {
		return 0, err
	}
	at, err := call.startPressure(l)
	if err != nil {
		return 0, err
	}
	shot, err := worst.NominalShotAndSeats(ctx, l, at, show.TraceLength)
	if outside := (*worst.RangeError)(nil); errors.As(err, &outside) {
		return 0, inputErrorf("%s", strings.TrimPrefix(err.Error(), "pneumatics: "))
	}
	if err != nil {
		return 0, err
	}
	view := show.ShotOf(shot)
	view.Design, view.Why = id, budget.Why(l, shot)
	if call.flags.String("model") == "wave" {
		view.Wave = shot.CompareWave()
	}
	doc, err := export.Shot(view)
	if err := call.show(doc, err, &screen.ShotScreen{Frame: call.frame(id), Shot: view}); err != nil {
		return 0, err
	}
	return statusOK, call.plot(ctx, func() ([]byte, error) { return figure.ShotSVG(curve.Shot(view, call.style.Units)) })
}

// startPressure reads --at [Pa gauge]; nil where it is not given.
func (c *Call) startPressure(l *launcher.Launcher) (*float64, error) {
	if !c.flags.IsSet("at") {
		return nil, nil
	}
	p, err := c.readGauge(c.flags.String("at"), l.Ambient.Pressure.Nominal)
	if err != nil {
		return nil, inputErrorf("--at: %v", err)
	}
	if p < 0 {
		return nil, inputErrorf("--at: %q is below the pressure of the air around; a launcher is charged above it", c.flags.String("at"))
	}
	return &p, nil
}

// readGauge reads a pressure as the command line gives it [Pa gauge]. An
// absolute pressure is counted from ambient [Pa absolute].
func (c *Call) readGauge(text string, ambient float64) (float64, error) {
	q, err := c.quantityOf(text, unit.Pressure)
	switch {
	case err != nil:
		return 0, err
	case q.Low != q.High:
		return 0, errors.New("a start pressure is one figure, without a tolerance")
	case q.Reference == unit.Absolute:
		return q.Nominal - ambient, nil
	}
	return q.Nominal, nil
}
