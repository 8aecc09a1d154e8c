package limits

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/pneumatics"
)

// exactTank is ventedTank without any tolerance at one temperature: start 1 bar.
func exactTank() *Launcher {
	l := ventedTank()
	for _, b := range l.Bands() {
		b.Low, b.High = b.Nominal, b.Nominal
	}
	l.Ambient.Temperature = Exact("", 293.15)
	l.Ambient.Coldest, l.Ambient.Hottest = l.Ambient.Temperature, l.Ambient.Temperature
	return l
}

func emptied(t *testing.T, l *Launcher) *VentReport {
	t.Helper()
	e, err := Empty(context.Background(), l)
	require.NoError(t, err)
	return e
}

// judgedOnly computes the verdicts on emptying without the energies of the shots
// before.
func judgedOnly(t *testing.T, l *Launcher) *VentReport {
	t.Helper()
	limits, err := LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	j := &judge{ctx: context.Background(), l: l, stated: l, limits: limits}
	require.NoError(t, j.vents(slowEndOnly))
	j.emptying.Verdicts = j.report.Verdicts
	return j.emptying
}

func verdictIn(t *testing.T, all []Verdict, id string) Verdict {
	t.Helper()
	for _, v := range all {
		if v.ID == id {
			return v
		}
	}
	require.Fail(t, "no verdict "+id)
	return Verdict{}
}

// Blow-down of an ideal nozzle from 100 kPa gauge to 1.1 times ambient, over
// tau = V/(Cd A psi sqrt(R T0)): 0.498339 adiabatic, 0.666567 isothermal (quadrature of
// the exact equations, testdata/reference/blowdown.csv; ambient 101325 Pa). A start
// at this pressure never chokes long; the flow laws' laminar ends are worth 1e-4.
func TestEmptyingTimesAgainstClosedForms(t *testing.T) {
	l := exactTank()
	start, _, ok := l.ventStart()
	require.True(t, ok)
	j := &judge{ctx: context.Background(), l: l, stated: l}
	cases, err := newVenter(j, start, 0.1*101325).cases(ventScenario{PowerLost, pneumatics.Armed}, fullSheet)
	require.NoError(t, err)
	c := cases[0]
	require.Equal(t, "tank", c.Volume)
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := 2e-3 / (0.75 * circle(1.2e-3) * psi * math.Sqrt(287.05*293.15))
	assert.InEpsilon(t, 0.498339*tau, c.Adiabatic, 1e-3)
	assert.InEpsilon(t, 0.666567*tau, c.Isothermal, 1e-3)
	assert.InEpsilon(t, c.Isothermal, c.Slowest, 1e-3, "without tolerances the slow end is isothermal")
	// Shut at the target after adiabatic expansion, the gas warms up again: T/T0 =
	// (p/p0)^(2/7), so the pressure returns to p (p0/p)^(2/7).
	p, p0 := 1.1*101325, 101325+1e5
	assert.InDelta(t, p*math.Pow(p0/p, 2.0/7)-101325, c.Rebound, 20, "Pa; the time of the target is known to 1e-4")
}

// The slow end is never faster than the expected course, that never faster than
// the fast end, and the band of the readings holds the expected one.
func TestEmptyingIsBracketed(t *testing.T) {
	e := emptied(t, ventedTank())
	for _, c := range e.Cases {
		assert.Equal(t, Vented, c.Status, c.Scenario)
		assert.GreaterOrEqual(t, c.Slowest, c.Isothermal)
		assert.GreaterOrEqual(t, c.Isothermal, c.Expected)
		assert.GreaterOrEqual(t, c.Expected, c.Fastest)
		assert.LessOrEqual(t, c.AfterWithin, e.Target)
		if c.Volume == "barrel" { // held by friction, below the target from the start: no course
			assert.LessOrEqual(t, c.Start, e.Target)
			continue
		}
		require.NotEmpty(t, c.Sheet)
		for _, r := range c.Sheet {
			assert.LessOrEqual(t, r.Low, r.Gauge)
			assert.LessOrEqual(t, r.Gauge, r.High)
		}
	}
	assert.Equal(t, Pass, verdictIn(t, e.Verdicts, "vent.shutdown").Status)
	assert.Equal(t, Pass, verdictIn(t, e.Verdicts, "vent.power-loss").Status)
	assert.Equal(t, Pass, verdictIn(t, e.Verdicts, "vent.trapped").Status)
}

