package app

import (
	"context"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/figure"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/setpoint"
)

// sizeCommand plans before there is a design.
func sizeCommand() *Command {
	return &Command{Name: "size", Run: runSize,
		Summary: "before any file: how much air at which pressure for a limit",
		Help: []string{
			"For an energy limit it prints how much air may reach the barrel at which charge pressure: by the ceiling, which no valve and no " +
				"friction can beat, and by the model for some travels of the projectile in its bore, with the push after the muzzle.",
			"It judges nothing. A small dose at a modest pressure, or a source that stalls below the pressure, is the easiest launcher to show " +
				"to be weak.",
		},
		Options: []Option{
			{Name: "limit", Value: "ENERGY", Help: "energy limit, such as \"0.5 J\" (the default)"},
			{Name: "bore", Value: "LENGTH", Help: "bore, or the rocket's inside, such as \"40 mm\" (the default)"},
			{Name: "travel", Value: "LENGTH", Help: "show travels around this one, such as \"150 mm\""},
			{Name: "mass", Value: "MASS", Help: "mass of the projectile: also say how fast it flies at the limit"},
			{Name: "plot", Value: "FILE.svg", Files: true, Writes: true, Help: "also draw allowed volume over pressure"},
			{Name: "force", Help: "let --plot replace a file that exists"},
		},
		Examples: []Example{
			{"puffproof size", "for the limit and the bore that are usual here"},
			{"puffproof size --limit \"0.3 J\" --bore \"41 mm\" --travel \"150 mm\" --mass \"4 g\"", "for a launcher in mind"},
			{"puffproof size --plot plan.svg", "with a drawing"},
		},
	}
}

func runSize(ctx context.Context, call *Call) (status, error) {
	q, err := call.sizeQuestion()
	if err != nil {
		return 0, err
	}
	z, err := setpoint.FindSize(q)
	if err != nil {
		return 0, inputErrorf("%v", err)
	}
	doc, err := export.Size(z)
	if err := call.show(doc, err, &screen.SizeScreen{Frame: call.frame(show.DesignID{}), Size: z}); err != nil {
		return 0, err
	}
	return statusOK, call.plot(ctx, func() ([]byte, error) { return figure.AllowedSVG(screen.SizeFigure(z, call.style.Units)) })
}

// sizeQuestion reads the flags.
func (c *Call) sizeQuestion() (setpoint.SizeQuestion, error) {
	q := setpoint.SizeQuestion{Limit: 0.5, Bore: 0.040}
	for _, f := range []struct {
		flag string
		d    unit.Dimension
		to   *float64
	}{{"limit", unit.Energy, &q.Limit}, {"bore", unit.Length, &q.Bore}, {"travel", unit.Length, &q.Travel}, {"mass", unit.Mass, &q.Mass}} {
		if !c.flags.IsSet(f.flag) {
			continue
		}
		v, err := c.quantityOf(c.flags.String(f.flag), f.d)
		switch {
		case err != nil:
			return q, inputErrorf("--%s: %v", f.flag, err)
		case v.Low != v.High:
			return q, inputErrorf("--%s: one figure, without a tolerance", f.flag)
		case v.Nominal <= 0:
			return q, inputErrorf("--%s: %q is not above zero", f.flag, c.flags.String(f.flag))
		}
		*f.to = v.Nominal
	}
	return q, nil
}
