package app

import (
	"context"
	"strings"

	"puffproof/cmd/puffproof/internal/curve"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/manual"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/shots"
)

// shotsOption is the file of measured shots.
func shotsOption(help string) Option {
	return Option{Name: "shots", Value: "FILE.csv", Files: true, Help: help}
}

// calibrateCommand holds the model against measured shots.
func calibrateCommand() *Command {
	return &Command{Name: "calibrate", Operands: "DESIGN", Min: 1, Max: 1, Files: true, Run: runCalibrate,
		Summary: "what measured shots and bench tests say about the model",
		Help: []string{
			"Reads the design and a file of measured shots and bench tests, turns every reading into a speed at the muzzle with its " +
				"uncertainty, and draws three things from them: a bound on the energy of all shots, a fit of what is really unknown (friction, " +
				"flow of the firing valve, opening time, leak), and whether the model is credible for this launcher.",
			"The bound counts with at least 5 shots at one pressure, of at least 2 projectiles, weighed, with the temperature stated: with 95 % " +
				"confidence at least 99 % of all shots stay below it. check takes it with --shots.",
			"The shots file is comma-separated. Its first line names the columns with their units in brackets; every later line is one shot or " +
				"one bench reading, as its filled columns say. Leave out the columns you do not use. No line is ever left out: an outlier is " +
				"named, a misfire kept.",
			"Columns: " + strings.Join(shots.Reference(), "; ") + ".",
			"Exit status 1 means that no shots count yet, that the model does not agree with them, or that a bench test contradicts the design.",
		},
		Options: []Option{
			shotsOption("the measured shots and bench tests; needed"),
			{Name: "fragment", Value: "FILE.toml", Files: true, Writes: true,
				Help: "write the measured and fitted values as keys for the design file; the design itself is never changed"},
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "draw measured and computed speeds over the pressure"},
			{Name: "force", Help: "let --plot and --fragment replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof calibrate whale.toml --shots whale.csv", "speeds, bound, fit, residuals"},
			{"puffproof calibrate whale.toml --shots whale.csv --fragment fitted.toml", "the values to copy into the design"},
			{"puffproof check whale.toml --shots whale.csv", "the verdicts on the measured basis"},
		},
	}
}

func runCalibrate(ctx context.Context, call *Call) (status, error) {
	if !call.flags.IsSet("shots") {
		return 0, inputErrorf("calibrate needs the measured shots: puffproof calibrate %s --shots FILE.csv", call.Args[0])
	}
	_, id, found, err := call.readMeasured(ctx)
	if err != nil {
		return 0, err
	}
	doc, err := export.Calibrate(id, found)
	if err := call.show(doc, err, &screen.CalibrateScreen{Frame: call.frame(id), Found: found}); err != nil {
		return 0, err
	}
	err = call.plot(ctx, func() ([]byte, error) { return figure.LinesSVG(curve.Calibrate(id, found, call.style.Units)) })
	if err != nil {
		return 0, err
	}
	if call.flags.IsSet("fragment") {
		if err := call.writeNew(ctx, call.flags.String("fragment"), []byte(screen.Fragment(id, found, manual.DimensionOf))); err != nil {
			return 0, err
		}
	}
	return heldStatus(found.Agrees()), nil
}
