package screen_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/export"
	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/cmd/puffproof/internal/show"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// What a leak-down log leaves open is shown as open, on the screen and as null in
// JSON; nothing prints a figure that is none, in either family of units.
func TestALeakThatIsNotKnownPrintsNoFigure(t *testing.T) {
	nan := vent.LeakSize{Area: math.NaN(), Minute: math.NaN(), Air: math.NaN()}
	unknown := &vent.LeakAnswer{Status: vent.LeakCannotTell, Volume: "tank", Says: finding.Words("cannot tell: too few."), Count: 1, Runs: 1,
		Least: nan, Bore: nan, Most: nan,
		RMS: math.NaN(), Restart: math.NaN(), Needed: math.NaN(), Settled: math.NaN(), Cooling: math.NaN()}
	known := &vent.LeakAnswer{Status: vent.LeakLeaks, Volume: "tank", Says: finding.Words("leaks: much."), Count: 9, Runs: 1, Resolves: 1000,
		Drift: 470, Settled: 22, Cooling: 9800, Needed: math.Inf(1), RMS: 300,
		Least: vent.LeakSize{Area: 2e-9, Minute: 1500, Air: 5e-7}, Bore: vent.LeakSize{Area: 3e-9, Minute: 2000, Air: 7e-7},
		Most:    vent.LeakSize{Area: math.Inf(1), Minute: 36000, Air: math.Inf(1)},
		Restart: math.Inf(1), Past: []vent.LeakPast{{Path: "fire", To: "barrel", Hold: 300, Fills: math.NaN()}}}
	for _, a := range []*vent.LeakAnswer{unknown, known} {
		for _, sys := range []quantity.System{quantity.Metric, quantity.US} {
			var b strings.Builder
			s := screen.VentScreen{Frame: screen.Frame{Style: screen.Style{Width: 80, Units: sys}},
				Report: &vent.Report{Target: 5000, Within: math.NaN()}, Leak: a}
			require.NoError(t, s.Write(&b))
			assert.Contains(t, b.String(), "The leak-down: "+a.Says.String())
			assert.NotContains(t, b.String(), "NaN")
			assert.NotContains(t, b.String(), "Inf")
			for line := range strings.Lines(b.String()) {
				assert.LessOrEqual(t, len(strings.TrimRight(line, "\n")), 80, line)
			}
		}
		doc, err := export.Vent(show.DesignID{}, &vent.Report{}, nil, export.Logs{Leak: a})
		require.NoError(t, err)
		text, err := json.Marshal(doc)
		require.NoError(t, err)
		assert.Contains(t, string(text), `"status":"`+string(a.Status)+`"`)
	}
	var b strings.Builder
	s := screen.VentScreen{Frame: screen.Frame{Style: screen.Style{Width: 80, Units: quantity.Metric}},
		Report: &vent.Report{Target: 5000, Within: math.NaN()}, Leak: known}
	require.NoError(t, s.Write(&b))
	assert.Regexp(t, `most that could hide +any`, b.String())
	assert.Regexp(t, `likeliest +0\.062 mm, 42 mL/min, 0\.020 bar a minute`, b.String())
	assert.Contains(t, b.String(), "the gauge is too coarse")
}
