package screen_test

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/cmd/puffproof/internal/quantity"
	"puffproof/cmd/puffproof/internal/screen"
	"puffproof/limits/finding"
	"puffproof/limits/vent"
	"puffproof/pneumatics"
)

// ventReport is a report of invented figures with the longest words it can have.
func ventReport() *vent.Report {
	r := &vent.Report{Target: 5000, TargetWhy: finding.Words("as stated"), Within: 60, Start: 1.05e5,
		StartWhy: finding.Words("the relief valve"), LeftLimit: 0.5}
	for _, kind := range []vent.Kind{vent.Shutdown, vent.PowerLost} {
		r.Cases = append(r.Cases,
			vent.Case{Scenario: string(kind) + " from charging", Kind: kind, From: pneumatics.Charging, Volume: "a-reservoir-with-a-long-name",
				Start: 10.27e5, Status: vent.TimeRanOut,
				Slowest: math.Inf(1), Expected: 0.0708, Fastest: 0.0708},
			vent.Case{Scenario: string(kind) + " from firing", Kind: kind, From: pneumatics.Firing, Volume: "barrel", Start: 760,
				Status: vent.Vented})
	}
	r.Tests = []vent.StopwatchTest{{Volume: "a-reservoir-with-a-long-name", Scenario: "power lost from armed", Slowest: math.Inf(1),
		Rebound: 1e4,
		Sheet:   []vent.Reading{{Time: 0, Low: 3.1e4, Gauge: 3.6e4, High: 4.7e4}}}}
	return r
}

func ventText(t *testing.T, r *vent.Report, sys quantity.System) string {
	t.Helper()
	var b bytes.Buffer
	s := screen.VentScreen{Frame: screen.Frame{Style: screen.Style{Width: 80, Units: sys}}, Report: r}
	require.NoError(t, s.Write(&b))
	return b.String()
}

func TestVentLinesFitTheScreen(t *testing.T) {
	for _, sys := range []quantity.System{quantity.Metric, quantity.US} {
		for line := range strings.Lines(ventText(t, ventReport(), sys)) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, line)
		}
	}
}

func TestVentSaysWhatAStuckProjectileHolds(t *testing.T) {
	text := strings.Join(strings.Fields(ventText(t, ventReport(), quantity.Metric)), " ")
	assert.NotContains(t, text, "0 ms VENTED")
	assert.Contains(t, text, "up to 0.0076 bar gauge")
	assert.Contains(t, text, "It never gets to the target.")
}

func TestVentFirstLineTellsOfAPush(t *testing.T) {
	r := ventReport()
	assert.True(t, strings.HasPrefix(ventText(t, r, quantity.Metric), "Empties by itself, on the model"))
	r.Pushes = []vent.BarrelPush{{Scenario: "power lost from armed", Kind: vent.PowerLost, Path: "fire", Outcome: "left", Speed: 9,
		Energy: 0.14, Judged: 0.18}}
	first, _, _ := strings.Cut(ventText(t, r, quantity.Metric), "Slowest")
	assert.Contains(t, strings.Join(strings.Fields(first), " "), "pushes a loaded projectile out with 0.18 J (shot.unasked)")
	assert.NotContains(t, first, "Empties by itself, on the model")
}
