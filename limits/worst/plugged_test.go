package worst

import (
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The pressure on either side of the projectile counts, above the ambient.
func TestPluggedTakesTheLargerSide(t *testing.T) {
	q := PluggedQuestion(sample.Plain(), 1e5)
	c := &pneumatics.Circuit{Ambient: pneumatics.Ambient{Pressure: 1e5}}
	assert.InDelta(t, 1e5, q.Measure(c, &pneumatics.Result{AheadPeak: 2e5, BarrelPeak: 1.5e5}), 1e-9)
	assert.InDelta(t, 2e5, q.Measure(c, &pneumatics.Result{AheadPeak: 2e5, BarrelPeak: 3e5}), 1e-9)
	var sc pneumatics.Scenario
	q.Adjust(c, &sc, nil)
	assert.True(t, sc.MuzzleClosed)
}

// A slow valve fills the barrel to what feeds it at a fault, no less; a fast one drives
// the projectile against the plug and goes beyond.
func TestPluggedIsNeverBelowTheFaultPressure(t *testing.T) {
	plugged := func(changes ...func(*launcher.Launcher)) (Plugged, float64) {
		l := sample.Plain(changes...)
		p, err := ComputePlugged(weakly(), l, nil)
		require.NoError(t, err)
		top, ok := l.FaultHigh()
		require.True(t, ok)
		return p, top
	}
	slow, top := plugged(sample.FireCv(0.01))
	assert.Equal(t, 4*sample.Bars, top, "the dead head: no relief valve")
	assert.Equal(t, top, slow.Value)
	fast, top := plugged(sample.FireCv(60), sample.Friction(0, 0), func(l *launcher.Launcher) {
		l.Volumes[0].Volume, l.Barrel.RatedPressure = launcher.Exact("", 0.2), launcher.Exact("", 4.5*sample.Bars)
	})
	assert.Greater(t, fast.Value, 1.1*top)
	assert.Contains(t, fast.Why.String(), "compresses the air ahead")
	assert.Contains(t, slow.Why.String(), "the barrel fills")
	assert.Equal(t, 4.5*sample.Bars, fast.Limit)
	assert.True(t, fast.Exceeds())
	assert.False(t, Plugged{Value: 2, Limit: 2}.Exceeds())
	assert.False(t, Plugged{Value: 3, Limit: 2, Unknown: fast.Why}.Exceeds())
	pvc, _ := plugged(sample.FireCv(0.01), func(l *launcher.Launcher) {
		l.Barrel.Material, l.Ambient.Hottest = "PVC pipe", launcher.Exact("", sample.Kelvin0+65)
	})
	assert.Zero(t, pvc.Limit, "above 60 degC PVC has no rating: makers' derating tables, as in PVCFactor")
}