func TestEmptyingThatFails(t *testing.T) {
	for _, c := range []struct {
		name                         string
		change                       func(l *Launcher)
		shutdown, powerLoss, trapped Status
		says                         string
	}{
		{"no vent", func(l *Launcher) { l.Paths = l.Paths[:1] }, Fail, Fail, Fail, "a path from tank to the atmosphere"},
		{"shut without power", func(l *Launcher) { l.Paths[1].Unpowered = pneumatics.Closed }, Pass, Fail, Fail, `unpowered = "open"`},
		{"keeps its place without power", func(l *Launcher) { l.Paths[1].Unpowered = pneumatics.Stays }, Pass, Fail, Fail, `unpowered = "open"`},
		{"shut when off", func(l *Launcher) { l.Paths[1].OpenIn = 0 }, Fail, Pass, Fail, "open in state off"},
		{"opens for a moment", func(l *Launcher) { l.Paths[1].Pulse = Exact("", 0.5) }, Fail, Fail, Fail, "paths.vent"},
		{"piloted: keeps its least differential", func(l *Launcher) { l.Paths[1].MinDifferential = Exact("", 3e4) }, Fail, Fail, Fail, "paths.vent"},
		{"check valve that cracks too high", func(l *Launcher) {
			l.Paths[1].Kind, l.Paths[1].CrackingPressure = pneumatics.Check, Exact("", 8000)
		}, Fail, Fail, Fail, "paths.vent"},
		{"only a relief valve", func(l *Launcher) {
			p := &l.Paths[1]
			p.Kind, p.SetPressure, p.FullFlowPressure, p.ReseatPressure = pneumatics.Relief, Exact("", 2e4), Exact("", 3e4), Exact("", 1e4)
		}, Fail, Fail, Fail, "a path from tank"},
		{"too narrow", func(l *Launcher) { l.Paths[1].Flow.Value = Exact("", 0.3e-3) }, Fail, Fail, Pass, ""},
		{"no time asked", func(l *Launcher) { l.Venting = nil }, Unknown, Unknown, Pass, ""},
		{"no highest pressure", func(l *Launcher) { l.Supply = nil }, Unknown, Unknown, Unknown, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(l)
			e := judgedOnly(t, l)
			for id, want := range map[string]Status{"vent.shutdown": c.shutdown, "vent.power-loss": c.powerLoss, "vent.trapped": c.trapped} {
				v := verdictIn(t, e.Verdicts, id)
				assert.Equal(t, want, v.Status, id+": "+v.Why)
				if v.Status == Fail {
					assert.NotEmpty(t, v.Advice, id)
				}
			}
			assert.Contains(t, verdictIn(t, e.Verdicts, "vent.trapped").Advice, c.says)
		})
	}
}

// A firing valve that opens without power vents through the barrel: the
// projectile in it leaves, and without a gap it is what closes the barrel.
func TestVentingThroughTheBarrel(t *testing.T) {
	l := ventedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths = l.Paths[:1]
	e := emptied(t, l)
	require.NotEmpty(t, e.Pushes)
	for _, p := range e.Pushes {
		assert.Equal(t, "fire", p.Path)
		assert.Equal(t, "left", p.Outcome)
		assert.Greater(t, p.Speed, 1.0)
	}
	assert.Equal(t, Fail, verdictIn(t, e.Verdicts, "vent.power-loss").Status, "a tight projectile closes the only way out")

	// With a vent of its own the tank empties in time, but the projectile still goes.
	l = ventedTank()
	l.Paths[0].Unpowered = pneumatics.Open
	l.Paths[0].Flow.Value = Exact("", 8e-8)
	e = emptied(t, l)
	v := verdictIn(t, e.Verdicts, "vent.power-loss")
	assert.Equal(t, Fail, v.Status, v.Why)
	assert.Contains(t, v.Why, "pushes a loaded projectile out")
	assert.Equal(t, Pass, verdictIn(t, e.Verdicts, "vent.shutdown").Status, "switched off the firing valve stays shut")
}

