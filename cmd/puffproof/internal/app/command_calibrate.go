package app

import (
	"context"
	"fmt"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/render"
	"puffproof/cmd/puffproof/internal/shots"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"strings"
)

// shotsOption is the file of measured shots.
func shotsOption(help string) Option {
	return Option{Name: "shots", Value: "FILE.csv", Files: true, Help: help}
}

// calibrateCommand holds the model against measured shots.
func calibrateCommand() *Command {
	return &Command{
		Name:     "calibrate",
		Summary:  "what measured shots and bench tests say about the model",
		Operands: "DESIGN",
		Min:      1, Max: 1,
		Files: true,
		Help: []string{
			"Reads the design and a file of measured shots and bench tests, turns every reading into a speed at the muzzle with its " +
				"uncertainty, and draws three things from them: a bound on the energy of all shots, a fit of what is really unknown " +
				"(friction, flow of the firing valve, opening time, leak), and whether the model is credible for this launcher.",
			"The bound counts with at least 5 shots at one pressure, of at least 2 projectiles, with the temperature stated: with 95 % confidence " +
				"at least 99 % of all shots stay below it. check takes it with --shots.",
			"The shots file is comma-separated. Its first line names the columns with their units in brackets; every later line is one shot or one " +
				"bench reading, as its filled columns say. Leave out the columns you do not use. No line is ever left out: an outlier is named, a misfire kept.",
			"Columns: " + strings.Join(shots.Reference(), "; ") + ".",
			"Exit status 1 means that no shots count yet, that the model does not agree with them, or that a bench test contradicts the design.",
		},
		Options: []Option{
			shotsOption("the measured shots and bench tests; needed"),
			{Name: "fragment", Value: "FILE.toml", Files: true, Help: "write the measured and fitted values as keys for the design file; the design itself is never changed"},
			{Name: "plot", Value: "FILE.svg", Files: true, Help: "draw measured and computed speeds over the pressure"},
			{Name: "force", Help: "let --plot and --fragment replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof calibrate whale.toml --shots whale.csv", "speeds, bound, fit, residuals"},
			{"puffproof calibrate whale.toml --shots whale.csv --fragment fitted.toml", "the values to copy into the design"},
			{"puffproof check whale.toml --shots whale.csv", "the verdicts on the measured basis"},
		},
		Run: runCalibrate,
	}
}

func runCalibrate(ctx context.Context, call *Call) (status, error) {
	if !call.flags.IsSet("shots") {
		return statusInput, inputErrorf("calibrate needs the measured shots: puffproof calibrate %s --shots FILE.csv", call.Args[0])
	}
	l, id, err := call.readDesign()
	if err != nil {
		return statusInput, err
	}
	found, err := call.measured(ctx, l)
	if err != nil {
		return statusInput, err
	}
	doc, err := render.CalibrateJSON(id, found)
	if err != nil {
		return statusWithheld, err
	}
	if call.json {
		if err := call.writeJSON(doc); err != nil {
			return statusWithheld, err
		}
	} else {
		unit.Sentences(found, call.style.Units)
		screen := render.CalibrateScreen{Style: call.style, Design: id, Found: found, DimensionOf: call.services.dimensionOf}
		if call.quiet {
			screen.Detail = render.FindingOnly
		}
		if err := screen.Write(call.Out); err != nil {
			return statusWithheld, err
		}
	}
	if err := call.calibrateFiles(ctx, id, found); err != nil {
		return statusInput, err
	}
	if !found.Agrees() {
		return statusNotHeld, nil
	}
	return statusOK, nil
}

// calibrateFiles writes the figure and the fragment where they are asked for.
func (c *Call) calibrateFiles(ctx context.Context, id render.DesignID, found *measure.Findings) error {
	if err := c.targets("plot", "fragment"); err != nil {
		return err
	}
	if c.flags.IsSet("plot") {
		svg, err := figure.LinesSVG(render.CalibrateLines(id, found, c.style.Units))
		if err != nil {
			return inputErrorf("--plot: %v", err)
		}
		if _, err := c.writeFigure(ctx, c.flags.String("plot"), svg); err != nil {
			return err
		}
	}
	if c.flags.IsSet("fragment") {
		return c.writeNew(ctx, c.flags.String("fragment"), []byte(render.Fragment(id, found, c.services.dimensionOf)))
	}
	return nil
}

// measured reads the shots file that --shots names and draws everything from it.
// A reading that cannot be what it says is an error.
func (c *Call) measured(ctx context.Context, l *launcher.Launcher) (*measure.Findings, error) {
	name := c.flags.String("shots")
	data, err := c.readFile(name)
	if err != nil {
		return nil, err
	}
	return c.measuredFrom(ctx, l, name, data)
}

// measuredFrom draws everything from the text of a shots file.
func (c *Call) measuredFrom(ctx context.Context, l *launcher.Launcher, name string, data []byte) (*measure.Findings, error) {
	log, problems := shots.Read(name, data, l.Ambient.Pressure.Nominal)
	if len(problems) > 0 {
		var b strings.Builder
		for _, p := range problems {
			b.WriteString(p.String() + "\n")
		}
		return nil, &listedError{fmt.Errorf("%s", b.String())}
	}
	found, err := c.services.measure(ctx, l, log)
	if err != nil {
		return nil, err
	}
	if severe := found.Severe(); len(severe) > 0 {
		var b strings.Builder
		for _, r := range severe {
			fmt.Fprintf(&b, "%s:%d:1: %s\n", name, max(1, r.Line), r.Text)
		}
		return nil, &listedError{fmt.Errorf("%s", b.String())}
	}
	return found, nil
}

// shotsIfGiven draws everything from the file of --shots; nil where it is not
// given.
func (c *Call) shotsIfGiven(ctx context.Context, l *launcher.Launcher) (*measure.Findings, error) {
	if !c.flags.IsSet("shots") {
		return nil, nil
	}
	return c.measured(ctx, l)
}
