package worst

import (
	"testing"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
	"puffproof/pneumatics/filling"
	"puffproof/pneumatics/wave"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The bound on a barrel's pressure without a hose is not below what one-dimensional gas dynamics
// finds on base and breech, from valves that pass next to nothing to one as wide as the bore. A wide one
// goes beyond the tank's pressure, which alone would be no bound; a small one is no dearer than 2 %.
func TestTheWaveOnTheBaseStaysBelowItsBound(t *testing.T) {
	const start = 1 * sample.Bars
	for _, cv := range []float64{1, 10, 60, 200} {
		for _, mass := range []float64{1 * sample.Grams, 100 * sample.Grams} {
			l := sample.Plain(sample.FireCv(cv), sample.Friction(0, 0), func(l *launcher.Launcher) {
				l.Volumes[0].Volume = launcher.Exact("", 20e-3)
				l.Paths[0].OpeningTime = launcher.Exact("", 0)
				l.Projectile.Mass, l.Barrel.DeadVolume = launcher.Exact("", mass), launcher.Exact("", 300*sample.Millilitres)
			})
			c := new(pneumatics.Circuit)
			l.FillShot(c)
			sc := pneumatics.Scenario{From: pneumatics.Armed, To: pneumatics.Firing, Volumes: filling.GaugeConditions(c, []float64{start}),
				Barrel: pneumatics.Condition{Pressure: c.Ambient.Pressure, Temperature: c.Ambient.Temperature}}
			r, err := wave.Shot(c, &sc, wave.Options{Cells: 40})
			require.NoError(t, err)
			require.Empty(t, r.Reason)
			bound, peak := l.BaseWave(start), max(r.BasePeak, r.BreechPeak)-c.Ambient.Pressure
			assert.LessOrEqual(t, peak, bound, "Cv %g, %g kg", cv, mass)
			switch {
			case cv == 200 && mass > 0.01:
				assert.Greater(t, peak, 1.3*start, "the tank's pressure is no bound")
			case cv == 1:
				assert.Less(t, bound, 1.02*start)
			}
		}
	}
}
