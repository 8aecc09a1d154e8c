package budget_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/assessment"
	"puffproof/limits/budget"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
)

// anvil is a launcher whose shot has a closed form: a heavy projectile without friction in front of so large a tank and so wide a
// valve that the pressure behind it stays that of the tank, E = p A L.
func anvil(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	return sample.Plain(append([]func(*launcher.Launcher){sample.PartsOff, sample.Friction(0, 0), sample.FireCv(40),
		func(l *launcher.Launcher) {
			l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 0.2)
			l.Projectile.Mass = launcher.Exact("projectile.mass", 5)
			l.Paths[0].OpeningTime = launcher.Exact("paths.fire.opening_time", 1e-3)
			l.Ambient.Hottest, l.Ambient.Coldest = l.Ambient.Temperature, l.Ambient.Temperature
		}}, changes...)...)
}

// of is the budget of a launcher, searched lightly.
func of(t *testing.T, l *launcher.Launcher) (*assessment.Assessment, *budget.Report) {
	t.Helper()
	a, err := assessment.Make(sample.Weakly(), l, assessment.Options{Day: "2026-01-01", Want: assessment.EnergyStage | assessment.BudgetStage})
	require.NoError(t, err)
	require.NotNil(t, a.Budget)
	return a, a.Budget
}

// share finds what a key costs.
func share(t *testing.T, shares []budget.Share, key string) budget.Share {
	t.Helper()
	for _, s := range shares {
		if s.Key == key {
			return s
		}
	}
	require.Failf(t, "no share", "%s is not among %v", key, shares)
	return budget.Share{}
}

// Closed form, E = p A L: a tenth more travel, and a twentieth more pressure, cost a tenth and a twentieth of the nominal energy, so
// 0.1/1.1 and 0.05/1.05 of the worst. The tolerance, 2 % of the worst energy, is what the valve and the tank's
// falling pressure take from the form.
func TestSharesOfAConstantPush(t *testing.T) {
	l := anvil(func(l *launcher.Launcher) {
		l.Barrel.Travel = sample.Between("barrel.travel", 0.27, 0.33)
		cut := l.Switch.CutOut.Nominal
		l.Switch.CutOut = sample.Between("pressure_switch.cut_out", 0.95*cut, 1.05*cut)
	})
	a, b := of(t, l)
	area := launcher.Circle(l.Projectile.Diameter.Nominal)
	push := l.Switch.CutOut.High * area * l.Barrel.Travel.High
	require.InEpsilon(t, push, a.Energy.WorstEnergy, 0.1, "the form holds but for the valve and the switch's overshoot")
	worstOf := a.Energy.WorstEnergy
	assert.InDelta(t, 0.1/1.1*worstOf, share(t, b.Shares, "barrel.travel").Energy, 0.02*worstOf)
	assert.InDelta(t, 0.05/1.05*worstOf, share(t, b.Shares, "pressure_switch.cut_out").Energy, 0.02*worstOf)
	for _, s := range b.Shares {
		assert.NotEqual(t, "projectile.mass", s.Key, "an exact figure costs nothing")
	}
	// The weakest starts where the supply starts again, with the shortest travel: v = sqrt(2 E/m), so knowing the travel gives half
	// of a tenth of the speed.
	require.True(t, b.Weakest.Known && b.Weakest.Leaves)
	assert.InEpsilon(t, 0.054*b.Weakest.Speed, share(t, b.Slow, "barrel.travel").Speed, 0.1, "sqrt(1/0.9) - 1; the valve shares in it")
}

// The steps begin at the nominal shot, never fall back behind what they are made of, and end at the energy that the model gives.
func TestStepsEndAtTheModel(t *testing.T) {
	for name, l := range map[string]*launcher.Launcher{"whale": sample.Whale(), "rocket": sample.Rocket()} {
		t.Run(name, func(t *testing.T) {
			a, b := of(t, l)
			n := len(b.Steps)
			require.Greater(t, n, 3)
			assert.InEpsilon(t, a.Energy.NominalShot.FinalEnergy, b.Steps[0].Energy, 0.01, "a change below half a percent is no step")
			assert.Equal(t, a.Energy.Model, b.Steps[n-1].Energy)
			assert.InEpsilon(t, a.Energy.WorstEnergy, b.Steps[n-2].Energy, 0.01, "the same")
			assert.NotEmpty(t, b.Shares)
			for i, s := range b.Shares[1:] {
				assert.LessOrEqual(t, s.Energy, b.Shares[i].Energy, "the dearest first")
			}
			assert.Less(t, b.Weakest.Speed, a.Energy.NominalShot.FinalSpeed)
		})
	}
}

