package worst

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// A blower without a switch drives the projectile itself: the expected shot is the harder the more it blows, and one that
// runs only in firing shoots from nothing. With a switch that has just stopped it, the supply stands still.
func TestTheExpectedShotCountsABlower(t *testing.T) {
	shot := func(litres float64, changes ...func(*launcher.Launcher)) *Nominal {
		l := sample.Plain(append([]func(*launcher.Launcher){func(l *launcher.Launcher) {
			l.Switch, l.Volumes[0].Volume = nil, launcher.Exact("", 0.2e-3)
			l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", litres*sample.LitreMinute), launcher.Exact("", 0.2*sample.Bars)
			l.Supply.RunsInStated, l.Supply.RunsIn = false, pneumatics.SetOf(pneumatics.Charging, pneumatics.Armed, pneumatics.Firing)
			l.Barrel.Travel = launcher.Exact("", 0.06)
			l.Paths[0].Flow = sample.Orifice(30*sample.Millimetres, 0.75)
		}}, changes...)...)
		n, err := NominalShot(context.Background(), l, nil, 0)
		require.NoError(t, err)
		return n
	}
	onlyFiring := func(l *launcher.Launcher) {
		l.Supply.RunsInStated, l.Supply.RunsIn = true, pneumatics.SetOf(pneumatics.Firing)
	}
	small, large := shot(4), shot(1500)
	assert.Greater(t, large.Result.FinalEnergy, 1.3*small.Result.FinalEnergy)
	alone := shot(1500, onlyFiring)
	assert.Equal(t, pneumatics.Left, alone.Result.Outcome)
	assert.InDelta(t, alone.Circuit.Ambient.Pressure, alone.Scenario.Volumes[0].Pressure, 1e-9, "nothing is filled before")
	stopped := func(l *launcher.Launcher) {
		l.Switch = &launcher.SwitchSpec{Senses: "tank", CutOut: launcher.Exact("", 0.2*sample.Bars), CutIn: launcher.Exact("", 0.1*sample.Bars)}
	}
	assert.False(t, shot(1500, stopped).Scenario.SupplyRuns)
	assert.True(t, shot(1500, stopped, onlyFiring).Scenario.SupplyRuns, "the design says that it blows")
	pumped := func(l *launcher.Launcher) { l.Supply.Kind = launcher.HandPump }
	assert.False(t, shot(1500, pumped).Scenario.SupplyRuns)
}

// Nobody knows how hard a supply of unknown delivery pushes while it is fired: no energy is told, rather than that of a
// supply that stands still.
func TestASupplyOfUnknownDeliveryLeavesTheEnergyUnknown(t *testing.T) {
	told := func(change func(*launcher.Launcher)) bool {
		l := sample.Plain(func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }, change)
		limits, err := l.EnergyLimits("")
		require.NoError(t, err)
		e, err := ComputeEnergies(weakly(), EnergyInput{Launcher: l, Limits: limits})
		require.NoError(t, err)
		return len(e.NoStart) == 0
	}
	assert.True(t, told(func(*launcher.Launcher) {}), "it runs while charging only")
	firing := func(l *launcher.Launcher) { l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Firing) }
	assert.False(t, told(firing))
	assert.True(t, told(func(l *launcher.Launcher) {
		firing(l)
		l.Supply.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 2e-4}, {Gauge: 4 * sample.Bars}}
	}), "a curve tells it")
}
