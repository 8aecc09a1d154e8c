package vent

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/catalogue"
	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/limits/worst"
	"puffproof/pneumatics"
)

// exactTank is the vented tank without any tolerance at one temperature: start 1 bar.
func exactTank() *launcher.Launcher {
	l := sample.VentedTank()
	for _, b := range catalogue.Machine(l) {
		b.Low, b.High = b.Nominal, b.Nominal
	}
	l.Ambient.Temperature = launcher.Exact("", 293.15)
	l.Ambient.Coldest, l.Ambient.Hottest = l.Ambient.Temperature, l.Ambient.Temperature
	return l
}

// caseOf is the first case of one way of emptying.
func caseOf(t *testing.T, l *launcher.Launcher, start, target float64, detail SheetDetail) Case {
	t.Helper()
	cases, err := newVenter(Input{Launcher: l}, start, target).cases(Scenario{PowerLost, pneumatics.Armed}, detail)
	require.NoError(t, err)
	return cases[0]
}

// Blow-down of an ideal nozzle from 100 kPa gauge to 1.1 times ambient, over
// tau = V/(Cd A psi sqrt(R T0)): 0.498339 adiabatic, 0.666567 isothermal (quadrature
// in testdata/reference/generate_blowdown.py; ambient 101325 Pa). A start at this
// pressure never chokes long; the flow laws' laminar ends are worth 1e-4.
func TestEmptyingTimesAgainstClosedForms(t *testing.T) {
	l := exactTank()
	start, _, ok := HighestStart(l)
	require.True(t, ok)
	c := caseOf(t, l, start, 0.1*101325, FullSheets)
	require.Equal(t, "tank", c.Volume)
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := 2e-3 / (0.75 * launcher.Circle(1.2e-3) * psi * math.Sqrt(287.05*293.15))
	assert.InEpsilon(t, 0.498339*tau, c.Adiabatic, 1e-3)
	assert.InEpsilon(t, 0.666567*tau, c.Isothermal, 1e-3)
	assert.InEpsilon(t, c.Isothermal, c.Slowest, 1e-3, "without tolerances the slow end is isothermal")
	// Shut at the target after adiabatic expansion, the gas warms up again: T/T0 =
	// (p/p0)^(2/7), so the pressure returns to p (p0/p)^(2/7).
	p, p0 := 1.1*101325, 101325+1e5
	assert.InDelta(t, p*math.Pow(p0/p, 2.0/7)-101325, c.Rebound, 20, "Pa; the time of the target is known to 1e-4")
}

// The drill that is named empties in the time; the next smaller one does not.
func TestVentSizeIsTheSmallestDrill(t *testing.T) {
	l := sample.VentedTank()
	l.Venting.Within = launcher.Exact("", 8)
	sizes, err := Sizes(l, 5000)
	require.NoError(t, err)
	require.Len(t, sizes, 1)
	z := sizes[0]
	require.Greater(t, z.Drill, SmallestVent)
	assert.LessOrEqual(t, z.Time, 8.0)
	s := sizer{l: l, volume: 0, path: 1, e: Emptier{Target: 5000}, within: 8}
	high, _ := StartPressures(l)
	s.e.Start = high
	slower, err := s.time(z.Drill - 0.1e-3)
	require.NoError(t, err)
	assert.Greater(t, slower, 8.0)
	assert.Greater(t, z.Loss, 0.0)
	// A hole that passes more than the supply gives holds the pressure below the
	// cut-out: the balance is where the two are equal.
	assert.Less(t, z.Balance, worst.NominalStart(l))
	assert.InDelta(t, 1.2e-3, nextDrill(1.13e-3), 1e-12)
	assert.InDelta(t, 1.2e-3, nextDrill(1.2e-3), 1e-12)
	assert.InDelta(t, 10.5e-3, nextDrill(10.2e-3), 1e-12)
}

