package vent

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"puffproof/limits/internal/sample"
	"puffproof/limits/launcher"
	"puffproof/pneumatics"
)

// Blow-down of an ideal nozzle as in TestEmptyingTimesAgainstClosedForms, isothermal:
// 0.666567 tau from 100 kPa gauge to 1.1 times ambient. The wait is that of the slow
// end: the largest volume through the narrowest hole, by the same closed form.
func TestTheWaitWhileLoadingAgainstTheClosedForm(t *testing.T) {
	vented := func() *launcher.Launcher {
		l := exactTank()
		l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
		return l
	}
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	tau := func(volume, bore, cd float64) float64 {
		return volume / (cd * launcher.Circle(bore) * psi * math.Sqrt(287.05*293.15))
	}
	l := vented()
	air := LoadingOf(l, 0.1*101325)
	assert.True(t, air.Empty[0])
	assert.Equal(t, []string{"tank"}, air.Names)
	assert.InEpsilon(t, 0.666567*tau(2e-3, 1.2e-3, 0.75), air.Wait, 1e-3, "the flow laws' laminar ends are worth 1e-4")

	l = vented()
	l.Volumes[0].Volume = sample.Between("", 1.9e-3, 2.1e-3)
	l.Paths[1].Flow.Value, l.Paths[1].Flow.DischargeCoefficient = sample.Between("", 1.1e-3, 1.3e-3), sample.Between("", 0.6, 0.9)
	assert.InEpsilon(t, 0.666567*tau(2.1e-3, 1.1e-3, 0.6), LoadingOf(l, 0.1*101325).Wait, 1e-3)

	// What does not open, or takes more than an hour, keeps all it has: 1 bar.
	for name, c := range map[string]struct {
		change func(l *launcher.Launcher)
		late   float64 // [s]; 0: nothing comes down too late
	}{
		"shut":       {func(l *launcher.Launcher) { l.Paths[1].OpenIn = pneumatics.SetOf(pneumatics.Off) }, 0},
		"too narrow": {func(l *launcher.Launcher) { l.Paths[1].Flow.Value = launcher.Exact("", 0.03e-3) }, math.Inf(1)},
	} {
		l = vented()
		c.change(l)
		air = LoadingOf(l, 5000)
		assert.False(t, air.Empty[0], name)
		assert.InDelta(t, 1e5, air.Rest[0], 1e-6, name)
		assert.Equal(t, c.late, air.LateBy, name)
		assert.Zero(t, air.Wait, name)
	}

	// A supply of 0.2 L/s that runs meanwhile, through 3 mm: at rest the hole passes what
	// the supply gives at its strong end, m = 1.1 rho_a q, and up to 1 % of the ambient
	// pressure p = m^2/(2 rho (Cd A)^2) (Bernoulli; 1 % of compressibility).
	l = vented()
	l.Supply.RunsIn |= pneumatics.SetOf(pneumatics.Loading)
	l.Supply.FreeAir = launcher.Band{Set: true, Nominal: 2e-4, Low: 1.8e-4, High: 2.2e-4}
	l.Supply.DeadHead = launcher.Exact("", 1e8) // its delivery falls by nothing up to what is left here
	l.Paths[1].Flow = sample.Orifice(3e-3, 0.75)
	rho := 101325 / (287.05 * 293.15)
	m, hole := rho*2.2e-4, 0.75*launcher.Circle(3e-3)
	assert.InEpsilon(t, m*m/(2*rho*hole*hole), LoadingOf(l, 5000).Rest[0], 0.02)

	// With a delivery curve the dead head's band stretches it: with a hole of next to nothing, at rest the
	// supply is at the end of its curve, here half as high again (1 %: what the hole takes).
	l.Supply.DeadHead = sample.Between("", 1e4, 3e4)
	l.Supply.Curve = []launcher.CurvePoint{{Gauge: 0, FreeAir: 2e-4}, {Gauge: 2e4, FreeAir: 0}}
	l.Paths[1].Flow = sample.Orifice(0.1e-3, 0.75)
	assert.InEpsilon(t, 3e4, LoadingOf(l, 5000).Rest[0], 0.01)
}

