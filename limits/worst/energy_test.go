package worst

import (
	"context"
	"math"
	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"puffproof/pneumatics"
)

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return sample.Lightly(context.Background(), 0.05) }

// limitsOf are energy limits made by hand: floor and total [J], no contact print.
func limitsOf(floor, total float64) launcher.EnergyLimits {
	return launcher.EnergyLimits{Floor: launcher.EnergyLimit{Value: floor}, Total: launcher.EnergyLimit{Value: total},
		Area: launcher.EnergyLimit{Value: 1600}}
}

func stageOf(t *testing.T, l *launcher.Launcher, limits launcher.EnergyLimits, known ...StartSeed) Energies {
	t.Helper()
	e, err := ComputeEnergies(weakly(), EnergyInput{Launcher: l, Limits: limits, Seeds: known})
	require.NoError(t, err)
	return e
}

// What is judged is the energy of the worst shot, once more by hand from its speed,
// times the model factor; on an exact launcher that is its one shot.
func TestTheModelFactorIsOnTheJudgedEnergy(t *testing.T) {
	l := sample.Plain(sample.Weak)
	e := stageOf(t, l, limitsOf(0.08, 0.5)).Report
	require.Equal(t, finding.OnModel, e.Basis)
	byHand := 0.5 * 4 * sample.Grams * e.Worst.FinalSpeed * e.Worst.FinalSpeed
	assert.InEpsilon(t, byHand, e.WorstEnergy, sample.Rounding)
	assert.InEpsilon(t, energyAt(t, l, e.Worst.StartGauge), e.WorstEnergy, 1e-6, "two runs of one shot")
	assert.InEpsilon(t, ModelFactor*byHand, e.Judged, sample.Rounding)
	assert.InEpsilon(t, ModelFactor, e.Factor, sample.Rounding)
	assert.Equal(t, 0.5, e.Limit)
	assert.Equal(t, 1600.0, e.AreaLimit)
}

// A launcher without tolerances shoots from 0 to the highest pressure that a switch, a
// gauge and the sun allow: SoakedHigh, by hand (95000 + 101325) 318.15/293.15 - 101325 =
// 111743 Pa.
func TestShotsStartUpToTheSoakedPressure(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) { l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45) })
	e := stageOf(t, l, limitsOf(0.08, 0.5))
	assert.InDelta(t, 111743, e.Report.StartHigh, 1)
	assert.Equal(t, e.Report.StartHigh, e.Normal.Box.Question.StartMax)
	assert.Greater(t, e.Report.Worst.StartGauge, 95000.0, "more pressure shoots harder here")
}

// A ball that sticks until a pump has pushed long enough: what the pump delivers until
// then counts for the ceiling, and the ceiling stays above the shot.
func TestTheCeilingCountsThePumpUntilItLeaves(t *testing.T) {
	l := sample.Plain(sample.Friction(30, 0.2), sample.CutOut(0.05*sample.Bars), func(l *launcher.Launcher) {
		l.Volumes[0].Volume = launcher.Exact("", 0.4e-3)
		l.Supply = &launcher.SupplySpec{Feeds: "tank", FreeAir: launcher.Exact("", 0.4*sample.LitreMinute),
			DeadHead: launcher.Exact("", 0.4*sample.Bars)}
	})
	e := stageOf(t, l, limitsOf(0.08, 0.5)).Report
	require.Equal(t, "left", e.Worst.Outcome)
	require.Greater(t, e.Worst.ExitTime, 10.0)
	high, _ := l.SoakedHigh()
	second := 0.4 * sample.LitreMinute * 1e5 * math.Log(1.4) // J: of a second's free air, at the dead head
	held := 0.4e-3 / pneumatics.CeilingDose(1, high, 101325)
	require.Greater(t, e.WorstEnergy, second+held, "more than the start and a second of the pump could give")
	assert.Greater(t, e.Ceiling, e.WorstEnergy)
	assert.Equal(t, finding.OnModel, e.Basis)
}

// A shot above its ceiling is withheld, always.
func TestAShotAboveItsCeilingIsWithheld(t *testing.T) {
	l := sample.Plain()
	w := worstOf(t, l, search.Light())
	var e EnergyReport
	require.NoError(t, e.holdToCeiling(w))
	assert.Greater(t, e.Ceiling, w.Value)
	w.Value = 1.001 * e.Ceiling * (1 + RangeExcess(&w.Circuit, w.Shot))
	var withheld *WithheldError
	assert.ErrorAs(t, e.holdToCeiling(w), &withheld)
}

