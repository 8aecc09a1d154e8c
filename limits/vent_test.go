package limits

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"puffproof/limits/search"
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

// weakly is for questions of structure: how figures go together, not how large they are.
func weakly() context.Context { return search.WithStrength(context.Background(), 0.05) }

func emptied(t *testing.T, l *Launcher) *VentReport {
	t.Helper()
	e, err := Empty(weakly(), l, VentOptions{})
	require.NoError(t, err)
	return e
}

// ventInputOf is what the emptying of a launcher is computed from, without the
// energies of the shots before.
func ventInputOf(t *testing.T, l *Launcher) VentInput {
	t.Helper()
	limits, err := LimitsOf(l.Limits, l.Projectile)
	require.NoError(t, err)
	target, _ := l.ventTarget(limits.Total.Value)
	return VentInput{Launcher: l, Limits: limits, Loading: loadingOf(l, target)}
}

// assessedVent has the emptying of a launcher and nothing else.
func assessedVent(t *testing.T, l *Launcher) *Assessment {
	t.Helper()
	in := ventInputOf(t, l)
	e, err := computeVents(weakly(), in, SlowEndOnly)
	require.NoError(t, err)
	return &Assessment{Launcher: l, Stated: l, Limits: in.Limits, Loading: in.Loading, Emptying: e}
}

// judgedOnly computes the emptying without the energies of the shots before.
func judgedOnly(t *testing.T, l *Launcher) *VentReport { return assessedVent(t, l).Emptying }

