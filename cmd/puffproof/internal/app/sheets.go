package app

import (
	"cmp"
	"context"

	"puffproof/cmd/puffproof/internal/design"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/launcher"
)

// sheetOption is the option that writes a blank sheet.
func sheetOption(what string) Option {
	return Option{Name: "sheet", Value: "FILE.csv", Files: true, Writes: true, Help: "also write a blank sheet to fill in: " + what}
}

// blankSheet writes a sheet to fill in to the file that a flag names, if it is there: of the volume that is named, else of one
// that has a gauge, in the unit of that gauge.
func (c *Call) blankSheet(ctx context.Context, flag string, l *launcher.Launcher,
	of func(volume string, u unit.Unit) ([]byte, error)) error {
	if !c.flags.IsSet(flag) {
		return nil
	}
	volume := cmp.Or(c.flags.String("volume"), l.Volumes[0].Name)
	if len(l.Gauges) > 0 && !c.flags.IsSet("volume") {
		volume = l.Gauges[0].On
	}
	data, err := of(volume, design.GaugeUnit(c.designText, volume, c.style.Units))
	if err != nil {
		return inputErrorf("--%s: %v", flag, err)
	}
	return c.writeNew(ctx, c.flags.String(flag), data)
}