// A vent counts where the volume is down in the time that the design allows, by the closed form of the wait above, and else it is as full
// as without one; without such a time ten minutes count, the most that may be stated. A hole that a grain blocks counts where a gauge
// on the volume shows it, or beside another way out.
func TestAVentCountsInTheTimeAllowed(t *testing.T) {
	psi := math.Sqrt(1.4) * math.Pow(2/2.4, 3)
	wait := func(volume, bore float64) float64 {
		return 0.666567 * volume / (0.75 * launcher.Circle(bore) * psi * math.Sqrt(287.05*293.15))
	}
	l := func(volume, bore, within float64, gauge string) *launcher.Launcher {
		l := exactTank()
		l.Paths[1].OpenIn |= pneumatics.SetOf(pneumatics.Loading)
		l.Volumes[0].Volume = launcher.Exact("", volume)
		l.Paths[1].Flow.Value = launcher.Exact("", bore)
		l.Venting.Within = launcher.Band{Set: within > 0, Nominal: within, Low: within, High: within}
		l.Gauges[0].On = gauge
		return l
	}
	const target = 0.1 * 101325
	for _, c := range []struct {
		name                 string
		volume, bore, within float64 // [m3], [m], [s]
		gauge                string
		empty                bool
	}{
		{"in time", 2e-3, 1.2e-3, 1.01 * wait(2e-3, 1.2e-3), "tank", true},
		{"too late", 2e-3, 1.2e-3, 0.99 * wait(2e-3, 1.2e-3), "tank", false},
		{"nobody says how long, nine minutes", 540 / wait(1, 1.2e-3), 1.2e-3, 0, "tank", true},
		{"nobody says how long, eleven minutes", 660 / wait(1, 1.2e-3), 1.2e-3, 0, "tank", false},
		{"a fine hole", 5e-5, 0.49e-3, 60, "elsewhere", false},
		{"a fine hole, a gauge", 5e-5, 0.49e-3, 60, "tank", true},
		{"a hole that is fine enough", 5e-5, 0.5e-3, 60, "elsewhere", true},
	} {
		air := LoadingOf(l(c.volume, c.bore, c.within, c.gauge), target)
		assert.Equal(t, []bool{c.empty}, air.Empty, c.name)
		rest, late := 1e5, []string{"tank"}
		if c.empty {
			rest, late = 0, nil
		}
		assert.InDelta(t, rest, air.Rest[0], 1e-6, c.name)
		assert.Equal(t, late, air.Late, c.name)
		assert.Equal(t, c.empty, air.Wait > 0, c.name)
		assert.Equal(t, c.bore < FinestWayOut && !c.empty, len(air.Fine) > 0, c.name)
		assert.Equal(t, c.empty && c.gauge != "tank", len(air.Unseen(l(c.volume, c.bore, c.within, c.gauge))) > 0, c.name)
	}
	two := l(5e-5, 0.4e-3, 60, "elsewhere")
	two.Paths = append(two.Paths, launcher.PathSpec{Name: "wide", From: "tank", To: "atmosphere", Kind: pneumatics.Orifice,
		Flow: sample.Orifice(0.6e-3, 0.75)})
	air := LoadingOf(two, target)
	assert.True(t, air.Empty[0])
	assert.Empty(t, air.Fine)
	assert.InEpsilon(t, wait(5e-5, 0.6e-3), air.Wait, 1e-3, "the fine one does not count, as above")
}