// The ceiling decides up to what is allowed, and not a rounding beyond.
func TestTheCeilingDecidesWhereItIsAllowed(t *testing.T) {
	l := sample.Plain(sample.Weak, func(l *launcher.Launcher) { l.Projectile.ContactDiameter = launcher.Band{} })
	high, _ := l.SoakedHigh()
	ceiling, err := Ceiling(weakly(), l, high)
	require.NoError(t, err)
	below := math.Nextafter(ceiling, 0)
	for _, c := range []struct {
		name   string
		limits launcher.EnergyLimits
		want   finding.Basis
	}{
		{"at the limit", limitsOf(ceiling, ceiling), finding.OnCeiling},
		{"above the limit", limitsOf(below, below), finding.OnModel},
		{"above the floor, with no print to judge by", limitsOf(below, 2*ceiling), finding.OnModel},
	} {
		e := stageOf(t, l, c.limits).Report
		assert.InEpsilon(t, ceiling, e.Ceiling, sample.Rounding, c.name)
		assert.Equal(t, c.want, e.Basis, c.name)
		assert.Equal(t, map[finding.Basis]float64{finding.OnCeiling: e.Ceiling, finding.OnModel: e.Model}[c.want], e.Judged, c.name)
	}
}

// Where the model decides the box is searched in full; where the ceiling does, its shot is
// for information only and the search is short.
func TestTheModelIsSearchedInFullWhereItDecides(t *testing.T) {
	l := sample.Plain(sample.Weak)
	high, _ := l.SoakedHigh()
	q, lightly := EnergyQuestion(l, high), search.WithStrength(context.Background(), 0.2)
	runs := func(o search.Options) int {
		w, err := Maximise(lightly, l, q, o)
		require.NoError(t, err)
		return w.Result.Evaluations
	}
	for limit, want := range map[float64]int{1e-9: runs(search.Options{}), 1e9: runs(search.Light())} {
		e, err := ComputeEnergies(lightly, EnergyInput{Launcher: l, Limits: limitsOf(limit, limit)})
		require.NoError(t, err)
		assert.Equal(t, want, e.Report.Runs, "limit %g J", limit)
	}
	assert.Greater(t, runs(search.Options{}), 2*runs(search.Light()))
}

// The ceiling is never below the worst shot, a moving vehicle included.
func TestTheCeilingIsAboveEveryShot(t *testing.T) {
	for name, l := range map[string]*launcher.Launcher{"still": sample.Plain(sample.Weak),
		"moving": sample.Plain(sample.Weak, func(l *launcher.Launcher) { l.Mount.MovingAt = sample.Between("", 0, 3) })} {
		e := stageOf(t, l, limitsOf(0.08, 0.5)).Report
		assert.GreaterOrEqual(t, e.Ceiling, e.WorstEnergy, name)
	}
	e := stageOf(t, sample.Plain(sample.Weak), limitsOf(0.08, 0.5)).Report
	moving := sample.Plain(sample.Weak, func(l *launcher.Launcher) { l.Mount.MovingAt = sample.Between("", 0, 3) })
	at3 := stageOf(t, moving, limitsOf(0.08, 0.5)).Report
	v := math.Sqrt(2*e.Ceiling/4e-3) + 3
	assert.InEpsilon(t, 0.5*4e-3*v*v, at3.Ceiling, 1e-9, "the speed of the vehicle adds, once")
}

// The nominal shot from the seat that shoots hardest: the best of a fine scan, not the
// stated travel.
func TestTheNominalMaximumIsOverAllSeats(t *testing.T) {
	l := sample.Plain(sample.FireCv(0.6), sample.Friction(0, 0), func(l *launcher.Launcher) { l.Barrel.FixedSeat = false })
	const at = 0.95 * sample.Bars
	best := 0.0
	for i := range 41 {
		f, err := nominalFigures(l, at, 0.3*float64(i)/41)
		require.NoError(t, err)
		best = max(best, f.FinalEnergy)
	}
	f, err := NominalWorstSeat(context.Background(), l, at)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, f.FinalEnergy, best)
	l.Barrel.FixedSeat = true
	e := stageOf(t, l, limitsOf(0.08, 0.5)).Report
	assert.Equal(t, e.NominalShot, e.NominalMax)
}

// The energy per area is on the smallest print of the band, the projected area that of
// the smallest projectile: both make the figure larger.
func TestEnergyPerAreaTakesTheSmallestPrint(t *testing.T) {
	p := &launcher.ProjectileSpec{Diameter: sample.Between("", 40e-3, 42e-3), ContactDiameter: sample.Between("", 20e-3, 30e-3)}
	e := &EnergyReport{Judged: 0.2}
	e.UseAreas(p)
	assert.InEpsilon(t, 314.159e-6, e.ContactArea, 1e-5, "pi/4 20^2, digits printed")
	assert.InEpsilon(t, 1256.637e-6, e.ProjectedArea, 1e-5, "pi/4 40^2")
	assert.InEpsilon(t, 636.62, e.AreaJudged, 1e-5, "0.2 J on 314.159 mm2")
	e = &EnergyReport{Judged: 0.2}
	e.UseAreas(&launcher.ProjectileSpec{Diameter: sample.Between("", 40e-3, 42e-3)})
	assert.Zero(t, e.ContactArea)
	assert.Zero(t, e.AreaJudged)
}

