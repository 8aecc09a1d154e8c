package design

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/finding"
	"puffproof/limits/launcher"
	"puffproof/limits/verdict"
)

// TestATapInSeriesThrottlesNothing: whoever opens a tap and then works the valve behind it has the same launcher as who states the tap
// open before. Invented.
func TestATapInSeriesThrottlesNothing(t *testing.T) {
	data, err := os.ReadFile(testdata + "/designs/whale.toml")
	require.NoError(t, err)
	series := strings.Replace(string(data), "[paths.fire]\nfrom = \"dose\"", `[volumes.mid]
volume = "0.02 L ± 3 %, measured"
rated_pressure = "10 bar, label"
rated_for_gas = true
material = "steel"

[paths.vent_mid]
from = "mid"
to = "atmosphere"
kind = "valve"
orifice = "1.5 mm ± 0.1 mm"
open_in = ["off", "loading"]
unpowered = "open"
drive = "direct"
points = "away"

[paths.tap]
from = "dose"
to = "mid"
kind = "hand valve"
Cv = "2.0 ± 10 %, datasheet"
open_in = ["firing"]
drive = "direct"
opening_time = "1.0 s ± 0.1 s, measured"

[paths.fire]
from = "mid"`, 1)
	require.NotEqual(t, string(data), series)
	stated := strings.Replace(series, "kind = \"hand valve\"\nCv = \"2.0 ± 10 %, datasheet\"\nopen_in = [\"firing\"]",
		"kind = \"hand valve\"\nCv = \"2.0 ± 10 %, datasheet\"\nopen_in = [\"armed\", \"firing\"]", 1)
	require.NotEqual(t, series, stated)
	read := func(text string) *launcher.Launcher {
		l, problems := Read("x.toml", []byte(text))
		require.Empty(t, problems)
		return l
	}
	a, b := read(series), read(stated)
	require.Len(t, a.Paths, len(b.Paths))
	for i := range a.Paths {
		assert.Equal(t, b.Paths[i].OpenIn, a.Paths[i].OpenIn, a.Paths[i].Name)
	}
	notes := func(l *launcher.Launcher) string {
		return finding.Join(verdict.DesignNotes(&assessment.Assessment{Launcher: l}), " ").String()
	}
	assert.Contains(t, notes(a), "paths.tap is turned by hand and lies in series")
	assert.NotContains(t, notes(b), "lies in series")
}
