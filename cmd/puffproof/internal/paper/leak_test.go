package paper

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/document"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
)

// The leak-down sheet stands in the file beside the blow-down, with what the log
// of a real one says; a launcher that bleeds by design has none, and says so.
func TestTheFileHoldsTheLeakDownSheet(t *testing.T) {
	in := invented(t, nil)
	in.Vent.Leaks = []vent.LeakTest{
		{Volume: "tank", Low: 0.33e5, Start: 0.36e5, High: 0.4e5, Settled: 22, Falls: 6000, FallsMost: 9800, Needed: 660, Loses: 360,
			Sheet: []vent.Reading{{Time: 0, Low: 0.33e5, Gauge: 0.36e5, High: 0.4e5}, {Time: 660, Low: 0.22e5, Gauge: 0.3e5, High: 0.41e5}}},
		{Volume: "side", Opens: "bleed", Needed: math.NaN()},
	}
	in.LeakLog = &vent.LeakAnswer{Status: vent.LeakCannotTell, Says: finding.Words("cannot tell: too short.")}
	in.Attached = append(in.Attached, document.Attached{Role: LeakLogRole, Name: "sealed.csv", SHA256: "0123456789abcdef",
		Text: "time [s],gauge [bar]\n0,0.36\n"})
	text, err := document.Markdown(built(t, in))
	require.NoError(t, err)
	out := string(text)
	for _, want := range []string{"Leak-down, gauge on tank", "0.300", "Cooling alone takes it down by 0.060 bar, 0.098 bar at most",
		"Read for 11.0 min",
		"is open on it, by design", "cannot tell: too short.", "readings while it was sealed"} {
		assert.True(t, strings.Contains(out, want), want)
	}
	assert.NotContains(t, out, "NaN")
}
