package fault

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// fedPast is a tank whose compressor blows past a loose projectile that sticks, a
// tank so large that even an hour does not show whether it stays.
func fedPast(deadHead float64) *launcher.Launcher {
	l := sample.VentedTank()
	l.Volumes[0].Volume = launcher.Exact("", 1)
	l.Supply.DeadHead, l.Supply.FreeAir = launcher.Exact("", deadHead), launcher.Exact("", 1.0/60e3)
	l.Supply.RunsIn = pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed, pneumatics.Loading)
	l.Barrel.Bore, l.Projectile.Diameter = launcher.Exact("", 41e-3), launcher.Exact("", 40.5e-3)
	l.Projectile.Breakaway = sample.Between("", 5, 20)
	l.Projectile.Breakaway.Nominal = 10
	return l
}

// A shot whose fate is open never makes a fault pass: with the others within the
// limit it is unknown, with one of them above it fails, and either way it is not
// counted as a shot that does nothing.
func TestAShotThatTheSupplyKeepsFeedingNeverPasses(t *testing.T) {
	const id = "fire.stuck-open.charging"
	f := runFault(t, stageOf(t, fedPast(3e5)), id)
	assert.Equal(t, finding.Unknown, f.Status)
	assert.True(t, math.IsNaN(f.Judged), "no figure that could be read as harmless")
	assert.Contains(t, f.Reason.String(), "neither leaves nor stays for good, because air keeps feeding the barrel")

	says := f.Reason.String()
	tiny := stageOf(t, fedPast(3e5)) // so that the same shots fail, and have a figure
	tiny.Limits.Total.Value = 1e-9
	leaves := runFault(t, tiny, id)
	require.Positive(t, leaves.Energy)
	assert.Contains(t, says, "those that leave have at most "+finding.WorstJoule(worst.ModelFactor*leaves.Energy).String())

	st := stageOf(t, fedPast(6e5))
	f = runFault(t, st, id)
	require.Equal(t, finding.Fail, f.Status, f.Reason.String())
	assert.Greater(t, f.Judged, st.Limits.Total.Value)
	assert.Equal(t, worst.ModelFactor*f.Energy, f.Judged)
	assert.Contains(t, f.Reason.String(), "above the limit")
	assert.Contains(t, f.Reason.String(), "because air keeps feeding the barrel")
	between := stageOf(t, fedPast(6e5))
	between.Limits.Total.Value = 1.01 * f.Energy
	assert.Equal(t, finding.Fail, runFault(t, between, id).Status, "the factor counts here too")

	// In a small tank the same shots settle.
	settled := fedPast(3e5)
	settled.Volumes[0].Volume = launcher.Exact("", 2e-3)
	f = runFault(t, stageOf(t, settled), id)
	assert.Equal(t, finding.Pass, f.Status, f.Reason.String())
	assert.Greater(t, f.Judged, 0.0)
}