// A vehicle's speed is a step of its own.
func TestAVehicleIsAStep(t *testing.T) {
	a, b := of(t, anvil(func(l *launcher.Launcher) { l.Mount.MovingAt = launcher.Exact("mount.moving_at", 2) }))
	n := len(b.Steps)
	assert.Contains(t, b.Steps[n-2].What.String(), "vehicle's speed, 2.0 m/s")
	assert.Equal(t, a.Energy.WorstEnergy, b.Steps[n-2].Energy)
	assert.Less(t, b.Steps[n-3].Energy, b.Steps[n-2].Energy)
}

// Without a working pressure there is neither a worst case nor a weakest launcher: nothing is made up.
func TestNothingIsMadeUp(t *testing.T) {
	l := sample.Plain()
	l.Switch, l.Supply = nil, nil
	_, b := of(t, l)
	assert.Empty(t, b.Steps)
	assert.Empty(t, b.Shares)
	assert.False(t, b.Weakest.Known)
	assert.Empty(t, b.Slow)
}

// The account closes without the work on the atmosphere, and what is left is below the ceiling.
func TestAccountCloses(t *testing.T) {
	n, err := worst.NominalShot(context.Background(), sample.Whale(), nil, 0)
	require.NoError(t, err)
	sum, work, atmosphere := 0.0, 0.0, 0.0
	for _, e := range budget.Account(n.Result) {
		switch {
		case strings.HasPrefix(e.Name, "work of"):
			work += e.Energy
		case e.Name == "to the atmosphere":
			atmosphere = e.Energy
		default:
			sum += e.Energy
		}
	}
	assert.InDelta(t, work, sum, 1e-5, "entries below a microjoule are left out")
	assert.Less(t, work, n.Ceiling)
	b := n.Circuit.Barrel
	assert.GreaterOrEqual(t, atmosphere, n.Circuit.Ambient.Pressure*b.Area*b.Travel,
		"p A L up to the muzzle, and what the push behind it sweeps")
}

func TestWhyItDoesNoMore(t *testing.T) {
	small := func(l *launcher.Launcher) {
		l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 0.1e-3)
		l.Paths[0].OpeningTime = launcher.Exact("paths.fire.opening_time", 1e-3)
	}
	shut := func(l *launcher.Launcher) {
		p := &l.Paths[0]
		p.SeatShare, p.OpensAt, p.FullAt = launcher.Exact("share", 0.4), launcher.Exact("opens", 2e5), launcher.Exact("full", 2.2e5)
	}
	for name, c := range map[string]struct {
		l    *launcher.Launcher
		says []string
	}{
		"flies": {sample.Plain(), nil},
		// 0.95 bar of 2 L in 2.04 L with the barrel's dead volume are 0.931 bar (first law), on a bore of 41 mm 123 N.
		"held fast": {sample.Plain(sample.Friction(200, 200)),
			[]string{"It does not move: it takes 200 N to break it away, and the air pushes with 120 N " +
				"at most (0.93 bar on its section)."}},
		// The same air would push with 123 N; a valve that needs 2 bar to open stays shut.
		"valve shut": {sample.Plain(shut, sample.Friction(5, 5)),
			[]string{"It does not move, though the 0.95 bar before the barrel would break it away"}},
		// 0.1 L at 0.95 bar is 0.094 L of free air; the bore has 0.396 L.
		"too little air": {sample.Plain(small, sample.Friction(1, 1)), []string{"the charge holds 0.094 L of free air", "Friction takes"}},
		"narrow valve":   {sample.Plain(sample.FireCv(0.05)), []string{"What lets the air in is small for this barrel: of 0.95 bar before it"}},
		"heavy": {anvil(func(l *launcher.Launcher) { l.Projectile.Mass = launcher.Exact("projectile.mass", 50) }),
			[]string{"into a projectile of 50000 g"}},
	} {
		t.Run(name, func(t *testing.T) {
			n, err := worst.NominalShot(context.Background(), c.l, nil, 0)
			require.NoError(t, err)
			why := budget.Why(c.l, n)
			if c.says == nil {
				assert.Empty(t, why)
			}
			for _, words := range c.says {
				assert.Contains(t, finding.Join(why, " ").String(), words)
			}
		})
	}
}
