package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/finding"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/search"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// The carry against a plain scan of 400 pressures on a launcher without
// tolerances, whose energy falls with the pressure at first (a sticky projectile
// hops) and then rises. The search runs the model at 1e-5, which the hops
// amplify: it may be 1 % above the scan, but below it by no more than the scan's
// own 1e-3.
func TestCarrySeesBetween(t *testing.T) {
	l := sample.Plain(sample.FireCv(0.4), sample.Friction(30, 0.6), sample.PartsOff)
	l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0.5)
	m := NewShotModel(l.Clone())
	energy := func(p float64) float64 {
		v, _ := m.Shot(p, 0)
		return 0.5 * 4e-3 * v * v
	}
	group := func(from float64) SpeedGroup {
		v := math.Sqrt(2 * energy(from) / 4e-3)
		return SpeedGroup{Gauge: from, Mean: v, SD: 0.03 * v, K: 5.741, Temperature: 293.15}
	}
	fairly := search.WithStrength(t.Context(), 0.2) // one coordinate: some thousand points are enough
	for _, c := range []struct{ from, high float64 }{{0.57 * sample.Bars, 0.66 * sample.Bars}, {0.64 * sample.Bars, 0.80 * sample.Bars}} {
		base, most := energy(c.from), 0.0
		require.Positive(t, base)
		for i := range 401 {
			most = math.Max(most, energy(c.from+(c.high-c.from)*float64(i)/400))
		}
		g := group(c.from)
		ratio, err := CarryRatio(fairly, l, &g, 0, c.high, search.Options{})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, ratio, (1-1e-3)*most/base)
		assert.LessOrEqual(t, ratio, (1+1e-2)*most/base)
		assert.GreaterOrEqual(t, ratio, 1-1e-3, "the upper end alone would lower the bound")
	}
	// Points that shoot far weaker than the shots do not count: none is left.
	quick := sample.Plain(sample.PartsOff)
	v, _ := NewShotModel(quick.Clone()).Shot(0.8*sample.Bars, 0)
	ratio, err := CarryRatio(fairly, quick, &SpeedGroup{Gauge: 0.8 * sample.Bars, Mean: 3 * v, SD: 0.09 * v, K: 5.741}, 0,
		0.9*sample.Bars, search.Options{})
	require.NoError(t, err)
	assert.Zero(t, ratio)
}

// tight is a launcher without tolerances whose energy rises with the pressure.
func tight(changes ...func(*launcher.Launcher)) *launcher.Launcher {
	l := sample.Plain(sample.PartsOff)
	l.Projectile.Drag = launcher.Exact("projectile.drag_coefficient", 0.5)
	for _, change := range changes {
		change(l)
	}
	return l
}

// energyAt is the energy of the nominal shot [J], by the shot alone.
func energyAt(l *launcher.Launcher, gauge, temperature float64) float64 {
	v, _ := NewShotModel(l.Clone()).Shot(gauge, temperature)
	return 0.5 * l.Projectile.Mass.Nominal * v * v
}

// shotsOf is a group of shots with the energy that a launcher really has at a pressure,
// times a factor.
func shotsOf(l *launcher.Launcher, gauge, factor float64) SpeedGroup {
	v := math.Sqrt(2 * factor * energyAt(l, gauge, 0) / l.Projectile.Mass.Nominal)
	return SpeedGroup{Gauge: gauge, Mean: v, UpperSpeed: v, Shots: 10, MassHigh: l.Projectile.Mass.High}
}

// A gauge that reads high had less behind the shots: the carry begins at the low end of
// the reading's error, from where the ratio is the larger. 1 %: the search runs the
// model at 1e-5.
func TestCarryBeginsAtTheLowEndOfTheReading(t *testing.T) {
	l := tight()
	g := shotsOf(l, 0.6*sample.Bars, 1)
	ratio, err := CarryRatio(sample.Weakly(), l, &g, 0.03*sample.Bars, 0.7*sample.Bars, search.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, energyAt(l, 0.7*sample.Bars, 0)/energyAt(l, 0.57*sample.Bars, 0), ratio, 0.01)
}

