package export

import (
	"bytes"
	"encoding/csv"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/limits/vent"
)

// leakScenario is how a sheet names the test of a leak-down.
const leakScenario = "leak-down, armed"

// VentCSV is the sheet of the stopwatch test and of the leak-down: one line a reading, SI units named
// in the header, and an empty column for what is read.
func VentCSV(r *vent.Report) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{{"volume", "scenario", "time [s]", "lowest [Pa gauge]", "expected [Pa gauge]", "highest [Pa gauge]", "read [Pa]"}}
	add := func(volume, scenario string, sheet []vent.Reading) {
		for _, one := range sheet {
			rows = append(rows, []string{spreadsheetText(volume), scenario, quantity.Fixed(one.Time, 2, quantity.Nearest),
				quantity.Fixed(one.Low, 0, quantity.Nearest), quantity.Fixed(one.Gauge, 0, quantity.Nearest),
				quantity.Fixed(one.High, 0, quantity.Nearest), ""})
		}
	}
	for _, c := range r.Tests {
		add(c.Volume, c.Scenario, c.Sheet)
	}
	for _, c := range r.Leaks {
		add(c.Volume, leakScenario, c.Sheet)
	}
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// spreadsheetText keeps a name from being taken for a formula.
func spreadsheetText(s string) string {
	if s != "" && bytes.ContainsAny([]byte(s[:1]), "=+-@\t\r") {
		return "'" + s
	}
	return s
}