// caseOf is the first case of one way of emptying.
func caseOf(t *testing.T, l *Launcher, start, target float64, detail SheetDetail) VentCase {
	t.Helper()
	cases, err := newVenter(VentInput{Launcher: l}, start, target).cases(ventScenario{PowerLost, pneumatics.Armed}, detail)
	require.NoError(t, err)
	return cases[0]
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
// tau = V/(Cd A psi sqrt(R T0)): 0.498339 adiabatic, 0.666567 isothermal (quadrature
// in testdata/reference/generate_blowdown.py; ambient 101325 Pa). A start at this
// pressure never chokes long; the flow laws' laminar ends are worth 1e-4.
func TestEmptyingTimesAgainstClosedForms(t *testing.T) {
	l := exactTank()
	start, _, ok := l.ventStart()
	require.True(t, ok)
	c := caseOf(t, l, start, 0.1*101325, FullSheets)
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
		{"piloted: keeps its least differential", func(l *Launcher) { l.Paths[1].MinDifferential = Exact("", 3e4) }, Fail, Fail, Fail,
			"paths.vent"},
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
			a := assessedVent(t, l)
			trapped := ventTrapped(a)
			for _, v := range []struct {
				Verdict
				want Status
			}{{ventShutdown(a), c.shutdown}, {ventPowerLoss(a), c.powerLoss}, {trapped, c.trapped}} {
				assert.Equal(t, v.want, v.Status, v.ID+": "+v.Why)
				if v.Status == Fail {
					assert.NotEmpty(t, v.Advice, v.ID)
				}
			}
			assert.Contains(t, trapped.Advice, c.says)
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
	a := assessedVent(t, l)
	assert.Greater(t, a.Emptying.LeftShot, a.Emptying.LeftLimit)
	v := ventShutdown(a)
	assert.Equal(t, Fail, v.Status)
	assert.Contains(t, v.Why, "still has")
	// Not stated, the target is one at which all the air can do no more than the limit.
	l.Venting.Target = Band{}
	l.Paths[1].Flow.Value = Exact("", 12e-3) // to so little takes longer
	a = assessedVent(t, l)
	assert.Less(t, a.Emptying.Target, DefaultTarget)
	assert.Equal(t, Pass, ventShutdown(a).Status)
}

// However high the stated target, 0.05 bar is the most that counts as empty: the
// verdicts say so, and the times are those to 0.05 bar. A tolerance of the target
// counts at its low end, as that of the time does.
func TestAStatedTargetIsNoLicence(t *testing.T) {
	for _, stated := range []float64{0.06e5, 0.6e5, 1.04e5} {
		l := ventedTank()
		l.Venting.Target = Exact("venting.target", stated)
		a := assessedVent(t, l)
		assert.InDelta(t, DefaultTarget, a.Emptying.Target, 0)
		for _, v := range []Verdict{ventShutdown(a), ventPowerLoss(a)} {
			assert.Equal(t, Fail, v.Status, v.ID)
			assert.Contains(t, v.Why, "does not count as empty")
		}
	}
	l := ventedTank()
	l.Venting.Target, l.Venting.Within = between("", 0.01e5, 0.09e5), between("", 4, 24)
	a := assessedVent(t, l)
	assert.InDelta(t, 0.01e5, a.Emptying.Target, 1e-6)
	assert.InDelta(t, 4, a.Emptying.Within, 1e-12)
	assert.Equal(t, Fail, ventShutdown(a).Status, "it takes some ten seconds")
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
	with.Paths = append(with.Paths, PathSpec{Name: "relief", From: "tank", To: "atmosphere", Kind: pneumatics.Relief,
		Flow:        FlowSpec{Form: OrificeBore, Value: Exact("", 5e-3), DischargeCoefficient: Exact("", 0.75)},
		SetPressure: Exact("", 0.5e5), FullFlowPressure: Exact("", 0.6e5), ReseatPressure: Exact("", 0.3e5)})
	slowest := func(l *Launcher) float64 { return caseOf(t, l, 1e5, 5000, SlowEndOnly).Slowest }
	assert.InEpsilon(t, slowest(bare), slowest(with), 1e-6, "the same run")
	size := func(l *Launcher) float64 {
		s := ventSizer{l: l, path: 1, e: emptier{start: []float64{1e5}, target: 5000}, within: 60}
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
	vent := func(l *Launcher) *PathSpec { return &l.Paths[1] }
	for name, c := range map[string]struct {
		band      func(l *Launcher) []*Band
		low, high float64
		slow      float64 // the slower end, as said above
		least     float64 // by which share the ends differ at least
	}{
		"barometer":  {func(l *Launcher) []*Band { return []*Band{&l.Ambient.Pressure} }, 9e4, 1.1e5, 9e4, 0.02},
		"volume":     {func(l *Launcher) []*Band { return []*Band{&l.Volumes[0].Volume} }, 1.6e-3, 2.4e-3, 2.4e-3, 0.4},
		"orifice":    {func(l *Launcher) []*Band { return []*Band{&vent(l).Flow.Value} }, 1.1e-3, 1.3e-3, 1.1e-3, 0.2},
		"Cd":         {func(l *Launcher) []*Band { return []*Band{&vent(l).Flow.DischargeCoefficient} }, 0.6, 0.9, 0.6, 0.2},
		"hose bore":  {func(l *Launcher) []*Band { return []*Band{&vent(l).Hose.Bore} }, 2e-3, 2.4e-3, 2e-3, 0.02},
		"hose":       {func(l *Launcher) []*Band { return []*Band{&vent(l).Hose.Length} }, 0.5, 4, 4, 0.05},
		"hose share": {func(l *Launcher) []*Band { return []*Band{&vent(l).Hose.Conductance} }, 0.7, 1, 0.7, 0.02},
		"opening":    {func(l *Launcher) []*Band { return []*Band{&vent(l).OpeningTime} }, 0, 4, 4, 0.02},
		"cold":       {func(l *Launcher) []*Band { return []*Band{&l.Ambient.Temperature, &l.Ambient.Coldest} }, 258, 308, 258, 0.02},
	} {
		at := func(low, high float64) float64 {
			l := exactTank()
			if strings.HasPrefix(name, "hose") { // else its laminar flow, a bound of its own over all bands, hides the rest
				vent(l).Hose = &HoseSpec{Bore: Exact("", 2.2e-3), Length: Exact("", 1), Conductance: Exact("", 1), Side: HoseAfter}
			}
			for _, b := range c.band(l) {
				*b = Band{Set: true, Nominal: 0.5 * (low + high), Low: low, High: high}
			}
			return caseOf(t, l, 1e5, 5000, SlowEndOnly).Slowest
		}
		low, high := at(c.low, c.low), at(c.high, c.high)
		assert.Greater(t, math.Abs(high-low), c.least*min(low, high), "%s: the two ends differ: %g, %g", name, low, high)
		assert.Equal(t, c.slow == c.high, high > low, name)
		assert.InEpsilon(t, max(low, high), at(c.low, c.high), 1e-9, "%s: the same run", name)
	}
}

// The test that a builder can do begins where the supply stops by itself, not at
// the pressure of a fault, and the item asks for its time.
func TestTheStopwatchTestBeginsAtTheCutOut(t *testing.T) {
	l := ventedTank()
	l.Switch = &SwitchSpec{Senses: "tank", CutOut: Band{Set: true, Key: "pressure_switch.cut_out", Nominal: 0.36e5, Low: 0.33e5, High: 0.39e5}}
	e, err := computeVents(weakly(), ventInputOf(t, l), FullSheets)
	require.NoError(t, err)
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
	words, figure := expectVent(e)
	assert.Contains(t, words, significant(math.Ceil(e.latestTest().Slowest), 3)+" s at the latest")
	assert.InDelta(t, e.latestTest().Slowest, figure.High, 1, "the next whole second")
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

// What is left when the time is up is that of the slower heat: at the isothermal time of
// TestEmptyingTimesAgainstClosedForms the target, where air without heat from the walls
// has less.
func TestWhatIsLeftWhenTheTimeIsUp(t *testing.T) {
	l := exactTank()
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := 2e-3 / (0.75 * circle(1.2e-3) * psi * math.Sqrt(287.05*293.15))
	l.Venting.Within = Exact("", 0.666567*tau)
	assert.InEpsilon(t, 0.1*101325, caseOf(t, l, 1e5, 0.1*101325, FullSheets).AfterWithin, 2e-3, "the time is known to 1e-3")
}

// Behind a projectile that stuck after a shot there is no more than it holds, its firmest
// friction over its section, nor than the shot that left it: by hand 20 N over
// 13.1 cm2, at the least bore. Where its gap lets air past, that bleeds off; where it is tight, it
// is trapped.
func TestTheAirBehindAStuckProjectile(t *testing.T) {
	behind := func(stuck float64, gap Band) VentCase {
		l := ventedTank()
		l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Firing)
		l.Projectile.Breakaway, l.Projectile.Restart = between("", 5, 10), between("", 5, 20)
		l.Projectile.Clearance = gap
		v := newVenter(VentInput{Launcher: l, Stuck: Stuck{Freed: 1, Start: stuck}}, 1e5, 5000)
		c, there, err := v.behindProjectile(ventScenario{Shutdown, pneumatics.Firing})
		require.NoError(t, err)
		require.True(t, there)
		return c
	}
	held := 20 / circle(40.8e-3)
	tight, gap := Exact("", 0), Exact("", 1e-7) // so narrow that a course read by the second shows it
	assert.InEpsilon(t, held, behind(5e4, tight).Start, 1e-9)
	assert.InEpsilon(t, 8000, behind(8000, tight).Start, 1e-9)
	assert.Equal(t, Trapped, behind(5e4, tight).Status)
	assert.Equal(t, Vented, behind(4000, tight).Status, "below the target from the start")
	c := behind(5e4, gap)
	assert.Equal(t, Vented, c.Status)
	// Isothermal, below the choking ratio: no faster than all of the air of the stated
	// barrel and dead volume at the flow of the start, no slower than at the flow of the target
	// (m = Cd A sqrt(2 rho dp), at most; incompressible, which is within 10 % here).
	volume := circle(40.8e-3)*0.06 + 40e-6
	area := 0.6 * math.Pi * 40.8e-3 * 0.5e-7
	at := func(gauge float64) float64 {
		rho := (101325 + gauge) / (287.05 * 278.15)
		return (held - 5000) * volume / (287.05 * 278.15) / (area * math.Sqrt(2*rho*gauge))
	}
	assert.Greater(t, c.Slowest, 0.9*at(held))
	assert.Less(t, c.Slowest, 1.1*at(5000)+1)
}