// What is left at the target counts too: a target at which a shot is still too
// hard is no empty launcher.
func TestATargetThatStillShootsFails(t *testing.T) {
	l := ventedTank()
	l.Projectile.TipStated = false // rigid: 0.08 J
	l.Paths[0].Flow.Value = Exact("", 8e-7)
	l.Volumes[0].Volume = Exact("", 20e-3)
	l.Paths[1].Flow.Value = Exact("", 6e-3)
	l.Projectile.Breakaway, l.Projectile.Sliding = Exact("", 0), Exact("", 0)
	l.Barrel.Travel, l.Barrel.Bore, l.Projectile.Diameter = Exact("", 1), Exact("", 41e-3), Exact("", 41e-3)
	e := judgedOnly(t, l)
	assert.Greater(t, e.LeftShot, e.LeftLimit)
	v := verdictIn(t, e.Verdicts, "vent.shutdown")
	assert.Equal(t, Fail, v.Status)
	assert.Contains(t, v.Why, "still has")
	// Not stated, the target is one at which all the air can do no more than the limit.
	l.Venting.Target = Band{}
	l.Paths[1].Flow.Value = Exact("", 12e-3) // to so little takes longer
	e = judgedOnly(t, l)
	assert.Less(t, e.Target, DefaultTarget)
	assert.Equal(t, Pass, verdictIn(t, e.Verdicts, "vent.shutdown").Status)
}

// However high the stated target, 0.05 bar is the most that counts as empty: the
// verdicts say so, and the times are those to 0.05 bar. A tolerance of the target
// counts at its low end, as that of the time does.
func TestAStatedTargetIsNoLicence(t *testing.T) {
	for _, stated := range []float64{0.06e5, 0.6e5, 1.04e5} {
		l := ventedTank()
		l.Venting.Target = Exact("venting.target", stated)
		e := judgedOnly(t, l)
		assert.InDelta(t, DefaultTarget, e.Target, 0)
		for _, id := range []string{"vent.shutdown", "vent.power-loss"} {
			v := verdictIn(t, e.Verdicts, id)
			assert.Equal(t, Fail, v.Status, id)
			assert.Contains(t, v.Why, "does not count as empty")
		}
	}
	l := ventedTank()
	l.Venting.Target, l.Venting.Within = between("", 0.01e5, 0.09e5), between("", 4, 24)
	e := judgedOnly(t, l)
	assert.InDelta(t, 0.01e5, e.Target, 1e-6)
	assert.InDelta(t, 4, e.Within, 1e-12)
	assert.Equal(t, Fail, verdictIn(t, e.Verdicts, "vent.shutdown").Status, "it takes some ten seconds")
}

func TestGaugeThatCannotShowTheTarget(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(g *GaugeSpec)
		least  float64
		want   Status
	}{
		{"class 1.6 of 1.6 bar", func(*GaugeSpec) {}, 2560, Pass},
		{"stop pin", func(g *GaugeSpec) { g.StopPin = Yes }, 0.06 * 1.6e5, Fail},
		{"stop pin not answered", func(g *GaugeSpec) { g.StopPin = Unanswered }, 0.06 * 1.6e5, Fail},
		{"class not stated counts as 4", func(g *GaugeSpec) { g.Class = 0 }, 6400, Fail},
		{"ten bar", func(g *GaugeSpec) { g.Range = Exact("", 1e6) }, 16000, Fail},
		{"coarse divisions", func(g *GaugeSpec) { g.Graduation = Exact("", 2e4) }, 1e4, Fail},
		{"stated error", func(g *GaugeSpec) { g.Error = Exact("", 3000) }, 3000, Pass},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			c.change(&l.Gauges[0])
			least, _ := l.Gauges[0].leastReading()
			assert.InEpsilon(t, c.least, least, 1e-9)
			j := &judge{l: l, emptying: &VentReport{Target: 5000}}
			j.gauges()
			assert.Equal(t, c.want, j.report.Verdicts[0].Status)
		})
	}
}