// A valve that is shut while loading is a barrier once it is shut: the slow end of its closing time is waited for, of one that is open
// then, that never opens, or that is shut in a moment none is.
func TestABarrierIsShutAfterItsClosingTime(t *testing.T) {
	for _, c := range []struct {
		open   pneumatics.StateSet
		closes float64 // [s]
		shuts  float64
	}{
		{pneumatics.SetOf(pneumatics.Firing), 4.6, 4.6}, {pneumatics.SetOf(pneumatics.Firing), Moment, 0}, {0, 4.6, 0},
		{pneumatics.SetOf(pneumatics.Firing, pneumatics.Loading), 4.6, 0},
	} {
		l := exactTank()
		l.Paths[0].OpenIn, l.Paths[0].ClosingTime = c.open, sample.Between("", 0.1, c.closes)
		air := LoadingOf(l, 5000)
		assert.Equal(t, c.shuts, air.Shuts)
		assert.Equal(t, c.shuts > 0, len(air.Slow) > 0)
		assert.Equal(t, c.shuts, air.Until(), "nothing empties")
	}
}

// Only loading lasts long enough for a vent to count, and of air that was not computed
// nothing is known.
func TestWhatAVolumeHoldsInAState(t *testing.T) {
	air := &Loading{Rest: []float64{3000, 1e5}, Empty: []bool{true, false}}
	for _, s := range []pneumatics.State{pneumatics.Charging, pneumatics.Armed, pneumatics.Firing, pneumatics.Off} {
		_, ok := air.RestIn(s, 0)
		assert.False(t, ok, s)
	}
	rest, ok := air.RestIn(pneumatics.Loading, 0)
	assert.True(t, ok)
	assert.InDelta(t, 3000, rest, 0)
	_, ok = air.RestIn(pneumatics.Loading, 1)
	assert.False(t, ok)
	_, ok = air.RestIn(pneumatics.Loading, len(air.Empty))
	assert.False(t, ok, "a volume that a fault adds")
	_, ok = (*Loading)(nil).RestIn(pneumatics.Loading, 0)
	assert.False(t, ok)
}

// Barriers between the tank and the barrel, counted by hand: one shut firing valve
// on every way. A vented volume on one way is no help where another way has none,
// in whatever order the paths are listed.
func TestTheWayWithoutAVentCounts(t *testing.T) {
	join := func(name, from, to string, kind pneumatics.PathKind) launcher.PathSpec {
		return launcher.PathSpec{Name: name, From: from, To: to, Kind: kind, Flow: sample.Orifice(4*sample.Millimetres, 0.75)}
	}
	one := join("one", "tank", "mid", pneumatics.Orifice)
	two := join("two", "mid", "dose", pneumatics.Check)
	direct := join("direct", "tank", "dose", pneumatics.Check)
	gate, turned := join("gate", "tank", "dose", pneumatics.Valve), join("turned", "dose", "tank", pneumatics.Valve)
	against := join("against", "dose", "tank", pneumatics.Check)
	for name, c := range map[string]struct {
		feeds  []launcher.PathSpec
		shut   float64
		vented bool
	}{
		"only past the vent":              {[]launcher.PathSpec{one, two}, 1, true},
		"past the vent or directly":       {[]launcher.PathSpec{one, two, direct}, 1, false},
		"directly or past the vent":       {[]launcher.PathSpec{direct, one, two}, 1, false},
		"past the vent or two shut gates": {[]launcher.PathSpec{one, two, gate}, 1, true},
		"two shut gates":                  {[]launcher.PathSpec{gate}, 2, false},
		"a gate listed the other way":     {[]launcher.PathSpec{turned}, 2, false},
		"a check valve against the air":   {[]launcher.PathSpec{against}, 2, false},
	} {
		t.Run(name, func(t *testing.T) {
			l := sample.TwoTanks(slices.Clone(c.feeds)...)
			l.Volumes = append(l.Volumes, launcher.VolumeSpec{Name: "mid", Volume: launcher.Exact("volumes.mid.volume", 1e-4)})
			g := &LoadingGraph{l: l, sc: pneumatics.Scenario{From: pneumatics.Loading, To: pneumatics.Loading}, vent: []bool{false, false, true}}
			l.Fill(&g.c)
			shut, vented := g.barriers(l.Node("tank"))
			assert.Equal(t, c.shut, shut)
			assert.Equal(t, c.vented, vented)
		})
	}
}
