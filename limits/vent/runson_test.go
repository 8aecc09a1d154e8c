package vent

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// constantly lets the supply deliver the same at every pressure [m3/s free air].
func constantly(l *launcher.Launcher, free float64) {
	l.Supply.FreeAir = launcher.Exact("", free)
	l.Supply.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: free}, {Gauge: l.Supply.DeadHead.High, FreeAir: free}}
}

// At rest the vent passes what the supply gives: choked p = pa q sqrt(R T)/(R T psi Cd A)
// for q of free air (isentropic nozzle, NACA Report 1135: psi = 0.68473146), by hand from
// 0.4 L/s through 1.2 mm, Cd 0.75: 0.4e-3 101325/(287.05287 293.15) sqrt(287.05287
// 293.15)/(0.68473146 0.75 1.13097e-6) = 240600 Pa absolute.
func TestASupplyThatRunsOnComesToABalance(t *testing.T) {
	const free = 0.4e-3
	want := free * 101325 / math.Sqrt(287.05287*293.15) / (0.68473146 * 0.75 * launcher.Circle(1.2e-3)) // [Pa abs]
	l := exactTank()
	l.Supply.DeadHead = launcher.Exact("", 5e5)
	constantly(l, free)
	r := RunsOnOf(l, 5000)
	require.True(t, r.Known)
	assert.InEpsilon(t, want-101325, r.Most, 1e-4, "the integrator, and an hour of waiting")
	assert.Equal(t, []float64{r.Most}, r.Rest)
	assert.Equal(t, "tank", r.Volume)
	assert.False(t, r.Empty)

	// The strong end of the supply, the narrow end of the vent: 0.44 L/s through 1.1 mm.
	banded := l.Supply.FreeAir
	banded.Low, banded.High = 0.36e-3, 0.44e-3
	l.Supply.FreeAir = banded
	l.Paths[1].Flow.Value = sample.Between("", 1.1e-3, 1.3e-3)
	assert.InEpsilon(t, want*1.1*1.2*1.2/1.1/1.1-101325, RunsOnOf(l, 5000).Most, 1e-4)
}

func TestWhatASupplyThatRunsOnKeepsFull(t *testing.T) {
	on := func(change func(l *launcher.Launcher)) *RunsOn {
		l := sample.VentedTank()
		l.Ambient.Temperature = launcher.Exact("", 293.15)
		l.Ambient.Coldest, l.Ambient.Hottest = l.Ambient.Temperature, l.Ambient.Temperature // no sun on it
		change(l)
		return RunsOnOf(l, 5000)
	}
	assert.Nil(t, on(func(l *launcher.Launcher) { l.Supply = nil }))
	assert.Nil(t, on(func(l *launcher.Launcher) { l.Supply.Kind = launcher.HandPump }), "nobody pumps on")
	assert.True(t, on(func(l *launcher.Launcher) { l.Paths[1].Flow = sample.Orifice(6e-3, 0.75) }).Empty, "a vent that carries it")

	high := 1.05 * sample.Bars // the top of the dead head
	shut := on(func(l *launcher.Launcher) { l.Paths[1].OpenIn, l.Paths[1].Unpowered = 0, pneumatics.Closed })
	assert.InDelta(t, high, shut.Most, 1)
	for name, change := range map[string]func(l *launcher.Launcher){
		"with power only":    func(l *launcher.Launcher) { l.Paths[1].Unpowered = pneumatics.Closed },
		"without power only": func(l *launcher.Launcher) { l.Paths[1].OpenIn = 0 },
	} {
		assert.InDelta(t, high, on(change).Most, 1, "a vent that is open %s", name)
	}
	assert.InDelta(t, high, on(func(l *launcher.Launcher) { l.Supply.FreeAir = launcher.Band{} }).Most, 1, "a delivery that nobody knows")
	unknown := on(func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} })
	assert.False(t, unknown.Known || unknown.Empty)
	assert.True(t, math.IsInf(unknown.Most, 1))
}

// A supply that is meant to run while loading keeps everything full where nobody says what
// it delivers.
func TestADeliveryThatNobodyKnowsKeepsLoadingFull(t *testing.T) {
	for name, forget := range map[string]func(s *launcher.SupplySpec){
		"none":         func(*launcher.SupplySpec) {},
		"no free air":  func(s *launcher.SupplySpec) { s.FreeAir = launcher.Band{} },
		"no dead head": func(s *launcher.SupplySpec) { s.DeadHead = launcher.Band{} },
	} {
		l := sample.SealedTank()
		l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
		l.Paths[1].Flow = sample.Orifice(6e-3, 0.75) // wide enough to carry it
		l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
		forget(l.Supply)
		air := LoadingOf(l, 5000)
		assert.Equal(t, name == "none", air.Empty[0], name)
		if name != "none" {
			high, ok := StartPressures(l)
			require.True(t, ok)
			assert.Equal(t, high, air.Rest, name)
		}
	}
}

// A projectile that fits tightly lets nothing past: what leaks beside a loose one is no vent
// that may be counted on, also where the barrel is joined to what the supply fills.
func TestAProjectileIsNoVent(t *testing.T) {
	on := func(clearance launcher.Band) float64 {
		l := exactTank()
		l.Supply.DeadHead = launcher.Exact("", 5e5)
		constantly(l, 0.4e-3)
		l.Paths[0].OpenIn |= pneumatics.SetOf(pneumatics.Off)
		l.Paths[0].Unpowered = pneumatics.Open
		l.Projectile.Clearance = clearance
		l.Projectile.Breakaway, l.Projectile.Sliding = launcher.Exact("", 1e4), launcher.Exact("", 1e4)
		return RunsOnOf(l, 5000).Most
	}
	tight, loose := on(launcher.Exact("", 0)), on(launcher.Exact("", 1e-3))
	assert.Greater(t, tight, 1e5)
	assert.InEpsilon(t, tight, loose, 1e-9)
}

// What is left at the target is that of the air alone: a supply that runs while it fires
// adds nothing, and the model's factor is on it, up to the ceiling of the air.
func TestWhatIsLeftIsOfTheAirAlone(t *testing.T) {
	left := func(runs pneumatics.StateSet) *Report {
		l := exactTank()
		l.Supply.DeadHead = launcher.Exact("", 5e5)
		constantly(l, 20e-3)
		l.Supply.RunsIn, l.Supply.RunsInStated = runs, true
		e := &Report{Target: 5000}
		require.NoError(t, stage{sample.Weakly(), Input{Launcher: l}, SlowEndOnly, e}.leftShot())
		return e
	}
	still, runs := left(pneumatics.SetOf(pneumatics.Charging)), left(pneumatics.SetOf(pneumatics.Charging, pneumatics.Firing))
	require.Positive(t, still.LeftShot)
	assert.InEpsilon(t, still.LeftShot, runs.LeftShot, 1e-3, "two searches of one question")
}
