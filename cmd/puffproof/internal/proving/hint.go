package proving

import (
	"fmt"
	"strings"

	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/cmd/puffproof/internal/usage"
	"puffproof/limits/commission"
	"puffproof/limits/finding"
)

// unitHint says of a reading without the figure that is asked what is wrong with its unit; "" nothing is known.
func (b *Book) unitHint(step *commission.Step, reading string) string {
	if step.Band == nil {
		return ""
	}
	d, known := map[finding.Quantity]unit.Dimension{finding.InPascalGauge: unit.Pressure, finding.InSecond: unit.Time,
		finding.InMetre: unit.Length, finding.InMetrePerSecond: unit.Speed, finding.InJoule: unit.Energy,
		finding.InNewton: unit.Force}[step.Band.Unit]
	at := strings.IndexAny(reading, "0123456789")
	if !known || at < 0 {
		return ""
	}
	figure, _, _ := strings.Cut(reading[at:], ",") // what follows is another part of the sentence, no origin of the figure
	words := strings.Fields(figure)
	read, wrong := unit.System(b.host.Units).Parse(strings.Join(words[:min(2, len(words))], " "), d)
	switch {
	case wrong == nil && read.Reference == unit.Absolute:
		return " (that is an absolute pressure: write what the gauge shows)"
	case wrong == nil:
		return ""
	case wrong.Kind == unit.UnknownUnit && wrong.Hint == "":
		known := strings.FieldsFunc(unit.Accepted(d), func(r rune) bool { return r == ',' || r == ' ' })
		if meant := usage.Nearest(wrong.Text, known, nil); meant != "" {
			return fmt.Sprintf(" (%q is no unit; did you mean %s?)", wrong.Text, meant)
		}
		return fmt.Sprintf(" (%q is no unit; there are %s)", wrong.Text, unit.Accepted(d))
	case wrong.Hint == "":
		return ""
	}
	return " (" + wrong.Hint + ")"
}
