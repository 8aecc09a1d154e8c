package app

import (
	"context"
	"fmt"
	"slices"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
	"puffproof/limits/measure"
	"puffproof/limits/vent"
)

// sheetOption is the option that writes a blank sheet.
func sheetOption(what string) Option {
	return Option{Name: "sheet", Value: "FILE.csv", Files: true, Writes: true, Help: "also write a blank sheet to fill in: " + what}
}

// leakScenario is how the sheet of a leak-down names its test.
const leakScenario = "leak-down, armed"

// blankSheets writes the sheets to fill in of an emptying that were asked for.
func (c *Call) blankSheets(ctx context.Context, l *launcher.Launcher, r *vent.Report) error {
	if c.flags.IsSet("sheet") {
		volume := c.gauged(l, r.Tests[0].Volume)
		i := slices.IndexFunc(r.Tests, func(t vent.StopwatchTest) bool { return t.Volume == volume })
		if i < 0 {
			return inputErrorf("--volume: no volume is named %q", volume)
		}
		t := &r.Tests[i]
		if err := c.blankSheet(ctx, "sheet", volume, t.Scenario, r.Filled+", arm, cut the power, start the stopwatch. Leave empty what "+
			"was missed.", t.Sheet); err != nil {
			return err
		}
	}
	if !c.flags.IsSet("leak-sheet") {
		return nil
	}
	volume := c.gauged(l, "")
	i := slices.IndexFunc(r.Leaks, func(t vent.LeakTest) bool { return len(t.Sheet) > 0 && (t.Volume == volume || volume == "") })
	if i < 0 {
		return inputErrorf("--leak-sheet: no leak-down can be read on a gauge of %s; the screen says why", volume)
	}
	t := &r.Leaks[i]
	return c.blankSheet(ctx, "leak-sheet", t.Volume, leakScenario, r.Filled+", arm, supply off, nothing loaded, start the stopwatch.", t.Sheet)
}

// gauged is the volume that a sheet is of: that which is named, else one that has a gauge, else another.
func (c *Call) gauged(l *launcher.Launcher, other string) string {
	if v := c.flags.String("volume"); v != "" {
		return v
	}
	if len(l.Gauges) > 0 {
		return l.Gauges[0].On
	}
	return other
}

// blankSheet writes one to the file that a flag names.
func (c *Call) blankSheet(ctx context.Context, flag, volume, scenario, todo string, sheet []vent.Reading) error {
	if len(sheet) == 0 {
		return inputErrorf("--%s: there is no test to read on %s", flag, volume)
	}
	data, err := export.ReadingsSheet(volume, scenario, todo, sheet, c.gaugeUnit(volume))
	if err != nil {
		return fmt.Errorf("the sheet: %w", err)
	}
	return c.writeNew(ctx, c.flags.String(flag), data)
}

// shotsSheet writes the sheet to fill in of a plan.
func (c *Call) shotsSheet(ctx context.Context, l *launcher.Launcher, plan *measure.ShotPlan) error {
	if !c.flags.IsSet("sheet") {
		return nil
	}
	if len(plan.Pressures) == 0 || len(plan.Refused) != 0 {
		return inputErrorf("--sheet: there is no plan, so there is no sheet of it")
	}
	speed, length, temperature := named("m/s"), named("m"), named("degC")
	if c.style.Units == quantity.US {
		speed, length, temperature = named("ft/s"), named("ft"), named("degF")
	}
	data, err := export.ShotsSheet(plan, c.gaugeUnit(c.gauged(l, "")), speed, length, temperature)
	if err != nil {
		return fmt.Errorf("the sheet: %w", err)
	}
	return c.writeNew(ctx, c.flags.String("sheet"), data)
}

// gaugeUnit is the unit that the gauge on a volume is marked in, else that of whoever asks.
func (c *Call) gaugeUnit(volume string) unit.Unit {
	if u, known := design.GaugeUnit(c.designText, volume); known {
		return u
	}
	if c.style.Units == quantity.US {
		return named("psi")
	}
	return named("bar")
}

// named is the unit of a name.
func named(name string) unit.Unit {
	u, _ := unit.Lookup(name)
	return u
}