// The drill that is named empties in the time; the next smaller one does not.
func TestVentSizeIsTheSmallestDrill(t *testing.T) {
	l := ventedTank()
	l.Venting.Within = Exact("", 8)
	sizes, err := VentSizes(l, 5000)
	require.NoError(t, err)
	require.Len(t, sizes, 1)
	z := sizes[0]
	require.Greater(t, z.Drill, SmallestVent)
	assert.LessOrEqual(t, z.Time, 8.0)
	s := ventSizer{l: l, volume: 0, path: 1, e: emptier{target: 5000}, within: 8}
	high, _ := l.ventPressures()
	s.e.start = high
	slower, err := s.time(z.Drill - 0.1e-3)
	require.NoError(t, err)
	assert.Greater(t, slower, 8.0)
	assert.Greater(t, z.Loss, 0.0)
	// A hole that passes more than the supply gives holds the pressure below the
	// cut-out: the balance is where the two are equal.
	assert.Less(t, z.Balance, l.nominalStart())
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
	with.Paths = append(with.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief, Flow: FlowSpec{Form: OrificeBore, Value: Exact("", 5e-3), DischargeCoefficient: Exact("", 0.75)},
		SetPressure: Exact("", 0.5e5), FullFlowPressure: Exact("", 0.6e5), ReseatPressure: Exact("", 0.3e5)})
	slowest := func(l *Launcher) float64 {
		j := &judge{l: l}
		v := newVenter(j, 1e5, 5000)
		cases, err := v.cases(ventScenario{PowerLost, pneumatics.Armed}, slowEndOnly)
		require.NoError(t, err)
		return cases[0].Slowest
	}
	assert.InEpsilon(t, slowest(bare), slowest(with), 1e-6, "the same run")
	size := func(l *Launcher) float64 {
		s := ventSizer{l: l, path: 1, e: emptier{start: []float64{1e5}, target: 5000}, within: 60}
		seconds, err := s.time(1e-3)
		require.NoError(t, err)
		return seconds
	}
	assert.InEpsilon(t, size(bare), size(with), 1e-6, "sized by the same run")
}

// The barometer's band counts: over a pressure ratio r = p/pa the isothermal time
// to a gauge target grows with the ambient pressure while the flow does not choke
// (blow-down of an ideal nozzle, testdata/reference/blowdown.csv). Whichever end is
// slower is the one that is judged.
func TestTheSlowEndTakesBothEndsOfTheBarometer(t *testing.T) {
	at := func(low, high float64) float64 {
		l := exactTank()
		l.Ambient.Pressure = Band{Set: true, Key: "ambient.pressure", Nominal: 0.5 * (low + high), Low: low, High: high}
		v := newVenter(&judge{l: l}, 1e5, 5000)
		cases, err := v.cases(ventScenario{PowerLost, pneumatics.Armed}, slowEndOnly)
		require.NoError(t, err)
		return cases[0].Slowest
	}
	thin, thick := at(9e4, 9e4), at(1.1e5, 1.1e5)
	assert.Greater(t, math.Abs(thick-thin), 0.02*thin, "the two ends differ")
	assert.InEpsilon(t, max(thin, thick), at(9e4, 1.1e5), 1e-9, "the same run")
}

