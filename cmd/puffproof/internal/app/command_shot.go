package app

import (
	"context"
	"errors"
	"fmt"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// shotCommand shows one shot.
func shotCommand() *Command {
	return &Command{
		Name:     "shot",
		Summary:  "one shot in detail: speed, energy, pressures, times, a plot",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Computes one shot of the design DESIGN with its nominal values: every tolerance at its middle, the projectile seated " +
				"at the stated travel. It judges nothing; the worst case is the business of check.",
			"The shot starts at the pressure where the switch cuts out, or at the gauge reading you give with --at. " +
				"Muzzle figures hold at the instant the projectile leaves; final figures include the push of the jet behind it.",
			"The energy account says where the energy of the expanding air went: into the projectile, into the air it pushed away, " +
				"into friction. A shot whose account does not close is withheld.",
			"The fast model takes the air in the barrel as one volume. --model wave also resolves it along the bore, with its waves, " +
				"up to the muzzle, and says how far apart the two are and when that matters.",
		},
		Options: []Option{
			{Name: "at", Value: "PRESSURE", Help: "start at this gauge reading: \"0.8 bar\", \"12 psi\""},
			{Name: "model", Value: "NAME", Choices: []string{"fast", "wave"}, Help: "wave: show the shot in one-dimensional gas dynamics too, beside the fast model"},
			{Name: "plot", Value: "FILE.svg", Files: true, Help: "also draw pressure and speed over time and travel"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof shot whale.toml", "at the cut-out"},
			{"puffproof shot whale.toml --at \"0.3 bar\"", "from a lower pressure"},
			{"puffproof shot whale.toml --model wave", "both models side by side"},
			{"puffproof shot whale.toml --plot whale.svg", "with a drawing for the wall"},
		},
		Run: runShot,
	}
}

func runShot(ctx context.Context, call *Call) (status, error) {
	l, id, err := call.readDesign()
	if err != nil {
		return statusInput, err
	}
	at, err := call.startPressure(l)
	if err != nil {
		return statusInput, err
	}
	view, err := call.services.shot(ctx, l, at, modelsOf(call.flags.String("model")))
	if outside := (*worst.RangeError)(nil); errors.As(err, &outside) {
		return statusInput, err
	}
	if err != nil {
		return statusWithheld, err
	}
	view.Design = id
	if err := call.printShot(view); err != nil {
		return statusWithheld, err
	}
	if call.flags.IsSet("plot") {
		return call.plotShot(ctx, view, call.flags.String("plot"))
	}
	return statusOK, nil
}

// models says which models a shot is computed in.
type models uint8

const (
	fastModel models = iota
	bothModels
)

func modelsOf(name string) models {
	if name == "wave" {
		return bothModels
	}
	return fastModel
}

// startPressure reads --at; nil where it is not given.
func (c *Call) startPressure(l *launcher.Launcher) (*float64, error) {
	if !c.flags.IsSet("at") {
		return nil, nil
	}
	p, err := c.services.gauge(c.flags.String("at"), l.Ambient.Pressure.Nominal)
	if err != nil {
		return nil, inputErrorf("--at: %v", err)
	}
	if p < 0 {
		return nil, inputErrorf("--at: %q is below the pressure of the air around; a launcher is charged above it", c.flags.String("at"))
	}
	return &p, nil
}

func (c *Call) printShot(view render.ShotView) error {
	// The document is made for the screen too: a figure that is no number
	// withholds both.
	doc, err := render.ShotJSON(view)
	if err != nil {
		return err
	}
	if c.json {
		return c.writeJSON(doc)
	}
	screen := render.ShotScreen{Style: c.style, Shot: view}
	if c.quiet {
		screen.Detail = render.FindingOnly
	}
	return screen.Write(c.Out)
}

// plotShot draws the figure into a file.
func (c *Call) plotShot(ctx context.Context, view render.ShotView, name string) (status, error) {
	if err := figure.CheckName(name); err != nil {
		return statusInput, inputErrorf("--plot: %v", err)
	}
	svg, err := figure.ShotSVG(render.ShotCurves(view, c.style.Units))
	if err != nil {
		return statusWithheld, fmt.Errorf("the figure: %w", err)
	}
	return c.writeFigure(ctx, name, svg)
}

// writeFigure writes a figure for --plot, and keeps a file that exists unless
// --force is given.
func (c *Call) writeFigure(ctx context.Context, name string, svg []byte) (status, error) {
	if err := figure.CheckName(name); err != nil {
		return statusInput, inputErrorf("--plot: %v", err)
	}
	if err := c.writeNew(ctx, name, svg); err != nil {
		return statusInput, err
	}
	return statusOK, nil
}