// A point that shoots weaker than the shots counts as long as the model factor explains
// it: leaving it out would leave its large ratio out.
func TestCarryKeepsPointsWithinTheModelFactor(t *testing.T) {
	l := tight()
	for factor, counts := range map[float64]bool{0.9: true, 1.2: true, 1.3: false} {
		g := shotsOf(l, 0.6*sample.Bars, factor)
		ratio, err := CarryRatio(sample.Weakly(), l, &g, 0, 0.7*sample.Bars, search.Options{})
		require.NoError(t, err)
		assert.Equal(t, counts, ratio > 0, "shots of %v times the model's energy, factor %v", factor, worst.ModelFactor)
	}
	// Shots that scatter, or whose method may be off, may be those of a weaker launcher: the
	// slow bound counts, not the mean. 1.3/1.25 in energy are 1.9 % in speed.
	for _, slack := range []struct{ sd, k, off float64 }{{0.01, 3, 0}, {0.005, 1, 0.02}} {
		g := shotsOf(l, 0.6*sample.Bars, 1.3)
		g.SD, g.K, g.Systematic = slack.sd*g.Mean, slack.k, slack.off*g.Mean
		ratio, err := CarryRatio(sample.Weakly(), l, &g, 0, 0.7*sample.Bars, search.Options{})
		require.NoError(t, err)
		assert.Positive(t, ratio, slack)
	}
}

// The shots were seated as stated and made at their own temperature; a bound is for
// every seat and every temperature. A little air behind a long barrel throws harder from
// a seat further forward: the scan over seats is by the shot alone. 1 %: as above.
func TestCarryReachesTheWorstSeatAndTemperature(t *testing.T) {
	l := tight(func(l *launcher.Launcher) {
		l.Barrel.FixedSeat = false
		l.Volumes[0].Volume = launcher.Exact("volumes.tank.volume", 1e-3)
	})
	l.Barrel.DeadVolume = launcher.Exact("barrel.dead_volume", 5e-6)
	const gauge = 0.9 * sample.Bars
	base, most := energyAt(l, gauge, 0), 0.0
	c, sc := worst.NominalScenario(l, gauge)
	var sim pneumatics.Sim
	for i := range 100 {
		sc.Seat = float64(i) / 100 * c.Barrel.Travel
		most = math.Max(most, worst.FinalEnergy(0)(c, sim.Run(c, sc, pneumatics.Options{})))
	}
	require.Greater(t, most, 1.05*base, "else the test shows little")
	g := shotsOf(l, gauge, 1)
	ratio, err := CarryRatio(sample.Weakly(), l, &g, 0, gauge, search.Options{})
	require.NoError(t, err)
	assert.InEpsilon(t, most/base, ratio, 0.01)

	l = tight(func(l *launcher.Launcher) { l.Ambient.Temperature = sample.Between("ambient.temperature", 263, 313) })
	cold, hot := energyAt(l, gauge, 263), energyAt(l, gauge, 313)
	require.Greater(t, math.Abs(hot/cold-1), 1e-3, "else the test shows little")
	weak, strong := 263., 313.
	if hot < cold {
		weak, strong = strong, weak
	}
	for temperature, want := range map[float64]float64{weak: math.Max(hot/cold, cold/hot), strong: 1} {
		g := shotsOf(l, gauge, 1)
		g.Temperature = temperature
		ratio, err := CarryRatio(sample.Weakly(), l, &g, 0, gauge, search.Options{})
		require.NoError(t, err)
		assert.InDelta(t, want, ratio, 0.2*(math.Max(hot/cold, cold/hot)-1), "shots at %v K", temperature)
	}
}