// The wave model never makes a verdict milder: more energy there is judged, with the
// factor; less leaves the judged energy alone.
func TestTheWaveModelOnlyAdds(t *testing.T) {
	l := sample.Plain(sample.CutOut(1e5), func(l *launcher.Launcher) { l.Projectile.Mass = launcher.Exact("projectile.mass", 0.5e-3) })
	w, err := Maximise(weakly(), l, EnergyQuestion(l, 1e5), search.Light())
	require.NoError(t, err)
	for _, model := range []float64{1e-6, 1e6} {
		e := &EnergyReport{WorstEnergy: 1, Model: model, Factor: 1}
		c := e.useWave(w)
		require.Empty(t, c.WhyNot)
		if model > 1 || !(c.Excess > 0) {
			assert.Equal(t, model, e.Model)
			assert.Equal(t, 1.0, e.Factor)
			continue
		}
		assert.InEpsilon(t, (1+c.Excess)*ModelFactor, e.Model, sample.Rounding)
		assert.InEpsilon(t, (1+c.Excess)*ModelFactor, e.Factor, sample.Rounding)
	}
}

// What is above a limit in one shot at the dead head is known without a search, and
// with a search it is the same: the top of the dead head's band, heated.
func TestTheDeadHeadIsTakenAtItsTop(t *testing.T) {
	l := sample.Plain(func(l *launcher.Launcher) {
		l.Supply.DeadHead = sample.Between("", 1.2*sample.Bars, 2*sample.Bars)
		l.Ambient.Hottest = launcher.Exact("", sample.Kelvin0+45)
	})
	n := stageOf(t, l, limitsOf(0.08, 0.5))
	// By hand: (200000 + 101325) 318.15/293.15 - 101325 = 225697 Pa.
	hot := l.Clone()
	hot.Ambient.Temperature = launcher.Exact("", sample.Kelvin0+45)
	want := ModelFactor * energyAt(t, hot, 225697)
	for _, limit := range []float64{0.5, 1e3} {
		n.Report.Limit = limit
		got, err := EnergyAtDeadHead(weakly(), l, n.Report, n.Normal)
		require.NoError(t, err)
		assert.InEpsilon(t, want, got, 2e-3,
			"limit %g J: within the range one shot at its top, where it is hottest; the search runs at 1e-5", limit)
	}
	// One that is no higher than the working pressure adds nothing; one above a rating is
	// not asked, nor one that is not stated.
	for name, c := range map[string]struct {
		change func(*launcher.Launcher)
		want   float64
	}{
		"low":            {func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Exact("", 0.5*sample.Bars) }, n.Report.Judged},
		"above a rating": {func(l *launcher.Launcher) { l.Barrel.RatedPressure = launcher.Exact("", 2.2*sample.Bars) }, math.NaN()},
		"not stated":     {func(l *launcher.Launcher) { l.Supply.DeadHead = launcher.Band{} }, math.NaN()},
		"no supply":      {func(l *launcher.Launcher) { l.Supply = nil }, math.NaN()},
	} {
		other := l.Clone()
		c.change(other)
		got, err := EnergyAtDeadHead(weakly(), other, n.Report, n.Normal)
		require.NoError(t, err)
		assert.True(t, got == c.want || math.IsNaN(got) && math.IsNaN(c.want), "%s: %g", name, got)
	}
}

// A supply that may run during a shot adds to the shot and to its ceiling: a small tank that
// 600 L/min fill as it fires.
func TestASupplyThatRunsAdds(t *testing.T) {
	of := func(runs pneumatics.StateSet) *EnergyReport {
		return stageOf(t, sample.Plain(func(l *launcher.Launcher) {
			l.Volumes[0].Volume = launcher.Exact("", 0.05e-3)
			l.Supply.FreeAir, l.Supply.RunsIn = launcher.Exact("", 600*sample.LitreMinute), runs
		}), limitsOf(1e-9, 1e-9)).Report
	}
	still, running := of(pneumatics.SetOf(pneumatics.Charging)), of(pneumatics.SetOf(pneumatics.Charging, pneumatics.Firing))
	assert.Greater(t, running.WorstEnergy, 1.2*still.WorstEnergy)
	assert.Greater(t, running.Ceiling, 1.2*still.Ceiling)
	assert.Greater(t, running.Ceiling, running.WorstEnergy)
}
