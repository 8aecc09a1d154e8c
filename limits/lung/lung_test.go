package lung

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A volume that stands below the mix dilutes it: its least counts, and nothing of it where
// no air gets back into it. By hand, 4 bar in 0.2 to 0.22 L beside 0.9 to 1.1 L at 0 bar,
// 40 mL and 1 L: 4 bar 0.22/(0.22 + 0.9 + 1.04); without it 4 bar 0.22/(0.22 + 1.04). At
// 1 bar in the second, above both mixes, its most: (4 0.22 + 1 1.1)/(0.22 + 1.1 + 1.04) bar.
func TestALungTakesTheEndThatMixesHigher(t *testing.T) {
	launcherWith := func(second launcher.PathSpec) *launcher.Launcher {
		l := sample.Plain()
		second.Flow = sample.Orifice(4*sample.Millimetres, 0.75)
		l.Volumes[0].Volume = sample.Between("", 0.2e-3, 0.22e-3)
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "second", Volume: sample.Between("", 0.9e-3, 1.1e-3)})
		l.Paths = append(l.Paths, second)
		return l
	}
	join := func(from, to string, kind pneumatics.PathKind) launcher.PathSpec {
		return launcher.PathSpec{From: from, To: to, Kind: kind}
	}
	pipe, out := join("second", "tank", pneumatics.Orifice), join("second", "tank", pneumatics.Check)
	for name, c := range map[string]struct {
		path   launcher.PathSpec
		second float64 // [bar]
		want   float64 // [bar]
	}{
		"a pipe":                    {pipe, 0, 4 * 0.22 / (0.22 + 0.9 + 1.04)},
		"a check valve out of it":   {out, 0, 4 * 0.22 / (0.22 + 1.04)},
		"a check valve into it":     {join("tank", "second", pneumatics.Check), 0, 4 * 0.22 / (0.22 + 0.9 + 1.04)},
		"a pipe, above the mix":     {pipe, 1, (4*0.22 + 1.1) / (0.22 + 1.1 + 1.04)},
		"a check valve, above it":   {out, 1, (4*0.22 + 1.1) / (0.22 + 1.1 + 1.04)},
		"a valve that stays closed": {join("second", "tank", pneumatics.Valve), 0, 4 * 0.22 / (0.22 + 1.04)},
	} {
		got, _ := Mixed(launcherWith(c.path), []float64{4 * sample.Bars, c.second * sample.Bars}, 1e-3)
		assert.InEpsilon(t, c.want*sample.Bars, got, sample.Rounding, name)
	}
}

// A hose counts at both ends of its band as a volume does: it holds the most air of what
// stands above the mix. By hand, 4 bar in 1 L and a hose of 10 to 12 mm by 1 to 1.1 m, 40 mL
// and 1 L of lung.
func TestALungTakesTheHoseAtItsEnds(t *testing.T) {
	l := sample.Plain()
	l.Volumes[0].Volume = launcher.Exact("", 1e-3)
	l.Paths[0].Hose = &launcher.HoseSpec{Bore: sample.Between("", 10e-3, 12e-3), Length: sample.Between("", 1, 1.1), Side: launcher.HoseBefore}
	got, space := Mixed(l, []float64{4 * sample.Bars}, 1e-3)
	air := 1e-3 + launcher.Circle(12e-3)*1.1
	assert.InEpsilon(t, air, space, 1e-9)
	assert.InEpsilon(t, 4*sample.Bars*air/(air+40e-6+1e-3), got, 1e-9)
}

// What a pump blows into sealed lips ends where its filling does: where nothing ends it, at its dead head.
func TestLipsTakeNoMoreThanTheFillingEndsAt(t *testing.T) {
	const set = 0.15 * sample.Bars
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Switch, l.Supply.DeadHead = nil, launcher.Exact("", 11*sample.Bars)
		l.Supply.FreeAir = launcher.Exact("", 12*sample.LitreMinute)
		l.Supply.RunsIn = pneumatics.SetOf(pneumatics.Charging)
	}, sample.WithRelief(launcher.Exact("", set), launcher.Exact("", 1.5*set), 8*sample.Millimetres, 0.62))
	assert.Zero(t, Blown(l, 0, 1e-4), "it stands still as it is fired")
	l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Firing)
	assert.InEpsilon(t, 1.5*set, Blown(l, 0, 1e-4), sample.Rounding)
	l.Supply.FreeAir = launcher.Band{}
	assert.Equal(t, 11*sample.Bars, Blown(l, 0, 1e-4), "nobody knows whether the valve carries it")
	l.Supply.FreeAir, l.Paths = launcher.Exact("", 12*sample.LitreMinute), l.Paths[:1]
	assert.Equal(t, 11*sample.Bars, Blown(l, 0, 1e-4), "without the valve")
}