// A relief valve that is open at the start must not shorten a time: it may be
// stuck shut or set high, and then the vent alone does the work. The time is that
// of the same tank without one.
func TestAReliefValveShortensNoTime(t *testing.T) {
	bare := exactTank()
	with := exactTank()
	with.Paths = append(with.Paths, launcher.PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow: sample.Orifice(5e-3, 0.75), SetPressure: launcher.Exact("", 0.5e5), FullFlowPressure: launcher.Exact("", 0.6e5),
		ReseatPressure: launcher.Exact("", 0.3e5)})
	slowest := func(l *launcher.Launcher) float64 { return caseOf(t, l, 1e5, 5000, SlowEndOnly).Slowest }
	assert.InEpsilon(t, slowest(bare), slowest(with), 1e-6, "the same run")
	size := func(l *launcher.Launcher) float64 {
		s := sizer{l: l, path: 1, e: Emptier{Start: []float64{1e5}, Target: 5000}, within: 60}
		seconds, err := s.time(1e-3)
		require.NoError(t, err)
		return seconds
	}
	assert.InEpsilon(t, size(bare), size(with), 1e-6, "sized by the same run")
}

// Every band that bears on emptying counts at its slower end: the time over a band is
// the longer one of the times at its two ends, by the same run, and the ends differ
// where the band matters. Slow are a large volume, a narrow vent and hose, a long hose
// and cold gas: tau = V/(Cd A psi sqrt(R T)) (blow-down of an ideal nozzle), and thin
// air: from gauge to gauge the mass to let out is the same, and the flow goes by p
// while it chokes and by sqrt(2 rho dp) in the end.
func TestTheSlowEndTakesTheSlowerEndOfEveryBand(t *testing.T) {
	type bands = []*launcher.Band
	vent := func(l *launcher.Launcher) *launcher.PathSpec { return &l.Paths[1] }
	for name, c := range map[string]struct {
		band      func(l *launcher.Launcher) bands
		low, high float64
		slow      float64 // the slower end, as said above
		least     float64 // by which share the ends differ at least
	}{
		"barometer":  {func(l *launcher.Launcher) bands { return bands{&l.Ambient.Pressure} }, 9e4, 1.1e5, 9e4, 0.02},
		"volume":     {func(l *launcher.Launcher) bands { return bands{&l.Volumes[0].Volume} }, 1.6e-3, 2.4e-3, 2.4e-3, 0.4},
		"orifice":    {func(l *launcher.Launcher) bands { return bands{&vent(l).Flow.Value} }, 1.1e-3, 1.3e-3, 1.1e-3, 0.2},
		"Cd":         {func(l *launcher.Launcher) bands { return bands{&vent(l).Flow.DischargeCoefficient} }, 0.6, 0.9, 0.6, 0.2},
		"hose bore":  {func(l *launcher.Launcher) bands { return bands{&vent(l).Hose.Bore} }, 2e-3, 2.4e-3, 2e-3, 0.02},
		"hose":       {func(l *launcher.Launcher) bands { return bands{&vent(l).Hose.Length} }, 0.5, 4, 4, 0.05},
		"hose share": {func(l *launcher.Launcher) bands { return bands{&vent(l).Hose.Conductance} }, 0.7, 1, 0.7, 0.02},
		"opening":    {func(l *launcher.Launcher) bands { return bands{&vent(l).OpeningTime} }, 0, 4, 4, 0.02},
		"regulator": {func(l *launcher.Launcher) bands { // the tank empties through it
			l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-4)})
			vent(l).From = "dose"
			l.Paths = append(l.Paths, launcher.PathSpec{Name: "regulator", From: "tank", To: "dose", Kind: pneumatics.Regulator,
				Flow: sample.Orifice(2e-3, 0.75), Droop: launcher.Exact("", 2e4)})
			return bands{&l.Paths[2].SetPressure}
		}, 2e4, 6e4, 2e4, 0.02},
		"cold": {func(l *launcher.Launcher) bands { return bands{&l.Ambient.Temperature, &l.Ambient.Coldest} }, 258, 308, 258, 0.02},
	} {
		at := func(low, high float64) float64 {
			l := exactTank()
			if strings.HasPrefix(name, "hose") { // else its laminar flow, a bound of its own over all bands, hides the rest
				vent(l).Hose = &launcher.HoseSpec{Bore: launcher.Exact("", 2.2e-3), Length: launcher.Exact("", 1),
					Conductance: launcher.Exact("", 1), Side: launcher.HoseAfter}
			}
			for _, b := range c.band(l) {
				*b = launcher.Band{Set: true, Nominal: 0.5 * (low + high), Low: low, High: high}
			}
			return caseOf(t, l, 1e5, 5000, SlowEndOnly).Slowest
		}
		low, high := at(c.low, c.low), at(c.high, c.high)
		assert.Greater(t, math.Abs(high-low), c.least*min(low, high), "%s: the two ends differ: %g, %g", name, low, high)
		assert.Equal(t, c.slow == c.high, high > low, name)
		both := at(c.low, c.high)
		if name == "regulator" { // its high end says what the dose starts with, and that has to go too
			assert.GreaterOrEqual(t, both, max(low, high), name)
			continue
		}
		assert.InEpsilon(t, max(low, high), both, 1e-9, "%s: the same run", name)
	}
}

