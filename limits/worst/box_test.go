package worst

import (
	"math"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/pneumatics"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func circuitOf(l *launcher.Launcher) *pneumatics.Circuit {
	c := new(pneumatics.Circuit)
	l.FillShot(c)
	return c
}

// Which quantities are coordinates of the box.
func TestCoordinatesOfTheBox(t *testing.T) {
	labels := func(l *launcher.Launcher) []string { return NewBox(l, EnergyQuestion(l, 1e5)).Labels }
	assert.Equal(t, []string{"start pressure"}, labels(sample.Plain()), "no tolerance, no coordinate")
	hot := sample.Plain(func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", 318.15) })
	assert.Contains(t, labels(hot), "ambient.temperature", "an exact temperature still rises to the hottest")
	l := sample.TwoTanks(launcher.PathSpec{Kind: pneumatics.Regulator, SetPressure: sample.Between("reg.set", 2e4, 3e4),
		Creep: sample.Between("reg.creep", 0, 1e4), Droop: sample.Between("reg.droop", 1e3, 2e3)})
	assert.Contains(t, labels(l), "reg.set")
	assert.Contains(t, labels(l), "reg.creep")
	assert.Contains(t, labels(l), "reg.droop")
	// What cannot reach the barrel during the shot is none.
	l = sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	l.Volumes[0].Volume = sample.Between("volumes.tank.volume", 1e-3, 2e-3)
	assert.NotContains(t, labels(l), "volumes.tank.volume", "the feed shuts at once")
	l.Paths[1].ClosingTime = launcher.Exact("", 20e-3)
	assert.Contains(t, labels(l), "volumes.tank.volume", "it takes time to shut")
}

// A regulator or a check valve before a valve that shuts at once bears on no shot, but on
// where it starts: its bands are coordinates.
func TestWhatSetsTheStartIsACoordinate(t *testing.T) {
	feed, reg := sample.ValveIn(pneumatics.Charging), sample.Regulator(2e4, 1e3)
	check := launcher.PathSpec{Kind: pneumatics.Check, Flow: sample.Orifice(1e-3, 0.7)}
	feed.From, feed.To = "mid", "dose"
	reg.From, reg.To, reg.SetPressure, reg.Creep = "tank", "mid", sample.Between("reg.set", 2e4, 3e4), sample.Between("reg.creep", 0, 1e3)
	reg.Droop = sample.Between("reg.droop", 1e3, 2e3)
	check.From, check.To, check.CrackingPressure = "tank", "mid", sample.Between("check.cracking", 1e3, 2e3)
	for _, way := range []launcher.PathSpec{reg, check} {
		l := sample.TwoTanks(feed, way)
		l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("", 1e-4)})
		labels := NewBox(l, EnergyQuestion(l, 1e5)).Labels
		if way.Kind == pneumatics.Check {
			assert.Contains(t, labels, "check.cracking")
			continue
		}
		assert.Contains(t, labels, "reg.set")
		assert.Contains(t, labels, "reg.creep")
		assert.NotContains(t, labels, "reg.droop", "nothing flows through it during a shot")
	}
}

// A seat is a fraction of the travel: from the rearmost to the muzzle.
func TestTheSeatRunsOverTheTravel(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Barrel.FixedSeat = false })
	b := NewBox(l, EnergyQuestion(l, 1e5))
	e := b.Evaluator()
	for u, want := range map[float64]float64{0: 0, 0.5: 0.15, 1: 0.3} {
		at := make([]float64, b.Dim)
		at[b.Seat] = u
		e.prepare(at)
		assert.InDelta(t, want, e.sc.Seat, 1e-12)
	}
}

// The temperature runs from the coldest of the design's ambient band up to the hottest
// that the filled launcher can have, not only to the top of that band.
func TestTheTemperatureRunsUpToTheHottest(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Ambient.Temperature, l.Ambient.Hottest = sample.Between("ambient.temperature", 283.15, 298.15), sample.Between("", 308.15, 318.15)
	})
	b := NewBox(l, EnergyQuestion(l, 1e5))
	e := b.Evaluator()
	for u, want := range map[float64]float64{0: 283.15, 0.5: 300.65, 1: 318.15} {
		assert.InDelta(t, want, b.Quantities[0].Value(u), 1e-9)
		at := make([]float64, b.Dim)
		at[0] = u
		e.prepare(at)
		assert.InDelta(t, want, e.Circuit.Ambient.Temperature, 1e-9, b.Labels[0])
	}
}

