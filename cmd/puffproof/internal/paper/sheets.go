package paper

import (
	"fmt"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/vent"
)

// gaugeSheet is a table of readings to expect, with a column to write in. The unit
// of the pressure stands in the caption, between its two parts.
func (b *builder) gaugeSheet(gauge, how string, start float64, readings []vent.Reading, seconds func(float64) string) {
	axis := b.in.Units.Axis(quantity.Gauge, start)
	t := document.Table{Caption: gauge + " (" + axis.Name + ")" + how, Head: []string{"Time, s", "Lowest", "Expected", "Highest", "Read"},
		Shape: document.Narrow}
	cell := func(v float64) document.Text { return document.Own(axis.Reading(v)) }
	for _, r := range readings {
		t.Add(seconds(r.Time), cell(r.Low), cell(r.Gauge), cell(r.High), nil)
	}
	b.add(t)
}

// numbered are blank rows with their number.
func numbered(rows, columns int) [][]document.Text {
	out := blanks(rows, columns)
	for i := range out {
		out[i][0] = document.Own(fmt.Sprint(i + 1))
	}
	return out
}

// blanks are empty rows.
func blanks(rows, columns int) [][]document.Text {
	out := make([][]document.Text, rows)
	for i := range out {
		out[i] = make([]document.Text, columns)
	}
	return out
}