// With several volumes nothing says which end of the barometer's band is the worse: both
// are run, with everything else alike.
func TestBothEndsOfTheBarometerAreRun(t *testing.T) {
	l := sample.VentedTank() // 101325 Pa within 3000
	for _, end := range []End{SlowEnd, FastEnd, NarrowStuck} {
		var around []float64
		for _, w := range AtEndInAnyAir(l, end) {
			around = append(around, w.Ambient.Pressure.Nominal)
		}
		assert.Equal(t, []float64{98325, 104325}, around)
	}
	assert.Len(t, AtEndInAnyAir(l, NominalEnd), 1)
	assert.Len(t, AtEndInAnyAir(exactTank(), SlowEnd), 1)
}

// A piloted vent may stay shut below its least differential, and a check valve below its
// cracking pressure: where the high end of that is more than counts as empty, 5000 Pa, the
// air is trapped, and the report says by which path.
func TestAVentKeepsWhatItNeedsToOpen(t *testing.T) {
	for name, vent := range map[string]func(p *launcher.PathSpec, least launcher.Band){
		"a vent of tank that needs no pressure to open: paths.vent may stay shut below 0.060 bar": func(
			p *launcher.PathSpec, least launcher.Band) {
			p.MinDifferential = least
		},
		"a vent of tank that opens below the target: paths.vent keeps up to 0.060 bar": func(p *launcher.PathSpec, least launcher.Band) {
			p.Kind, p.CrackingPressure = pneumatics.Check, least
		},
	} {
		for least, want := range map[float64]Status{4000: Vented, 6000: Trapped} {
			l := exactTank()
			vent(&l.Paths[1], sample.Between("", 2000, least))
			c := caseOf(t, l, 1e5, 5000, SlowEndOnly)
			assert.Equal(t, want, c.Status, "%s %g", name, least)
			if want == Trapped {
				assert.Equal(t, name, c.Missing.String())
			}
		}
	}
}

// What empties through the barrel only does not where a projectile is in the way that
// fits without a gap.
func TestATightProjectileTrapsWhatEmptiesThroughTheBarrel(t *testing.T) {
	for diameter, want := range map[float64]Status{40e-3: Vented, 41e-3: Trapped} { // in a bore of 40.8 to 41.2 mm
		l := pushing(func(l *launcher.Launcher) {
			l.Paths[1].Unpowered = pneumatics.Closed
			l.Projectile.Diameter = launcher.Exact("", diameter)
		})
		assert.Equal(t, want, caseOf(t, l, 1e5, 5000, SlowEndOnly).Status, diameter)
	}
}

// Where one volume waits for another the narrow end may be the quick one: through a feed
// that passes next to nothing the dose is soon empty, through the stated one the tank's
// air goes too. No time at most is below the expected one.
func TestTheSlowEndIsNoQuickerThanTheStatedValues(t *testing.T) {
	l := exactTank()
	l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "dose", Volume: launcher.Exact("", 1e-4)})
	l.Paths[1].From = "dose"
	feed := launcher.PathSpec{Name: "feed", From: "tank", To: "dose", Kind: pneumatics.Orifice, Flow: sample.Orifice(1e-3, 0.75)}
	feed.Flow.Value = sample.Between("", 1e-5, 2e-3)
	feed.Flow.Value.Nominal = 1e-3
	l.Paths = append(l.Paths, feed)
	cases, err := newVenter(Input{Launcher: l}, 1e5, 5000).cases(Scenario{PowerLost, pneumatics.Armed}, FullSheets)
	require.NoError(t, err)
	require.Equal(t, "dose", cases[1].Volume)
	assert.Greater(t, cases[1].Expected, 1.0, "of seconds; by itself the dose is down in less")
	for _, c := range cases {
		assert.GreaterOrEqual(t, c.Slowest, c.Expected, c.Volume)
	}
}