// A valve that shuts after charging may still be open when fire is pressed: both
// states before are tried, each on its half of a coordinate.
func TestTheStateBeforeIsACoordinate(t *testing.T) {
	l := sample.TwoTanks(sample.ValveIn(pneumatics.Charging))
	l.Paths[1].ClosingTime = launcher.Exact("", 20e-3)
	b := NewBox(l, EnergyQuestion(l, 1e5))
	require.GreaterOrEqual(t, b.From, 0)
	e := b.Evaluator()
	for u, want := range map[float64]pneumatics.State{0: pneumatics.Armed, 0.49: pneumatics.Armed,
		0.51: pneumatics.Charging, 1: pneumatics.Charging} {
		at := make([]float64, b.Dim)
		at[b.From] = u
		e.prepare(at)
		assert.Equal(t, want, e.sc.From, u)
		assert.Equal(t, pneumatics.Firing, e.sc.To)
	}
	l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Armed)
	assert.Equal(t, -1, NewBox(l, EnergyQuestion(l, 1e5)).From, "open in both: they do not differ")
}

// A stated clearance goes before the difference of the diameters; it is
// diametral: 0.5 mm in 41 mm leave pi/4 (41^2 - 40.5^2) = pi/4 40.75 = 32.005 mm2.
func TestClearanceGoesBeforeTheDiameters(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Projectile.Diameter = launcher.Exact("", 38*sample.Millimetres)
		l.Projectile.Clearance = launcher.Exact("projectile.clearance", 0.5*sample.Millimetres)
	})
	assert.InEpsilon(t, 32.005e-6, circuitOf(l).Barrel.LeakArea, 1e-5, "five digits printed")
	l.Projectile.Clearance = launcher.Exact("projectile.clearance", 0)
	assert.Zero(t, circuitOf(l).Barrel.LeakArea)
	// The diameter then bears on nothing in the shot and is no coordinate.
	l.Projectile.Diameter = sample.Between("projectile.diameter", 38*sample.Millimetres, 39*sample.Millimetres)
	assert.NotContains(t, NewBox(l, EnergyQuestion(l, 1e5)).Labels, "projectile.diameter")
}

// Up or down is the worse: weight holds a sticky ball longer, until the pressure is
// higher. Every elevation between the mount's stops is tried. The launcher is one of 3000
// random ones, the one whose upward shots gain most.
func TestEveryElevationIsTried(t *testing.T) {
	between := func(low, high float64) *launcher.Launcher {
		return sample.Plain(sample.Friction(16.18, 2.2), sample.CutOut(0.773*sample.Bars), sample.FireCv(0.601), func(l *launcher.Launcher) {
			l.Projectile.Mass, l.Paths[0].OpeningTime = launcher.Exact("", 50.8*sample.Grams), launcher.Exact("", 5e-3)
			l.Barrel.Travel, l.Volumes[0].Volume = launcher.Exact("", 0.264), launcher.Exact("", 1e-3)
			l.Mount.ElevationMin, l.Mount.ElevationMax = launcher.Exact("mount.elevation_min", low), launcher.Exact("mount.elevation_max", high)
		})
	}
	worst := func(low, high float64) float64 { return worstOf(t, between(low, high), search.Options{}).Value }
	up, down := worst(1.3, 1.3), worst(-1.4, -1.4)
	require.Greater(t, up, 1.03*down)
	assert.GreaterOrEqual(t, worst(-1.4, 1.3), up*(1-1e-3), "the search's last step, and the integration")
}

// Every coordinate of the worst point is named, with its value and its side of the box.
func TestPointNamesItsSides(t *testing.T) {
	l := sample.Whale()
	w := worstOf(t, l, search.Light())
	require.NotEmpty(t, w.point)
	for _, c := range w.point {
		assert.Contains(t, []string{"low", "high", "inside"}, c.Side)
		assert.NotEmpty(t, c.Key)
		assert.False(t, math.IsNaN(c.Value))
	}
}