// What measurements make of the energies, by hand: the bound in speed is carried by the
// root of the ratio, the launcher's own speed is added, the heaviest projectile counts.
func TestUseOfFindings(t *testing.T) {
	l := tight(func(l *launcher.Launcher) {
		l.Projectile.Mass = sample.Between("projectile.mass", 3.9*sample.Grams, 4.1*sample.Grams)
		l.Mount.MovingAt = launcher.Exact("mount.moving_at", 2)
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Error: launcher.Exact("gauge.error", 0)}}
	})
	const gauge = 0.6 * sample.Bars
	group := shotsOf(l, gauge, 1)
	use := func(start float64, change func(e *worst.EnergyReport, f *Findings)) (*Report, *worst.EnergyReport) {
		e := &worst.EnergyReport{StartHigh: start, WorstEnergy: 0.1, Model: 0.125, Judged: 0.125, Basis: finding.OnModel}
		f := &Findings{Groups: []SpeedGroup{group}, Fit: &Fit{Credible: true}}
		if change != nil {
			change(e, f)
		}
		m, err := UseFindings(sample.Weakly(), e, l, f)
		require.NoError(t, err)
		return m, e
	}
	m, e := use(1.2*gauge, nil)
	require.NotNil(t, m.Bound, m.NotCarried.String())
	v := group.UpperSpeed*math.Sqrt(m.Carry) + 2
	assert.InEpsilon(t, 0.5*4.1e-3*v*v, *m.Bound, sample.Rounding)
	assert.InEpsilon(t, *m.Bound, e.Judged, sample.Rounding)
	assert.Equal(t, finding.OnMeasured, e.Basis)

	const large = 100. // far more than the bound [J]
	_, e = use(gauge, func(e *worst.EnergyReport, f *Findings) { e.WorstEnergy, e.Model = large, 1.25*large })
	assert.InEpsilon(t, large, e.Judged, sample.Rounding, "the model agrees: without its factor")
	assert.Equal(t, finding.OnMeasured, e.Basis, "a model that agrees belongs to what was measured")
	for name, doubt := range map[string]func(*Findings){
		"no fit":       func(f *Findings) { f.Fit = nil },
		"not credible": func(f *Findings) { f.Fit.Credible = false },
		"odd scatter":  func(f *Findings) { f.Groups[0].Normal = Normality{Tested: true, P: 0.009} },
	} {
		m, e = use(gauge, func(e *worst.EnergyReport, f *Findings) { e.WorstEnergy, e.Model = large, 1.25*large; doubt(f) })
		assert.True(t, m.Doubted, name)
		assert.InEpsilon(t, 1.25*large, e.Judged, sample.Rounding, name)
		assert.Equal(t, finding.OnModel, e.Basis, name)
	}
	// Four shots that do not count are faster than those that do: they hold the judged
	// energy up, the bound that is printed stays that of the others.
	m, e = use(gauge, func(_ *worst.EnergyReport, f *Findings) {
		fast := SpeedGroup{Gauge: 0.5 * gauge, Shots: 4, UpperSpeed: 98, MassHigh: 4.1e-3, Faults: finding.AllWords([]string{"too few"})}
		f.Groups = append([]SpeedGroup{fast}, f.Groups...)
	})
	assert.InEpsilon(t, 0.5*4.1e-3*100*100, e.Judged, sample.Rounding)
	assert.InEpsilon(t, e.Judged, m.Floor, sample.Rounding)
	v = group.UpperSpeed*math.Sqrt(m.Carry) + 2
	assert.InEpsilon(t, 0.5*4.1e-3*v*v, *m.Bound, sample.Rounding)
	assert.InEpsilon(t, *m.Bound, *e.Measured, sample.Rounding)
	// The ceiling decides by itself.
	_, e = use(gauge, func(e *worst.EnergyReport, _ *Findings) { e.Basis = finding.OnCeiling })
	assert.InEpsilon(t, 0.125, e.Judged, sample.Rounding)
	// Carried up to 1.25 times the gauge pressure (own rule), not further.
	m, _ = use(1.249*gauge, nil)
	assert.NotNil(t, m.Bound)
	m, _ = use(1.251*gauge, nil)
	assert.Nil(t, m.Bound)
	assert.Contains(t, m.NotCarried.String(), "up to 1.25 times")
}

