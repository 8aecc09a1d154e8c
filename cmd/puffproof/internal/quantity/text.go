package quantity

import (
	"slices"
	"strings"

	"puffproof/limits/finding"
)

// Text writes a text of the results, each of its figures in the system's own unit.
// In US units a figure may leave the true one only to the side that the words around
// it allow: "at most" and "or less" round it down, "at least" and "or more" up; one
// that must not look smaller than it is goes up whatever the words. Energies, times
// and the product that pressure law limits are the same in both systems.
func (s System) Text(t finding.Text) string {
	if s != US {
		return t.String()
	}
	var b strings.Builder
	for i, p := range t {
		if p.Figure == nil {
			b.WriteString(p.Words)
			continue
		}
		before, after := "", ""
		if i > 0 {
			before = t[i-1].Words
		}
		if i+1 < len(t) {
			after = t[i+1].Words
		}
		b.WriteString(inUS(*p.Figure, sense(before, after)))
	}
	return b.String()
}

// inUS writes a figure in US units, each of a span with its own, with two decimals of
// a psi where the metric one is given to a millibar, as settings are.
func inUS(f finding.Shown, r Rounding) string {
	if f.Rounding == finding.Upwards {
		r = Up
	}
	switch f.Side {
	case finding.NotBelow:
		r = Up
	case finding.NotAbove:
		r = Down
	}
	q, ok := ofText(f.Unit)
	if !ok {
		return f.String()
	}
	if number, _, _ := strings.Cut(f.String(), " "); q == Pressure && decimalsOf(number) >= 3 {
		return US.Bare(Setting, f.Value, r) + " psi"
	}
	return US.Words(q, f.Value, r)
}

// ofText is how a figure of a text is shown in other units than the text's own; false:
// both systems have it in the same one.
func ofText(u finding.Unit) (Kind, bool) {
	q, ok := map[finding.Unit]Kind{finding.Bars: Pressure, finding.Hectopascals: Pressure, finding.MillibarsPerMetre: PressurePerLength,
		finding.SquareMillimetres: Area, finding.Millimetres: Length, finding.Metres: Length, finding.PerMetre: PerLength,
		finding.Litres: Volume, finding.Millilitres: Volume,
		finding.LitresPerMinute: VolumeFlow, finding.MetresPerSecond: Speed, finding.Newtons: Force, finding.Grams: Mass,
		finding.BarLitres: PressureVolume, finding.Celsius: Temperature, finding.Kelvins: TemperatureStep}[u]
	return q, ok
}

// decimalsOf counts the decimals of a number as it is written.
func decimalsOf(number string) int {
	_, behind, _ := strings.Cut(number, ".")
	return len(behind)
}

// sense is how a figure may be rounded by the words around it: what is at most
// allowed not upwards, what is at least needed not downwards.
func sense(before, after string) Rounding {
	ends := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.HasSuffix(before, w+" ") })
	}
	switch {
	case strings.HasPrefix(after, " or less"), ends("at most", "up to", "not above", "stay below", "no more than"):
		return Down
	case strings.HasPrefix(after, " or more"), ends("at least", "no less than"):
		return Up
	}
	return Nearest
}
