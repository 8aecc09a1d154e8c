package unit

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Against GNU units 2.22 (testdata/units/gnu-units.csv, whose header names tool,
// date and command). Tolerance 1e-9 relative, or half of the last digit printed
// there where that is coarser: units prints at least 10 significant digits.
func TestAgainstGNUUnits(t *testing.T) {
	file, err := os.Open("../../../../testdata/units/gnu-units.csv")
	require.NoError(t, err)
	defer file.Close()
	r := csv.NewReader(file)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	dims := map[string]Dimension{"pressure": Pressure, "volume": Volume, "length": Length, "mass": Mass, "time": Time,
		"temperature": Temperature, "speed": Speed, "angle": Angle, "flow": VolumeFlow, "conductance": Conductance,
		"force": Force, "area": Area, "energy": Energy, "energy-per-area": EnergyPerArea, "age": Age, "current": Current}
	seen := map[string]bool{}
	for _, row := range rows[1:] {
		text, si := row[0], row[2]
		dim, known := dims[row[1]]
		require.True(t, known, row[1])
		want, err := strconv.ParseFloat(si, 64)
		require.NoError(t, err)
		q, fault := Parse(text, dim)
		require.Nil(t, fault, text)
		require.InEpsilon(t, want, q.Nominal, 1e-9, text)
		seen[strings.TrimLeft(text, "-0123456789.e ")] = true
	}
	for _, u := range table() {
		if !u.alias && u.Reference == Unsaid && u.Name != "%" && u.Dimension != SoundLevel { // a level is counted, not converted
			require.True(t, seen[u.Name], "GNU units was not asked for %s", u.Name)
		}
	}
}