// Shots of a supply that comes to rest against an open bleed, below its dead head, count: their bound reaches 1.25 times the
// gauge pressure, which is more than it is ever fired from while the bleed is open. Above that, with it blocked, the model counts
// with its factor, also where it agrees with the shots: nothing is judged milder than without them. Shots from too far below the rest
// do not reach.
func TestShotsAtTheRestCount(t *testing.T) {
	l := tight(func(l *launcher.Launcher) {
		l.Switch = nil
		l.Ambient.Pressure, l.Ambient.Temperature = launcher.Exact("", 101325), launcher.Exact("", 293.15)
		l.Ambient.Hottest, l.Ambient.Coldest = l.Ambient.Temperature, l.Ambient.Temperature
		l.Supply.FreeAir, l.Supply.DeadHead = launcher.Exact("", 6*sample.LitreMinute), launcher.Exact("", 0.9*sample.Bars)
		l.Paths = append(l.Paths, launcher.PathSpec{Name: "bleed", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
			Flow: sample.Orifice(0.5*sample.Millimetres, 0.65)})
		l.Gauges = []launcher.GaugeSpec{{On: "tank", Error: launcher.Exact("gauge.error", 0)}}
	})
	r := l.Resting()
	at := r.Shown(l).Nominal
	high, ok := l.SoakedHigh()
	require.True(t, ok)
	require.Equal(t, 0.9*sample.Bars, high)
	require.Greater(t, high, 1.3*at, "out of reach of a bound")
	use := func(gauge, worstEnergy float64) (*Report, *worst.EnergyReport) {
		e := &worst.EnergyReport{StartHigh: high, WorstEnergy: worstEnergy, Model: 1.25 * worstEnergy, Judged: 1.25 * worstEnergy,
			Basis: finding.OnModel}
		m, err := UseFindings(sample.Weakly(), e, l, &Findings{Groups: []SpeedGroup{shotsOf(l, gauge, 1)}, Fit: &Fit{Credible: true}})
		require.NoError(t, err)
		return m, e
	}
	const large = 100. // [J]
	m, e := use(at, large)
	require.NotNil(t, m.Bound, m.NotCarried.String())
	assert.InEpsilon(t, 1.25*at, m.Top, sample.Rounding)
	assert.Equal(t, m.Top, e.Beyond)
	assert.InEpsilon(t, 1.25*large, e.Judged, sample.Rounding)
	assert.Equal(t, finding.OnMeasured, e.Basis)
	assert.True(t, e.ModelCounts() && e.ModelDecides())
	m, e = use(at, 0.1**m.Bound)
	assert.InEpsilon(t, *m.Bound, e.Judged, sample.Rounding)
	assert.True(t, e.ModelCounts() && !e.ModelDecides())
	m, _ = use(0.75*at, large)
	assert.Nil(t, m.Bound)
	assert.Contains(t, m.NotCarried.String(), "measure at")
	m, e = use(high/1.24, large)
	require.NotNil(t, m.Bound)
	assert.Zero(t, e.Beyond, "pumped up by hand they reach all of it")
	assert.InEpsilon(t, large, e.Judged, sample.Rounding)
	// The plan measures where it comes to rest.
	gauges := PlanGauges(l)
	assert.InEpsilon(t, at, gauges[2], sample.Rounding)
	p, err := Plan(sample.Weakly(), l, "")
	require.NoError(t, err)
	assert.InEpsilon(t, 1.25*at, p.Top, sample.Rounding)
	assert.Equal(t, high, p.StartHigh)
	assert.InEpsilon(t, at, p.FiredHigh, 1e-3, "no tolerance but of what counts as still")
}