// The test that a builder can do begins where the supply stops by itself, not at
// the pressure of a fault, and the item asks for its time.
func TestTheStopwatchTestBeginsAtTheCutOut(t *testing.T) {
	l := ventedTank()
	l.Switch = &SwitchSpec{Senses: "tank", CutOut: Band{Set: true, Key: "pressure_switch.cut_out", Nominal: 0.36e5, Low: 0.33e5, High: 0.39e5}}
	limits, err := LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	j := &judge{ctx: context.Background(), l: l, stated: l, limits: limits}
	require.NoError(t, j.vents(fullSheet))
	e := j.emptying
	require.Len(t, e.Tests, len(l.Volumes))
	for _, test := range e.Tests {
		require.NotEmpty(t, test.Sheet)
		first := test.Sheet[0]
		assert.InDelta(t, l.Switch.CutOut.Nominal, first.Gauge, 1, "the expected reading at the start")
		assert.LessOrEqual(t, first.Low, l.Switch.CutOut.Low)
		assert.GreaterOrEqual(t, first.High, l.Switch.CutOut.High)
		assert.Less(t, first.High, e.Start, "below the pressure of a fault")
	}
	assert.Less(t, e.latestTest().Slowest, e.worstOf(PowerLost).Slowest)
	assert.Contains(t, j.expectVent(), significant(math.Ceil(e.latestTest().Slowest), 3)+" s at the latest")
}

// Emptying through the barrel while hands are at the muzzle fails whatever the
// energy, and so it does without power or without a guard; switched off from armed
// behind a guard the limit counts.
func TestVentingThroughTheBarrelWithHandsAtTheMuzzle(t *testing.T) {
	for _, c := range []struct {
		name, guard string
		kind        VentKind
		from        pneumatics.State
		want        Status
	}{
		{"loading, guarded", "slots", Shutdown, pneumatics.Loading, Fail},
		{"armed, no guard", "", Shutdown, pneumatics.Armed, Fail},
		{"armed, guarded", "slots", Shutdown, pneumatics.Armed, Pass},
		{"armed, guarded, plug pulled", "slots", PowerLost, pneumatics.Armed, Fail},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := ventedTank()
			l.Barrel.SealGuard = c.guard
			j := &judge{l: l, emptying: &VentReport{LeftLimit: 0.5, Pushes: []BarrelPush{{Scenario: "emptying", Kind: c.kind, From: c.from, Speed: 3, Energy: 0.02}}}}
			v := &Verdict{Status: Pass}
			j.harmless(v, c.kind)
			assert.Equal(t, c.want, v.Status, v.Why)
			assert.Contains(t, v.Why, "shot.unasked")
		})
	}
}

// Where nobody knows how far the supply can push, nobody knows from what it has to
// empty: in time from the highest normal pressure is not a pass.
func TestEmptyingFromAnUnknownPressureIsUnknown(t *testing.T) {
	for name, less := range map[string]func(l *Launcher){
		"no dead head": func(l *Launcher) { l.Supply.DeadHead = Band{} },
		"no supply":    func(l *Launcher) { l.Supply = nil },
	} {
		l := ventedTank()
		l.Switch = &SwitchSpec{Senses: "tank", CutOut: between("pressure_switch.cut_out", 0.35*bars, 0.4*bars), CutIn: between("pressure_switch.cut_in", 0.2*bars, 0.25*bars)}
		known := verdictIn(t, emptied(t, l).Verdicts, "vent.shutdown")
		require.Equal(t, Pass, known.Status, known.Why)
		less(l)
		v := verdictIn(t, emptied(t, l).Verdicts, "vent.shutdown")
		assert.Equal(t, Unknown, v.Status, "%s: %s", name, v.Why)
		assert.Nil(t, v.Value)
	}
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
		gauge := []float64{0.5 * bars, 2 * bars, 0, 0, 0}
		spreadFiring(&pneumatics.Circuit{Volumes: make([]pneumatics.Volume, 5), Paths: paths}, gauge)
		assert.Equal(t, []float64{0.5 * bars, 2 * bars, 2 * bars, 2 * bars, 0}, gauge)
	}
}