// Of a target and a time with a tolerance the strict end is asked.
func TestTheStrictEndOfWhatIsAsked(t *testing.T) {
	l := sample.VentedTank()
	l.Venting = &launcher.VentingSpec{Target: sample.Between("", 3000, 4000), Within: sample.Between("", 20, 30)}
	target, _ := Target(l, 1)
	assert.InDelta(t, 3000, target, 0)
	assert.InDelta(t, 20, TimeAllowed(l), 0)
	l.Venting.Target = sample.Between("", 6000, 7000)
	target, _ = Target(l, 1)
	assert.InDelta(t, DefaultTarget, target, 0, "more than that is never empty")
}

// What opens while firing only is filled to the highest pressure beside it, in
// whatever order the paths are listed; what has air keeps its own.
func TestWhatOpensWhileFiringMayHoldTheHighestPressure(t *testing.T) {
	low := pneumatics.Path{From: 0, To: 2, Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing)}
	high, on := low, low
	high.From = 1
	on.From, on.To = 2, 3
	between := pneumatics.Path{From: 1, To: 0, Kind: pneumatics.Valve, OpenIn: pneumatics.SetOf(pneumatics.Firing)}
	for _, paths := range [][]pneumatics.Path{{low, high, on, between}, {on, between, high, low}} {
		gauge := []float64{0.5 * sample.Bars, 2 * sample.Bars, 0, 0, 0}
		spreadFiring(&pneumatics.Circuit{Volumes: make([]pneumatics.Volume, 5), Paths: paths}, gauge)
		assert.Equal(t, []float64{0.5 * sample.Bars, 2 * sample.Bars, 2 * sample.Bars, 2 * sample.Bars, 0}, gauge)
	}
}

// What is left when the time is up is that of the slower heat: at the isothermal time of
// TestEmptyingTimesAgainstClosedForms the target, where air without heat from the walls
// has less.
func TestWhatIsLeftWhenTheTimeIsUp(t *testing.T) {
	l := exactTank()
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := 2e-3 / (0.75 * launcher.Circle(1.2e-3) * psi * math.Sqrt(287.05*293.15))
	l.Venting.Within = launcher.Exact("", 0.666567*tau)
	assert.InEpsilon(t, 0.1*101325, caseOf(t, l, 1e5, 0.1*101325, FullSheets).AfterWithin, 2e-3, "the time is known to 1e-3")
}

// A curve is drawn through readings of its own between those of the stopwatch: it passes through the sheet's, and between two of
// them it hangs below their chord, as a pressure does that falls ever more slowly; rows that are joined lie on it.
func TestTheCourseIsFinerThanTheSheet(t *testing.T) {
	c := caseOf(t, exactTank(), 1e5, 5000, FullSheets)
	require.Greater(t, len(c.Course), 3*len(c.Sheet))
	at := map[float64]Reading{}
	for _, r := range c.Course {
		at[r.Time] = r
	}
	for _, r := range c.Sheet {
		assert.Equal(t, r, at[r.Time])
	}
	a, b, m := c.Course[0], c.Course[finer], c.Course[finer/2]
	require.Equal(t, c.Sheet[1], b)
	chord := a.Gauge + (b.Gauge-a.Gauge)*(m.Time-a.Time)/(b.Time-a.Time)
	assert.Less(t, m.Gauge, chord-0.002e5, "Pa; the step is long enough to bend by that much")
	for k := 1; k < len(c.Course); k++ {
		assert.LessOrEqual(t, c.Course[k].Gauge, c.Course[k-1].Gauge+1, "it falls; 1 Pa of rounding at its end")
	}
	assert.Equal(t, c.Course, c.Curve())
	assert.Equal(t, c.Sheet, (&Case{Sheet: c.Sheet}).Curve())
}
