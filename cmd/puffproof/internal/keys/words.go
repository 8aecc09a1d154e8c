package keys

import (
	"fmt"
	"regexp"
	"strings"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/unit"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// TeachIn says what the key is, in the reader's units.
func (k *Key) TeachIn(u quantity.System) string { return filled(u, k.Teach, k.teachOf) }

// MissingIn says what goes without it, in the reader's units.
func (k *Key) MissingIn(u quantity.System) string { return filled(u, k.Missing, k.missingOf) }

// filled puts figures into a text; one without figures stands as it is.
func filled(u quantity.System, text string, figures []finding.Shown) string {
	if len(figures) == 0 {
		return text
	}
	args := make([]any, len(figures))
	for i, f := range figures {
		args[i] = f
	}
	return u.Text(finding.Say(text, args...))
}

// ExampleIn is the example of a key as the reader would write it.
func (k *Key) ExampleIn(u quantity.System) string {
	if u == quantity.US && k.exampleUS != "" {
		return k.exampleUS
	}
	return u.Example(k.Example)
}

// ExampleUnit is the unit of the example.
func (k *Key) ExampleUnit(u quantity.System) string {
	m := regexp.MustCompile(`^"[-.0-9]+ ([^±,"-]*[^±,"\s-])`).FindStringSubmatch(k.ExampleIn(u))
	if m == nil {
		return "UNIT"
	}
	return m[1]
}

// Span words the possible range of a key; both ends as they are shown are within.
func (k *Key) Span(u quantity.System) string {
	q := quantity.Of(k.Dimension)
	low := u.Words(q, k.Min, quantity.Up)
	if k.Min == 0 && k.Sign == Positive {
		low = "above 0"
	}
	return low + " to " + u.Words(q, k.Max, quantity.Down)
}

// Accepted says in words what the key may hold.
func (k *Key) Accepted(u quantity.System) string {
	switch k.Kind {
	case Word:
		if k.Declarable() {
			return Quoted(k.Words) + `; with "declared " before it while it is still to be shown`
		}
		return Quoted(k.Words)
	case Text:
		return "text"
	case Date:
		return "a date, year-month-day"
	case Answer:
		return `true, false, "unknown", "declared yes" or "declared no"`
	case States:
		return "a list of " + Quoted(StateNames())
	case Controls:
		return Quoted(append(ObjectControls(), "grid of 10 mm")) + `; with "declared: " before it while it is still to be shown`
	case Names:
		return "a list of names in quotes"
	case Curve:
		return "a list of pairs of gauge pressure and free air"
	case Readings:
		return "a list of " + fmt.Sprint(k.Least) + " or more readings of " + k.Dimension.String() + ", each in quotes with its unit"
	case Subtable:
		return "a table of its own"
	}
	s := k.Dimension.String() + " in " + unit.Accepted(k.Dimension)
	switch {
	case k.Dimension == unit.Dimensionless:
		s = unit.Accepted(k.Dimension)
	case k.Dimension == unit.Pressure && k.Pressure == AsGauge:
		s = "gauge " + s + "; or the same with abs"
	case k.Dimension == unit.Pressure && k.Pressure == AsAbsolute:
		s = "absolute " + s
	case k.Dimension == unit.Pressure:
		s = "difference of " + s
	}
	return s + ", from " + k.Span(u)
}

// Tolerance says in words what is taken without one.
func (k *Key) Tolerance(u quantity.System) string {
	words := func(r rule) string { return u.Text(r.words(k.Dimension)) }
	switch k.Name {
	case "full_flow_pressure", "reseat_pressure":
		return "shifts with the set pressure"
	case "discharge_coefficient":
		return "measured ± 0.10; any other ± 0.10 and at least the band that is assumed without it"
	case "cut_in":
		return "as wide as cut_out's, where that has one; else " + words(k.Bands.of(launcher.Unstated))
	}
	m, o := k.Bands.of(launcher.Measured), k.Bands.of(launcher.Unstated)
	if m == o {
		return words(o)
	}
	s := "measured " + words(m)
	if k.Bands.datasheet != nil {
		s += "; datasheet " + words(*k.Bands.datasheet)
	}
	if k.Bands.label != nil {
		s += "; label " + words(*k.Bands.label)
	}
	return s + "; any other " + words(o)
}

// StateNames are the words for the states of a launcher, in order.
func StateNames() []string {
	var names []string
	for _, st := range pneumatics.States() {
		names = append(names, st.String())
	}
	return names
}

// ObjectControls are the words for what keeps objects out of the barrel, beside a grid.
func ObjectControls() []string {
	return []string{"supervised loading by the adult in charge", "loading from the breech with the muzzle covered"}
}

// Quoted lists words in quotes, with commas.
func Quoted(list []string) string { return `"` + strings.Join(list, `", "`) + `"` }
